import { nodeAt } from '@noonwing/design';
import { readingOf } from '../../core/reading.js';

/** A value that two files have differently; absent where a file does not have it. */
export interface Difference {
  readonly path: string;
  readonly mine?: string;
  readonly other?: string;
}

interface Node {
  readonly items?: readonly unknown[];
  readonly value?: unknown;
  readonly source?: string;
}

const scalarText = ({ value, source }: Node): string =>
  value === null || value === undefined ? '' : typeof value === 'string' ? value.trim() : (source ?? String(value));

/** Every value of a node by its path, in the order of the file. */
function collect(node: Node | null | undefined, path: string, into: Map<string, string>): void {
  if (node === null || node === undefined) return;
  if (node.items === undefined) {
    into.set(path, scalarText(node));
    return;
  }
  for (const [i, item] of node.items.entries()) {
    const pair = item as { readonly key?: { readonly value?: unknown } | null; readonly value?: Node | null };
    if (pair?.key === undefined) collect(item as Node, `${path}[${i + 1}]`, into);
    else {
      const key = String(pair.key?.value ?? '');
      collect(pair.value, path === '' ? key : `${path}.${key}`, into);
    }
  }
}

/** All values of a file by path. */
export function valuesOf(file: 'design' | 'day', text: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  collect(nodeAt(readingOf(file, text).document, []) as Node | undefined, '', found);
  return found;
}

/** Two spellings of a number with its unit are the same where only blanks differ. */
const same = (a: string, b: string): boolean => a === b || a.replace(/\s+/g, '') === b.replace(/\s+/g, '');

/** What two texts say differently, in the order of the first; what only the other has comes last. */
export function differences(file: 'design' | 'day', mine: string, other: string): readonly Difference[] {
  if (mine === other) return [];
  const [a, b] = [valuesOf(file, mine), valuesOf(file, other)];
  const changed = [...a].flatMap(([path, text]): Difference[] => {
    const there = b.get(path);
    if (there === undefined) return [{ path, mine: text }];
    return same(text, there) ? [] : [{ path, mine: text, other: there }];
  });
  const added = [...b].flatMap(([path, text]): Difference[] => (a.has(path) ? [] : [{ path, other: text }]));
  return [...changed, ...added];
}

/** The group that a path belongs to: what stands before the first dot or bracket; single values are together. */
export const groupOf = (path: string): string => /^([^.[]+)[.[]/.exec(path)?.[1] ?? 'single values';

/** Differences by group, in their order. */
export function byGroup(
  found: readonly Difference[],
): readonly { readonly group: string; readonly rows: readonly Difference[] }[] {
  const groups = new Map<string, Difference[]>();
  for (const one of found) {
    const group = groupOf(one.path);
    groups.set(group, [...(groups.get(group) ?? []), one]);
  }
  return [...groups].map(([group, rows]) => ({ group, rows }));
}
