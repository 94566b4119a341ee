import { type Message, nodeAt } from '@noonwing/design';
import { parseDate, parseInstant, parsePlace, parseQuantity } from '@noonwing/quantities';
import type { ValueEdit } from '../../core/commands.js';
import { withUnit } from '../../core/field-input.js';
import { fileSpelling } from '../../core/field-text.js';
import { readingOfDesign, sentenceOf } from '../../core/reading.js';
import { type RecordKey, type RecordKind, type RecordWhat, recordKinds } from './kinds.js';

/** What was typed, by key. */
export type Draft = Readonly<Record<string, string>>;

/** A record as the file has it. */
export interface FileRecord {
  /** From 0. */
  readonly index: number;
  readonly what: string;
  readonly isUsed: boolean;
  /** Only the last record in use of each kind is computed with. */
  readonly counts: boolean;
  /** Texts by key, spelled as in `recordKinds`. */
  readonly values: Draft;
}

const plainKey = (key: string): string => key.toLowerCase().replace(/[\s_-]/g, '');

const spelled = (what: string, key: string): string => {
  const known = recordKinds.find((kind) => kind.what === what)?.keys.find((one) => plainKey(one.key) === plainKey(key));
  return known?.key ?? key;
};

interface MapNode {
  readonly items?: readonly {
    readonly key?: { readonly value?: unknown };
    readonly value?: { readonly value?: unknown; readonly source?: string } | null;
  }[];
}

const textOf = (node: { readonly value?: unknown; readonly source?: string } | null | undefined): string =>
  node === null || node === undefined || typeof node.value === 'object'
    ? ''
    : typeof node.value === 'string'
      ? node.value.trim()
      : (node.source ?? String(node.value ?? ''));

/** Whether a later record takes the place of an earlier one: strips of two materials stand beside each other. */
const alike = (a: Pick<FileRecord, 'what' | 'values'>, b: Pick<FileRecord, 'what' | 'values'>): boolean =>
  a.what === b.what && (a.what !== 'strip bend' || a.values.material === b.values.material);

/** Every record of a design text, in its order. */
export function recordsOf(design: string): readonly FileRecord[] {
  const list = nodeAt(readingOfDesign(design).document, ['measured']) as { items?: readonly MapNode[] } | undefined;
  const found = (list?.items ?? []).map((item, index) => {
    const pairs = (item.items ?? []).map(({ key, value }) => [String(key?.value ?? ''), textOf(value)] as const);
    const what = pairs.find(([key]) => key === 'what')?.[1] ?? '';
    const use = pairs.find(([key]) => key === 'use')?.[1] ?? '';
    const values = Object.fromEntries(
      pairs.filter(([key]) => key !== 'what' && key !== 'use').map(([key, text]) => [spelled(what, key), text]),
    );
    return { index, what, isUsed: !/^(no|false|off)$/i.test(use), values };
  });
  return found.map((record) => ({
    ...record,
    counts: record.isUsed && !found.some((later) => later.index > record.index && alike(later, record) && later.isUsed),
  }));
}

/** One typed value as the file should hold it, or what is wrong with it. */
export type TypedValue =
  | { readonly ok: true; readonly text: string; readonly value?: number; readonly sigma?: number }
  | { readonly ok: false; readonly problem: string };

export function typedValue(key: RecordKey, typed: string, unit = key.unit ?? ''): TypedValue {
  const text = typed.trim();
  if (text === '') return key.needed ? { ok: false, problem: `${key.label} is needed.` } : { ok: true, text: '' };
  if (key.notation !== undefined) return notation(key.notation, text);
  if (key.kinds === undefined) return { ok: true, text };
  const complete = fileSpelling('design', `measured[1].${key.key}`, withUnit(text, unit));
  const read = parseQuantity(complete, key.kinds);
  if (!read.ok) return { ok: false, problem: `${read.expected}. ${read.hint}` };
  return { ok: true, text: complete, value: read.value, ...(read.sigma === undefined ? {} : { sigma: read.sigma }) };
}

function notation(kind: NonNullable<RecordKey['notation']>, text: string): TypedValue {
  const read = kind === 'instant' ? parseInstant(text) : kind === 'date' ? parseDate(text) : parsePlace(text);
  return read.ok ? { ok: true, text } : { ok: false, problem: `Expected ${read.expected}. ${read.hint}` };
}

/** Texts that YAML would read as something else get quotes. */
const asYaml = (text: string): string =>
  /^[\p{L}\d+−-][\p{L}\d .,±°/%+()−'-]*$/u.test(text) &&
  !/^(yes|no|true|false|on|off|null|~)$/i.test(text) &&
  !/[,-]$/.test(text)
    ? text
    : /^\d{4}-\d\d-\d\dT[\d:]+(?:\.\d+)?(?:Z|[+-]\d\d:?\d\d)$/.test(text)
      ? text
      : JSON.stringify(text);

/** Lines of a record for the file; keys in the order of its kind, empty ones left out. */
export function recordLines(what: RecordWhat, values: Draft, keys: readonly RecordKey[]): readonly string[] {
  const written = keys.flatMap(({ key }) => {
    const text = values[key]?.trim() ?? '';
    return text === '' ? [] : [`${key}: ${asYaml(text)}`];
  });
  return [`- what: ${what}`, ...written.map((line) => `  ${line}`)];
}

export type NewText = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string };

