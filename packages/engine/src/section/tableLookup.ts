import type { SectionPolarTable } from './types.js';

/** Row coordinate of a Reynolds number, held at the ends of the table. */
function rowOf(table: SectionPolarTable, reynolds: number): number {
  const row = (Math.log(Math.max(1, reynolds)) - table.logReynoldsStart) / table.logReynoldsStep;
  return row > 0 ? Math.min(table.rows - 1, row) : 0;
}

/** Bilinear look-up on [row * count + column]; column coordinate held at the ends. */
function bilinear(values: Float64Array, count: number, rows: number, row: number, column: number): number {
  const x = column > 0 ? Math.min(count - 1, column) : 0;
  const i = Math.min(rows - 2, Math.floor(row));
  const j = Math.min(count - 2, Math.floor(x));
  const r0 = Math.max(0, i);
  const fr = i < 0 ? 0 : row - i;
  const fx = x - j;
  const at = r0 * count + j;
  const low = values[at] + fx * (values[at + 1] - values[at]);
  if (fr === 0) return low;
  const high = values[at + count] + fx * (values[at + count + 1] - values[at + count]);
  return low + fr * (high - low);
}

/** A quantity kept once per Reynolds number. */
export function tableByRow(table: SectionPolarTable, values: Float64Array, reynolds: number): number {
  const row = rowOf(table, reynolds);
  const i = Math.max(0, Math.min(table.rows - 2, Math.floor(row)));
  return table.rows === 1 ? values[0] : values[i] + (row - i) * (values[i + 1] - values[i]);
}

export const tableDrag = (table: SectionPolarTable, cl: number, reynolds: number): number =>
  Math.exp(
    bilinear(
      table.logDrag,
      table.liftCount,
      table.rows,
      rowOf(table, reynolds),
      (cl - table.liftStart) / table.liftStep,
    ),
  );

export const tableDragSpread = (table: SectionPolarTable, cl: number, reynolds: number): number =>
  bilinear(
    table.dragSpread,
    table.liftCount,
    table.rows,
    rowOf(table, reynolds),
    (cl - table.liftStart) / table.liftStep,
  );

export const tableLift = (table: SectionPolarTable, angle: number, reynolds: number): number =>
  bilinear(
    table.lift,
    table.angleCount,
    table.rows,
    rowOf(table, reynolds),
    (angle - table.angleStart) / table.angleStep,
  );

export const tableMoment = (table: SectionPolarTable, angle: number, reynolds: number): number =>
  bilinear(
    table.momentAtAngle,
    table.angleCount,
    table.rows,
    rowOf(table, reynolds),
    (angle - table.angleStart) / table.angleStep,
  );
