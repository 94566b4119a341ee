import type { FileOutcome, WarningList } from './outcome.js';
import { readAs, refused, warningList } from './outcome.js';
import { fileText } from './text.js';

/** A column's head, with the unit that its text states in brackets or after a comma or slash. */
export interface Column {
  /** As written. */
  readonly text: string;
  /** Without the unit. */
  readonly name: string;
  readonly unit: string | undefined;
}

export interface TableRow {
  /** Line of the file at which the row begins, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** A table of texts. Each row has as many cells as there are columns. */
export interface Table {
  readonly separator: string;
  readonly columns: readonly Column[];
  readonly rows: readonly TableRow[];
  /** Lines that begin with `#`, without it. */
  readonly comments: readonly string[];
}

/** In the order of preference: a comma may also be a decimal mark. */
const separators = ['\t', ';', ',', '|'] as const;

interface Records {
  readonly rows: readonly TableRow[];
  readonly comments: readonly string[];
  /** Line of a quote that does not end. */
  readonly openQuote?: number;
}

const isBlank = (row: TableRow) => row.cells.every((cell) => cell === '');

/**
 * Splits text into records, without blank ones. A quote counts at the beginning of a cell only; within quotes, a doubled one
 * stands for itself.
 * text - with line ends `\n`; limit - how many records at most
 */
function splitRecords(text: string, separator: string, limit: number): Records {
  const rows: TableRow[] = [];
  const comments: string[] = [];
  let at = 0;
  let line = 1;
  while (at < text.length && rows.length < limit) {
    if (text[at] === '#') {
      const end = text.indexOf('\n', at) < 0 ? text.length : text.indexOf('\n', at);
      comments.push(text.slice(at + 1, end).trim());
      line += 1;
      at = end + 1;
      continue;
    }
    const startLine = line;
    const cells: string[] = [];
    for (;;) {
      let quotedCell: string | undefined;
      if (text[at] === '"') {
        let end = text.indexOf('"', at + 1);
        while (end >= 0 && text[end + 1] === '"') end = text.indexOf('"', end + 2);
        if (end < 0) return { rows, comments, openQuote: line };
        const quoted = text.slice(at + 1, end);
        line += quoted.split('\n').length - 1;
        quotedCell = quoted.replaceAll('""', '"');
        at = end + 1;
      }
      let end = at;
      while (end < text.length && text[end] !== separator && text[end] !== '\n') end += 1;
      const rest = text.slice(at, end).trim();
      cells.push(quotedCell === undefined ? rest : quotedCell + rest);
      at = end + 1;
      if (end >= text.length || text[end] === '\n') break;
    }
    line += 1;
    const row = { line: startLine, cells };
    if (!isBlank(row)) rows.push(row);
  }
  return { rows, comments };
}

/** The separator that splits the first records most evenly. */
function findSeparator(text: string): string {
  let best: string = ',';
  let bestShare = 0;
  for (const separator of separators) {
    const { rows } = splitRecords(text, separator, 40);
    const counts = rows.map((row) => row.cells.length);
    const usual = counts.filter((count) => count > 1);
    if (usual.length === 0) continue;
    const frequency = new Map<number, number>();
    for (const count of usual) frequency.set(count, (frequency.get(count) ?? 0) + 1);
    const share = Math.max(...frequency.values()) / counts.length;
    if (share > bestShare + 0.2) {
      best = separator;
      bestShare = share;
    }
  }
  return best;
}

/** What a number may look like in any cell, with either decimal mark; letters of an exponent included. */
const numberLike = /^[-+−–]?(?:\d[\d.,\u00a0\u202f ']*|[.,]\d+)(?:[eE][-+]?\d+)?$/;

/**
 * Head of a column to its name and unit: "Alt (m)", "voltage [V]", "Strom / A", "current, A".
 * text - as written
 */
export function readColumnHead(text: string): Column {
  const bracketed = /^(.*?)\s*(?:\(([^()]*)\)|\[([^[\]]*)\])$/.exec(text);
  if (bracketed)
    return { text, name: bracketed[1]!.trim(), unit: (bracketed[2] ?? bracketed[3] ?? '').trim() || undefined };
  const listed = /^(.*\p{L}.*?)\s*(?:,|\s\/)\s*([^\s,/]{1,8})$/u.exec(text);
  if (listed) return { text, name: listed[1]!.trim(), unit: listed[2]! };
  return { text, name: text, unit: undefined };
}

function evenRows(rows: readonly TableRow[], width: number, warnings: WarningList): TableRow[] {
  return rows.map((row) => {
    if (row.cells.length === width) return row;
    // A separator at the end of each line is common and loses nothing.
    const surplus = row.cells.slice(width);
    if (surplus.every((cell) => cell === '') && row.cells.length > width) {
      return { line: row.line, cells: row.cells.slice(0, width) };
    }
    const words = row.cells.length < width ? 'fewer' : 'more';
    warnings.add(
      'uneven row',
      `The row has ${words} cells (${row.cells.length}) than there are columns (${width}).`,
      `line ${row.line}`,
    );
    const padding = Array.from({ length: Math.max(0, width - row.cells.length) }, () => '');
    return { line: row.line, cells: [...row.cells.slice(0, width), ...padding] };
  });
}

/**
 * Reads a table of separated values: comma, semicolon, tab or bar; quoted cells; decimal comma; a first line `sep=;`;
 * lines that begin with `#` as comments; with or without a row of heads (without: "column 1", ...).
 * input - the file's bytes or text
 * Returns texts: `readColumn` makes numbers of them.
 */
export function parseTable(input: string | Uint8Array): FileOutcome<Table> {
  const decoded = fileText(input);
  if (!decoded.ok) return decoded;
  const warnings = warningList(decoded.warnings);
  const stated = /^sep=(.)\n/i.exec(decoded.value);
  // The statement's line is left empty, so that the line numbers stay those of the file.
  const text = stated ? decoded.value.slice(stated[0].length - 1) : decoded.value;
  const separator = stated?.[1] ?? findSeparator(text);
  const { rows, comments, openQuote } = splitRecords(text, separator, Number.POSITIVE_INFINITY);
  if (openQuote !== undefined) {
    return refused({
      code: 'open quote',
      reason: 'A quoted cell does not end.',
      where: `line ${openQuote}`,
      remedy: 'Close the quote, or remove it where it stands for inches.',
    });
  }
  const first = rows[0];
  if (first === undefined) {
    return refused({
      code: 'no rows',
      reason: 'The file holds no row of values.',
      where: 'whole file',
      remedy: 'Export the table with its rows.',
    });
  }
  const hasHeads = first.cells.some((cell) => cell !== '' && !numberLike.test(cell));
  const body = hasHeads ? rows.slice(1) : rows;
  const heads = hasHeads ? first.cells : first.cells.map((_, index) => `column ${index + 1}`);
  const columns = heads.map(readColumnHead);
  return readAs({ separator, columns, rows: evenRows(body, columns.length, warnings), comments }, warnings.all());
}

const plainName = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

/**
 * Index of the first column that has one of the names, without regard to case, spaces and punctuation; -1 where none has.
 * names - in the order of preference
 */
export function findColumn(table: Table, names: readonly string[]): number {
  for (const name of names) {
    const index = table.columns.findIndex((column) => plainName(column.name) === plainName(name));
    if (index >= 0) return index;
  }
  return -1;
}
