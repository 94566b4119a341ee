import { type PolarStore, polarStoreText, readStoredText } from '@noonwing/design';
import type { SectionPolar } from '@noonwing/engine/section/polars';
import { openBrowserStorage } from './browser-storage.js';
import { memoryStorage, type Storage } from './storage.js';

type Polars = readonly SectionPolar[];

/** Sets kept in the browser at most, 7 kB each: of some fifty designs. Beyond it all are computed anew as they are needed. */
const most = 400;

/** What was read before: it is the same for ever, as its key says. */
const known = new Map<string, Polars>();

const inBrowser = (): Promise<Storage> =>
  typeof indexedDB === 'undefined'
    ? Promise.resolve(memoryStorage())
    : openBrowserStorage('noonwing polars').catch(() => memoryStorage());

let storage: Promise<Storage> | undefined;
const opened = (): Promise<Storage> => {
  storage ??= inBrowser();
  return storage;
};

async function fetched(address: URL): Promise<PolarStore> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(response.statusText);
  return readStoredText(await response.text())?.polars ?? {};
}

/** Polars that come with the page: of the examples, and of the sections that a new design begins with. */
const fetchers = [
  () => fetched(new URL('../../../../examples/polars.json', import.meta.url)),
  () => fetched(new URL('../../../../packages/design/polars/library.json', import.meta.url)),
];

const stores: (Promise<PolarStore> | undefined)[] = [];

/** One of the stores that come with the page; offline, perhaps, it is empty, and the next question tries again. */
const storeOf = (i: number): Promise<PolarStore> => {
  stores[i] ??= fetchers[i]!();
  return stores[i]!.catch((): PolarStore => {
    stores[i] = undefined;
    return {};
  });
};

/** Those of some sets of polars that are kept here or come with the page. */
export async function keptPolars(keys: readonly string[]): Promise<ReadonlyMap<string, Polars>> {
  const unread = () => keys.filter((key) => !known.has(key));
  const from = await opened();
  for (const key of unread()) {
    const text = await from.get(key).catch(() => undefined);
    const polars = text === undefined ? undefined : readStoredText(text)?.polars[key]?.polars;
    if (polars !== undefined) known.set(key, polars);
  }
  for (let i = 0; i < fetchers.length && unread().length > 0; i++) {
    const store = await storeOf(i);
    for (const key of unread()) if (store[key] !== undefined) known.set(key, store[key].polars);
  }
  return new Map(keys.flatMap((key) => (known.has(key) ? [[key, known.get(key)!] as const] : [])));
}

/** Keeps a set of polars; a browser without room goes without. */
export async function keepPolars(key: string, set: PolarStore[string]): Promise<void> {
  known.set(key, set.polars);
  try {
    const to = await opened();
    const keys = await to.keys('');
    if (keys.length >= most) await to.remove(keys);
    await to.put(key, polarStoreText({ [key]: set }));
  } catch {
    // It is known to this worker all the same, and can be computed again.
  }
}
