import { smoothGridSlopes, smoothGridValue, smoothRowValue } from '../math/smoothGrid.js';
import type { SectionPolarTable } from './types.js';

/** Row coordinate of a Reynolds number. */
const rowOf = (table: SectionPolarTable, reynolds: number): number =>
  (Math.log(Math.max(1, reynolds)) - table.logReynoldsStart) / table.logReynoldsStep;

const liftColumn = (table: SectionPolarTable, cl: number): number => (cl - table.liftStart) / table.liftStep;

const angleColumn = (table: SectionPolarTable, angle: number): number => (angle - table.angleStart) / table.angleStep;

/** A quantity kept once per Reynolds number. */
export const tableByRow = (table: SectionPolarTable, values: Float64Array, reynolds: number): number =>
  smoothRowValue(values, rowOf(table, reynolds));

export const tableDrag = (table: SectionPolarTable, cl: number, reynolds: number): number =>
  Math.exp(smoothGridValue(table.logDrag, rowOf(table, reynolds), liftColumn(table, cl)));

/** Never below zero, though a trend goes on a little beyond the ends. */
export const tableDragSpread = (table: SectionPolarTable, cl: number, reynolds: number): number =>
  Math.max(0, smoothGridValue(table.dragSpread, rowOf(table, reynolds), liftColumn(table, cl)));

export const tableLift = (table: SectionPolarTable, angle: number, reynolds: number): number =>
  smoothGridValue(table.lift, rowOf(table, reynolds), angleColumn(table, angle));

export const tableMoment = (table: SectionPolarTable, angle: number, reynolds: number): number =>
  smoothGridValue(table.momentAtAngle, rowOf(table, reynolds), angleColumn(table, angle));

/** A coefficient of a table with its first derivatives, which are continuous. */
export interface TableSlopes {
  readonly value: number;
  /** Per unit of lift coefficient, or of angle of attack [1/rad]. */
  readonly byArgument: number;
  /** Per unit of the natural logarithm of the Reynolds number. */
  readonly byLogReynolds: number;
}

/**
 * Drag coefficient of a table with its derivatives by lift coefficient and by the logarithm of the Reynolds number.
 * table - polars; cl - lift coefficient [-]; reynolds - on the chord [-]
 */
export function tableDragSlopes(table: SectionPolarTable, cl: number, reynolds: number): TableSlopes {
  const found = smoothGridSlopes(table.logDrag, rowOf(table, reynolds), liftColumn(table, cl));
  const value = Math.exp(found.value);
  return {
    value,
    byArgument: (value * found.byColumn) / table.liftStep,
    byLogReynolds: (value * found.byRow) / table.logReynoldsStep,
  };
}

const angleSlopes = (table: SectionPolarTable, of: 'lift' | 'momentAtAngle', angle: number, reynolds: number) => {
  const { value, byColumn, byRow } = smoothGridSlopes(table[of], rowOf(table, reynolds), angleColumn(table, angle));
  return { value, byArgument: byColumn / table.angleStep, byLogReynolds: byRow / table.logReynoldsStep };
};

/**
 * Lift coefficient of a table with its derivatives by angle of attack [1/rad] and by the logarithm of the Reynolds number.
 * table - polars; angle - of attack, -pi to pi [rad]; reynolds - on the chord [-]
 */
export const tableLiftSlopes = (table: SectionPolarTable, angle: number, reynolds: number): TableSlopes =>
  angleSlopes(table, 'lift', angle, reynolds);

/** Moment coefficient with its derivatives. Arguments as `tableLiftSlopes`. */
export const tableMomentSlopes = (table: SectionPolarTable, angle: number, reynolds: number): TableSlopes =>
  angleSlopes(table, 'momentAtAngle', angle, reynolds);
