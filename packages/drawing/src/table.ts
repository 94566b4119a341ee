import type { Table } from './model.js';

/** A cell for CSV (RFC 4180). Words that a spreadsheet would take for a formula get an apostrophe before them. */
function cell(value: number | string | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return String(value);
  const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The data of a drawing as comma-separated values; units stand in the heads of the columns. */
export function tableCsv({ columns, rows }: Table): string {
  const heads = columns.map(({ label, unit }) => cell(unit === '' ? label : `${label} [${unit}]`));
  const lines = rows.map((row) => columns.map(({ key }) => cell(row[key])));
  return [heads, ...lines].map((line) => `${line.join(',')}\r\n`).join('');
}
