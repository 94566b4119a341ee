import { followRoot, product, type Root } from './flutter.js';
import type { ModalModel } from './modalModel.js';

/** Frequency and growth of one motion at one airspeed. */
export interface GrowthPoint {
  readonly airspeed: number;
  /** [rad/s] */
  readonly frequency: number;
  /** Growth over frequency: negative dies away. Half of the structural damping that would just hold it. */
  readonly growth: number;
}

/** One motion followed from low speed on. */
export interface GrowthCurve {
  readonly words: string;
  readonly points: readonly GrowthPoint[];
}

/** How alike two shapes are, 0 to 1. */
function likeness(a: Root, b: Root): number {
  const along = product(a.shape, b.shape);
  return (along.re ** 2 + along.im ** 2) / (product(a.shape, a.shape).re * product(b.shape, b.shape).re);
}

/** The root at a higher airspeed, in as many smaller steps as its shape needs to stay recognisable. */
function carried(model: ModalModel, root: Root, from: number, to: number, depth = 0): Root | undefined {
  const scale = to / from;
  const guess = { ...root, p: { re: root.p.re * scale, im: root.p.im } };
  const found = followRoot(model, to, guess) ?? followRoot(model, to, root);
  if (found !== undefined && likeness(root, found) > 0.7) return found;
  if (depth >= 4) return undefined;
  const middle = (from + to) / 2;
  const half = carried(model, root, from, middle, depth + 1);
  return half && carried(model, half, middle, to, depth + 1);
}

/** Whether an earlier curve has the very same root: two motions cannot. */
const isTaken = (curves: readonly GrowthCurve[], airspeed: number, { p }: Root): boolean =>
  curves.some(({ points }) =>
    points.some(
      (point) =>
        point.airspeed === airspeed &&
        Math.abs(point.frequency - p.im) < 1e-6 * p.im &&
        Math.abs(point.growth - p.re / p.im) < 1e-6,
    ),
  );

/**
 * The elastic motions of a model followed over airspeed, each from its natural mode. A curve ends where its motion no longer oscillates, or
 * cannot be told from another.
 * airspeeds - rising [m/s]; modes - how many elastic ones
 */
export function growthCurves(model: ModalModel, airspeeds: readonly number[], modes = 6): GrowthCurve[] {
  if (airspeeds.length === 0) return [];
  const { rigidCount, words, frequencies } = model;
  const count = model.forces.count;
  const curves: GrowthCurve[] = [];
  for (let k = rigidCount; k < Math.min(count, rigidCount + modes); k++) {
    const shape = { re: new Float64Array(count), im: new Float64Array(count) };
    shape.re[k] = 1;
    let root: Root | undefined = { p: { re: -0.02 * frequencies[k], im: frequencies[k] }, shape };
    let before = airspeeds[0];
    const points: GrowthPoint[] = [];
    for (const airspeed of airspeeds) {
      root = points.length === 0 ? followRoot(model, airspeed, root) : carried(model, root, before, airspeed);
      if (root === undefined || isTaken(curves, airspeed, root)) break;
      points.push({ airspeed, frequency: root.p.im, growth: root.p.re / root.p.im });
      before = airspeed;
    }
    curves.push({ words: words[k], points });
  }
  return curves;
}