/** Lines of the list of records: where it stands, and its entries. */
interface ListPlace {
  readonly lines: readonly string[];
  /** Line of 'measured:'. */
  readonly head: number;
  /** First line after the list. */
  readonly end: number;
  readonly indent: string;
  /** First lines of the entries. */
  readonly entries: readonly number[];
}

/** The list where it is written one entry to a line; undefined where it is not there or written otherwise. */
function listPlace(design: string): ListPlace | undefined {
  const lines = design.split('\n');
  const head = lines.findIndex((line) => /^measured\s*:\s*(#.*)?$/.test(line.trimEnd()));
  if (head < 0) return undefined;
  let end = head + 1;
  for (let i = head + 1; i < lines.length; i++) {
    const line = lines[i]!;
    if (line.trim() === '') continue;
    if (/^(\s|-)/.test(line)) end = i + 1;
    else if (!line.startsWith('#')) break;
  }
  const first = lines.slice(head + 1, end).find((line) => /^\s*-/.test(line));
  const indent = first === undefined ? '  ' : /^\s*/.exec(first)![0];
  const entries = lines.flatMap((line, i) => (i > head && i < end && line.startsWith(`${indent}-`) ? [i] : []));
  return { lines, head, end, indent, entries };
}

/** The design with one more record; every other character stays. */
export function withRecord(design: string, lines: readonly string[]): NewText {
  const place = listPlace(design);
  const count = recordsOf(design).length;
  if (place === undefined && count > 0) {
    return { ok: false, reason: 'the list of records is written in one line: add this one in the text of the file' };
  }
  const text =
    place === undefined
      ? `${design.trimEnd()}\n\nmeasured:\n${lines.map((line) => `  ${line}`).join('\n')}\n`
      : [
          ...place.lines.slice(0, place.end),
          ...lines.map((line) => place.indent + line),
          ...place.lines.slice(place.end),
        ].join('\n');
  return checked(design, text, count + 1);
}

/** The design without a record; undefined lines go with it, comments elsewhere stay. */
export function withoutRecord(design: string, index: number): NewText {
  const place = listPlace(design);
  const count = recordsOf(design).length;
  if (place === undefined || place.entries.length !== count) {
    return {
      ok: false,
      reason: 'the list of records is written in one line: take this one away in the text of the file',
    };
  }
  const from = count === 1 ? place.head : place.entries[index]!;
  const to = count === 1 ? place.end : (place.entries[index + 1] ?? place.end);
  const text = [...place.lines.slice(0, from), ...place.lines.slice(to)].join('\n');
  return checked(design, count === 1 ? `${text.trimEnd()}\n` : text, count - 1);
}

const errorsOf = (messages: readonly Message[]): readonly Message[] =>
  messages.filter(({ severity }) => severity === 'error');

/** A changed text is taken only where the file can still be read and holds as many records as it should. */
function checked(before: string, after: string, count: number): NewText {
  const known = new Set(errorsOf(readingOfDesign(before).messages).map(({ path, found }) => `${path} ${found}`));
  const error = errorsOf(readingOfDesign(after).messages).find(({ path, found }) => !known.has(`${path} ${found}`));
  if (error !== undefined) return { ok: false, reason: sentenceOf(error) };
  return recordsOf(after).length === count
    ? { ok: true, text: after }
    : { ok: false, reason: 'the list of records cannot be changed here: edit the text of the file' };
}

/** Edits that bring a record of the file to what was typed; only what differs. */
export function recordEdits(record: FileRecord, values: Draft, keys: readonly RecordKey[]): readonly ValueEdit[] {
  return keys.flatMap(({ key }) => {
    const [before, after] = [record.values[key] ?? '', values[key]?.trim() ?? ''];
    if (before === after) return [];
    const path = `measured[${record.index + 1}].${key}`;
    return after === '' ? [{ path }] : [{ path, text: after }];
  });
}

/** Edit that switches a record on or off. */
export const switchEdit = (record: FileRecord): ValueEdit =>
  record.isUsed
    ? { path: `measured[${record.index + 1}].use`, text: 'no' }
    : { path: `measured[${record.index + 1}].use` };

/** All typed values as the file should hold them, or the problems by key. */
export function readDraft(
  kind: RecordKind,
  draft: Draft,
  unitOf: (key: RecordKey) => string = ({ unit = '' }) => unit,
): { readonly ok: boolean; readonly values: Draft; readonly problems: Draft } {
  const values: Record<string, string> = {};
  const problems: Record<string, string> = {};
  for (const key of kind.keys) {
    const read = typedValue(key, draft[key.key] ?? '', unitOf(key));
    if (!read.ok) problems[key.key] = read.problem;
    else if (read.text !== '') values[key.key] = read.text;
  }
  return { ok: Object.keys(problems).length === 0, values, problems };
}
