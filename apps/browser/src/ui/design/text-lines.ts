import { locate, type Message, nodeAt, parsePath } from '@noonwing/design';
import { keysAt } from '../../core/fields.js';
import { readingOfDesign } from '../../core/reading.js';

/** Line (from 1) of a key, or of the nearest part above it that is written. */
export const lineOfPath = (text: string, path: string): number =>
  locate(readingOfDesign(text).document, parsePath(path)).line;

const offsetsOf = (text: string): readonly number[] => {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
};

/** Line (from 1) of an index of the text. */
export function lineAt(text: string, offset: number): number {
  const starts = offsetsOf(text);
  let line = 1;
  while (line < starts.length && starts[line]! <= offset) line++;
  return line;
}

/** First and last index of a line (from 1). */
export function lineSpan(text: string, line: number): readonly [number, number] {
  const starts = offsetsOf(text);
  const start = starts[Math.min(Math.max(line, 1), starts.length) - 1]!;
  const end = text.indexOf('\n', start);
  return [start, end < 0 ? text.length : end];
}

/** Deepest key whose value holds an index of the text: where the caret of the editor is; undefined outside all. */
export function pathAt(text: string, offset: number): string | undefined {
  const { document } = readingOfDesign(text);
  const inside = (path: string): string | undefined => {
    for (const key of keysAt('design', text, path)) {
      const child = key.startsWith('[') ? `${path}${key}` : path === '' ? key : `${path}.${key}`;
      const range = (nodeAt(document, parsePath(child)) as { range?: readonly number[] | null } | undefined)?.range;
      if (range === undefined || range === null) continue;
      const [start] = lineSpan(text, lineAt(text, range[0]!));
      const isOnItsLine = offset >= start && offset <= range[1]!;
      if (isOnItsLine && (offset >= range[0]! || !isFlowNeighbour(text, start, range[0]!, offset))) {
        return inside(child) ?? child;
      }
    }
    return undefined;
  };
  return inside('');
}

/** Whether between an index and a value another value of the same line ends, as inside { }. */
const isFlowNeighbour = (text: string, lineStart: number, valueStart: number, offset: number): boolean =>
  /[,{[]/.test(text.slice(Math.max(lineStart, offset), valueStart));

export interface LineMark {
  readonly line: number;
  readonly severity: Message['severity'];
}

/** Worst message of each line. */
export function lineMarks(messages: readonly Message[]): ReadonlyMap<number, Message['severity']> {
  const rank = { error: 2, warning: 1, note: 0 } as const;
  const marks = new Map<number, Message['severity']>();
  for (const { line, severity } of messages) {
    const before = marks.get(line);
    if (before === undefined || rank[severity] > rank[before]) marks.set(line, severity);
  }
  return marks;
}

/**
 * Where a caret belongs after the text changed around it: what stands before it stays before it.
 * was, now - texts; caret - index in `was`
 */
export function movedCaret(was: string, now: string, caret: number): number {
  let start = 0;
  const most = Math.min(was.length, now.length);
  while (start < most && was[start] === now[start]) start++;
  if (caret <= start) return caret;
  let tail = 0;
  while (tail < most - start && was[was.length - 1 - tail] === now[now.length - 1 - tail]) tail++;
  if (caret >= was.length - tail) return now.length - (was.length - caret);
  return Math.min(caret, now.length - tail);
}
