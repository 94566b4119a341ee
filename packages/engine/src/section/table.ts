import { smoothGrid } from '../math/smoothGrid.js';
import {
  sectionDragCoefficient,
  sectionDragSpread,
  sectionLift,
  sectionLiftSlope,
  sectionMaximumLiftCoefficient,
  sectionMaximumLiftSpread,
  sectionMinimumLiftCoefficient,
  sectionMoment,
  sectionZeroLiftAngle,
} from './model.js';
import type { SectionModel, SectionPolarTable } from './types.js';

export interface TableGrid {
  /** Lowest and highest Reynolds number and how many rows between, evenly in their logarithm. */
  readonly reynoldsFrom: number;
  readonly reynoldsTo: number;
  readonly rows: number;
  readonly liftFrom: number;
  readonly liftTo: number;
  readonly liftCount: number;
  /** Columns of the whole circle of angles of attack, -pi to pi. */
  readonly angleCount: number;
}

export const DEFAULT_GRID: TableGrid = {
  reynoldsFrom: 2e4,
  reynoldsTo: 2e6,
  rows: 24,
  liftFrom: -1.2,
  liftTo: 2.2,
  liftCount: 137,
  angleCount: 721,
};

/** A polar table as plain arrays, [row * columns + column] or by row, as it is filled. */
export type PolarArrays = Omit<SectionPolarTable, GridKey> & Readonly<Record<GridKey, Float64Array>>;

type GridKey = 'logDrag' | 'dragSpread' | 'lift' | 'momentAtAngle';

/** The table that is read, with the slopes of its grids; angles of attack go round the circle. */
export function smoothTable(arrays: PolarArrays): SectionPolarTable {
  const { liftCount, angleCount, angleStep } = arrays;
  const around = Math.abs(angleStep * (angleCount - 1) - 2 * Math.PI) < 1e-9;
  return {
    ...arrays,
    logDrag: smoothGrid(arrays.logDrag, liftCount),
    dragSpread: smoothGrid(arrays.dragSpread, liftCount),
    lift: smoothGrid(arrays.lift, angleCount, around),
    momentAtAngle: smoothGrid(arrays.momentAtAngle, angleCount, around),
  };
}

const fill = (rows: number, columns: number, value: (row: number, column: number) => number): Float64Array =>
  Float64Array.from({ length: rows * columns }, (_, k) => value(Math.floor(k / columns), k % columns));

/**
 * Polar table of any section model, on a grid; the same functions evaluate it.
 * model - section; grid - Reynolds numbers, lift coefficients and angles; what is not given is taken from `DEFAULT_GRID`
 */
export const tabulate = (model: SectionModel, grid: Partial<TableGrid> = {}): SectionPolarTable =>
  smoothTable(tabulatedArrays(model, grid));

/** The same as plain arrays, to be changed before they are read. */
export function tabulatedArrays(model: SectionModel, grid: Partial<TableGrid>): PolarArrays {
  const g = { ...DEFAULT_GRID, ...grid };
  if (g.rows < 2 || g.liftCount < 2 || g.angleCount < 2) throw new RangeError('a table needs two rows and columns');
  const logStart = Math.log(g.reynoldsFrom);
  const logStep = (Math.log(g.reynoldsTo) - logStart) / (g.rows - 1);
  const liftStep = (g.liftTo - g.liftFrom) / (g.liftCount - 1);
  const angleStep = (2 * Math.PI) / (g.angleCount - 1);
  const reynolds = (row: number) => Math.exp(logStart + row * logStep);
  const cl = (column: number) => g.liftFrom + column * liftStep;
  const angle = (column: number) => -Math.PI + column * angleStep;
  const middle = reynolds((g.rows - 1) / 2);
  return {
    kind: 'table',
    name: model.name,
    leadingEdge: model.leadingEdge,
    thickness: model.thickness,
    zeroLiftAngle: sectionZeroLiftAngle(model, middle),
    moment: model.moment,
    liftSlope: model.liftSlope,
    logReynoldsStart: logStart,
    logReynoldsStep: logStep,
    rows: g.rows,
    liftStart: g.liftFrom,
    liftStep,
    liftCount: g.liftCount,
    logDrag: fill(g.rows, g.liftCount, (r, c) => Math.log(sectionDragCoefficient(model, cl(c), reynolds(r)))),
    dragSpread: fill(g.rows, g.liftCount, (r, c) => sectionDragSpread(model, cl(c), reynolds(r))),
    angleStart: -Math.PI,
    angleStep,
    angleCount: g.angleCount,
    lift: fill(g.rows, g.angleCount, (r, c) => sectionLift(model, angle(c), reynolds(r))),
    momentAtAngle: fill(g.rows, g.angleCount, (r, c) => sectionMoment(model, angle(c), reynolds(r))),
    maximumLift: fill(g.rows, 1, (r) => sectionMaximumLiftCoefficient(model, reynolds(r))),
    minimumLift: fill(g.rows, 1, (r) => sectionMinimumLiftCoefficient(model, reynolds(r))),
    maximumLiftSpread: fill(g.rows, 1, (r) => sectionMaximumLiftSpread(model, reynolds(r))),
    zeroLiftAngles: fill(g.rows, 1, (r) => sectionZeroLiftAngle(model, reynolds(r))),
    liftSlopes: fill(g.rows, 1, (r) => sectionLiftSlope(model, reynolds(r))),
  };
}

