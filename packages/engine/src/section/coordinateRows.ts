import { type Outcome, problem, success, type Warning } from '../result.js';

/** One numeric pair and the line that it stood on (from 1). */
export interface Row {
  readonly x: number;
  readonly y: number;
  readonly line: number;
}

const NUMBER = /^[-+]?(\d+\.?\d*|\.\d+)([eEdD][-+]?\d+)?$/;
const DECIMAL_COMMA = /^[-+]?\d*,\d+([eEdD][-+]?\d+)?$/;
const INTEGER = /^[-+]?\d+$/;

const toNumber = (token: string): number => Number(token.replace(',', '.').replace(/[dD]/, 'e'));

/** Tokens of a line that may use commas between or within numbers. */
function tokens(line: string): readonly string[] {
  const bySpace = line.split(/[\s;]+/).filter((token) => token !== '');
  if (!line.includes(',') || line.includes('.')) return line.split(/[\s;,]+/).filter((token) => token !== '');
  const trimmed = bySpace.map((token) => token.replace(/,$/, ''));
  const decimal = (token: string) => DECIMAL_COMMA.test(token) || INTEGER.test(token);
  if (trimmed.length === 2 && trimmed.every(decimal)) return trimmed.map((token) => token.replace(',', '.'));
  const pieces = trimmed.join(',').split(',');
  // Without any space, four whole numbers are two with decimal commas.
  if (pieces.length === 4 && trimmed.length === 1) return [`${pieces[0]}.${pieces[1]}`, `${pieces[2]}.${pieces[3]}`];
  return pieces;
}

/** The pair on a line, or undefined where the line is no pair of numbers. */
export function readPair(line: string): readonly [number, number] | undefined {
  const found = tokens(line.replace(/[\u2212\u2013]/g, '-').trim());
  if (found.length !== 2 || !found.every((token) => NUMBER.test(token))) return undefined;
  const pair = [toNumber(found[0]), toNumber(found[1])] as const;
  return pair.every(Number.isFinite) ? pair : undefined;
}

const isComment = (line: string): boolean => /^\s*(#|\/\/|!|%|$)/.test(line);

/**
 * Title and numeric rows of a coordinate text.
 * Text before the first pair is the title; text between pairs is an error that names its line; text after the last pair is ignored
 * with a warning.
 */
export function readRows(text: string): Outcome<{ readonly title: string; readonly rows: readonly Row[] }> {
  const refuse = (reason: string, where: string, remedy: string) =>
    problem({ code: 'section.coordinates.text', reason, where, remedy });
  if (text.trim() === '') return refuse('the text is empty', 'text', 'choose a file with section coordinates');
  if (text.includes('\u0000'))
    return refuse('the file is not text', 'text', 'choose a plain text file with coordinates');
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  const rows: Row[] = [];
  const titles: string[] = [];
  let stray: { line: number; text: string } | undefined;
  for (const [index, line] of lines.entries()) {
    if (isComment(line)) continue;
    const pair = readPair(line);
    if (!pair) {
      if (rows.length === 0) titles.push(line.trim());
      else stray ??= { line: index + 1, text: line.trim() };
      continue;
    }
    if (stray) {
      const shown = stray.text.slice(0, 40);
      return refuse(`expected two numbers, found '${shown}'`, `line ${stray.line}`, 'write station and ordinate only');
    }
    rows.push({ x: pair[0], y: pair[1], line: index + 1 });
  }
  if (rows.length === 0) {
    return refuse('no line with two numbers was found', 'text', 'give one point per line: station and ordinate');
  }
  const warnings: Warning[] = stray
    ? [
        {
          code: 'section.coordinates.trailing-text',
          message: `ignored from '${stray.text.slice(0, 40)}' on`,
          where: `line ${stray.line}`,
        },
      ]
    : [];
  return success({ title: titles[0] ?? '', rows }, warnings);
}
