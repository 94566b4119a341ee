import {
  type AircraftDesign,
  type CompleteAircraft,
  type CompleteArray,
  type CompleteSurface,
  completeDesign,
  readDesign,
  suitableTopology,
} from '@noonwing/design';
import type { Problem } from '@noonwing/engine';
import { centralVerdict, type Verdict } from './central.js';
import type { Edit, LeverCandidate } from './lever-edits.js';
import { leftHalf } from './lever-strings.js';
import { applyEdits, type LeverFigures, type LeverReport, type LeverRequest, leverSlices } from './levers.js';
import { type Slices, whole } from './slices.js';
import { builtKey, countWords, splitKey, splitWords } from './split-words.js';
import { shareUnchanged } from './stages.js';
import { type Half, type StringSplit, stringSplits } from './string-split.js';

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
 * Layouts of the array, most energy of the day first, the design as it is among them, so that the first is never worse: its own
 * cells in other strings, and cells laid anew on the surfaces that it has (so many rows on the wing, whole or in halves, with a row
 * on the tail, or one more there), each in the strings that give most. Each is run as a lever is: cells that do not fit or bend too
 * far refuse it, balance is restored, and its edits lead to its text.
 */
export const layouts = (request: LeverRequest): LeverReport | Problem =>
  whole(layoutSlices(request), request.onProgress);

/** Share of the work that the search takes before the best are run as levers, as a guess. */
const searchShare = 0.4;

/** The same in slices, one verdict each. */
export function* layoutSlices(request: Omit<LeverRequest, 'onProgress'>): Slices<LeverReport | Problem> {
  const found = yield* within(searchLayouts(request), 0, searchShare);
  const asked = { ...request, candidates: () => found, rank: byEnergy, strict: true };
  return yield* within(leverSlices(asked), searchShare, 1);
}

/** By energy; 0.2 % of it, which a converter more or less moves, weigh as much as 2 % of the solar ratio, what carries the aircraft. */
const byEnergy = ({ income, solarRatio }: LeverFigures): number =>
  Math.log(Math.max(income, 1)) / 0.002 + Math.log(Math.max(solarRatio, 0.01)) / 0.02;

/** Slices of a part of the work. */
function* within<T>(slices: Slices<T>, from: number, to: number): Slices<T> {
  for (;;) {
    const next = slices.next();
    if (next.done === true) return next.value;
    yield from + (to - from) * next.value;
  }
}

/** Cells that are laid anew are looked at where there are at least so many of the most, and run where they are the best few. */
const [looked, fewest, run] = [8, 0.75, 4];

/** The best layouts by the light on every cell, not yet balanced; the design as it is first. */
function* searchLayouts({
  designText,
  plan,
  files,
  stages,
  sky = 0,
}: Omit<LeverRequest, 'onProgress'>): Slices<readonly LeverCandidate[]> {
  const { design } = readDesign(designText);
  if (design?.array === undefined || design.array === 'none') return [];
  const { aircraft } = completeDesign(design);
  const base = centralVerdict(aircraft, plan, files, stages);
  const sets = layoutRows(aircraft);
  yield 1 / (sets.length + 1);
  const built = stringSplits(base, sky);
  const fits = findingsOf(base);
  const laid: { readonly energy: number; readonly candidate: LeverCandidate }[] = [];
  for (const [k, set] of sets.entries()) {
    const edited = applyEdits(designText, [...set.edits, ...ownStrings(set.added), ...goneOf(design, set)]);
    const read = 'ok' in edited ? undefined : readDesign(edited.text).design;
    if (read !== undefined) {
      const next = completeDesign(read).aircraft;
      const result = centralVerdict(shareUnchanged(aircraft, next), plan, files, stages);
      const best = stringSplits(result, sky)?.best[0];
      const isTight = [...findingsOf(result)].some((code) => code === 'cells-do-not-fit' || !fits.has(code));
      if (best !== undefined && !isTight)
        laid.push({ energy: best.energy, candidate: candidateOf(set, best, design, next) });
    }
    yield (k + 2) / (sets.length + 1);
  }
  const own = { words: 'cells as they lie', edits: [], added: [], replaces: false };
  const strung = [...(built?.best ?? []), ...(built?.naive === undefined ? [] : [built.naive])];
  const isBuilt = (split: StringSplit) => splitKey(split) === builtKey(aircraft);
  const restrung = strung
    .filter((split) => !isBuilt(split))
    .map((split) =>
      candidateOf(own, split, design, aircraft, split === built?.naive ? 'all in one string' : undefined),
    );
  return [
    { key: 'as built', label: 'as built', edits: [] },
    ...restrung.filter(({ label }, k) => restrung.findIndex((other) => other.label === label) === k),
    ...laid
      .sort((a, b) => b.energy - a.energy)
      .slice(0, run)
      .map(({ candidate }) => candidate),
  ];
}

