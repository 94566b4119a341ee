import { smoothTable, tabulatedArrays } from '../table.js';
import type { SectionEstimate, SectionGeometry, SectionPolarTable } from '../types.js';
import { POLAR_GRID, polarArrays, risingBranch, type SectionPolar } from './polar.js';

/** Raised whenever the solver gives other numbers for the same section, so that older polars are no longer found. */
export const SOLVER_VERSION = 1;

/** What a set of polars is computed with. */
export interface PolarSettings {
  /** Logarithm of amplitude at transition. */
  readonly critical: number;
  /** Chord stations of trips, upper and lower; NaN for none. */
  readonly trips?: readonly [number, number];
  /** Reynolds numbers on the chord, rising by a constant ratio. */
  readonly reynolds: readonly number[];
  /** Between incidences [rad]. */
  readonly step: number;
  readonly nodes: number;
}

/** Rows from the smallest tail in slow flight to the root of a large wing. */
export const POLAR_SETTINGS: PolarSettings = {
  critical: 9,
  reynolds: [3e4, 6e4, 1.2e5, 2.4e5, 4.8e5, 9.6e5],
  step: Math.PI / 180,
  nodes: 140,
};

/** Two independent 32-bit sums over the letters, as 16 hexadecimal digits. Source: FNV-1a, G. Fowler, L. Noll, K. Vo (from memory). */
export function contentHash(text: string): string {
  let [a, b] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < text.length; i++) {
    a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
    b = Math.imul(b ^ text.charCodeAt(text.length - 1 - i), 0x01000193);
  }
  return [a, b].map((part) => (part >>> 0).toString(16).padStart(8, '0')).join('');
}

/** Name of a section by its points alone, to 1e-6 chord: for what does not depend on a solver, such as measured points. */
export const sectionKey = (geometry: SectionGeometry): string =>
  contentHash(
    [geometry.outlineX, geometry.outlineY].map((v) => v.map((one) => Math.round(1e6 * one)).join(' ')).join('|'),
  );

/**
 * Name of a set of polars by its content: points of the section, every setting, version of the solver.
 * geometry - section; settings - of the computation; section - `sectionKey` of the geometry where it is known
 */
export function polarKey(
  geometry: SectionGeometry,
  settings: PolarSettings = POLAR_SETTINGS,
  section = sectionKey(geometry),
): string {
  const { critical, trips, reynolds, step, nodes } = settings;
  const trip = (trips ?? []).map((station) => (Number.isNaN(station) ? 'none' : station.toFixed(4)));
  const options = [critical, trip.join(' '), reynolds.join(' '), step.toFixed(6), nodes, geometry.leadingEdge];
  return contentHash([SOLVER_VERSION, ...options, section].join('|'));
}

/** Thickness / chord below which polars are not computed: the measured sections begin at 6 %, tail sections of 7 % join on to them. */
const THINNEST = 0.05;

/**
 * Whether the solver applies: it needs a round nose, a surface without a step and a section as thick as those it was compared with. A
 * rounded plate of 1.5 % converges, but to a greatest lift of 1.1, where the plate law
 * of the estimate has 0.5: it is left to the estimate.
 */
export const isComputable = (geometry: SectionGeometry): boolean =>
  geometry.leadingEdge === 'round' && geometry.step === 0 && geometry.maximumThickness >= THINNEST;

/** Fall of lift after which a section counts as stalled, though lift may rise again behind a burst bubble at twice the drag. */
const STALL_FALL = 0.03;

/** The polar up to the first stall above its lowest lift. */
export function untilFirstStall(polar: SectionPolar): SectionPolar {
  const { points } = polar;
  let top = -1;
  for (let i = 0; i < points.length; i++) {
    if (points[i].lift < 0.3) continue;
    if (top < 0 || points[i].lift > points[top].lift) top = i;
    else if (points[i].lift < points[top].lift - STALL_FALL) return { ...polar, points: points.slice(0, top + 1) };
  }
  return polar;
}

/** Whether a polar covers what a wing flies: from no lift to beyond moderate lift, with points enough between. */
export function isUsable(polar: SectionPolar): boolean {
  const branch = risingBranch(polar);
  return branch.length >= 8 && branch[0].lift <= 0.1 && branch[branch.length - 1].lift >= 0.5;
}

/** A table from stored polars and the Reynolds numbers whose rows had to come from the first estimate. */
export interface StoredTable {
  readonly table: SectionPolarTable;
  readonly estimated: readonly number[];
}

/** Arrays of a table that hold one stretch for each row. */
const ROWED = [
  'logDrag',
  'dragSpread',
  'lift',
  'momentAtAngle',
  'maximumLift',
  'minimumLift',
  'maximumLiftSpread',
  'zeroLiftAngles',
  'liftSlopes',
] as const;

/**
 * Polar table from stored polars. A row in which the solver did not converge over the range that a wing flies comes from the first
 * estimate, with the estimate's own spread.
 * estimate - of the same section with its options (cells, own factor); polars - Reynolds numbers rising by a constant ratio
 * Returns undefined where fewer than two polars are usable.
 */
export function storedTable(estimate: SectionEstimate, polars: readonly SectionPolar[]): StoredTable | undefined {
  const cut = polars.map(untilFirstStall);
  const usable = cut.filter(isUsable);
  if (usable.length < 2) return undefined;
  const computed = polarArrays(estimate, usable, POLAR_GRID);
  if (usable.length === polars.length) return { table: smoothTable(computed), estimated: [] };
  const reynolds = polars.map((polar) => polar.reynolds);
  const whole = tabulatedArrays(estimate, {
    ...POLAR_GRID,
    reynoldsFrom: reynolds[0],
    reynoldsTo: reynolds[reynolds.length - 1],
    rows: reynolds.length,
  });
  for (const key of ROWED) {
    const width = whole[key].length / reynolds.length;
    usable.forEach((polar, i) => {
      whole[key].set(computed[key].subarray(i * width, (i + 1) * width), cut.indexOf(polar) * width);
    });
  }
  const { zeroLiftAngle, moment, liftSlope } = computed;
  const estimated = cut.filter((polar) => !usable.includes(polar)).map((polar) => polar.reynolds);
  return { table: smoothTable({ ...whole, zeroLiftAngle, moment, liftSlope }), estimated };
}
