import { add, scale, type Vec3 } from '../math/index.js';
import type { Warning } from '../result.js';
import { chordOverArc, sharpestBend } from './bend.js';
import { type CellSize, cellOutline } from './cell-size.js';
import { cellFindings, rowFindings } from './findings.js';
import {
  bodyAxes,
  chordAlong,
  patchAxes,
  type Sections,
  type SurfaceFace,
  surfaceLength,
  surfacePoint,
} from './surface-point.js';
import type { PlacedCell } from './types.js';

/** Where the middle of a cell lies on the unrolled surface. */
export interface CellSpot {
  /** From the root along the surface [m]. */
  readonly along: number;
  /** Chord station [-]. */
  readonly station: number;
}

/** A row of cells on one face of one half of a surface. */
export interface CellRow extends SurfaceFace {
  readonly name: string;
  readonly cell: CellSize;
  readonly spots: readonly CellSpot[];
}

/** Cells on the aircraft, and what was found while they were laid. */
export interface Placement {
  readonly cells: readonly PlacedCell[];
  /** What does not fit or bends too far, with the nearest remedy; `where` is the name of the row. */
  readonly findings: readonly Warning[];
}

/**
 * Middles of cells spread evenly between two places, or side by side from the inner one where a gap is stated.
 * @param row.from, row.to - from the root along the surface [m]
 * @param row.gap - between cells [m]; by default the room is shared out
 * @returns from the root outwards
 */
export function evenSpots(row: {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly station: number;
  readonly length: number;
  readonly gap?: number;
}): readonly CellSpot[] {
  const { from, to, count, station, length, gap } = row;
  const pitch = gap === undefined ? (to - from) / count : length + gap;
  const first = gap === undefined ? from + pitch / 2 : from + length / 2;
  return Array.from({ length: count }, (_, i) => ({ along: first + i * pitch, station }));
}

/**
 * Lays rows of cells on the real surface.
 *
 * @param rows - in the order in which their cells are counted; the two sides of one row follow each other
 * @param sections - section geometry by the name that stations give
 * @returns cells in the order of the rows; a cell is flat about its middle, square to the mean direction of the surface below it.
 *   A spot beyond the tip is laid on the surface continued, and said
 */
export function placeCells(rows: readonly CellRow[], sections: Sections): Placement {
  const cells: PlacedCell[] = [];
  const findings: Warning[] = [];
  const counts = new Map<string, number>();
  for (const row of rows) {
    const laid = row.spots.map((spot) => {
      const index = counts.get(row.name) ?? 0;
      counts.set(row.name, index + 1);
      return placeCell(row, spot, index, sections);
    });
    findings.push(...cellFindings(row, laid, sections));
    cells.push(...laid);
  }
  return { cells, findings: [...findings, ...rowFindings(rows, cells)] };
}

function placeCell(row: CellRow, spot: CellSpot, index: number, sections: Sections): PlacedCell {
  const { cell, surface } = row;
  const along = Math.min(Math.max(spot.along, 0), surfaceLength(surface));
  const chord = chordAlong(surface, along);
  const axes = patchAxes(row, sections, { along, station: spot.station, length: cell.length, width: cell.width });
  const centre = surfacePoint(row, sections, along, Math.min(1, Math.max(0, spot.station)));
  const behind = spot.station * chord;
  const radius = sharpestBend(row, along, spot.station, sections);
  // Outwards x aft is counter-clockwise as seen from one side only.
  const outline = cellOutline(cell).map(
    ([s, c]): Vec3 => add(centre, add(scale(axes.spanwise, s), scale(axes.aft, c))),
  );
  const turned = (row.side === 'left') === (row.face === 'upper');
  return {
    row: row.name,
    index,
    surface: surface.name,
    side: row.side,
    face: row.face,
    share: cell.share,
    centre,
    normal: bodyAxes(axes.normal),
    corners: turned ? outline : outline.reverse(),
    area: cell.area,
    flatness: radius === undefined ? 1 : chordOverArc(cell.width, radius.mean),
    ...(radius === undefined ? {} : { bendRadius: radius.least }),
    flowFrom: Math.max(0, behind - cell.width / 2),
    flowTo: Math.max(0.25 * cell.width, Math.min(chord, behind + cell.width / 2)),
    chord,
    along: spot.along,
    behind,
  };
}