/** Findings about cells. */
const findingsOf = ({ warnings }: Verdict): ReadonlySet<string> =>
  new Set(warnings.map(({ code }) => code).filter((code) => code.startsWith('cells-')));

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

/** Rows that take the place of those of a design, or come to them. */
export interface RowSet {
  readonly words: string;
  readonly edits: readonly Edit[];
  /** Names of the rows that they make. */
  readonly added: readonly string[];
  readonly replaces: boolean;
}

/** Sets of rows that fit by their measures, most cells first; whether they bend or shade too much shows when they are run. */
export function layoutRows({ array, surfaces }: CompleteAircraft): readonly RowSet[] {
  if (array === undefined) return [];
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
  const most = [...wing].sort((a, b) => wholeCells([b]) - wholeCells([a]))[0];
  const sets: (readonly Block[])[] = [...wing, ...halves].map((block) => [block]);
  if (tail !== undefined && most !== undefined) sets.push([most, tail]);
  sets.sort((a, b) => wholeCells(b) - wholeCells(a));
  const least = fewest * wholeCells(sets[0] ?? []);
  const tailIsFree = tail !== undefined && array.rows.every(({ on }) => on !== tail.surface);
  return [
    ...(tailIsFree ? [rowSetOf([tail], false)] : []),
    ...sets
      .filter((set) => wholeCells(set) >= least)
      .slice(0, looked)
      .map((set) => rowSetOf(set, true)),
  ];
}

const wholeCells = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, block) => sum + (2 * cellsOf(block)) / block.pieces, 0);

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

function rowSetOf(blocks: readonly Block[], replaces: boolean): RowSet {
  const words = blocks.map(({ surface, rows, pieces, kind }) => {
    const what = pieces === 1 ? 'cells' : 'half cells';
    return `${rows.length} ${rows.length === 1 ? 'row' : 'rows'} with ${2 * cellsOf({ rows })} ${what} on "${surface}"${kind === 'even' ? '' : kind === 'aft' ? ', kept aft' : ', from edge to edge'}`;
  });
  const made = blocks.flatMap((block) => [rowEdits(block, 'right'), rowEdits(block, 'left')]);
  return {
    words: `${replaces ? '' : 'as built, and '}${words.join(', ')}`,
    edits: made.flatMap(({ edits }) => edits),
    added: made.flatMap(({ names }) => names),
    replaces,
  };
}

