import type { Verdict } from './central.js';

/** A measurement that would make the verdict surer. */
export interface MeasurementPayoff {
  readonly what: string;
  readonly minutes: number;
  /** Of the variance of the solar ratio that it takes away, 0 to 1. */
  readonly share: number;
}

/**
 * The three cheapest measurements: by the share of the variance of the solar ratio that they would take away, over the
 * root of the time they take. A measurement that would leave more than is uncertain now is not proposed.
 */
export function measurementsOf(result: Verdict): readonly MeasurementPayoff[] {
  const groups = new Map<string, { minutes: number; before: number; after: number }>();
  for (const { input, effect, share } of result.contributions) {
    const { measurement, origin, sigma } = input;
    if (measurement === undefined || origin === 'measured' || !(sigma > 0)) continue;
    const known = groups.get(measurement.what);
    // What remains acts through the most sensitive of the inputs that the measurement settles together.
    const remaining = (share * measurement.leaves ** 2) / sigma ** 2;
    groups.set(measurement.what, {
      minutes: measurement.minutes,
      before: (known?.before ?? 0) + (effect === 0 ? 0 : share),
      after: Math.max(known?.after ?? 0, remaining),
    });
  }
  return [...groups]
    .map(([what, { minutes, before, after }]) => ({ what, minutes, share: before - after }))
    .filter(({ share }) => share > 0.005)
    .sort((a, b) => b.share / Math.sqrt(b.minutes) - a.share / Math.sqrt(a.minutes))
    .slice(0, 3);
}
