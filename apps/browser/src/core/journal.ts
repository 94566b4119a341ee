import { difference, forward, type Patch } from './patch.js';
import type { Persisted } from './state.js';
import type { Storage } from './storage.js';

/**
 * How work lies in the storage:
 *   head/a, head/b      the two newest heads: number of the last change in the snapshot, and where its parts are
 *   part/NAME@NUMBER    parts of a snapshot: one for each project, one for everything else
 *   journal/NUMBER      every change since, as patches, written before anything else
 *   damaged/...         what could not be read, kept as it was
 * A head is written only after its parts, and older parts and journal entries are removed only after the head; so at every
 * moment some head with all its parts and the whole journal after it is there.
 */

/** Number of the format; a newer one is left alone. */
export const storageVersion = 1;

const digits = 12;
const numbered = (number: number): string => String(number).padStart(digits, '0');
export const journalKey = (number: number): string => `journal/${numbered(number)}`;
const partKey = (name: string, number: number): string => `part/${name}@${numbered(number)}`;

/** 32-bit FNV-1a over the letters: enough to see that a record was cut or changed. */
function checksum(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}

export const sealed = (data: unknown): string => {
  const text = JSON.stringify(data);
  return `${checksum(text)} ${text}`;
};

/** The data of a record, or undefined where it is damaged. */
export function opened(record: string | undefined): unknown {
  if (record === undefined || record.slice(0, 8) !== checksum(record.slice(9))) return undefined;
  try {
    return JSON.parse(record.slice(9)) as unknown;
  } catch {
    return undefined;
  }
}

interface Head {
  readonly version: number;
  /** Last change that the parts contain. */
  readonly number: number;
  /** Key of each part by its name. */
  readonly parts: Readonly<Record<string, string>>;
}

interface Entry {
  readonly number: number;
  readonly patches: readonly Patch[];
}

/** What a start found: `state` absent in an empty storage. */
export interface Recovered {
  readonly state?: Persisted;
  /** Number of the last change that is in `state`. */
  readonly number: number;
  /** The snapshot that is there, for the next one. */
  readonly head?: Head;
  /** Which of the two places has it. */
  readonly slot: 'a' | 'b';
  /** Sentences for the user; empty where all is well. */
  readonly report: readonly string[];
  /** Keys of records set aside. */
  readonly damaged: readonly string[];
  /** The storage was written by a newer program: nothing may be written. */
  readonly newer: boolean;
  /** Changes that were only in the journal. */
  readonly replayed: number;
}

const isHead = (data: unknown): data is Head =>
  typeof data === 'object' && data !== null && 'version' in data && 'number' in data && 'parts' in data;

async function setAside(storage: Storage, key: string, record: string): Promise<string> {
  const aside = `damaged/${key}`;
  try {
    await storage.put(aside, record);
  } catch {
    // It stays where it is; nothing is removed then.
  }
  return aside;
}

interface Found {
  readonly head: Head;
  readonly slot: 'a' | 'b';
}

async function heads(storage: Storage): Promise<{ found: Found[]; bad: { key: string; record: string }[] }> {
  const found: Found[] = [];
  const bad: { key: string; record: string }[] = [];
  for (const slot of ['a', 'b'] as const) {
    const record = await storage.get(`head/${slot}`);
    const head = opened(record);
    if (isHead(head)) found.push({ head, slot });
    else if (record !== undefined) bad.push({ key: `head/${slot}`, record });
  }
  return { found: found.sort((x, y) => y.head.number - x.head.number), bad };
}

/** The parts of a head, and the records among them that are damaged or gone. */
async function readParts(storage: Storage, head: Head) {
  const parts: Record<string, unknown> = {};
  const missing: { readonly name: string; readonly key: string; readonly record: string | undefined }[] = [];
  for (const [name, key] of Object.entries(head.parts)) {
    const record = await storage.get(key);
    const data = opened(record);
    if (data === undefined) missing.push({ name, key, record });
    else parts[name] = data;
  }
  return { parts, missing };
}

