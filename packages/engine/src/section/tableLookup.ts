import { smoothGridValue, smoothRowValue } from '../math/smoothGrid.js';
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
