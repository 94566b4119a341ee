import { type FileOutcome, readAs, refused, type WarningList } from './outcome.js';
import type { SectionPoint } from './section-outline.js';

/** A line that holds two numbers. */
export interface PointLine extends SectionPoint {
  readonly text: string;
}

interface Line {
  readonly text: string;
  readonly where: string;
}

const number = String.raw`[-+]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][-+]?\d+)?`;
const numberOnly = new RegExp(`^${number}$`);
const decimalCommaPair = /^[-+]?\d*,\d+(?:\s*;\s*|\s+)[-+]?\d*,\d+$/;
/** Decimal commas and a comma between the numbers too, so that four groups of digits are two numbers. */
const fourPieces = /^([-+]?\d*),(\d+),\s*([-+]?\d*),(\d+)$/;
const comment = /^(#|\/\/|!|%)/;

/** Numbers of a line, or undefined where anything else stands there. */
function numbersOf(text: string, decimalComma: boolean): readonly number[] | undefined {
  const plain = decimalComma ? text.replace(fourPieces, '$1.$2 $3.$4').replace(/,/g, '.') : text.replace(/,/g, ' ');
  const parts = plain
    .replace(/[\u2212\u2013]/g, '-')
    .split(/[\s;]+/)
    .filter((part) => part !== '');
  if (parts.length === 0 || !parts.every((part) => numberOnly.test(part))) return undefined;
  const values = parts.map((part) => Number(part.replace(/[dD]/, 'e')));
  return values.every((value) => Number.isFinite(value) && Math.abs(value) < 1e7) ? values : undefined;
}

/** Whether a line looks like a point that was damaged rather than like a word: a number stands first or second, and it is no count. */
function isDamagedPoint(text: string): boolean {
  const tokens = text.split(/[\s;,]+/).slice(0, 2);
  if (/^\d+$/.test(text)) return false;
  return tokens.some((token) => numberOnly.test(token.replace(/[\u2212\u2013]/g, '-')));
}

/**
 * Splits a section file into its title and the lines of two numbers.
 * text - with line ends `\n`
 * Comment lines and lines that are neither (labels, notes) are passed over, the latter with a warning; a third number is ignored with
 * one. A line among the points that looks like a damaged point is refused, because without it the outline is another.
 */
export function readPointLines(
  text: string,
  warnings: WarningList,
): FileOutcome<{ readonly title: string | undefined; readonly lines: readonly PointLine[] }> {
  const given: readonly Line[] = text
    .split('\n')
    .map((one, at) => ({ text: one.trim(), where: `line ${at + 1}` }))
    .filter((one) => one.text !== '' && !comment.test(one.text));
  const decimalComma = given.some((one) => decimalCommaPair.test(one.text) || fourPieces.test(one.text));
  let title: string | undefined;
  const lines: PointLine[] = [];
  const passedOver: (Line & { readonly pointsBefore: number })[] = [];
  given.forEach((one, at) => {
    const values = numbersOf(one.text, decimalComma);
    if (values !== undefined && values.length >= 2) {
      if (values.length > 2) warnings.add('third number', 'Only the first two numbers of the line count.', one.where);
      lines.push({ x: values[0]!, y: values[1]!, where: one.where, text: one.text });
    } else if (at === 0) title = one.text;
    else passedOver.push({ ...one, pointsBefore: lines.length });
  });
  for (const one of passedOver) {
    const shown = `"${one.text.slice(0, 40)}"`;
    const amongPoints = one.pointsBefore > 0 && one.pointsBefore < lines.length;
    if (amongPoints && isDamagedPoint(one.text)) {
      return refused({
        code: 'no section',
        reason: `Expected two numbers, found ${shown}.`,
        where: one.where,
        remedy: 'Write station and ordinate of that point, or take the line out.',
      });
    }
    warnings.add('unreadable line', `${shown} is no pair of numbers; it was passed over.`, one.where);
  }
  return readAs({ title, lines });
}
