import {
  type ControlStore,
  type MeasuredStore,
  type PolarStore,
  polarStoreText,
  readStoredText,
} from '@noonwing/design';
import { openBrowserStorage } from './browser-storage.js';
import { memoryStorage, type Storage } from './storage.js';

/** Polars of a section, or its deflected sections as a control has them, under one key. */
export type KeptSet =
  | { readonly kind: 'polars'; readonly set: PolarStore[string] }
  | { readonly kind: 'control'; readonly set: ControlStore[string] };

/** Sets by their keys: no two kinds share one. */
type KeptSets = ReadonlyMap<string, KeptSet>;

/** Sets kept in the browser at most, 7 kB each: of some fifty designs. Beyond it all are computed anew as they are needed. */
const most = 400;

/** What was read before: it is the same for ever, as its key says. */
const known = new Map<string, KeptSet>();

const inBrowser = (): Promise<Storage> =>
  typeof indexedDB === 'undefined'
    ? Promise.resolve(memoryStorage())
    : openBrowserStorage('noonwing polars').catch(() => memoryStorage());

let storage: Promise<Storage> | undefined;
const opened = (): Promise<Storage> => {
  storage ??= inBrowser();
  return storage;
};

function setsIn(text: string): KeptSets {
  const { polars = {}, controls = {} } = readStoredText(text) ?? {};
  return new Map<string, KeptSet>([
    ...Object.entries(polars).map(([key, set]) => [key, { kind: 'polars', set }] as const),
    ...Object.entries(controls).map(([key, set]) => [key, { kind: 'control', set }] as const),
  ]);
}

async function fetched(address: URL): Promise<KeptSets> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(response.statusText);
  return setsIn(await response.text());
}

/** Polars that come with the page: of the examples, and of the sections that a new design begins with. */
const fetchers = [
  () => fetched(new URL('../../../../examples/polars.json', import.meta.url)),
  () => fetched(new URL('../../../../packages/design/polars/library.json', import.meta.url)),
];

const stores: (Promise<KeptSets> | undefined)[] = [];

/** One of the stores that come with the page; offline, perhaps, it is empty, and the next question tries again. */
const storeOf = (i: number): Promise<KeptSets> => {
  stores[i] ??= fetchers[i]!();
  return stores[i]!.catch((): KeptSets => {
    stores[i] = undefined;
    return new Map();
  });
};

/** Those of some sets that are kept here or come with the page. */
export async function keptPolars(keys: readonly string[]): Promise<KeptSets> {
  const unread = () => keys.filter((key) => !known.has(key));
  const from = await opened();
  for (const key of unread()) {
    const text = await from.get(key).catch(() => undefined);
    const set = text === undefined ? undefined : setsIn(text).get(key);
    if (set !== undefined) known.set(key, set);
  }
  for (let i = 0; i < fetchers.length && unread().length > 0; i++) {
    const store = await storeOf(i);
    for (const key of unread()) if (store.has(key)) known.set(key, store.get(key)!);
  }
  return new Map(keys.flatMap((key) => (known.has(key) ? [[key, known.get(key)!] as const] : [])));
}

/** Text of a store that holds some sets, and measured points. */
export function textOfSets(sets: KeptSets, measured: MeasuredStore = {}): string {
  const polars: Record<string, PolarStore[string]> = {};
  const controls: Record<string, ControlStore[string]> = {};
  for (const [key, { kind, set }] of sets)
    if (kind === 'polars') polars[key] = set;
    else controls[key] = set;
  return polarStoreText(polars, measured, controls);
}

/** Keeps a set; a browser without room goes without. */
export async function keepPolars(key: string, set: KeptSet): Promise<void> {
  known.set(key, set);
  try {
    const to = await opened();
    const keys = await to.keys('');
    if (keys.length >= most) await to.remove(keys);
    await to.put(key, textOfSets(new Map([[key, set]])));
  } catch {
    // It is known to this worker all the same, and can be computed again.
  }
}
