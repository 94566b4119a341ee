import { type SmoothGrid, smoothGridValue, smoothRowValue } from '../../math/smoothGrid.js';
import { sectionDragCoefficient } from '../model.js';
import { smoothTable } from '../table.js';
import type { SectionPolarTable } from '../types.js';
import { ridgeLoss, STEP_DRAG } from './ridge.js';
import type { StoredTable } from './stored.js';

/** Cells that follow the upper surface. Lengths / chord. */
export interface LaidCells {
  /** Chord station of their front edge. */
  readonly from: number;
  /** Height of cells and film over the skin; 0 in a recess. */
  readonly edge: number;
}

/** Reynolds number of a step above which it trips the layer at once, and the range of published values (two- and three-dimensional). */
export const TRIP_REYNOLDS = { value: 400, low: 200, high: 900 } as const;

/** Speed outside the layer over the front of the upper surface / flight speed: between 1.2 and 1.4 at the lift that a wing flies. */
const EDGE_SPEED = 1.3;

/** Standard deviation of the logarithm of the trip's Reynolds number: the published range holds nine of ten. */
const TRIP_SPREAD = Math.log(TRIP_REYNOLDS.high / TRIP_REYNOLDS.low) / (2 * 1.645);

/**
 * Reynolds number of a step on its own height and the speed at that height, in the laminar layer of a plate under the speed of an
 * upper surface; the profile is a sine quarter wave over 2.85 displacement thicknesses, within 2 % of Blasius'.
 * cells - front edge; reynolds - on the chord [-]
 */
export function stepReynolds({ from, edge }: LaidCells, reynolds: number): number {
  const outer = EDGE_SPEED * reynolds;
  return outer * edge * Math.sin(0.5 * Math.PI * Math.min(1, edge / (2.85 * displacementAt(from, outer))));
}

/** Displacement thickness of a laminar plate / chord. outer - Reynolds number on the chord and the speed outside the layer */
const displacementAt = (from: number, outer: number): number => 1.721 * Math.sqrt(Math.max(1e-3, from) / outer);

/** Momentum lost at a place counts at the trailing edge and in the wake by the speed outside the layer there to this power. Source: H. Squire, A. Young, ARC R&M 1838, 1937, with a shape factor of 1.4. */
const WAKE_POWER = 3.2;

/**
 * Drag coefficient that a front edge which trips the layer has of its own, as a step up in the layer of a plate under the speed of an upper
 * surface. It is 0.80 to 1.37 of what the boundary layer with the step in it gives (NACA 3410, 2412 and 4409 at 1e5 to 4e5, edges of 0.1 to 0.6 %
 * of the chord at 5 to 25 % of it, lift 0.6), mostly within 15 %; nothing is fitted.
 * cells - front edge; reynolds - on the chord [-]
 */
export function stepDrag({ from, edge }: LaidCells, reynolds: number): number {
  if (!(edge > 0)) return 0;
  // Blasius: the momentum thickness is the displacement thickness / 2.59.
  const momentum = displacementAt(from, EDGE_SPEED * reynolds) / 2.59;
  return 2 * ridgeLoss(edge, momentum, STEP_DRAG.up) * EDGE_SPEED ** WAKE_POWER;
}

/**
 * How likely a step makes the layer turbulent at once, 0 to 1: the logarithm of the Reynolds number that trips is spread about 400 as
 * published values are. Normal distribution by a logistic curve, within 0.01.
 */
export function tripLikelihood(cells: LaidCells, reynolds: number): number {
  if (!(cells.edge > 0)) return 0;
  const away = Math.log(stepReynolds(cells, reynolds) / TRIP_REYNOLDS.value) / TRIP_SPREAD;
  return 1 / (1 + Math.exp(-1.702 * away));
}

/** Relative standard deviation that joints, film and the growth by a step that does not trip add: 3 % less to 4 % more in the range of models. */
const JOINT_SPREAD = 0.04;

/** What the covering of a section costs, relative to the bare section. */
export interface CoveringShare {
  /** Likelihood that the front edge trips the layer. */
  readonly likelihood: number;
  /** Expected and tripped drag over bare drag - 1. */
  readonly expected: number;
  readonly tripped: number;
}

export interface CoveredTable extends StoredTable {
  /** At a lift and Reynolds number. */
  readonly cost: (lift: number, reynolds: number) => CoveringShare;
}

const mix = (a: Float64Array, b: Float64Array, share: (k: number) => number): Float64Array =>
  a.map((value, k) => value + share(k) * (b[k] - value));

/** Drag expected of two states, and the spread that not knowing which adds. */
function mixedDrag(bare: SectionPolarTable, tripped: SectionPolarTable, share: (k: number) => number) {
  const [free, forced] = [bare.logDrag.values, tripped.logDrag.values];
  const logDrag = new Float64Array(free.length);
  const dragSpread = new Float64Array(free.length);
  for (let k = 0; k < logDrag.length; k++) {
    const p = share(k);
    const excess = Math.exp(forced[k] - free[k]) - 1;
    const doubt = (Math.sqrt(p * (1 - p)) * Math.abs(excess)) / (1 + p * excess);
    logDrag[k] = free[k] + Math.log(1 + p * excess);
    dragSpread[k] = Math.hypot(bare.dragSpread.values[k], doubt, JOINT_SPREAD);
  }
  return { logDrag, dragSpread };
}

