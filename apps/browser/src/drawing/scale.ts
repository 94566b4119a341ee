/** A straight scale from values to places on the drawing. */
export type Scale = (value: number) => number;

export function scale(from: readonly [number, number], to: readonly [number, number]): Scale {
  const span = from[1] - from[0] || 1;
  return (value) => to[0] + ((value - from[0]) / span) * (to[1] - to[0]);
}

/** Step between ticks: 1, 2 or 5 times a power of ten, so that at most `most` steps cover the span. */
export function niceStep(span: number, most: number): number {
  if (!(span > 0)) return 1;
  const rough = span / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  for (const factor of [1, 2, 5]) if (factor * power >= rough * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

/** Multiples of a step within a span, ends included. */
export function ticks(from: number, to: number, step: number): readonly number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** Hours between the ticks of a clock: 1, 2, 3, 6 or 12, so that each has enough room. */
export function hourStep(hours: number, width: number, room = 46): number {
  for (const step of [1, 2, 3, 6, 12]) if ((width * step) / Math.max(hours, 1e-9) >= room) return step;
  return 24;
}
