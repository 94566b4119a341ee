import { pointRow, readRow, type StructuralModel } from '../structure/index.js';
import type { ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, trimForces } from './elasticTrim.js';

/** Step along the span over which the slope is compared [share of the surface]. */
const step = 0.02;

/**
 * Displacement of the structure of the right half in trimmed flight, by its own lift and inertia, nothing clamped; free of rigid motion.
 *
 * @param pitchControls - names of the controls that trim it
 * @returns unknowns of the half model [m, rad]
 */
export function trimDisplacement(
  elastic: ElasticHalf,
  trim: ElasticTrim,
  pitchControls: readonly string[],
): Float64Array {
  const { half, steady, displacement } = elastic;
  const forces = trimForces(elastic, trim, pitchControls);
  const bent = new Float64Array(half.size);
  for (let i = 0; i < half.size; i++)
    for (let p = 0; p < steady.panels; p++) bent[i] += displacement[i * steady.panels + p] * forces[p];
  return bent;
}

/**
 * Curvature along the span of a bent surface [1/m], tips up positive.
 *
 * @param bent - from `trimDisplacement`
 * @param y - places along the surface [m]
 */
export function curvatureAlong(
  { half }: ElasticHalf,
  model: StructuralModel,
  bent: Float64Array,
  { surface, y }: { readonly surface: string; readonly y: readonly number[] },
): number[] {
  const mesh = model.surfaces.find(({ name }) => name === surface)!;
  const ends = mesh.nodes.map((node) => node.y);
  const [root, tip] = [Math.min(...ends), Math.max(...ends)];
  const slopeAt = (at: number) => {
    const here = mesh.nodes.filter((node) => Math.abs(node.y - at) < 0.1 * (tip - root)).map(({ x }) => x);
    const x = 0.7 * Math.min(...here) + 0.3 * Math.max(...here);
    const row = pointRow(model, surface, x, at);
    return readRow(half, row.dofs, row.slopeY, bent);
  };
  const h = step * (tip - root);
  return y.map((at) => {
    const [from, to] = [Math.max(root, at - h), Math.min(tip, at + h)];
    return (slopeAt(to) - slopeAt(from)) / (to - from);
  });
}

/** A chord of a surface by its place along it, and where it is looked at. */
export interface ChordPlaces {
  readonly surface: string;
  /** Along the surface [m]. */
  readonly y: number;
  /** Aft of the datum, from the leading edge to the trailing edge [m]. */
  readonly x: readonly number[];
}

/**
 * How far points of bent surfaces have risen [m], seen from the first chord: its own rise and turn, fitted by least squares, are taken out.
 *
 * @param chords - the first is that from which the others are seen: the root of the wing
 * @returns rises of each chord, in the order of its places
 */
export function risesFrom(
  { half }: ElasticHalf,
  model: StructuralModel,
  bent: Float64Array,
  chords: readonly ChordPlaces[],
): number[][] {
  const raw = chords.map(({ surface, y, x }) =>
    x.map((at) => {
      const row = pointRow(model, surface, at, y);
      return readRow(half, row.dofs, row.w, bent);
    }),
  );
  const [first] = chords;
  if (first === undefined) return [];
  const { rise, slope, middle } = lineThrough(first.x, raw[0]);
  return raw.map((values, i) => values.map((value, k) => value - rise - slope * (chords[i].x[k] - middle)));
}

/** Straight line through points by least squares. */
function lineThrough(x: readonly number[], values: readonly number[]) {
  const middle = x.reduce((sum, at) => sum + at, 0) / x.length;
  const rise = values.reduce((sum, value) => sum + value, 0) / x.length;
  const spread = x.reduce((sum, at) => sum + (at - middle) ** 2, 0);
  const turn = x.reduce((sum, at, i) => sum + (at - middle) * (values[i] - rise), 0);
  return { rise, slope: spread > 0 ? turn / spread : 0, middle };
}
