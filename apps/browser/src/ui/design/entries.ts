import { editDesign, type FileDocument, nodeAt, parsePath, writtenLike } from '@noonwing/design';
import type { ValueEdit } from '../../core/commands.js';
import { keysAt } from '../../core/fields.js';
import { readingOfDesign } from '../../core/reading.js';
import { childPath } from './schema.js';

export type Changed =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: string; readonly remedy: string };

const refuse = (reason: string, remedy: string): Changed => ({ ok: false, reason, remedy });

/** A name that no other entry has: 'mass', 'mass 2' ... */
export function freeName(taken: readonly string[], wanted: string): string {
  if (!taken.includes(wanted)) return wanted;
  for (let number = 2; ; number++) if (!taken.includes(`${wanted} ${number}`)) return `${wanted} ${number}`;
}

/** Why a name cannot be that of an entry; undefined where it can. */
export function nameProblem(name: string, taken: readonly string[]): string | undefined {
  const plain = name.trim();
  if (plain === '') return 'a name is needed';
  if (/[.[\]{}:#,&*!|>'"%@`]/.test(plain)) return 'letters, digits, spaces and hyphens only';
  if (taken.includes(plain)) return `there is "${plain}" already`;
  return undefined;
}

/** Kinds of entries that a builder adds, by the group that holds them. */
export const ENTRY_WORDS: readonly (readonly [group: RegExp, word: string])[] = [
  [/^surfaces$/, 'surface'],
  [/^surfaces\..+\.controls$/, 'control'],
  [/^surfaces\..+\.spars$/, 'spar'],
  [/^bodies$/, 'body'],
  [/^extra drag$/, 'extra drag'],
  [/^masses$/, 'part'],
  [/^loads$/, 'load'],
  [/^array\.rows$/, 'row'],
  [/^array\.strings$/, 'string'],
  [/^array\.converters$/, 'converter'],
];

export const entryWord = (group: string): string => ENTRY_WORDS.find(([shape]) => shape.test(group))?.[1] ?? 'entry';

/** Rows that no string has yet. */
function looseRows(text: string): readonly string[] {
  const wired = new Set(
    keysAt('design', text, 'array.strings').flatMap((name) => listTexts(text, `array.strings.${name}.rows`)),
  );
  return keysAt('design', text, 'array.rows').filter((row) => !wired.has(row));
}

/** A row that another string can spare, as each row may be in one string only: with the edit that takes it out there. */
function sparedRow(text: string): { readonly row: string; readonly edit: ValueEdit } | undefined {
  for (const name of keysAt('design', text, 'array.strings')) {
    const path = `array.strings.${name}.rows`;
    const rows = listTexts(text, path);
    if (rows.length > 1) return { row: rows.at(-1)!, edit: { path: `${path}[${rows.length}]` } };
  }
  return undefined;
}

/** Texts of a list of words. */
export function listTexts(text: string, path: string): readonly string[] {
  const node = nodeAt(readingOfDesign(text).document, parsePath(path)) as
    | { items?: readonly { value?: unknown }[] }
    | undefined;
  return (node?.items ?? []).map((item) => String(item?.value ?? ''));
}

/** Keys that say most of an entry, in this order. */
const TELLING = ['mass', 'power', 'area', 'cells', 'kind', 'length', 'like', 'topology', 'on', 'x', 'y', 'pair'];

/** An entry in one line, as the file has it: 'mass 392 g weighed, on wing'. */
export function entryBrief(text: string, group: string, name: string): string {
  const path = childPath(group, name);
  const scalar = (at: string) => {
    const node = nodeAt(readingOfDesign(text).document, parsePath(at)) as { value?: unknown } | undefined;
    return node?.value === undefined || node.value === null || typeof node.value === 'object' ? '' : String(node.value);
  };
  const own = scalar(path);
  if (own !== '') return own;
  const keys = keysAt('design', text, path);
  return TELLING.filter((key) => keys.includes(key))
    .slice(0, 3)
    .map((key) => `${key} ${scalar(`${path}.${key}`)}`)
    .join(', ');
}

/** What a new entry starts with; every number says that it is assumed. */
function startOf(text: string, group: string): readonly (readonly [key: string, value: string])[] {
  const [wing = 'wing'] = keysAt('design', text, 'surfaces');
  switch (entryWord(group)) {
    case 'surface': {
      const isFirst = keysAt('design', text, 'surfaces').length === 0;
      return [
        ['role', isFirst ? 'wing' : 'tailplane'],
        ['x', isFirst ? '0 mm' : '900 mm assumed'],
        ['stations[1].y', '0 mm'],
        ['stations[1].chord', isFirst ? '220 mm assumed' : '120 mm assumed'],
        ['stations[2].y', isFirst ? '1000 mm assumed' : '250 mm assumed'],
        ['stations[2].chord', isFirst ? '160 mm assumed' : '90 mm assumed'],
      ];
    }
    case 'spar':
      return [
        ['kind', 'tube'],
        ['material', 'carbon tube'],
        ['width', '8 mm assumed'],
        ['height', '6 mm assumed'],
        ['chord station', '30 %'],
      ];
    case 'control':
      return [
        ['kind', /tail/i.test(group) ? 'elevator' : /fin/i.test(group) ? 'rudder' : 'aileron'],
        ['hinge', '75 % assumed'],
      ];
    case 'body':
      return [
        ['length', '500 mm assumed'],
        ['diameter', '40 mm assumed'],
        ['x', '0 mm assumed'],
      ];
    case 'extra drag':
      return [['', '5 cm2 assumed']];
    case 'part':
      return [
        ['mass', '20 g assumed'],
        ['x', '0 mm assumed'],
      ];
    case 'load':
      return [['', '1 W assumed']];
    case 'row':
      return [
        ['on', wing],
        ['from', '5 %'],
        ['to', '95 %'],
        ['cells', '8'],
      ];
    case 'string':
      return looseRows(text).map((row, i) => [`rows[${i + 1}]`, row] as const);
    case 'converter':
      return [['topology', 'boost']];
    default:
      return [];
  }
}

/** Edits that add an entry under a name; empty where there is nothing that it could be made of. */
export function addEntry(text: string, group: string, name: string): readonly ValueEdit[] {
  const path = childPath(group, name);
  const start = startOf(text, group).map(([key, value]) => ({
    path: key === '' ? path : `${path}.${key}`,
    text: value,
  }));
  if (start.length > 0 || entryWord(group) !== 'string') return start;
  const spared = sparedRow(text);
  return spared === undefined ? [] : [spared.edit, { path: `${path}.rows[1]`, text: spared.row }];
}

/** Keys that name another entry: from the group that is named to the places that name it. */
export function placesNaming(text: string, group: string, name: string): readonly string[] {
  const under = (path: string) => keysAt('design', text, path).map((key) => childPath(path, key));
  const scalar = (path: string) =>
    (nodeAt(readingOfDesign(text).document, parsePath(path)) as { value?: unknown })?.value;
  const lists = (paths: readonly string[]) =>
    paths.flatMap((path) => listTexts(text, path).map((_, i) => `${path}[${i + 1}]`));
  const candidates =
    group === 'surfaces'
      ? [...under('array.rows'), ...under('masses')].map((path) => `${path}.on`)
      : group === 'bodies'
        ? under('masses').map((path) => `${path}.on`)
        : group === 'array.rows'
          ? lists(under('array.strings').map((path) => `${path}.rows`))
          : group === 'array.converters'
            ? under('array.strings').map((path) => `${path}.converter`)
            : [];
  return candidates.filter((path) => scalar(path) === name);
}

const documentOf = (text: string): FileDocument => readingOfDesign(text).document;

interface KeyNode {
  readonly value?: unknown;
  readonly range?: readonly number[] | null;
}

/** A key of the file as its text has it: where it starts and ends. */
function keyRange(document: FileDocument, group: string, name: string): readonly [number, number] | undefined {
  const node = nodeAt(document, parsePath(group)) as { items?: readonly { key?: KeyNode }[] } | undefined;
  const range = node?.items?.find(({ key }) => String(key?.value ?? '') === name)?.key?.range;
  return range === undefined || range === null ? undefined : [range[0]!, range[1]!];
}

/** The text with another name for an entry, also wherever it is named; comments and order stay. */
export function renameEntry(text: string, group: string, from: string, to: string): Changed {
  const wanted = to.trim();
  if (wanted === from) return { ok: true, text };
  const problem = nameProblem(
    wanted,
    keysAt('design', text, group).filter((key) => key !== from),
  );
  if (problem !== undefined) return refuse(problem, 'choose another name');
  let next = text;
  for (const path of placesNaming(text, group, from)) {
    const edited = editDesign(documentOf(next), path, wanted);
    if (!edited.ok) return refuse(edited.reason, edited.remedy);
    next = edited.text;
  }
  const range = keyRange(documentOf(next), group, from);
  if (range === undefined) return refuse(`there is no "${from}"`, 'look at the text of the file');
  // A name that YAML would read as a number or a word of its own is put in quotes.
  const source = /^[A-Za-z][\w -]*$/.test(wanted) && !/^(yes|no|true|false|null|on|off)$/i.test(wanted);
  return {
    ok: true,
    text: next.slice(0, range[0]) + (source ? wanted : JSON.stringify(wanted)) + next.slice(range[1]),
  };
}

/** Edits that take an entry away, with the strings' words about rows and converters; what lies on it must go first. */
export function removeEntry(
  text: string,
  group: string,
  name: string,
): { readonly ok: true; readonly edits: readonly ValueEdit[] } | { readonly ok: false; readonly reason: string } {
  const naming = placesNaming(text, group, name);
  if ((group === 'surfaces' || group === 'bodies') && naming.length > 0) {
    const parts = naming.map((path) => path.split('.').slice(0, -1).join('.'));
    return {
      ok: false,
      reason: `${parts.join(', ')} ${parts.length === 1 ? 'lies' : 'lie'} on it: move or remove first`,
    };
  }
  const itself = { path: childPath(group, name) };
  if (group !== 'array.rows') return { ok: true, edits: [itself, ...naming.map((path) => ({ path }))] };
  const strings = keysAt('design', text, 'array.strings').map((key) => `array.strings.${key}`);
  const wiring = strings.flatMap((path): readonly ValueEdit[] => {
    const rows = listTexts(text, `${path}.rows`);
    const at = rows.indexOf(name);
    if (at < 0) return [];
    return rows.length === 1 ? [{ path }] : [{ path: `${path}.rows[${at + 1}]` }];
  });
  return { ok: true, edits: [itself, ...wiring] };
}

type Items = { items: unknown[]; flow?: boolean };

/** The text with an entry put into a list before another; `item` as it is written. */
export function insertListItem(
  text: string,
  listPath: string,
  before: number,
  item: Readonly<Record<string, string>>,
): Changed {
  const yaml = documentOf(text).yaml?.clone();
  const copy = yaml === undefined ? undefined : { ...documentOf(text), yaml };
  const list = copy === undefined ? undefined : (nodeAt(copy, parsePath(listPath)) as Items | undefined);
  if (yaml === undefined || list === undefined || !Array.isArray(list.items)) {
    return refuse('there is no such list', 'correct the text of the file first');
  }
  const node = yaml.createNode(item, { flow: true });
  list.items.splice(before, 0, node);
  return { ok: true, text: writtenLike(text, yaml) };
}

/** The text with the single value of a short form written as a group, so that it can take more keys. */
export function expandShort(text: string, path: string, key: string): Changed {
  const node = nodeAt(documentOf(text), parsePath(path)) as KeyNode | undefined;
  const range = node?.range;
  if (
    range === undefined ||
    range === null ||
    node?.value === undefined ||
    node.value === null ||
    typeof node.value === 'object'
  ) {
    return refuse('there is no single value here', 'edit the keys of the group');
  }
  const [start, end] = [range[0]!, range[1]!];
  return { ok: true, text: `${text.slice(0, start)}{${key}: ${text.slice(start, end)}}${text.slice(end)}` };
}
