import type { WarningList } from './outcome.js';

/** A line that holds two numbers. */
export interface PointLine {
  readonly x: number;
  readonly y: number;
  readonly line: number;
  readonly text: string;
}

const number = String.raw`[-+]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][-+]?\d+)?`;
const numberOnly = new RegExp(`^${number}$`);
const decimalCommaPair = /^[-+]?\d*,\d+(?:\s*;\s*|\s+)[-+]?\d*,\d+$/;

/** Numbers of a line, or undefined where anything else stands there. */
function numbersOf(text: string, decimalComma: boolean): readonly number[] | undefined {
  const plain = decimalComma ? text.replace(/,/g, '.') : text.replace(/,/g, ' ');
  const parts = plain
    .replace(/−/g, '-')
    .split(/[\s;]+/)
    .filter((part) => part !== '');
  if (parts.length === 0 || !parts.every((part) => numberOnly.test(part))) return undefined;
  const values = parts.map((part) => Number(part.replace(/[dD]/, 'e')));
  return values.every((value) => Number.isFinite(value) && Math.abs(value) < 1e7) ? values : undefined;
}

/**
 * Splits a section file into its title and the lines of two numbers.
 * text - with line ends `\n`
 * Lines that are neither are passed over with a warning; a third number is ignored with one.
 */
export function readPointLines(text: string, warnings: WarningList): { title: string | undefined; lines: PointLine[] } {
  const given = text
    .split('\n')
    .map((one, at) => ({ text: one.trim(), line: at + 1 }))
    .filter((one) => one.text !== '');
  const decimalComma = given.some((one) => decimalCommaPair.test(one.text));
  let title: string | undefined;
  const lines: PointLine[] = [];
  given.forEach((one, at) => {
    const values = numbersOf(one.text, decimalComma);
    if (values !== undefined && values.length >= 2) {
      if (values.length > 2)
        warnings.add('third number', 'Only the first two numbers of the line count.', `line ${one.line}`);
      lines.push({ x: values[0]!, y: values[1]!, line: one.line, text: one.text });
    } else if (at === 0) title = one.text;
    else
      warnings.add(
        'unreadable line',
        `"${one.text.slice(0, 40)}" is no pair of numbers; it was passed over.`,
        `line ${one.line}`,
      );
  });
  return { title, lines };
}
