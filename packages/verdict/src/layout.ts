import {
  type AircraftDesign,
  type CompleteAircraft,
  type CompleteArray,
  type CompleteSurface,
  suitableTopology,
} from '@noonwing/design';
import type { Problem } from '@noonwing/engine';
import type { Edit, LeverCandidate } from './lever-edits.js';
import { type LeverReport, type LeverRequest, leverSlices } from './levers.js';
import { type Slices, whole } from './slices.js';

/** Between neighbours along the span and along the chord [m] (common practice, no source). */
const gap = 0.002;
/** Cells begin behind the sharply bent nose and end ahead of the trailing edge, shares of the chord (judgement). */
const usable = { from: 0.06, to: 0.95, beforeHinge: 0.01 };
/** First place of a cell from the root, share of the half span, and most rows tried. */
const [root, mostRows] = [0.02, 6];
/** Share of the chord left at its edges where cells lie from edge to edge. */
const edge = 0.005;
const why = 'the layout';
const percent = (share: number): string => `${Math.round(share * 1e4) / 100} %`;

/**
 * Layouts of the array on the surfaces that a design has, most energy of the day first: so many rows on the wing, whole or
 * in halves, with a row on the tail; each half wired by itself in strings that suit the battery. Each is run as a lever is:
 * cells that do not fit or bend too far refuse it, balance is restored, and its edits lead to its text.
 */
export const layouts = (request: LeverRequest): LeverReport | Problem =>
  whole(layoutSlices(request), request.onProgress);

/** The same in slices, one verdict each. */
export const layoutSlices = (request: Omit<LeverRequest, 'onProgress'>): Slices<LeverReport | Problem> =>
  leverSlices({ ...request, candidates: layoutCandidates, rank: ({ income }) => income, strict: true });

/** Evenly spread over the usable chord, kept aft where it lies flatter, or from edge to edge. */
type Kind = 'even' | 'aft' | 'edge to edge';
const kinds: readonly Kind[] = ['even', 'aft', 'edge to edge'];

/** Even rows on both halves of one surface. */
interface Block {
  readonly surface: string;
  readonly pieces: number;
  readonly kind: Kind;
  readonly rows: readonly LaidRow[];
}

interface LaidRow {
  readonly station: number;
  /** Cells, or pieces, on one half. */
  readonly cells: number;
  readonly to: number;
}

/** Layouts that fit by their measures; whether they bend or shade too much shows when they are run. */
export function layoutCandidates(
  design: AircraftDesign,
  { array, surfaces, battery }: CompleteAircraft,
): readonly LeverCandidate[] {
  if (array === undefined || design.array === undefined || design.array === 'none') return [];
  const blocks = (role: string, pieces: number): readonly Block[] =>
    surfaces
      .filter((surface) => surface.role === role && surface.mirrored)
      .flatMap((surface) =>
        kinds
          .flatMap((kind) => Array.from({ length: mostRows }, (_, n) => blockOf(surface, array, n + 1, pieces, kind)))
          .filter((block) => block !== undefined),
      );
  const wing = blocks('wing', 1);
  const halves = array.cell.mostPieces >= 2 ? blocks('wing', 2).filter(({ rows }) => rows.length % 2 === 1) : [];
  const tail = blocks('tailplane', 1).at(-1);
  const most = [...wing].sort((a, b) => cellsOf(b) - cellsOf(a))[0];
  const sets = [
    ...[...wing, ...halves].map((block) => [block]),
    ...(tail === undefined || most === undefined ? [] : [[most, tail]]),
  ];
  return sets.map((set) => candidateOf(set, design, array, (cells) => suitableTopology(cells, array.cell, battery)));
}

/** Rows spread evenly over the usable chord as far out as it is broad enough, or kept aft where it lies flatter. */
function blockOf(
  surface: CompleteSurface,
  { cell }: CompleteArray,
  rows: number,
  pieces: number,
  kind: Kind,
): Block | undefined {
  const width = cell.width.value / pieces;
  const isFull = kind === 'edge to edge';
  const hinges = surface.controls.map(({ hinge }) => hinge.value - (isFull ? 0 : usable.beforeHinge));
  const to = Math.min(isFull ? 1 - edge : usable.to, ...hinges);
  const even = (to - (isFull ? edge : usable.from)) / rows;
  const [first, last] = [surface.stations[0]!, surface.stations.at(-1)!];
  const half = last.y - first.y;
  const narrow = surface.stations.reduce((least, { chord }) => Math.min(least, chord.value), Number.MAX_VALUE);
  const close = (width + gap) / narrow;
  // Kept aft there is something to choose only where room is left.
  if (!(half > 0) || (kind === 'aft' && close > 0.95 * even)) return undefined;
  const pitch = kind === 'aft' ? close : even;
  const together = reachOf(surface, (width + gap) / pitch);
  const stations = Array.from({ length: rows }, (_, k) => to - (rows - k - 0.5) * pitch);
  // Beyond the place where they still lie side by side, one of them goes on by itself.
  const alone = stations.map((station) => reachOf(surface, width / 2 / Math.min(station - edge / 2, to - station)));
  const longest = alone.indexOf(Math.max(...alone));
  const laid = stations.map((station, k) => {
    const reach = k === longest ? Math.max(together, alone[k]!) : together;
    return rowOf(station, Math.min(1, reach), half, cell.length.value + gap, kind);
  });
  return laid.some(({ cells }) => cells < 1) ? undefined : { surface: surface.name, pieces, kind, rows: laid };
}

