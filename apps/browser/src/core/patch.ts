/**
 * Differences between two states of plain data that share their unchanged parts. They carry both directions, so that the
 * same patches serve undo, redo and the journal of the storage.
 */

type Json = unknown;

/** One changed place. `was` or `now` is absent where the key did not exist. */
export type Patch =
  | { readonly at: readonly string[]; readonly was?: Json; readonly now?: Json }
  /** A long text of which only a part changed. */
  | { readonly at: readonly string[]; readonly from: number; readonly removed: string; readonly inserted: string };

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Below this a text is kept whole: a splice would save nothing. */
const shortText = 80;

function textPatch(at: readonly string[], was: string, now: string): Patch {
  if (was.length < shortText || now.length < shortText) return { at, was, now };
  let from = 0;
  const most = Math.min(was.length, now.length);
  while (from < most && was.charCodeAt(from) === now.charCodeAt(from)) from++;
  let tail = 0;
  while (tail < most - from && was.charCodeAt(was.length - 1 - tail) === now.charCodeAt(now.length - 1 - tail)) tail++;
  return {
    at,
    from,
    removed: was.slice(from, was.length - tail),
    inserted: now.slice(from, now.length - tail),
  };
}

/** Whether two values are the same data; arrays and records by content. */
export function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((item, i) => sameData(item, b[i]));
  }
  if (!isRecord(a) || !isRecord(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && sameData(a[key], b[key]))
  );
}

/** Patches that lead from one state to the other. A value of undefined counts as no key, as it does in a store. */
export function difference(was: unknown, now: unknown, at: readonly string[] = []): readonly Patch[] {
  if (Object.is(was, now)) return [];
  if (typeof was === 'string' && typeof now === 'string') return [textPatch(at, was, now)];
  if (!isRecord(was) || !isRecord(now)) {
    if (sameData(was, now)) return [];
    return [{ at, ...(was === undefined ? {} : { was }), ...(now === undefined ? {} : { now }) }];
  }
  const patches: Patch[] = [];
  for (const key of Object.keys(was)) patches.push(...difference(was[key], now[key], [...at, key]));
  for (const key of Object.keys(now)) {
    if (!Object.hasOwn(was, key)) patches.push(...difference(undefined, now[key], [...at, key]));
  }
  return patches;
}

/** The state is not the one from which the patch was made. */
export class PatchMismatch extends Error {}

function changed(value: unknown, patch: Patch): unknown {
  if (!('from' in patch)) {
    if (!sameData(value, patch.was)) throw new PatchMismatch(`${patch.at.join('/')} is not what it was`);
    return patch.now;
  }
  const { from, removed, inserted } = patch;
  if (typeof value !== 'string' || value.slice(from, from + removed.length) !== removed) {
    throw new PatchMismatch(`the text of ${patch.at.join('/')} is not what it was`);
  }
  return value.slice(0, from) + inserted + value.slice(from + removed.length);
}

function applied(value: unknown, patch: Patch, depth: number): unknown {
  if (depth === patch.at.length) return changed(value, patch);
  if (!isRecord(value)) throw new PatchMismatch(`there is no ${patch.at.slice(0, depth + 1).join('/')}`);
  const key = patch.at[depth]!;
  const before = Object.hasOwn(value, key) ? value[key] : undefined;
  const after = applied(before, patch, depth + 1);
  if (after === undefined) return Object.fromEntries(Object.entries(value).filter(([name]) => name !== key));
  // defineProperty keeps a key such as '__proto__' plain data.
  const copy: Record<string, unknown> = { ...value };
  Object.defineProperty(copy, key, { value: after, enumerable: true, configurable: true, writable: true });
  return copy;
}

const reversed = (patch: Patch): Patch =>
  'from' in patch
    ? { at: patch.at, from: patch.from, removed: patch.inserted, inserted: patch.removed }
    : {
        at: patch.at,
        ...('now' in patch ? { was: patch.now } : {}),
        ...('was' in patch ? { now: patch.was } : {}),
      };

/** The state after the patches. Throws `PatchMismatch` where they do not fit. */
export const forward = <T>(state: T, patches: readonly Patch[]): T =>
  patches.reduce<unknown>((value, patch) => applied(value, patch, 0), state) as T;

/** The state before the patches. Throws `PatchMismatch` where they do not fit. */
export const backward = <T>(state: T, patches: readonly Patch[]): T =>
  [...patches].reverse().reduce<unknown>((value, patch) => applied(value, reversed(patch), 0), state) as T;
