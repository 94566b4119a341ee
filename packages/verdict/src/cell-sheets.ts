import type { CellParameters } from '@noonwing/engine/array';
import { type ArrayPlan, facetOfCells } from '@noonwing/engine/day';
import type { PlacedCell } from '@noonwing/engine/light';
import { cutAlong, type LiftingSurface, stationDistances } from '@noonwing/engine/shape';
import type { Verdict } from './central.js';

/** A point of an unrolled surface: aft of the datum, and from the root along the surface, to the right positive [m]. */
export type SheetPoint = readonly [aft: number, across: number];

export interface SheetCell {
  /** In the cells of the array. */
  readonly index: number;
  readonly row: string;
  /** Place in its row on its side, from 0 at the root. */
  readonly place: number;
  readonly side: 'right' | 'left';
  readonly corners: readonly SheetPoint[];
  /** Index of its string, and where it stands in the wiring from 0; absent where no string has it. */
  readonly string?: number;
  readonly position?: number;
}

/** One face of a surface laid flat: dihedral unrolled, sweep and taper kept, seen from outside. */
export interface CellSheet {
  readonly surface: string;
  readonly face: 'upper' | 'lower';
  readonly outlines: readonly (readonly SheetPoint[])[];
  readonly cells: readonly SheetCell[];
  /** Where fins and winglets stand on it. */
  readonly walls: readonly { readonly name: string; readonly line: readonly [SheetPoint, SheetPoint] }[];
}

function outlinesOf(surface: LiftingSurface, along: readonly number[]): readonly (readonly SheetPoint[])[] {
  const { stations, mirrored } = surface;
  const right = [
    ...stations.map(({ xLeadingEdge }, i): SheetPoint => [xLeadingEdge, along[i]!]),
    ...stations.map(({ xLeadingEdge, chord }, i): SheetPoint => [xLeadingEdge + chord, along[i]!]).reverse(),
  ];
  return mirrored ? [right, right.map(([aft, across]): SheetPoint => [aft, -across])] : [right];
}

function unrolled(cell: PlacedCell, surface: LiftingSurface): readonly SheetPoint[] {
  const sign = cell.side === 'left' ? -1 : 1;
  const { dihedral } = cutAlong(surface, cell.along);
  const [right, up] = [Math.cos(dihedral), Math.sin(dihedral)];
  return cell.corners.map(([x, y, z]): SheetPoint => {
    const out = sign * (y - cell.centre[1]) * right + (z - cell.centre[2]) * up;
    return [x, sign * (cell.along + out)];
  });
}

/** Fins that stand on a surface: steep ones whose foot lies on it. */
function wallsOn(
  surface: LiftingSurface,
  all: readonly LiftingSurface[],
  along: readonly number[],
): CellSheet['walls'] {
  const reach = along.at(-1)!;
  return all.flatMap((other) => {
    const [root, tip] = [other.stations[0]!, other.stations.at(-1)!];
    if (other === surface || Math.abs(tip.z - root.z) < Math.abs(tip.y - root.y)) return [];
    const at = Math.abs(root.y);
    if (at > reach * 1.02) return [];
    const under = cutAlong(surface, at);
    const isBehind = root.xLeadingEdge > under.xLeadingEdge + under.chord;
    if (isBehind || root.xLeadingEdge + root.chord < under.xLeadingEdge) return [];
    const line = (across: number) => ({
      name: other.name,
      line: [
        [root.xLeadingEdge, across],
        [root.xLeadingEdge + root.chord, across],
      ] as const,
    });
    return other.mirrored ? [line(at), line(-at)] : [line(root.y)];
  });
}

/** Index of the string of every cell, and where it stands in the wiring. */
export function wiredPlaces(
  array: ArrayPlan,
): ReadonlyMap<number, { readonly string: number; readonly position: number }> {
  const places = new Map<number, { string: number; position: number }>();
  for (const [string, { members = [] }] of array.strings.entries()) {
    for (const [position, cell] of members.flat().entries()) places.set(cell, { string, position });
  }
  return places;
}

/** Kind of every cell: that of the string it is wired into, or else of a string on its facet. */
export function kindsOfCells(array: ArrayPlan): readonly CellParameters[] {
  const [wired, facetOf] = [wiredPlaces(array), facetOfCells(array)];
  return (array.cells ?? []).map((_, cell) => {
    const index =
      wired.get(cell)?.string ??
      array.strings.findIndex(({ groups }) => groups.some(({ facet }) => facet === facetOf[cell]));
    return array.strings[Math.max(0, index)]!.cell;
  });
}

/** Strings of the array with what their picture needs; `cells` are those of one of the strings that lie side by side. */
export function wiredStrings({ prepared }: Pick<Verdict, 'prepared'>) {
  return (prepared.run.array?.strings ?? []).map(({ name, members, diodes = [] }) => ({
    name,
    cells: members?.[0]?.length ?? 0,
    diodes: diodes.map(({ from, to }) => ({ from, to })),
  }));
}

/**
 * The faces that bear cells, unrolled, with every cell at its true place and shape.
 * @returns empty where no cells are placed one by one
 */
export function cellSheets({ prepared }: Pick<Verdict, 'prepared'>): readonly CellSheet[] {
  const { array } = prepared.run;
  const surfaces = prepared.model.airframe?.assembled.shape.surfaces ?? [];
  if (array?.cells === undefined) return [];
  const wired = wiredPlaces(array);
  // Cells of a row are numbered through both sides, the right one first.
  const first = new Map<string, number>();
  for (const { row, side, index } of array.cells) {
    const key = `${side} ${row}`;
    first.set(key, Math.min(index, first.get(key) ?? index));
  }
  const sheets: CellSheet[] = [];
  for (const surface of surfaces) {
    const along = stationDistances(surface);
    for (const face of ['upper', 'lower'] as const) {
      const cells = array.cells.flatMap((cell, index): SheetCell[] => {
        if (cell.surface !== surface.name || cell.face !== face) return [];
        const { row, side } = cell;
        const place = cell.index - first.get(`${side} ${row}`)!;
        return [{ index, row, place, side, corners: unrolled(cell, surface), ...wired.get(index) }];
      });
      if (cells.length === 0) continue;
      const walls = face === 'upper' ? wallsOn(surface, surfaces, along) : [];
      sheets.push({ surface: surface.name, face, outlines: outlinesOf(surface, along), cells, walls });
    }
  }
  return sheets;
}
