import type { Stretch, SunView } from '../../core/view.js';
import type { Vector } from './frames.js';

/** A direction to the sun, east, north, up, at an hour after the first local midnight [h]. */
export interface SunSpot {
  readonly hour: number;
  readonly direction: Vector;
}

/** Sun of a day from rise to set. */
export interface SunPath {
  /** In time; empty where the sun does not rise. */
  readonly spots: readonly SunSpot[];
  /** At full hours of local time. */
  readonly hours: readonly SunSpot[];
  /** Whether it begins and ends at the horizon, and not at midnight. */
  readonly rises: boolean;
  readonly sets: boolean;
}

const unit = ([x, y, z]: Vector): Vector | undefined => {
  const length = Math.hypot(x, y, z);
  return length > 1e-9 && Number.isFinite(length) ? [x / length, y / length, z / length] : undefined;
};

/**
 * Direction to the sun at an hour, between the steps of the day by a straight line.
 * middles - hours of the steps of `sun` [h]
 * Returns undefined where the day has no steps.
 */
export function sunDirection(sun: SunView, middles: Float64Array, hour: number): Vector | undefined {
  const count = Math.min(middles.length, Math.floor(sun.direction.length / 3));
  if (count === 0 || !Number.isFinite(hour)) return undefined;
  let [low, high] = [0, count - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (middles[middle]! <= hour) low = middle;
    else high = middle;
  }
  const width = middles[high]! - middles[low]!;
  const f = width > 0 ? Math.min(1, Math.max(0, (hour - middles[low]!) / width)) : 0;
  const at = (axis: number) => {
    const [a, b] = [sun.direction[3 * low + axis]!, sun.direction[3 * high + axis]!];
    return a + (b - a) * f;
  };
  return unit([at(0), at(1), at(2)]);
}

/** The stretch of daylight that holds an hour, else the nearest one. */
function stretchAt(daylight: readonly Stretch[], hour: number): Stretch | undefined {
  const away = ({ start, end }: Stretch) => Math.max(0, start - hour, hour - end);
  return daylight.reduce<Stretch | undefined>(
    (best, each) => (best === undefined || away(each) < away(best) ? each : best),
    undefined,
  );
}

/** Sun's way over the sky on the day of an hour; at most a day of it where it does not set. */
export function sunPath(sun: SunView, middles: Float64Array, hour: number): SunPath {
  const stretch = stretchAt(sun.daylight, hour);
  if (stretch === undefined || !(stretch.end > stretch.start))
    return { spots: [], hours: [], rises: false, sets: false };
  const long = stretch.end - stretch.start >= 24;
  const start = long ? Math.max(stretch.start, Math.min(stretch.end - 24, 24 * Math.floor(hour / 24))) : stretch.start;
  const end = long ? start + 24 : stretch.end;
  const spot = (at: number): SunSpot[] => {
    const direction = sunDirection(sun, middles, at);
    return direction === undefined ? [] : [{ hour: at, direction }];
  };
  const level = ([first]: SunSpot[]): SunSpot[] => {
    const direction = first && unit([first.direction[0], first.direction[1], 0]);
    return first && direction ? [{ hour: first.hour, direction }] : [];
  };
  // A straight line between steps may miss the horizon by a hair.
  const edge = (at: number) => {
    const found = spot(at);
    return !long && Math.abs(found[0]?.direction[2] ?? 1) < 0.02 ? level(found) : found;
  };
  const steps = Math.max(2, Math.min(96, Math.ceil((end - start) * 4)));
  const inner = Array.from({ length: steps - 1 }, (_, k) => start + ((end - start) * (k + 1)) / steps);
  const spots = [...edge(start), ...inner.flatMap(spot), ...edge(end)];
  const first = Math.ceil(start - 1e-9);
  const full = Array.from({ length: Math.max(0, Math.floor(end + 1e-9) - first + 1) }, (_, k) => first + k);
  return {
    spots,
    hours: full.flatMap(spot),
    rises: !long && (spots[0]?.direction[2] ?? 1) < 0.02,
    sets: !long && (spots.at(-1)?.direction[2] ?? 1) < 0.02,
  };
}
