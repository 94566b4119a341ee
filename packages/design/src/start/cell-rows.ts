import { CELLS, type CellName } from '../library/cells.js';
import { chordShare, DIHEDRAL, HINGE, type Layout, type Outline, USUAL_BREAK } from './airframe-text.js';

/** A row of cells on both halves of the main surface. Shares of the half span and of the chord. */
export interface NewRow {
  readonly cells: number;
  readonly from: number;
  readonly to: number;
  readonly station: number;
}

/** Room between cells along the span and along the chord [m]: a wire or a seam. */
const SPAN_GAP = 0.002;
const CHORD_GAP = 0.004;

/** Where rows begin, as a share of the half span, and where the last may end. */
const START = 0.02;
const END = 0.98;

/** Room that is left before the nose and behind the tail, as a share of the chord. */
const MARGIN = 0.01;

const pitchOf = (cell: CellName): number => CELLS[cell].length.value + SPAN_GAP;

/** Cells of a row that reaches over a share of the span of both halves. */
export const cellsAlong = (cell: CellName, outline: Outline, share: number): number =>
  2 * Math.floor((share * outline.span) / 2 / pitchOf(cell));

const rounded = (share: number): number => Math.round(1000 * share) / 1000;

/** So many cells in equal rows ahead of a chord station, which the control or the tail begins at; the chord that the outermost cell of each still has decides where they lie. */
function inRows(count: number, rows: number, tail: number, cell: CellName, layout: Layout, outline: Outline) {
  const half = outline.span / 2;
  const each = 2 * Math.ceil(count / (2 * rows));
  const end = Math.min(1, START + ((each / 2) * pitchOf(cell)) / half);
  const { width } = CELLS[cell];
  const root = outline.chord / chordShare(layout).mean;
  const narrow = root * chordShare(layout).at(end);
  const pitch = (width.value + CHORD_GAP) / narrow;
  const reach = width.value / (2 * narrow) + MARGIN;
  const span = (rows - 1) * pitch;
  const [least, most] = [reach + span / 2, tail - reach - span / 2];
  const wanted = rows === 1 ? 0.42 : 0.45;
  // Where they do not fit, they begin behind the nose and the builder is told that they reach over the tail.
  const middle = Math.max(least, Math.min(most, wanted));
  return {
    fits: least <= most && (each / 2) * pitchOf(cell) <= (END - START) * half,
    rows: Array.from({ length: rows }, (_, row): NewRow => {
      const cells = Math.max(0, Math.min(each, count - each * row));
      return {
        cells,
        from: START,
        to: Math.min(1, rounded(START + (Math.ceil(cells / 2) * pitchOf(cell)) / half)),
        station: rounded(Math.min(0.95, middle + row * pitch - span / 2)),
      };
    }).filter(({ cells }) => cells > 0),
  };
}

/** Rows that hold so many cells on the main surface, as few as fit ahead of the controls, or else of the tail; where none do, as few as the span allows. */
export function cellRows(count: number, cell: CellName, layout: Layout, outline: Outline): readonly NewRow[] {
  const inRow = Math.max(2, cellsAlong(cell, outline, END - START));
  const fewest = Math.max(1, Math.ceil(count / inRow));
  const ahead = (tail: number) => [0, 1, 2].map((more) => inRows(count, fewest + more, tail, cell, layout, outline));
  const [aheadOfHinge, aheadOfTail] = [ahead(HINGE[layout]), ahead(1)];
  return ([...aheadOfHinge, ...aheadOfTail].find(({ fits }) => fits) ?? aheadOfTail[0]!).rows;
}

/**
 * Share of the half span at which the dihedral breaks: between two cells, near the usual place, so that none is bent across it. Rows
 * count along the surface, which rises; the break is written by its distance from the middle.
 */
export function breakBetween(rows: readonly NewRow[], outline: Outline): number {
  const longest = rows.reduce<NewRow | undefined>((most, row) => (most && most.to >= row.to ? most : row), undefined);
  const count = Math.ceil((longest?.cells ?? 0) / 2);
  if (longest === undefined || longest.to < USUAL_BREAK || count < 2) return USUAL_BREAK;
  const half = outline.span / 2;
  const { inner, outer } = DIHEDRAL;
  const surface = half * (USUAL_BREAK / Math.cos(inner) + (1 - USUAL_BREAK) / Math.cos(outer));
  const first = longest.from * surface;
  const pitch = (longest.to * surface - first) / count;
  const cells = Math.round((USUAL_BREAK * half - first) / pitch);
  const found = ((first + cells * pitch) * Math.cos(inner)) / half;
  return found > 0.4 && found < 0.75 ? found : USUAL_BREAK;
}
