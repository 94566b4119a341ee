import type { QuantityKind } from '@noonwing/quantities';
import { cellNumber, decimalMarkOf, readColumn } from './column.js';
import { type FileOutcome, type FileProblem, readAs, refused, warningList } from './outcome.js';
import { findColumn, parseTable, type Table } from './table.js';

/** One measured point of a section. SI; what was not measured is absent. */
export interface MeasuredPolarRow {
  /** Of the file, from 1. */
  readonly line: number;
  /** On the chord. */
  readonly reynolds: number;
  /** Angle of attack of the chord from nose to tail [rad]. */
  readonly incidence?: number;
  readonly lift: number;
  readonly drag?: number;
  /** About the quarter chord, nose up positive. */
  readonly moment?: number;
}

/** A measured polar file: its points in the order of the file, and its comments. */
export interface MeasuredPolarFile {
  readonly rows: readonly MeasuredPolarRow[];
  readonly comments: readonly string[];
}

interface ColumnSpec {
  readonly key: keyof Omit<MeasuredPolarRow, 'line'>;
  /** Names that people write; the first is the documented one. */
  readonly names: readonly string[];
  readonly kind: QuantityKind;
  readonly unit: string;
  readonly bounds: readonly [number, number];
  readonly expected: string;
}

const columns: readonly ColumnSpec[] = [
  {
    key: 'reynolds',
    names: ['reynolds number', 'reynolds', 're'],
    kind: 'count',
    unit: '',
    bounds: [1e4, 1e8],
    expected: 'a number from 10000 to 100000000',
  },
  {
    key: 'incidence',
    names: ['incidence', 'angle of attack', 'angle', 'alpha', 'alpha deg'],
    kind: 'angle',
    unit: 'deg',
    bounds: [-Math.PI, Math.PI],
    expected: 'an angle from -180 to 180 deg',
  },
  {
    key: 'lift',
    names: ['lift', 'lift coefficient', 'cl'],
    kind: 'ratio',
    unit: '',
    bounds: [-4, 5],
    expected: 'a lift coefficient from -4 to 5',
  },
  {
    key: 'drag',
    names: ['drag', 'drag coefficient', 'cd'],
    kind: 'ratio',
    unit: '',
    bounds: [1e-4, 4],
    expected: 'a drag coefficient from 0.0001 to 4',
  },
  {
    key: 'moment',
    names: ['moment', 'moment coefficient', 'pitching moment', 'cm'],
    kind: 'ratio',
    unit: '',
    bounds: [-2, 2],
    expected: 'a moment coefficient from -2 to 2',
  },
];

/** Heads that the documentation shows. */
const example = '"Reynolds number", "incidence (deg)", "lift", "drag", "moment"';

/**
 * Reads measured points of a section from separated values: columns `Reynolds number`, `incidence (deg)`, `lift`, `drag`, `moment`,
 * one point to a line, `#` before a comment. Reynolds number and lift are needed in each row, and incidence or drag; a cell that
 * holds no number is refused with its line, so that no point is lost unseen.
 *
 * @param input - the file's bytes or text
 * @returns points in the order of the file; columns that were not used are a warning
 */
export function parseMeasuredPolar(input: string | Uint8Array): FileOutcome<MeasuredPolarFile> {
  const table = parseTable(input);
  if (!table.ok) return table;
  const warnings = warningList(table.warnings);
  const values = new Map<ColumnSpec['key'], readonly (number | undefined)[]>();
  const used = new Set<number>();
  for (const spec of columns) {
    const at = findColumn(table.value, spec.names);
    if (at < 0) continue;
    used.add(at);
    const read = readMeasured(table.value, at, spec);
    if (!read.ok) return read;
    for (const { code, message, where } of read.warnings) warnings.add(code, message, where);
    values.set(spec.key, read.value);
  }
  const missing = missingColumn(table.value, values);
  if (missing) return missing;
  const unused = table.value.columns.filter((_, at) => !used.has(at)).map(({ text }) => text);
  if (unused.length > 0) warnings.add('unused columns', `Not used: ${unused.join(', ')}.`, 'heads');
  const rows: MeasuredPolarRow[] = [];
  for (const [k, { line }] of table.value.rows.entries()) {
    const row = Object.fromEntries(
      [...values].flatMap(([key, column]) => (column[k] === undefined ? [] : [[key, column[k]]])),
    ) as unknown as Omit<MeasuredPolarRow, 'line'>;
    const gap = gapOf(row);
    if (gap !== undefined) return refused({ code: 'empty cell', ...gap, where: `line ${line}` });
    rows.push({ line, ...row });
  }
  if (rows.length === 0)
    return refused({
      code: 'no rows',
      reason: 'The file has heads but no points.',
      where: 'whole file',
      remedy: 'Write one measured point to a line.',
    });
  return readAs({ rows, comments: table.value.comments }, warnings.all());
}

/** Numbers of a column; a cell that is no number, or one beyond what can be measured, is refused with its line. */
function readMeasured(table: Table, at: number, spec: ColumnSpec): FileOutcome<readonly (number | undefined)[]> {
  const read = readColumn(table, at, spec.kind, spec.unit);
  if (!read.ok) return read;
  const mark = decimalMarkOf(table.rows.map(({ cells }) => cells[at] ?? ''));
  for (const [k, { line, cells }] of table.rows.entries()) {
    const text = cells[at] ?? '';
    const value = read.value[k];
    const isNumber = text === '' || (mark !== 'either' && cellNumber(text, mark) !== undefined);
    const within = value === undefined || (value >= spec.bounds[0] && value <= spec.bounds[1]);
    if (isNumber && within) continue;
    return refused({
      code: 'value',
      reason: `"${text}" was found, where ${spec.expected} is expected.`,
      where: `line ${line}, column "${table.columns[at]!.text}"`,
      remedy: 'Correct the cell, leave it empty where nothing was measured, or put # before the line.',
    });
  }
  return read;
}

/** Why the columns do not make a polar, if they do not. */
function missingColumn(table: Table, values: ReadonlyMap<string, unknown>): FileProblem | undefined {
  const found = table.columns.map(({ text }) => `"${text}"`).join(', ');
  const lacking = (['reynolds', 'lift'] as const).filter((key) => !values.has(key));
  const words = lacking.map((key) => (key === 'reynolds' ? 'Reynolds number' : key));
  const either = values.has('incidence') || values.has('drag') ? [] : ['incidence or drag'];
  if (words.length + either.length === 0) return undefined;
  return refused({
    code: 'columns',
    reason: `No column of ${[...words, ...either].join(' and ')} was found among ${found}.`,
    where: 'heads',
    remedy: `Name the columns ${example}.`,
  });
}

function gapOf(row: Partial<MeasuredPolarRow>): { readonly reason: string; readonly remedy: string } | undefined {
  const remedy = 'Fill the cell, or put # before the line.';
  if (row.reynolds === undefined) return { reason: 'The Reynolds number is empty.', remedy };
  if (row.lift === undefined) return { reason: 'The lift is empty.', remedy };
  if (row.incidence === undefined && row.drag === undefined)
    return { reason: 'Neither incidence nor drag is given.', remedy };
  return undefined;
}