const projectPart = 'project:';
const restPart = 'rest';

/** State as parts: each project on its own, so that a change of one writes only that one. */
export function partsOf(state: Persisted): Readonly<Record<string, unknown>> {
  const { projects, ...work } = state.work;
  const entries = Object.entries(projects).map(([id, project]) => [`${projectPart}${id}`, project] as const);
  return { [restPart]: { ...state, work: { ...work, order: Object.keys(projects) } }, ...Object.fromEntries(entries) };
}

type Rest = Omit<Persisted, 'work'> & {
  readonly work: Omit<Persisted['work'], 'projects'> & { readonly order: readonly string[] };
};

function stateOf(parts: Readonly<Record<string, unknown>>, fallback: Persisted): Persisted {
  const rest = (parts[restPart] ?? { ...fallback, work: { ...fallback.work, order: [] } }) as Rest;
  const { order, ...work } = rest.work;
  const ids = Object.keys(parts).flatMap((name) =>
    name.startsWith(projectPart) ? [name.slice(projectPart.length)] : [],
  );
  const sorted = [...order.filter((id) => ids.includes(id)), ...ids.filter((id) => !order.includes(id))];
  const projects = Object.fromEntries(
    sorted.map((id) => [id, parts[projectPart + id] as Persisted['work']['projects'][string]]),
  );
  const current = work.current in projects ? work.current : (sorted[0] ?? '');
  return { ...rest, work: { ...work, current, projects } };
}

/**
 * Reads the work back: the newest snapshot and every change since.
 * fallback - what stands in for parts that are damaged
 * Rejects only where the storage itself cannot be read.
 */
export async function recover(storage: Storage, fallback: Persisted): Promise<Recovered> {
  const report: string[] = [];
  const damaged: string[] = [];
  const { found, bad } = await heads(storage);
  for (const { key, record } of bad) damaged.push(await setAside(storage, key, record));
  const newer = found.some(({ head }) => head.version > storageVersion);
  if (newer) {
    report.push(
      'The work on this device was written by a newer noonwing. It is left as it is; nothing is saved from here.',
    );
    return { number: 0, slot: 'a', report, damaged, newer, replayed: 0 };
  }
  let chosen: { found: Found; parts: Record<string, unknown>; lost: readonly string[] } | undefined;
  for (const candidate of found) {
    const { parts, missing } = await readParts(storage, candidate.head);
    if (chosen === undefined || missing.length < chosen.lost.length) {
      chosen = { found: candidate, parts, lost: missing.map(({ name }) => name) };
    }
    if (missing.length === 0) break;
    for (const { key, record } of missing) {
      if (record !== undefined) damaged.push(await setAside(storage, key, record));
    }
  }
  if (found.length > 0 && chosen !== undefined && chosen.lost.length > 0) {
    report.push(
      `${chosen.lost.length} record${chosen.lost.length === 1 ? '' : 's'} could not be read and ${chosen.lost.length === 1 ? 'was' : 'were'} set aside; the rest is here.`,
    );
  }
  if (bad.length > 0 && chosen !== undefined && chosen.lost.length === 0) {
    report.push('One of the two newest tables of contents was damaged and set aside; the other one led to the work.');
  }
  const start = chosen === undefined ? fallback : stateOf(chosen.parts, fallback);
  const from = chosen?.found.head.number ?? 0;
  const replay = await replayed(storage, start, from, chosen !== undefined);
  report.push(...replay.report);
  damaged.push(...replay.damaged);
  const empty = chosen === undefined && replay.count === 0;
  return {
    ...(empty ? {} : { state: replay.state }),
    number: replay.number,
    ...(chosen === undefined ? {} : { head: chosen.found.head }),
    slot: chosen?.found.slot ?? 'b',
    report,
    damaged,
    newer: false,
    replayed: replay.count,
  };
}

const isEntry = (data: unknown): data is Entry =>
  typeof data === 'object' && data !== null && 'number' in data && 'patches' in data;

