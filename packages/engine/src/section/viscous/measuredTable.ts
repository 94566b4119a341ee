import {
  sectionDragAtAngle,
  sectionLift,
  sectionLiftSlope,
  sectionMaximumLiftCoefficient,
  sectionMinimumLiftCoefficient,
  sectionMoment,
  sectionZeroLiftAngle,
} from '../model.js';
import { type PolarArrays, smoothTable, tabulatedArrays } from '../table.js';
import type { SectionEstimate, SectionPolarTable } from '../types.js';
import { type MeasuredRun, withMeasured } from './measuredPolar.js';
import { POLAR_GRID, polarArrays, type SectionPolar } from './polar.js';

/** Reynolds numbers of the table: close together, so that a run hardly lies between two. */
const ROWS = { from: 3e4, ratio: Math.SQRT2, count: 11 } as const;

/** Steps of incidence in which the estimate is read from its negative stall to its stall. */
const STEPS = 60;

/** Relative standard deviation of measured drag: repeats in one tunnel differ by 4 to 9 % between 100 000 and 300 000 (E374, Selig et al.), other models and tunnels by more. */
const MEASURED_SPREAD = 0.1;

/** The first estimate as if it were a computed polar. */
function estimatedPolar(estimate: SectionEstimate, reynolds: number): SectionPolar {
  const zero = sectionZeroLiftAngle(estimate, reynolds);
  const slope = sectionLiftSlope(estimate, reynolds);
  const from = zero + sectionMinimumLiftCoefficient(estimate, reynolds) / slope;
  const to = zero + sectionMaximumLiftCoefficient(estimate, reynolds) / slope;
  const points = Array.from({ length: STEPS + 1 }, (_, k) => {
    const alpha = from + (k / STEPS) * (to - from);
    return {
      alpha,
      lift: sectionLift(estimate, alpha, reynolds),
      drag: sectionDragAtAngle(estimate, alpha, reynolds),
      moment: sectionMoment(estimate, alpha, reynolds),
      upperTransition: 0,
      lowerTransition: 0,
    };
  });
  return { reynolds, points, holes: [] };
}

/** How far a row lies inside the measured Reynolds numbers: 1 between the outermost, none a factor of two beyond. */
function nearness(runs: readonly MeasuredRun[], reynolds: number): number {
  const drags = runs.filter(({ points }) => points.some(({ drag }) => drag !== undefined));
  if (drags.length === 0) return 0;
  const numbers = drags.map((run) => run.reynolds);
  const away = Math.max(Math.log(Math.min(...numbers) / reynolds), Math.log(reynolds / Math.max(...numbers)), 0);
  return Math.max(0, 1 - away / Math.LN2);
}

/** Spread of drag: of the estimate, and of measurement where drag was measured. */
function spread(whole: PolarArrays, runs: readonly MeasuredRun[], added: number): Float64Array {
  const lifts = runs.flatMap(({ points }) => points.filter(({ drag }) => drag !== undefined).map(({ lift }) => lift));
  const [least, most] = [Math.min(...lifts), Math.max(...lifts)];
  return whole.dragSpread.map((value, k) => {
    const lift = whole.liftStart + (k % whole.liftCount) * whole.liftStep;
    const row = Math.exp(whole.logReynoldsStart + Math.floor(k / whole.liftCount) * whole.logReynoldsStep);
    const share = lift >= least && lift <= most ? nearness(runs, row) : 0;
    return value + share * (Math.min(value, Math.hypot(MEASURED_SPREAD, added)) - value);
  });
}

/**
 * Polar table of a section that the solver does not reach, a plate: the first estimate with measured points laid over it as they are over
 * computed polars.
 *
 * bare - estimate of the section alone; estimate - the same with its options (cells, flats, own factor); runs - measured, one at least
 */
export function measuredTable(
  bare: SectionEstimate,
  estimate: SectionEstimate,
  runs: readonly MeasuredRun[],
): SectionPolarTable {
  const polars = Array.from({ length: ROWS.count }, (_, k) => estimatedPolar(bare, ROWS.from * ROWS.ratio ** k));
  const laid = withMeasured(polars, runs);
  const whole = tabulatedArrays(estimate, {
    ...POLAR_GRID,
    reynoldsFrom: ROWS.from,
    reynoldsTo: ROWS.from * ROWS.ratio ** (ROWS.count - 1),
    rows: ROWS.count,
  });
  const { maximumLiftSpread } = whole;
  const dragSpread = spread(whole, runs, estimate.addedSpread);
  return smoothTable({ ...polarArrays(estimate, laid, POLAR_GRID), dragSpread, maximumLiftSpread });
}
