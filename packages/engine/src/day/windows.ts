/** A stretch of time [s], Unix. */
export interface TimeWindow {
  readonly start: number;
  readonly end: number;
}

/**
 * Stretches in which a sampled quantity is at least zero, with linear crossings between samples.
 *
 * @param times - increasing sample times [s]
 * @param surplus - quantity at these times, e.g. income less need [W]
 * @returns windows in order; those that touch the ends of the samples end there
 */
export function windowsAboveZero(times: ArrayLike<number>, surplus: ArrayLike<number>): TimeWindow[] {
  const windows: TimeWindow[] = [];
  let start: number | undefined = surplus.length > 0 && surplus[0] >= 0 ? times[0] : undefined;
  for (let i = 1; i < surplus.length; i++) {
    const before = surplus[i - 1];
    const after = surplus[i];
    if (before < 0 && after >= 0) start = crossing(times[i - 1], times[i], before, after);
    if (before >= 0 && after < 0 && start !== undefined) {
      windows.push({ start, end: crossing(times[i - 1], times[i], before, after) });
      start = undefined;
    }
  }
  if (start !== undefined && times[times.length - 1] > start) windows.push({ start, end: times[times.length - 1] });
  return windows;
}

const crossing = (t0: number, t1: number, y0: number, y1: number): number => t0 + ((t1 - t0) * y0) / (y0 - y1);

/** The longest of some windows, or undefined when there is none. */
export function longestWindow(windows: readonly TimeWindow[]): TimeWindow | undefined {
  let best: TimeWindow | undefined;
  for (const window of windows) if (!best || window.end - window.start > best.end - best.start) best = window;
  return best;
}

/** Total length of windows [s]. */
export const totalDuration = (windows: readonly TimeWindow[]): number =>
  windows.reduce((sum, window) => sum + window.end - window.start, 0);
