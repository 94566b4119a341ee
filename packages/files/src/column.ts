import type { QuantityKind } from '@noonwing/quantities';
import { convert, findUnit, unitSymbols } from '@noonwing/quantities';
import type { FileOutcome } from './outcome.js';
import { readAs, refused, warningList } from './outcome.js';
import type { Table } from './table.js';

export type DecimalMark = '.' | ',';

/** Minus signs and spaces within numbers as programs and people write them. */
const plainNumber = (text: string) => text.replace(/[−–]/g, '-').replace(/[\s\u00a0\u202f']/g, '');

/** What one cell says about the decimal mark: 'either' where "1,500" may be one and a half or fifteen hundred. */
function markOf(cell: string): DecimalMark | 'either' | undefined {
  const text = plainNumber(cell).replace(/e[-+]?\d+$/i, '');
  const comma = text.lastIndexOf(',');
  const point = text.lastIndexOf('.');
  if (comma < 0 && point < 0) return undefined;
  if (comma >= 0 && point >= 0) return comma > point ? ',' : '.';
  const mark = comma >= 0 ? ',' : '.';
  const other = mark === ',' ? '.' : ',';
  const parts = text.split(mark);
  if (parts.length > 2) return other;
  // Nobody writes a group of thousands after a nought, nor with other than three digits.
  if (!/^[-+]?[1-9]\d{0,2}$/.test(parts[0] ?? '') || parts[1]?.length !== 3) return mark;
  return mark === '.' ? '.' : 'either';
}

/**
 * The decimal mark of a column's cells; 'either' where only numbers such as "1,500" occur.
 * cells - texts of one column
 */
export function decimalMarkOf(cells: readonly string[]): DecimalMark | 'either' {
  const marks = new Set(cells.map(markOf));
  if (marks.has(',')) return ',';
  if (marks.has('.')) return '.';
  return marks.has('either') ? 'either' : '.';
}

/**
 * A cell to a number, or undefined where it is none.
 * mark - decimal mark of its column
 */
export function cellNumber(cell: string, mark: DecimalMark): number | undefined {
  const group = mark === ',' ? /\./g : /,/g;
  const text = plainNumber(cell).replace(group, '').replace(',', '.');
  if (!/^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}

/** Texts that loggers write where they have no value. */
const absent = /^(?:|-+|n\/?a|nan|null|none|inf|-inf|\?)$/i;

/**
 * Numbers of a column in SI units; undefined where a cell is empty or says that there is no value.
 * index - of the column; kind - quantity; unitIfNone - unit where the head states none; the warning then says so
 */
export function readColumn(
  table: Table,
  index: number,
  kind: QuantityKind,
  unitIfNone?: string,
): FileOutcome<readonly (number | undefined)[]> {
  const column = table.columns[index];
  const where = `column "${column?.text ?? index + 1}"`;
  const warnings = warningList();
  const written = column?.unit ?? unitIfNone;
  const isUnit = findUnit(written ?? '', kind) !== undefined;
  if (column === undefined || !isUnit) {
    return refused({
      code: 'unit',
      reason: written === undefined ? 'The column states no unit.' : `"${written}" is not a unit of ${kind}.`,
      where,
      remedy: `Write the unit in brackets behind the name, one of ${unitSymbols(kind).slice(0, 8).join(', ')}.`,
    });
  }
  if (column.unit === undefined && written !== undefined && written !== '') {
    warnings.add('unit assumed', `The column states no unit; ${written} was assumed.`, where);
  }
  const cells = table.rows.map((row) => row.cells[index] ?? '');
  const mark = decimalMarkOf(cells);
  if (mark === 'either') {
    const example = cells.find((cell) => markOf(cell) === 'either') ?? '';
    return refused({
      code: 'decimal mark',
      reason: `"${example}" may mean ${example.replace(',', '.')} or ${example.replace(',', '')}, and no other number of the column decides it.`,
      where,
      remedy: 'Write the numbers with a decimal point and without marks between thousands.',
    });
  }
  const values = cells.map((cell, row) => {
    const value = cellNumber(cell, mark);
    if (value === undefined && !absent.test(cell)) {
      warnings.add(
        'not a number',
        `"${cell}" is not a number; it counts as absent.`,
        `line ${table.rows[row]!.line}, ${where}`,
      );
    }
    return value === undefined ? undefined : convert(value, kind, written ?? '', unitSymbols(kind)[0]!);
  });
  return readAs(values, warnings.all());
}

export interface WriteOptions {
  readonly separator?: ',' | ';' | '\t';
  readonly decimalMark?: DecimalMark;
}

/**
 * Writes a table of separated values, with line ends `\n`. Numbers keep every digit.
 * heads - with their units; rows - undefined leaves a cell empty
 * options - separator (default comma) and decimal mark (default point)
 */
export function writeTable(
  heads: readonly string[],
  rows: readonly (readonly (string | number | undefined)[])[],
  options: WriteOptions = {},
): string {
  const { separator = ',', decimalMark = '.' } = options;
  const cell = (value: string | number | undefined): string => {
    if (value === undefined) return '';
    if (typeof value === 'number') {
      if (!Number.isFinite(value)) throw new RangeError('A number that is not finite cannot be written.');
      const text = String(value).replace('.', decimalMark);
      return text.includes(separator) ? `"${text}"` : text;
    }
    const plain = value.replace(/\r\n?/g, '\n');
    // A first cell that begins with # would be read as a comment.
    return /["\n#]/.test(plain) || plain.includes(separator) || plain !== plain.trim()
      ? `"${plain.replaceAll('"', '""')}"`
      : plain;
  };
  return [heads, ...rows].map((row) => `${row.map(cell).join(separator)}\n`).join('');
}