/** A table of the tripped section with the own drag of what trips it. */
function withStepDrag(forced: SectionPolarTable, reynolds: readonly number[], cells: LaidCells): SectionPolarTable {
  const own = reynolds.map((re) => stepDrag(cells, re));
  const logDrag = forced.logDrag.values.map((value, k) =>
    Math.log(Math.exp(value) + own[Math.floor(k / forced.liftCount)]!),
  );
  return smoothTable({
    ...forced,
    logDrag,
    dragSpread: forced.dragSpread.values,
    lift: forced.lift.values,
    momentAtAngle: forced.momentAtAngle.values,
  });
}

/** Rows of a refined table for each row of the polars: whether an edge trips changes within a factor of two of Reynolds number, their distance. */
const REFINED = 3;

/**
 * The same table with more rows, read from its smooth curves: what is weighed at each Reynolds number by `coveredTable` is then followed
 * between the polars too. stored - of the bare or of the tripped section
 */
export function refinedTable({ table, estimated }: StoredTable): StoredTable {
  const rows = REFINED * (table.rows - 1) + 1;
  const whole = (grid: SmoothGrid): Float64Array => {
    const values = new Float64Array(rows * grid.columns);
    for (let k = 0, row = 0; row < rows; row++)
      for (let column = 0; column < grid.columns; column++, k++)
        // Rows of the polars stand as they are.
        values[k] =
          row % REFINED === 0
            ? grid.values[(row / REFINED) * grid.columns + column]
            : smoothGridValue(grid, row / REFINED, column);
    return values;
  };
  const each = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: rows }, (_, row) => smoothRowValue(values, row / REFINED));
  const refined = smoothTable({
    ...table,
    rows,
    logReynoldsStep: table.logReynoldsStep / REFINED,
    logDrag: whole(table.logDrag),
    dragSpread: whole(table.dragSpread),
    lift: whole(table.lift),
    momentAtAngle: whole(table.momentAtAngle),
    maximumLift: each(table.maximumLift),
    minimumLift: each(table.minimumLift),
    maximumLiftSpread: each(table.maximumLiftSpread),
    zeroLiftAngles: each(table.zeroLiftAngles),
    liftSlopes: each(table.liftSlopes),
  });
  return { table: refined, estimated };
}

/**
 * Polar table of a section under cells that follow its upper surface: of the bare section and of the one tripped at the cells' front
 * edge, weighted by how likely that edge trips at each Reynolds number. That nobody knows which it is widens the spread.
 * free, forced - tables of the bare section and of the tripped one, at the same Reynolds numbers; cells
 * Returns undefined where their rows differ. Rows of the first estimate are counted as in `storedTable`.
 */
export function coveredTable(free: StoredTable, forced: StoredTable, cells: LaidCells): CoveredTable | undefined {
  const { table } = free;
  if (table.rows !== forced.table.rows || table.logReynoldsStart !== forced.table.logReynoldsStart) return undefined;
  const reynolds = Array.from({ length: table.rows }, (_, i) =>
    Math.exp(table.logReynoldsStart + i * table.logReynoldsStep),
  );
  const isIn = (list: readonly number[], re: number) => list.some((one) => Math.abs(one / re - 1) < 1e-6);
  const estimated = [...new Set([...free.estimated, ...forced.estimated])].sort((a, b) => a - b);
  const tripped = withStepDrag(forced.table, reynolds, cells);
  // The estimate knows no trip: a row that either state has from it stays that of the bare section.
  const likely = reynolds.map((re) => (isIn(estimated, re) ? 0 : tripLikelihood(cells, re)));
  const by = (columns: number) => (k: number) => likely[Math.floor(k / columns)];
  const rows = (key: 'maximumLift' | 'minimumLift' | 'zeroLiftAngles' | 'liftSlopes') =>
    mix(table[key], forced.table[key], by(1));
  const covered = smoothTable({
    ...table,
    ...mixedDrag(table, tripped, by(table.liftCount)),
    lift: mix(table.lift.values, forced.table.lift.values, by(table.angleCount)),
    momentAtAngle: mix(table.momentAtAngle.values, forced.table.momentAtAngle.values, by(table.angleCount)),
    maximumLift: rows('maximumLift'),
    minimumLift: rows('minimumLift'),
    zeroLiftAngles: rows('zeroLiftAngles'),
    liftSlopes: rows('liftSlopes'),
  });
  const cost = (lift: number, reynolds: number): CoveringShare => {
    const over = (one: SectionPolarTable) =>
      sectionDragCoefficient(one, lift, reynolds) / sectionDragCoefficient(table, lift, reynolds) - 1;
    return { likelihood: tripLikelihood(cells, reynolds), expected: over(covered), tripped: over(tripped) };
  };
  return { table: covered, estimated, cost };
}
