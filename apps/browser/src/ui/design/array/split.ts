import type { CompleteArray, CompleteConverter, CompleteRow } from '@noonwing/design';
import { converterLike, rowLike } from '@noonwing/verdict/lever-strings';
import type { ValueEdit } from '../../../core/commands.js';
import { keysAt } from '../../../core/fields.js';
import { freeName } from '../entries.js';

/** A cell by its row: place from 0 at the root, on its side; on both faces those above come first. */
export interface CellPlace {
  readonly row: string;
  readonly side: 'right' | 'left';
  readonly place: number;
}

export interface SplitTarget {
  readonly string: string;
  /** For a string that is not there yet: one of the converters, or undefined for a new one like that of the first cells. */
  readonly converter?: string;
}

export type Split =
  | { readonly ok: true; readonly edits: readonly ValueEdit[] }
  | { readonly ok: false; readonly reason: string };

/** A stretch of a row that goes to one string. */
interface Piece {
  readonly side: CompleteRow['side'];
  readonly face: CompleteRow['face'];
  readonly from: number;
  readonly to: number;
  readonly cells: number;
  readonly given: boolean;
}

interface NamedPiece extends Piece {
  readonly name: string;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Stretches of neighbours that are all given or all kept. */
function runs(
  given: readonly boolean[],
): readonly { readonly start: number; readonly end: number; readonly given: boolean }[] {
  const found: { start: number; end: number; given: boolean }[] = [];
  for (const [k, isGiven] of given.entries()) {
    const last = found.at(-1);
    if (last?.given === isGiven) last.end = k + 1;
    else found.push({ start: k, end: k + 1, given: isGiven });
  }
  return found;
}

/** Which cells of a row are given, from the root. */
interface Given {
  readonly right: readonly boolean[];
  readonly left: readonly boolean[];
}

const sameFlags = (a: readonly boolean[], b: readonly boolean[]): boolean =>
  a.length === b.length && a.every((flag, k) => flag === b[k]);

/** The row in stretches; on both faces each face by itself, unless the same of both is given. Cells stay where they lie. */
function piecesOf(row: CompleteRow, given: Given): readonly Piece[] {
  if (row.face !== 'both') return onFace(row, given, row.face);
  const part = (flags: readonly boolean[], face: 'upper' | 'lower') => {
    const above = Math.ceil(flags.length / 2);
    return face === 'upper' ? flags.slice(0, above) : flags.slice(above);
  };
  const on = (face: 'upper' | 'lower'): Given => ({ right: part(given.right, face), left: part(given.left, face) });
  const [upper, lower] = [on('upper'), on('lower')];
  const all = [...given.right, ...given.left];
  if (all.every((flag) => flag === all[0])) {
    const { from, to, side, face, cells } = row;
    return [{ side, face, from, to, cells, given: all[0] === true }];
  }
  if (!sameFlags(upper.right, lower.right) || !sameFlags(upper.left, lower.left)) {
    return [...onFace(row, upper, 'upper'), ...onFace(row, lower, 'lower')].filter(({ cells }) => cells > 0);
  }
  return onFace(row, upper, 'both').map((piece) => ({ ...piece, cells: 2 * piece.cells }));
}

/** The cells of a row on one face in stretches; both halves together where the same of both is given. */
function onFace(row: CompleteRow, { right, left }: Given, face: CompleteRow['face']): readonly Piece[] {
  const pieces = (flags: readonly boolean[], side: CompleteRow['side'], times: number) =>
    runs(flags).map(({ start, end, given: isGiven }): Piece => {
      const pitch = (row.to - row.from) / flags.length;
      return {
        side,
        face,
        from: row.from + pitch * start,
        to: row.from + pitch * end,
        cells: times * (end - start),
        given: isGiven,
      };
    });
  if (row.side === 'both' && left.length > 0) {
    if (sameFlags(right, left)) return pieces(right, 'both', 2);
    return [...pieces(right, 'right', 1), ...pieces(left, 'left', 1)];
  }
  return right.length > 0 ? pieces(right, row.side, 1) : pieces(left, row.side, 1);
}

/** Why a row can not be cut there; undefined where it can. */
function uncuttable(row: CompleteRow, pieces: readonly Piece[]): string | undefined {
  if (pieces.length < 2) return undefined;
  if (row.places !== undefined) return `the row "${row.name}" names its cells one by one: move their places by hand`;
  const inside = pieces.some(({ from, to }) => to - from < (row.to - row.from) * (1 - 1e-9));
  return row.gap !== undefined && inside
    ? `the row "${row.name}" states the gap between its cells: give whole halves or faces of it, or take the gap out first`
    : undefined;
}

/** The first kept stretch keeps the name of the row; where none is kept, the first given one. */
function named(row: CompleteRow, pieces: readonly Piece[], taken: string[]): readonly NamedPiece[] {
  const heir = Math.max(
    0,
    pieces.findIndex(({ given }) => !given),
  );
  return pieces.map((piece, k) => {
    if (k === heir) return { ...piece, name: row.name };
    const words = [row.name, ...(piece.side === row.side ? [] : [piece.side])];
    const name = freeName(taken, [...words, ...(piece.face === row.face ? [] : [piece.face])].join(' '));
    taken.push(name);
    return { ...piece, name };
  });
}

const valueEdits = (edits: ReturnType<typeof rowLike>): readonly ValueEdit[] =>
  edits.map(({ path, text = '' }) => ({ path, text }));

const percent = (share: number): string => `${Number((100 * share).toFixed(4))} %`;

function rowEdits(row: CompleteRow, pieces: readonly NamedPiece[]): readonly ValueEdit[] {
  if (pieces.length === 1) return [];
  return pieces.flatMap(({ name, side, face, from, to, cells }) => {
    const path = `array.rows.${name}`;
    const place = [
      { path: `${path}.from`, text: percent(from) },
      { path: `${path}.to`, text: percent(to) },
      { path: `${path}.cells`, text: String(cells) },
    ];
    if (name === row.name) {
      return [
        ...(side === row.side ? [] : [{ path: `${path}.side`, text: side }]),
        ...(face === row.face ? [] : [{ path: `${path}.face`, text: face }]),
        ...place,
      ];
    }
    return [...valueEdits(rowLike(name, { ...row, face })), { path: `${path}.side`, text: side }, ...place];
  });
}

/** Edits that make a list of rows another one. */
function listEdits(path: string, before: readonly string[], after: readonly string[]): readonly ValueEdit[] {
  if (after.length === 0) return before.length === 0 ? [] : [{ path: path.replace(/\.rows$/, '') }];
  const changed = after.flatMap((name, k) => (before[k] === name ? [] : [{ path: `${path}[${k + 1}]`, text: name }]));
  const dropped = before.slice(after.length).map((_, k) => ({ path: `${path}[${before.length - k}]` }));
  return [...changed, ...dropped];
}

const converterEdits = (name: string, like: CompleteConverter | undefined, share: number): readonly ValueEdit[] =>
  valueEdits(converterLike(name, like, share));

/**
 * Edits that give cells to a string. Rows are cut where the cells begin and end; every cell stays where it lies.
 *
 * @param text - of the design file, to know what it writes out
 * @param array - the same, completed
 * @param given - the cells; those that the string has already are left out
 * @param sides - cells of each row on each side, as they are laid
 */
export function splitEdits(
  text: string,
  array: CompleteArray,
  given: readonly CellPlace[],
  target: SplitTarget,
  sides: (row: string, side: 'right' | 'left') => number,
): Split {
  const goal = array.strings.find(({ name }) => name === target.string);
  const wanted = given.filter(({ row }) => !(goal?.rows.includes(row) ?? false));
  if (wanted.length === 0) {
    return {
      ok: false,
      reason: given.length === 0 ? 'no cell is marked' : `the string "${target.string}" has these cells already`,
    };
  }
  const taken = array.rows.map(({ name }) => name);
  const cut = new Map<string, readonly NamedPiece[]>();
  for (const row of array.rows) {
    const flags = (side: 'right' | 'left') =>
      Array.from({ length: sides(row.name, side) }, (_, k) =>
        wanted.some((cell) => cell.row === row.name && cell.side === side && cell.place === k),
      );
    const both = { right: flags('right'), left: flags('left') };
    if (![...both.right, ...both.left].includes(true)) continue;
    const pieces = piecesOf(row, both);
    const why = uncuttable(row, pieces);
    if (why !== undefined) return { ok: false, reason: why };
    cut.set(row.name, named(row, pieces, taken));
  }
  const numbered = array.strings.find(
    ({ name, rows, diodes, cracked }) =>
      (name === target.string || rows.some((row) => cut.has(row))) && (diodes !== undefined || cracked !== undefined),
  );
  if (numbered !== undefined) {
    return {
      ok: false,
      reason: `the string "${numbered.name}" names diodes or cracked cells by their number, which would change: take those out first`,
    };
  }
  return wiredEdits(text, array, cut, target);
}

function wiredEdits(
  text: string,
  array: CompleteArray,
  cut: ReadonlyMap<string, readonly NamedPiece[]>,
  target: SplitTarget,
): Split {
  const goal = array.strings.find(({ name }) => name === target.string);
  const named = (rows: readonly string[], given: boolean) =>
    rows.flatMap(
      (row) =>
        cut
          .get(row)
          ?.filter((piece) => piece.given === given)
          .map(({ name }) => name) ?? [],
    );
  const counts = new Map(array.rows.map(({ name, cells }) => [name, cells]));
  for (const piece of [...cut.values()].flat()) counts.set(piece.name, piece.cells);
  const cellsOf = (rows: readonly string[]) => sum(rows.map((row) => counts.get(row) ?? 0));
  const donor = array.strings.find(({ rows }) => rows.some((row) => cut.has(row)));
  const written = keysAt('design', text, 'array.strings').length > 0;
  const strings = array.strings.map((string) => ({
    string,
    rows:
      string.name === target.string
        ? [...string.rows, ...named([...cut.keys()], true)]
        : string.rows.flatMap((row) => (cut.has(row) ? named([row], false) : [row])),
  }));
  for (const { string, rows } of strings) {
    if (cellsOf(rows) % string.parallel !== 0) {
      return {
        ok: false,
        reason: `the string "${string.name}" lies ${string.parallel} times side by side: ${cellsOf(rows)} cells cannot be shared out evenly`,
      };
    }
  }
  const fresh = goal === undefined ? named([...cut.keys()], true) : [];
  const edits = [
    ...array.rows.flatMap((row) => (cut.has(row.name) ? rowEdits(row, cut.get(row.name)!) : [])),
    ...(goal === undefined
      ? newString(
          text,
          array,
          target,
          fresh,
          donor?.converter,
          cellsOf(fresh) / Math.max(1, cellsOf(donor?.rows ?? []) + cellsOf(fresh)),
        )
      : []),
    ...strings.flatMap(({ string, rows }) =>
      listEdits(`array.strings.${string.name}.rows`, written ? string.rows : [], rows),
    ),
  ];
  return { ok: true, edits: [...edits, ...idleConverters(text, array, strings, target)] };
}

/** A string that is not there yet, with its converter. */
function newString(
  text: string,
  array: CompleteArray,
  target: SplitTarget,
  rows: readonly string[],
  donor: string | undefined,
  share: number,
): readonly ValueEdit[] {
  const path = `array.strings.${target.string}`;
  const like = array.converters.find(({ name }) => name === (target.converter ?? donor));
  const unwritten = keysAt('design', text, 'array.converters').length === 0;
  const own = target.converter === undefined;
  const name = own
    ? freeName(
        array.converters.map((one) => one.name),
        target.string,
      )
    : target.converter!;
  return [
    ...listEdits(`${path}.rows`, [], rows),
    { path: `${path}.converter`, text: name },
    ...(unwritten && like !== undefined && (own || target.converter === like.name)
      ? converterEdits(like.name, like, 1)
      : []),
    ...(own ? converterEdits(name, like, share) : []),
  ];
}

/** Converters that no string feeds any more go with the last of them. */
function idleConverters(
  text: string,
  array: CompleteArray,
  strings: readonly { readonly string: CompleteArray['strings'][number]; readonly rows: readonly string[] }[],
  target: SplitTarget,
): readonly ValueEdit[] {
  const written = keysAt('design', text, 'array.converters');
  const fed = strings.filter(({ rows }) => rows.length > 0).map(({ string }) => string.converter);
  const emptied = strings.filter(({ rows }) => rows.length === 0).map(({ string }) => string.converter);
  return [...new Set(emptied)]
    .filter((name) => !fed.includes(name) && name !== target.converter && written.includes(name))
    .filter((name) => array.converters.length > 1 || name !== array.converters[0]?.name)
    .map((name) => ({ path: `array.converters.${name}` }));
}
