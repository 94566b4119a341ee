import type { FileOutcome } from './outcome.js';
import { warningList } from './outcome.js';
import { type PointLine, readPointLines } from './section-lines.js';
import { outlineOf, type SectionCoordinates } from './section-outline.js';
import { fileText } from './text.js';

const isCount = (value: number) => Number.isInteger(value) && value >= 3 && value < 10_000;

/** Whether a pair can only be the two point counts of a file that goes surface by surface, or a title of two numbers. */
function isCountPair(pair: PointLine, following: readonly PointLine[]): boolean {
  if (!isCount(pair.x) || !isCount(pair.y) || following.length === 0) return false;
  const largest = following.reduce((most, one) => Math.max(most, Math.abs(one.x)), 0);
  return pair.x + pair.y === following.length || largest < 1.5;
}

/** Separates counts and a numeric title from the points. */
function withoutHead(lines: readonly PointLine[]): {
  points: readonly PointLine[];
  counts?: PointLine;
  title?: PointLine;
} {
  const [first, second] = lines;
  if (first === undefined || second === undefined || !isCountPair(first, lines.slice(1))) {
    // A title of two numbers before counts: neither is a point.
    if (second && first && isCount(first.x) && isCountPair(second, lines.slice(2))) {
      return { points: lines.slice(2), counts: second, title: first };
    }
    return { points: lines };
  }
  if (isCountPair(second, lines.slice(2))) return { points: lines.slice(2), counts: second, title: first };
  const matches = first.x + first.y === lines.length - 1;
  return matches || lines[1]!.x < 0.5
    ? { points: lines.slice(1), counts: first }
    : { points: lines.slice(1), title: first };
}

/**
 * Reads a section coordinate file in either usual order: once round from the trailing edge, or surface by surface from the leading
 * edge with two point counts before. Accepts and mentions: no title, a title of numbers, tabs, commas and decimal commas,
 * per cent or lengths instead of chord 1, the wrong way round, repeated points, wrong counts, an open or crossed trailing edge,
 * comment lines, labels of the surfaces. A damaged point among the others is refused with its line.
 * input - the file's bytes or text; fallbackName - name where the file has no title
 */
export function parseSectionCoordinates(
  input: string | Uint8Array,
  fallbackName = 'section',
): FileOutcome<SectionCoordinates> {
  const decoded = fileText(input);
  if (!decoded.ok) return decoded;
  const warnings = warningList(decoded.warnings);
  const read = readPointLines(decoded.value, warnings);
  if (!read.ok) return read;
  const { title, lines } = read.value;
  const head = withoutHead(lines);
  return outlineOf(title ?? head.title?.text ?? fallbackName, head.points, head.counts, warnings);
}

/**
 * Writes a section coordinate file: title, then the points once round from the trailing edge, with every digit that counts.
 * coordinates - as read
 */
export function writeSectionCoordinates(coordinates: Pick<SectionCoordinates, 'name' | 'x' | 'y'>): string {
  const title = coordinates.name.replace(/\s+/g, ' ').trim();
  const written = (value: number) => {
    if (!Number.isFinite(value)) throw new RangeError('A coordinate that is not finite cannot be written.');
    return (Number(value.toFixed(8)) + 0).toFixed(8);
  };
  // A title of two numbers would be taken for a point.
  const safeTitle = /[^\d\s.,;+-]/.test(title) ? title : `section ${title}`.trim();
  const lines = coordinates.x.map((value, at) => `${written(value)} ${written(coordinates.y[at]!)}`);
  return `${[safeTitle, ...lines].join('\n')}\n`;
}
