import type { Warning } from '@noonwing/engine';
import {
  aircraftBlockers,
  type CellRow,
  cutCell,
  evenSpots,
  type PlacedCell,
  placeCells,
  type Sections,
  type ShadeTable,
  shadeTable,
  surfaceLength,
} from '@noonwing/engine/light';
import type { CompleteArray, CompleteRow } from '../complete/index.js';
import type { AssembledShape } from './shape.js';

/** Cells on the real surface, and what shades them: depends on shape, rows and cell size alone. */
export interface AssembledCells {
  readonly cells: readonly PlacedCell[];
  /** Indices of the cells by row name and side. */
  readonly byRow: ReadonlyMap<string, readonly number[]>;
  readonly shade: ShadeTable;
  readonly warnings: readonly Warning[];
}

/** Cells of a row on one half of its surface: an odd one goes to the right. */
export function cellsOnSide(row: CompleteRow, mirrored: boolean, side: 'right' | 'left'): number {
  if (row.side === 'right' || row.side === 'left') return row.side === side ? row.cells : 0;
  if (!mirrored) return side === 'right' ? row.cells : 0;
  return side === 'right' ? Math.ceil(row.cells / 2) : Math.floor(row.cells / 2);
}

/** 33 x 33 directions: the energy of a day in circles is that of 45 x 45 within 0.02 % on every demo aircraft. */
const dayEdge = 33;

export const rowKey = (row: string, side: 'right' | 'left'): string => `${side} ${row}`;

/**
 * Lays the cells of an array on its shape and builds the table of shade over all directions.
 * @returns undefined where a row lies on no surface of the shape: its cells then lie level
 */
export function assembleCells(
  { rows, cell }: Pick<CompleteArray, 'rows' | 'cell'>,
  { shape, sections }: Pick<AssembledShape, 'shape' | 'sections'>,
): AssembledCells | undefined {
  const named: Sections = new Map(sections.map(({ name, geometry }) => [name, geometry]));
  const size = cutCell(
    {
      length: cell.length.value,
      width: cell.width.value,
      area: cell.area.value,
      bendRadius: cell.bendRadius.value,
    },
    { parts: 1 },
  );
  const laid: CellRow[] = [];
  for (const row of rows) {
    const surface = shape.surfaces.find(({ name }) => name === row.on);
    if (surface === undefined) return undefined;
    const length = surfaceLength(surface);
    for (const side of ['right', 'left'] as const) {
      const count = cellsOnSide(row, surface.mirrored, side);
      if (count === 0) continue;
      const span = { from: row.from * length, to: row.to * length };
      const spots = evenSpots({ ...span, count, station: row.chordStation.value, length: size.length });
      laid.push({ name: row.name, surface, side, face: row.face, cell: size, spots });
    }
  }
  const { cells, findings } = placeCells(laid, named);
  const byRow = new Map<string, number[]>();
  for (const [index, { row, side }] of cells.entries()) {
    const key = rowKey(row, side);
    byRow.set(key, [...(byRow.get(key) ?? []), index]);
  }
  const shade = shadeTable(cells, shape.surfaces, aircraftBlockers(shape, named), dayEdge);
  const warnings = findings.map((finding) => ({ ...finding, where: `array.rows.${finding.where}` }));
  return { cells, byRow, shade, warnings };
}
