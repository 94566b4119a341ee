import type { Warning } from '../result.js';
import { spanPosition, stationDistances } from '../shape/index.js';
import { sharpestBend } from './bend.js';
import type { CellRow } from './place.js';
import { chordAlong, type Sections, surfaceLength } from './surface-point.js';
import type { PlacedCell } from './types.js';

const millimetres = (metres: number): string => `${(1000 * metres).toFixed(0)} mm`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
/** A pencil line: nearer than this is a fit [m]. */
const line = 5e-4;

/** What is wrong with the cells of one row on one side. */
export function cellFindings(row: CellRow, cells: readonly PlacedCell[], sections: Sections): readonly Warning[] {
  const said = [room(row), chordEdge(row), bend(row, cells, sections), bentAcross(row), hinge(row, cells)];
  return said.flatMap((message) => (message === undefined ? [] : [{ ...message, where: row.name }]));
}

type Said = Omit<Warning, 'where'> | undefined;

/** More cells side by side than the span holds. */
function room(row: CellRow): Said {
  const length = surfaceLength(row.surface);
  const half = row.cell.length / 2;
  const alongs = row.spots.map(({ along }) => along);
  const [first, last] = [Math.min(...alongs) - half, Math.max(...alongs) + half];
  if (first >= -line && last <= length + line) return undefined;
  const over =
    first < -line ? `${millimetres(-first)} inside the root` : `${millimetres(last - length)} beyond the tip`;
  const fits = Math.floor((length - Math.max(0, first)) / row.cell.length);
  return {
    code: 'cells-do-not-fit',
    message: `the cells reach ${over}; room for ${Math.min(row.spots.length - 1, fits)} of ${row.spots.length} on this side, or cells cut in strips`,
  };
}

/** A cell that is wider than the chord leaves at either of its ends. */
function chordEdge(row: CellRow): Said {
  const half = row.cell.width / 2;
  let [least, most] = [1, 0];
  let narrow = Number.MAX_VALUE;
  for (const { along, station } of row.spots) {
    for (const end of [along - row.cell.length / 2, along + row.cell.length / 2]) {
      const chord = chordAlong(row.surface, Math.max(0, Math.min(end, surfaceLength(row.surface))));
      narrow = Math.min(narrow, chord);
      least = Math.min(least, station - (half - line) / chord);
      most = Math.max(most, station + (half - line) / chord);
    }
  }
  if (least >= 0 && most <= 1) return undefined;
  const fit = half / narrow;
  const remedy =
    fit < 0.5
      ? `a chord station between ${percent(Math.ceil(100 * fit) / 100)} and ${percent(Math.floor(100 * (1 - fit)) / 100)} fits`
      : `${millimetres(row.cell.width)} is more than the chord of ${millimetres(narrow)}: fewer cells outboard, or strips`;
  return {
    code: 'cells-do-not-fit',
    message: `the cells reach over the edge of the chord (from ${percent(least)} to ${percent(most)}); ${remedy}`,
  };
}

/** A cell bent further than it stands. */
function bend(row: CellRow, cells: readonly PlacedCell[], sections: Sections): Said {
  const limit = row.cell.bendRadius;
  const worst = cells.reduce<PlacedCell | undefined>(
    (found, cell) => ((cell.bendRadius ?? limit) < (found?.bendRadius ?? limit) ? cell : found),
    undefined,
  );
  if (worst?.bendRadius === undefined) return undefined;
  const chord = chordAlong(row.surface, worst.along);
  const half = row.cell.width / (2 * chord);
  const better = Array.from({ length: 19 }, (_, i) => 0.05 * (i + 1))
    .filter((station) => station - half >= 0 && station + half <= 1)
    .filter((station) => (sharpestBend(row, worst.along, station, sections)?.least ?? limit) >= limit)
    .sort((a, b) => Math.abs(a - worst.behind / chord) - Math.abs(b - worst.behind / chord))[0];
  const remedy =
    better === undefined
      ? 'narrower strips, or a flatter section'
      : `at ${percent(better)} of the chord it lies flat enough`;
  return {
    code: 'cells-bent',
    message: `the surface bends cells to a radius of ${millimetres(worst.bendRadius)}, ${millimetres(limit)} is comfortable; ${remedy}`,
  };
}

