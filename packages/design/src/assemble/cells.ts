import type { Warning } from '@noonwing/engine';
import {
  aircraftBlockers,
  type CellRow,
  type CellSize,
  type CellSpot,
  cutCell,
  evenSpots,
  type PlacedCell,
  type PropellerDisc,
  placeCells,
  type Sections,
  type ShadeTable,
  shadeTable,
  surfaceLength,
} from '@noonwing/engine/light';
import type { CompleteArray, CompleteCell, CompleteDrive, CompleteRow } from '../complete/index.js';
import type { AssembledShape } from './shape.js';

/** Cells on the real surface, and what shades them: depends on shape, rows and cell size alone. */
export interface AssembledCells {
  readonly cells: readonly PlacedCell[];
  /** Indices of the cells by row name, side and face. */
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

/** A face that cells of a row lie on. */
export type Face = 'upper' | 'lower';

/** Cells of so many on one half that lie on each face of a row; an odd one lies above. Faces without any are left out. */
export function cellsOnFaces({ face }: Pick<CompleteRow, 'face'>, count: number): readonly (readonly [Face, number])[] {
  const shares: readonly (readonly [Face, number])[] =
    face === 'both'
      ? [
          ['upper', Math.ceil(count / 2)],
          ['lower', Math.floor(count / 2)],
        ]
      : [[face, count]];
  return shares.filter(([, share]) => share > 0);
}

/** 33 x 33 directions: the energy of a day in circles is that of 45 x 45 within 0.02 % on every demo aircraft. */
const dayEdge = 33;

export const rowKey = (row: string, side: 'right' | 'left', face: Face): string => `${side} ${face} ${row}`;

/** Size of the cells of a row, as they are cut and laid. */
export function pieceOf({ pieces, turned }: Pick<CompleteRow, 'pieces' | 'turned'>, cell: CompleteCell): CellSize {
  const [length, width, area] = [cell.length.value, cell.width.value, cell.area.value];
  return cutCell({ length, width, area, bendRadius: cell.bendRadius.value }, { parts: pieces, turned });
}

/** The part of the chord that a cell covers at a spot, as fractions of a chord [m] there. */
export function chordCovered(
  { station }: Pick<CellSpot, 'station'>,
  { width }: Pick<CellSize, 'width'>,
  chord: number,
): readonly [number, number] {
  const half = width / 2 / chord;
  return [Math.max(0, station - half), Math.min(1, station + half)];
}

/** Middles of the cells of a row on one half: one by one where stated, else even. */
export function spotsOf(row: CompleteRow, count: number, length: number, cellLength: number): readonly CellSpot[] {
  if (row.places !== undefined)
    return row.places.slice(0, count).map(({ along, station }) => ({ along: along * length, station }));
  return evenSpots({
    from: row.from * length,
    to: row.to * length,
    count,
    station: row.chordStation.value,
    length: cellLength,
    ...(row.gap === undefined ? {} : { gap: row.gap }),
  });
}

/** Mean chord of a blade over the diameter, where its own is not stated (judgement: 6 to 10 % of slow propellers). */
const usualBladeChord = 0.08;

/**
 * Discs of the turning propellers, about their motors, by the share of the light through them that the blades take.
 * A folding propeller turns as well in level flight.
 */
export function propellerDiscs({ motor, propeller }: CompleteDrive): readonly PropellerDisc[] {
  const { diameter, blades, geometry } = propeller;
  const radius = diameter / 2;
  const bladeArea =
    geometry === undefined
      ? usualBladeChord * diameter * radius
      : geometry
          .slice(1)
          .reduce(
            (sum, { radius: r, chord }, i) => sum + ((chord + geometry[i]!.chord) / 2) * (r - geometry[i]!.radius),
            0,
          );
  const solidity = (blades * bladeArea) / (Math.PI * radius ** 2);
  const [x, y, z] = [motor.x.value, motor.y.value, motor.z.value];
  const sides = motor.count > 1 && y !== 0 ? [y, -y] : [y];
  return sides.map((side) => ({ name: 'propeller', centre: [x, side, z], diameter, solidity }));
}

/**
 * Lays the cells of an array on its shape and builds the table of shade over all directions.
 * @param drive - its turning propeller veils what lies behind the disc
 * @returns undefined where a row lies on no surface of the shape: its cells then lie level
 */
export function assembleCells(
  { rows, cell, laid: lie }: Pick<CompleteArray, 'rows' | 'cell'> & Partial<Pick<CompleteArray, 'laid'>>,
  { shape, sections }: Pick<AssembledShape, 'shape' | 'sections'>,
  drive?: CompleteDrive,
): AssembledCells | undefined {
  const named: Sections = new Map(sections.map(({ name, geometry }) => [name, geometry]));
  const laid: CellRow[] = [];
  for (const row of rows) {
    const surface = shape.surfaces.find(({ name }) => name === row.on);
    if (surface === undefined) return undefined;
    const length = surfaceLength(surface);
    const size = pieceOf(row, cell);
    for (const side of ['right', 'left'] as const) {
      const count = cellsOnSide(row, surface.mirrored, side);
      for (const [face, share] of cellsOnFaces(row, count)) {
        laid.push({ name: row.name, surface, side, face, cell: size, spots: spotsOf(row, share, length, size.length) });
      }
    }
  }
  const { cells, findings } = placeCells(laid, named);
  const byRow = new Map<string, number[]>();
  for (const [index, { row, side, face }] of cells.entries()) {
    const key = rowKey(row, side, face);
    byRow.set(key, [...(byRow.get(key) ?? []), index]);
  }
  const discs = drive === undefined ? [] : propellerDiscs(drive);
  const shade = shadeTable(cells, shape.surfaces, aircraftBlockers(shape, named, discs), dayEdge);
  // Stiff cells are not bent: what they cost instead is said with the section.
  const warnings = findings
    .filter(({ code }) => lie !== 'flat' || code !== 'cells-bent')
    .map((finding) => ({ ...finding, where: `array.rows.${finding.where}` }));
  return { cells, byRow, shade, warnings: [...warnings, ...uncut(rows, cell)] };
}

/** Rows whose cells are cut further than their kind bears. */
function uncut(rows: readonly CompleteRow[], cell: CompleteCell): readonly Warning[] {
  const { mostPieces } = cell;
  const remedy = mostPieces === 1 ? 'lay them whole' : `cut them into ${mostPieces} at most`;
  const said = mostPieces === 1 ? 'cells of this kind cannot be cut' : `cells of this kind bear ${mostPieces} pieces`;
  return rows
    .filter(({ pieces }) => pieces > mostPieces)
    .map(({ name }) => ({ code: 'cells-not-cut', message: `${said}; ${remedy}`, where: `array.rows.${name}` }));
}