const mix = (a: number, b: number, fraction: number): number => a + fraction * (b - a);

/**
 * Section between two stations of a wing.
 * a, b - models; fraction - 0 gives a, 1 gives b [-]
 * Two estimates of one kind of nose blend in their parameters; otherwise both are tabulated on the default grid and blended there.
 */
export function blendSections(a: SectionModel, b: SectionModel, fraction: number): SectionModel {
  if (fraction <= 0 || a === b) return a;
  if (fraction >= 1) return b;
  const name = a.name === b.name ? a.name : `${a.name} to ${b.name}`;
  if (a.kind === 'estimate' && b.kind === 'estimate' && a.leadingEdge === b.leadingEdge) {
    const at = (key: NumericKey) => mix(a[key], b[key], fraction);
    return {
      kind: 'estimate',
      name,
      leadingEdge: a.leadingEdge,
      zeroLiftAngle: at('zeroLiftAngle'),
      moment: at('moment'),
      liftSlope: at('liftSlope'),
      thickness: at('thickness'),
      camber: at('camber'),
      designLift: at('designLift'),
      transitionAt: at('transitionAt'),
      dragFactor: at('dragFactor'),
      addedSpread: at('addedSpread'),
      stepDrag: at('stepDrag'),
    };
  }
  const [p, q] = [tabulate(a), tabulate(b)];
  const arrays = (x: Float64Array, y: Float64Array) => x.map((value, i) => mix(value, y[i], fraction));
  return smoothTable({
    ...p,
    name,
    thickness: mix(p.thickness, q.thickness, fraction),
    zeroLiftAngle: mix(p.zeroLiftAngle, q.zeroLiftAngle, fraction),
    moment: mix(p.moment, q.moment, fraction),
    liftSlope: mix(p.liftSlope, q.liftSlope, fraction),
    logDrag: arrays(p.logDrag.values, q.logDrag.values),
    dragSpread: arrays(p.dragSpread.values, q.dragSpread.values),
    lift: arrays(p.lift.values, q.lift.values),
    momentAtAngle: arrays(p.momentAtAngle.values, q.momentAtAngle.values),
    maximumLift: arrays(p.maximumLift, q.maximumLift),
    minimumLift: arrays(p.minimumLift, q.minimumLift),
    maximumLiftSpread: arrays(p.maximumLiftSpread, q.maximumLiftSpread),
    zeroLiftAngles: arrays(p.zeroLiftAngles, q.zeroLiftAngles),
    liftSlopes: arrays(p.liftSlopes, q.liftSlopes),
  });
}

type NumericKey =
  | 'zeroLiftAngle'
  | 'moment'
  | 'liftSlope'
  | 'thickness'
  | 'camber'
  | 'designLift'
  | 'transitionAt'
  | 'dragFactor'
  | 'addedSpread'
  | 'stepDrag';