/** Change of direction along the span above which a cell would be creased [rad]. */
const crease = 0.01;

/** Cells that lie across a break of dihedral. */
function bentAcross(row: CellRow): Said {
  const { stations } = row.surface;
  const distances = stationDistances(row.surface);
  const rise = (i: number) => Math.atan2(stations[i + 1]!.z - stations[i]!.z, stations[i + 1]!.y - stations[i]!.y);
  for (let i = 1; i < stations.length - 1; i++) {
    if (Math.abs(rise(i) - rise(i - 1)) < crease) continue;
    const across = row.spots.filter(({ along }) => Math.abs(along - distances[i]!) < row.cell.length / 2 - line);
    if (across.length > 0) {
      return {
        code: 'cells-across-break',
        message: `a cell lies across the break of the dihedral ${millimetres(distances[i]!)} from the root and would crack; leave a gap there`,
      };
    }
  }
  return undefined;
}

/** Cells over the hinge line of a control: on the control they move and are bent, across the hinge they crack. */
function hinge(row: CellRow, cells: readonly PlacedCell[]): Said {
  const root = spanPosition(row.surface, 0);
  const reach = spanPosition(row.surface, row.surface.stations.length - 1) - root || 1;
  const length = surfaceLength(row.surface);
  for (const control of row.surface.controls) {
    const [from, to] = [control.fromY, control.toY].map((y) => ((y - root) / reach) * length);
    const hingeStation = 1 - control.chordFraction;
    const over = cells.filter(({ along, behind }) => {
      const chord = chordAlong(row.surface, along);
      const station = behind / chord;
      const half = row.cell.width / (2 * chord);
      const beside = along + row.cell.length / 2 <= from! + line || along - row.cell.length / 2 >= to! - line;
      return !beside && station - half < hingeStation && station + half > hingeStation + line;
    });
    if (over.length > 0) {
      return {
        code: 'cells-over-hinge',
        message: `${over.length === 1 ? 'a cell lies' : `${over.length} cells lie`} across the hinge of "${control.name}" at ${percent(hingeStation)} of the chord; keep them ahead of it`,
      };
    }
  }
  return undefined;
}

interface Rectangle {
  readonly row: string;
  readonly sheet: string;
  readonly along: number;
  readonly behind: number;
  readonly length: number;
  readonly width: number;
}

/** Cells that lie on one another, of one row or of two. */
export function rowFindings(rows: readonly CellRow[], cells: readonly PlacedCell[]): readonly Warning[] {
  const sizes = new Map(rows.map((row) => [row.name, row.cell]));
  const rectangles = cells.map(({ row, surface, side, face, along, behind }): Rectangle => {
    const { length, width } = sizes.get(row)!;
    return { row, sheet: `${surface} ${side} ${face}`, along, behind, length, width };
  });
  const found = new Map<string, Warning>();
  for (const [i, a] of rectangles.entries()) {
    for (const b of rectangles.slice(i + 1)) {
      if (a.sheet !== b.sheet) continue;
      const beside = (a.length + b.length) / 2 - Math.abs(a.along - b.along);
      const behind = (a.width + b.width) / 2 - Math.abs(a.behind - b.behind);
      if (beside <= 2 * line || behind <= 2 * line || found.has(`${a.row}/${b.row}`)) continue;
      found.set(`${a.row}/${b.row}`, overlap(a, b, beside, behind, rectangles));
    }
  }
  return [...found.values()];
}

function overlap(a: Rectangle, b: Rectangle, beside: number, behind: number, all: readonly Rectangle[]): Warning {
  if (a.row !== b.row) {
    return {
      code: 'cells-overlap',
      message: `cells of "${a.row}" and "${b.row}" lie on one another by ${millimetres(Math.min(beside, behind))}; move one row along the chord by that`,
      where: b.row,
    };
  }
  const count = all.filter(({ row, sheet }) => row === a.row && sheet === a.sheet).length;
  const needed = count * a.length;
  const there = needed - (count - 1) * beside;
  return {
    code: 'cells-do-not-fit',
    message:
      `${count} cells of the row need ${millimetres(needed)}` +
      ` on each side, there are ${millimetres(there)}; fewer cells, more room, or cells cut in strips`,
    where: a.row,
  };
}