/** Rows of one half of a surface. */
function rowEdits({ surface, rows, pieces }: Block, side: 'right' | 'left') {
  const nameOf = (k: number) => `laid ${surface} ${side} ${k + 1}`;
  const edits = rows.flatMap(({ station, cells, to }, k): Edit[] => {
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
  return { edits, names: rows.map((_, k) => nameOf(k)) };
}

/** A string for every new row, until the best strings of them are known. */
const ownStrings = (rows: readonly string[]): readonly Edit[] =>
  rows.map((row): Edit => ({ path: `array.strings.${row}.rows[1]`, text: row, why }));

/** What of a design goes when rows take the place of its own. */
const goneOf = (design: AircraftDesign, { replaces }: RowSet): readonly Edit[] =>
  replaces ? (['strings', 'rows', 'converters'] as const).flatMap((part) => removed(design, part)) : [];

function removed({ array }: AircraftDesign, part: 'strings' | 'rows' | 'converters'): readonly Edit[] {
  const written = array === undefined || array === 'none' ? {} : (array[part] ?? {});
  return Object.keys(written).map((name): Edit => ({ path: `array.${part}.${name}`, why }));
}

/** Rows with their strings as edits of a design; `complete` is the design with those rows. */
function candidateOf(
  set: RowSet,
  split: StringSplit,
  design: AircraftDesign,
  { array, battery }: CompleteAircraft,
  said = set.replaces ? countWords(split) : splitWords(split),
): LeverCandidate {
  const rows = array!.rows;
  const made = split.feeds.flat();
  const cut = rows.filter(({ name }) => made.some((halves) => halves.filter((h) => h.row === name).length === 1));
  const halved = cut.filter(
    ({ side }) => side === 'both' && made.some((halves) => halves.some((h) => h.side !== 'both')),
  );
  const names = new Map(
    halved.map((row) => [
      row.name,
      `${row.name} ${rows.some(({ name }) => name === `${row.name} left`) ? 'left half' : 'left'}`,
    ]),
  );
  const cuts = halved.flatMap((row) =>
    row.cells % 2 === 0 ? leftHalf(row, names.get(row.name)!).map((edit) => ({ ...edit, why })) : [],
  );
  const taken = [...array!.strings, ...array!.converters].map(({ name }) => name);
  const prefix = ['string', 'laid string', 'new string'].find((one) => !taken.some((name) => name.startsWith(one)))!;
  const nameOf = (halves: readonly Half[]) => `${prefix} ${made.indexOf(halves) + 1}`;
  const strings = split.feeds.flatMap((feed) => {
    const converter = nameOf(feed[0]!);
    const piecesOf = (halves: readonly Half[]) => rows.find(({ name }) => name === halves[0]!.row)?.pieces ?? 1;
    const size = { cells: cellsIn(feed[0]!), all: cellsIn(feed.flat()), pieces: piecesOf(feed[0]!) };
    return [
      ...feed.flatMap((halves) => {
        const held = [...new Set(halves.map(({ row, side }) => (side === 'left' ? (names.get(row) ?? row) : row)))];
        return stringEdits(nameOf(halves), held, converter, array!);
      }),
      ...converterEdits(converter, size, design, { array: array!, battery }),
    ];
  });
  const label = `${set.words}, ${said}`;
  const gone = set.replaces ? goneOf(design, set) : [...removed(design, 'strings'), ...removed(design, 'converters')];
  return { key: `${label}: ${splitKey(split)}`, label, edits: [...set.edits, ...cuts, ...strings, ...gone] };
}

const cellsIn = (halves: readonly Half[]): number => halves.reduce((sum, { cells }) => sum + cells.length, 0);

function stringEdits(
  name: string,
  rows: readonly string[],
  converter: string,
  { strings }: CompleteArray,
): readonly Edit[] {
  const path = `array.strings.${name}`;
  const perDiode = strings[0]?.cellsPerDiode;
  return [
    ...rows.map((row, n): Edit => ({ path: `${path}.rows[${n + 1}]`, text: row, why })),
    ...(perDiode === undefined ? [] : [{ path: `${path}.cells per diode`, text: String(perDiode), why }]),
    { path: `${path}.converter`, text: converter, why },
  ];
}

/**
 * A converter: like one of the design where that suits, with its weight where it is stated.
 * @param size - cells of one string on it, of all, and pieces that a cell is cut into
 */
function converterEdits(
  name: string,
  { cells, all, pieces }: { readonly cells: number; readonly all: number; readonly pieces: number },
  design: AircraftDesign,
  { array, battery }: { readonly array: CompleteArray; readonly battery: CompleteAircraft['battery'] },
): readonly Edit[] {
  const { cell } = array;
  const path = `array.converters.${name}`;
  const topology = suitableTopology(cells, cell, battery);
  const power = Math.ceil((1.15 * all * cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value) / pieces);
  const written = design.array === undefined || design.array === 'none' ? {} : (design.array.converters ?? {});
  const own = array.converters.find((one) => one.topology === topology && one.name in written);
  const stated = own === undefined ? undefined : written[own.name];
  const rating = Math.max(power, own?.ratedPower.value ?? 0);
  // A converter for more power is heavier in proportion (watts per gram are what sheets of one kind share).
  const larger = own === undefined ? 1 : rating / Math.max(own.ratedPower.value, 1);
  const mass = stated?.mass?.value ?? (larger > 1 ? own?.mass.value : undefined);
  const grams = mass === undefined ? undefined : `${Math.round(1e4 * mass * larger) / 10} g`;
  return [
    ...(stated?.like === undefined
      ? [{ path: `${path}.topology`, text: topology, why }]
      : [{ path: `${path}.like`, text: stated.like, why }]),
    { path: `${path}.rated power`, text: `${Math.round(rating)} W`, why },
    ...(grams === undefined ? [] : [{ path: `${path}.mass`, text: grams, why }]),
  ];
}
