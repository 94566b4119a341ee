import { evaluateMonotoneCubic, monotoneCubic } from '../../math/interpolate.js';
import { type Corner, cornersOn, outlineWithFlats } from '../facets.js';
import type { SectionGeometry } from '../types.js';

/** How a section departs from its start. All nought, thickness 1: the start itself. */
export interface Morph {
  /** Factor on thickness. */
  readonly thickness: number;
  /** Moves thickness forward where positive: the start's thickness at x + shift x (1 - x) is taken at x. */
  readonly shift: number;
  /** Camber added: x (1 - x) (bow + lead (1 - 2 x)); lead raises the front and reflexes the rear. / chord */
  readonly bow: number;
  readonly lead: number;
  /** Thickness added at the trailing edge, falling evenly to nothing at the nose; none where absent. / chord */
  readonly tail?: number;
}

export const NO_MORPH: Morph = { thickness: 1, shift: 0, bow: 0, lead: 0 };

export interface Outline {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Ordinates over the root of the station, in which a round nose is smooth. */
function smoothIn(stations: readonly number[], values: readonly number[]): (x: number) => number {
  const cubic = monotoneCubic(stations.map(Math.sqrt), values);
  return (x) => evaluateMonotoneCubic(cubic, Math.sqrt(Math.min(1, Math.max(0, x))));
}

/**
 * Outline of a section that departs from a start; both surfaces at the stations of the start.
 * start - section; morph - its change
 */
export function morphedOutline(start: SectionGeometry, morph: Morph): Outline {
  const { stations } = start;
  const thickness = smoothIn(stations, start.thickness);
  const half = stations.map(
    (x) => 0.5 * (morph.thickness * thickness(x + morph.shift * x * (1 - x)) + (morph.tail ?? 0) * x),
  );
  const camber = stations.map((x, i) => start.camber[i] + x * (1 - x) * (morph.bow + morph.lead * (1 - 2 * x)));
  const upper = stations.map((_, i) => camber[i] + half[i]).reverse();
  const lower = stations.map((_, i) => camber[i] - half[i]).slice(1);
  return { x: [...[...stations].reverse(), ...stations.slice(1)], y: [...upper, ...lower] };
}

/** Where the flats lie: front corner, width of a cell and how many. / chord */
export interface FlatRow {
  readonly from: number;
  readonly cell: number;
  readonly count: number;
}

/**
 * Outline with flats on its upper surface; corners between two flats may stand off the curve.
 * raised - ordinates added at the inner corners, front to rear, one fewer than flats / chord
 */
export function outlineInFlats(
  outline: Outline,
  { from, cell, count }: FlatRow,
  raised: readonly number[],
): Outline & { readonly corners: readonly Corner[] } {
  const corners = cornersOn(outline.x, outline.y, { from, to: from + count * cell, cell }).map((corner, k) => ({
    x: corner.x,
    y: corner.y + (raised[k - 1] ?? 0),
  }));
  return { ...outlineWithFlats(outline.x, outline.y, corners), corners };
}

/** Angles by which the upper surface turns at the inner corners, front to rear, positive where it falls away [rad]. */
export function cornerAngles(corners: readonly Corner[]): readonly number[] {
  const slopes = corners.slice(1).map((b, i) => Math.atan2(b.y - corners[i].y, b.x - corners[i].x));
  return slopes.slice(1).map((slope, i) => slopes[i] - slope);
}