async function replayed(storage: Storage, start: Persisted, from: number, hasSnapshot: boolean) {
  const keys = (await storage.keys('journal/')).filter((key) => Number(key.slice('journal/'.length)) > from);
  const damaged: string[] = [];
  let state = start;
  let number = from;
  let count = 0;
  let broken = false;
  let last = from;
  for (const key of keys) {
    const record = await storage.get(key);
    last = Math.max(last, Number(key.slice('journal/'.length)));
    const entry = opened(record);
    if (!broken && isEntry(entry) && (entry.number === number + 1 || (!hasSnapshot && count === 0))) {
      try {
        state = forward(state, entry.patches);
        number = entry.number;
        count += 1;
        continue;
      } catch {
        // Patches that do not fit stand on a change that is lost.
      }
    }
    broken = true;
    if (record !== undefined) damaged.push(await setAside(storage, key, record));
  }
  const report = broken
    ? [
        `${damaged.length} of the newest changes could not be read and ${damaged.length === 1 ? 'was' : 'were'} set aside.`,
      ]
    : [];
  // New changes are numbered after everything that was ever written.
  return { state, number: Math.max(number, last), count, report, damaged };
}

/** The journal and its snapshots, as they grow. All calls are made one after the other. */
export interface Journal {
  /** Writes what changed since the last call; resolves when it is in the storage. */
  readonly append: (state: Persisted) => Promise<void>;
  /** Writes a snapshot and removes what it makes superfluous. */
  readonly snapshot: () => Promise<void>;
  /** Changes since the last snapshot. */
  readonly length: () => number;
}

/** What the journal stands on: a recovered start, and the state it led to. */
export function createJournal(storage: Storage, start: Recovered, state: Persisted): Journal {
  let durable = state;
  let number = start.number;
  let head = start.head;
  let slot = start.slot;
  let snapped: Persisted | undefined = start.replayed === 0 && start.damaged.length === 0 ? start.state : undefined;
  // Only parts that were read from the head's own records may be taken over into the next head.
  if (start.damaged.length > 0) head = undefined;
  return {
    append: async (next) => {
      const patches = difference(durable, next);
      if (patches.length === 0) {
        durable = next;
        return;
      }
      const entry: Entry = { number: number + 1, patches };
      await storage.add(journalKey(entry.number), sealed(entry));
      number = entry.number;
      durable = next;
    },
    snapshot: async () => {
      const kept = durable;
      const at = number;
      const before = snapped === undefined ? {} : partsOf(snapped);
      const parts: Record<string, string> = {};
      for (const [name, data] of Object.entries(partsOf(kept))) {
        const known = head?.parts[name];
        const unchanged = known !== undefined && name !== restPart && before[name] === data;
        parts[name] = unchanged ? known : partKey(name, at);
        if (!unchanged) await storage.put(parts[name], sealed(data));
      }
      const next: Head = { version: storageVersion, number: at, parts };
      const other = slot === 'a' ? 'b' : 'a';
      await storage.put(`head/${other}`, sealed(next));
      const older = head;
      head = next;
      slot = other;
      snapped = kept;
      await removeSuperfluous(storage, [next, ...(older === undefined ? [] : [older])]);
    },
    length: () => number - (head?.number ?? 0),
  };
}

/** Removes parts that neither head names, and journal entries that the older of the two already contains. */
async function removeSuperfluous(storage: Storage, kept: readonly Head[]): Promise<void> {
  const named = new Set(kept.flatMap(({ parts }) => Object.values(parts)));
  const oldest = Math.min(...kept.map(({ number }) => number));
  const parts = (await storage.keys('part/')).filter((key) => !named.has(key));
  const entries = (await storage.keys('journal/')).filter((key) => Number(key.slice('journal/'.length)) <= oldest);
  const all = kept.length < 2 ? parts : [...parts, ...entries];
  if (all.length > 0) await storage.remove(all);
}
