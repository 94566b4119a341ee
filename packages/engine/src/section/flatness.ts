import { ordinateAt } from './geometry.js';
import type { SectionGeometry } from './types.js';

/** A stretch of the upper surface as wide as a flat cell, and how far the skin bulges over it. / chord */
export interface FlatStretch {
  readonly from: number;
  readonly to: number;
  /** Greatest height of the skin over the straight line between both ends; negative where it is hollow throughout. */
  readonly bulge: number;
}

/** Stretches begin at every hundredth of the chord between these. */
const FIRST = 0.03;
const LAST = 0.97;

function bulgeOver(geometry: SectionGeometry, from: number, to: number): number {
  const [a, b] = [from, to].map((x) => ordinateAt(geometry, 'upper', x));
  let greatest = Number.NEGATIVE_INFINITY;
  for (let k = 1; k < 20; k++) {
    const t = k / 20;
    greatest = Math.max(greatest, ordinateAt(geometry, 'upper', from + t * (to - from)) - (a + t * (b - a)));
  }
  return greatest;
}

/**
 * Greatest bulge of the upper surface over flat cells that lie edge to edge between two stations, 0 where it is hollow.
 * geometry - section; flats - from, to and width of a cell along the chord / chord [-]
 */
export function greatestBulge(
  geometry: SectionGeometry,
  { from, to, width }: { readonly from: number; readonly to: number; readonly width: number },
): number {
  if (!(width > 0 && to > from)) return 0;
  const flats = Math.max(1, Math.round((to - from) / width));
  const each = (to - from) / flats;
  return Array.from({ length: flats }, (_, k) => bulgeOver(geometry, from + k * each, from + (k + 1) * each)).reduce(
    (most, bulge) => Math.max(most, bulge),
    0,
  );
}

/**
 * Where on the upper surface a flat cell lies best and worst.
 * geometry - section; width - of the cell along the chord / chord, 0.01 to 0.94 [-]
 * Returns the stretches of least and greatest bulge between 3 and 97 % of the chord, or undefined where the cell is too wide.
 */
export function cellFlatness(
  geometry: SectionGeometry,
  width: number,
): { readonly flattest: FlatStretch; readonly roundest: FlatStretch } | undefined {
  const places = Math.floor((LAST - FIRST - width) / 0.01 + 1e-9);
  if (!(width >= 0.01) || places < 0) return undefined;
  const stretches = Array.from({ length: places + 1 }, (_, k): FlatStretch => {
    const from = FIRST + 0.01 * k;
    return { from, to: from + width, bulge: bulgeOver(geometry, from, from + width) };
  });
  return {
    flattest: stretches.reduce((a, b) => (Math.abs(b.bulge) < Math.abs(a.bulge) ? b : a)),
    roundest: stretches.reduce((a, b) => (Math.abs(b.bulge) > Math.abs(a.bulge) ? b : a)),
  };
}