/** As many cells as the reach holds: shared out over it where they lie evenly, side by side from the root else. */
function rowOf(station: number, reach: number, half: number, length: number, kind: Kind): LaidRow {
  const cells = Math.floor(((reach - root) * half) / length);
  return { station, cells, to: kind === 'even' ? reach : root + (cells * length) / half };
}

/** Share of the half span up to which the chord is at least so long; 0 where it is too short at the root. */
function reachOf({ stations }: CompleteSurface, needed: number): number {
  const [first, last] = [stations[0]!, stations.at(-1)!];
  if (first.chord.value < needed) return 0;
  for (const [k, outer] of stations.entries()) {
    if (k === 0 || outer.chord.value >= needed) continue;
    const inner = stations[k - 1]!;
    const share = (inner.chord.value - needed) / (inner.chord.value - outer.chord.value);
    return (inner.y + share * (outer.y - inner.y) - first.y) / (last.y - first.y);
  }
  return 1;
}

const cellsOf = ({ rows }: Pick<Block, 'rows'>): number => rows.reduce((sum, { cells }) => sum + cells, 0);

function candidateOf(
  blocks: readonly Block[],
  design: AircraftDesign,
  array: CompleteArray,
  topologyOf: (cells: number) => string,
): LeverCandidate {
  const made = blocks.flatMap((block) =>
    [block, block].map((one, k) => blockEdits(one, k === 0 ? 'right' : 'left', array, topologyOf)),
  );
  const written = design.array === 'none' ? undefined : design.array;
  const gone = (part: 'strings' | 'rows' | 'converters') =>
    Object.keys(written?.[part] ?? {}).map((name): Edit => ({ path: `array.${part}.${name}`, why }));
  const words = blocks.map(({ surface, rows, pieces, kind }) => {
    const what = pieces === 1 ? 'cells' : 'half cells';
    return `${rows.length} ${rows.length === 1 ? 'row' : 'rows'} with ${2 * cellsOf({ rows })} ${what} on "${surface}"${kind === 'even' ? '' : kind === 'aft' ? ', kept aft' : ', from edge to edge'}`;
  });
  return {
    key: words.join(', '),
    label: words.join(', '),
    edits: [...made.flat(), ...gone('strings'), ...gone('rows'), ...gone('converters')],
  };
}

/** Rows, strings and converters of one half of a surface. */
function blockEdits(
  block: Block,
  side: 'right' | 'left',
  { cell }: CompleteArray,
  topologyOf: (cells: number) => string,
): readonly Edit[] {
  const { surface, rows, pieces } = block;
  const nameOf = (k: number) => `laid ${surface} ${side} ${k + 1}`;
  const rowEdits = rows.flatMap(({ station, cells, to }, k): Edit[] => {
    const path = `array.rows.${nameOf(k)}`;
    const cut: readonly Edit[] = pieces === 1 ? [] : [{ path: `${path}.pieces`, text: String(pieces), why }];
    return [
      { path: `${path}.on`, text: surface, why },
      { path: `${path}.side`, text: side, why },
      { path: `${path}.from`, text: percent(root), why },
      { path: `${path}.to`, text: percent(Math.min(1, to)), why },
      { path: `${path}.chord station`, text: percent(station), why },
      { path: `${path}.cells`, text: String(cells), why },
      ...cut,
    ];
  });
  const power = cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
  const stringEdits = inSeries(rows, topologyOf).map((own) => {
    const cells = own.reduce((sum, k) => sum + rows[k]!.cells, 0);
    const name = nameOf(own[0]!);
    const path = `array.strings.${name}`;
    const converter = `array.converters.${name}`;
    return [
      ...own.map((k, n): Edit => ({ path: `${path}.rows[${n + 1}]`, text: nameOf(k), why })),
      { path: `${path}.converter`, text: name, why },
      { path: `${converter}.topology`, text: topologyOf(cells), why },
      { path: `${converter}.rated power`, text: `${Math.ceil((1.15 * cells * power) / pieces)} W`, why },
    ];
  });
  return [...rowEdits, ...stringEdits.flat()];
}

/** Rows that share a string: as many as leave it the topology of the first of them. */
function inSeries(rows: readonly LaidRow[], topologyOf: (cells: number) => string): readonly (readonly number[])[] {
  const strings: number[][] = [];
  let cells = 0;
  for (const [k, row] of rows.entries()) {
    const own = strings.at(-1);
    const first = own === undefined ? undefined : topologyOf(rows[own[0]!]!.cells);
    if (own !== undefined && topologyOf(cells + row.cells) === first) {
      own.push(k);
      cells += row.cells;
    } else {
      strings.push([k]);
      cells = row.cells;
    }
  }
  return strings;
}
