/** A value with the interval that should hold the truth nine times in ten. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Quantile of samples by linear interpolation between order statistics, each of which stands for i/(n + 1): between the
 * 5 % and the 95 % quantile of 128 samples then lie 90 % of what the samples were drawn from; other definitions hold less.
 * @param sorted - increasing, at least one
 * @param probability - 0 to 1
 * Source: R. Hyndman, Y. Fan, Sample quantiles in statistical packages, Am. Stat. 50, 1996, type 6.
 */
export function quantile(sorted: ArrayLike<number>, probability: number): number {
  const position = Math.min(sorted.length - 1, Math.max(0, probability * (sorted.length + 1) - 1));
  const below = Math.floor(position);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (position - below) * (sorted[above]! - sorted[below]!);
}

/** Interval from the 5th to the 95th percentile of samples about a central value. */
export function intervalOf(value: number, samples: readonly number[]): Interval {
  if (samples.length === 0) return { value, low: value, high: value };
  const sorted = Float64Array.from(samples).sort();
  return { value, low: Math.min(value, quantile(sorted, 0.05)), high: Math.max(value, quantile(sorted, 0.95)) };
}

/** Share of samples for which something holds, 0 to 1. */
export const shareOf = (samples: readonly boolean[]): number =>
  samples.length === 0 ? 0 : samples.filter(Boolean).length / samples.length;

/**
 * Confidence in words and tenths, never in two digits: a share of samples carries no more than that.
 * @param share - 0 to 1
 */
export function confidenceWords(share: number): string {
  if (share >= 1) return 'in every case computed';
  if (share <= 0) return 'in no case computed';
  const tenths = Math.round(share * 10);
  if (tenths >= 10) return 'more than 9 in 10';
  if (tenths <= 0) return 'fewer than 1 in 10';
  return `about ${tenths} in 10`;
}
