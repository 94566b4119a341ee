import type { Refused } from './archive.js';
import { acceptFile, acceptName, greatestFile } from './names.js';

/** A folder of the device, as the browser lets it be opened. Tests give a fake. */
export interface FolderAccess {
  readonly name: string;
  /** Every file in it and its folders: path, when it was changed [ms], size [bytes]. */
  readonly list: () => Promise<readonly FolderEntry[]>;
  readonly read: (path: string) => Promise<Uint8Array>;
  readonly write: (path: string, text: string) => Promise<void>;
  readonly remove: (path: string) => Promise<void>;
}

export interface FolderEntry {
  readonly path: string;
  readonly lastModified: number;
  readonly size: number;
}

/** What was in the folder when it was last read or written. */
export interface FolderState {
  readonly files: Readonly<Record<string, { readonly text: string; readonly lastModified: number }>>;
}

/** A file that changed both here and outside. `null`: gone. */
export interface Conflict {
  readonly path: string;
  readonly here: string | null;
  readonly outside: string | null;
}

export interface FolderRead {
  readonly state: FolderState;
  readonly refused: readonly Refused[];
}

async function readEntry(folder: FolderAccess, entry: FolderEntry): Promise<string | Refused> {
  if (entry.size > greatestFile) {
    return {
      name: acceptName(entry.path),
      reason: `it has ${(entry.size / 1e6).toFixed(1)} MB`,
      remedy: 'it stays in the folder, untouched',
    };
  }
  const checked = acceptFile(entry.path, await folder.read(entry.path));
  if (checked.ok) return checked.text;
  return { name: acceptName(entry.path), reason: checked.reason, remedy: 'it stays in the folder, untouched' };
}

/** Reads all text files of a folder; what is no text stays where it is. */
export async function readFolder(folder: FolderAccess): Promise<FolderRead> {
  const files: Record<string, { text: string; lastModified: number }> = {};
  const refused: Refused[] = [];
  for (const entry of await folder.list()) {
    const read = await readEntry(folder, entry);
    if (typeof read === 'string') files[entry.path] = { text: read, lastModified: entry.lastModified };
    else refused.push(read);
  }
  return { state: { files }, refused };
}

export interface OutsideChanges {
  /** Changed outside only: to be taken. `null`: gone. */
  readonly taken: Readonly<Record<string, string | null>>;
  /** Changed on both sides: ask which to keep. */
  readonly conflicts: readonly Conflict[];
  readonly state: FolderState;
  readonly refused: readonly Refused[];
}

/**
 * What changed in the folder since it was last read or written.
 * here - the texts of the project now
 */
export async function outsideChanges(
  folder: FolderAccess,
  state: FolderState,
  here: Readonly<Record<string, string>>,
): Promise<OutsideChanges> {
  const taken: Record<string, string | null> = {};
  const conflicts: Conflict[] = [];
  const refused: Refused[] = [];
  const files = { ...state.files };
  const entries = await folder.list();
  const decide = (path: string, outside: string | null) => {
    const before = state.files[path]?.text ?? null;
    const mine = here[path] ?? null;
    if (outside === before || outside === mine) return;
    if (mine === before) taken[path] = outside;
    else conflicts.push({ path, here: mine, outside });
  };
  for (const entry of entries) {
    const known = state.files[entry.path];
    if (known !== undefined && known.lastModified === entry.lastModified) continue;
    const text = await readEntry(folder, entry);
    if (typeof text !== 'string') {
      refused.push(text);
      continue;
    }
    decide(entry.path, text);
    files[entry.path] = { text, lastModified: entry.lastModified };
  }
  const there = new Set(entries.map(({ path }) => path));
  for (const path of Object.keys(state.files)) {
    if (there.has(path)) continue;
    decide(path, null);
    delete files[path];
  }
  return { taken, conflicts, state: { files }, refused };
}

export interface Written {
  readonly state: FolderState;
  /** Not written because they changed outside in the meantime: ask first. */
  readonly conflicts: readonly Conflict[];
  readonly failed: readonly { readonly path: string; readonly reason: string }[];
}

/**
 * Writes what changed here back into the folder. A file that changed outside since it was read is left alone and reported.
 * here - the texts of the project; keep - paths for which the builder chose the text from here
 */
export async function writeFolder(
  folder: FolderAccess,
  state: FolderState,
  here: Readonly<Record<string, string>>,
  keep: ReadonlySet<string> = new Set(),
): Promise<Written> {
  const outside = await outsideChanges(folder, state, here);
  const disputed = new Set([...outside.conflicts.map(({ path }) => path), ...Object.keys(outside.taken)]);
  const files = { ...state.files };
  const failed: { path: string; reason: string }[] = [];
  const attempt = async (path: string, action: () => Promise<void>) => {
    try {
      await action();
      return true;
    } catch (error) {
      failed.push({ path, reason: error instanceof Error ? error.message : String(error) });
      return false;
    }
  };
  for (const [path, text] of Object.entries(here)) {
    if (files[path]?.text === text || (disputed.has(path) && !keep.has(path))) continue;
    if (await attempt(path, () => folder.write(path, text))) files[path] = { text, lastModified: 0 };
  }
  for (const path of Object.keys(files)) {
    if (path in here || (disputed.has(path) && !keep.has(path))) continue;
    if (await attempt(path, () => folder.remove(path))) delete files[path];
  }
  // The device sets the times of what was written; what it stands at now is ours.
  for (const entry of await folder.list()) {
    const mine = files[entry.path];
    if (mine !== undefined && mine.lastModified === 0)
      files[entry.path] = { ...mine, lastModified: entry.lastModified };
  }
  return { state: { files }, conflicts: outside.conflicts.filter(({ path }) => !keep.has(path)), failed };
}

/** A folder as the browser hands it out; it can be kept in the browser's own database. */
export interface DirectoryHandle {
  readonly name: string;
  readonly kind: 'directory';
  readonly entries: () => AsyncIterable<[string, DirectoryHandle | FileHandle]>;
  readonly getDirectoryHandle: (name: string, options?: { create?: boolean }) => Promise<DirectoryHandle>;
  readonly getFileHandle: (name: string, options?: { create?: boolean }) => Promise<FileHandle>;
  readonly removeEntry: (name: string) => Promise<void>;
  readonly isSameEntry?: (other: DirectoryHandle) => Promise<boolean>;
  readonly queryPermission?: (wanted: { mode: 'readwrite' }) => Promise<Permission>;
  readonly requestPermission?: (wanted: { mode: 'readwrite' }) => Promise<Permission>;
}

type Permission = 'granted' | 'denied' | 'prompt';

/**
 * Whether a folder that was kept may be used.
 * asking - the person pressed something just now, so that the browser may ask
 */
export async function mayUse(handle: DirectoryHandle, asking: boolean): Promise<boolean> {
  const wanted = { mode: 'readwrite' } as const;
  const now = await (handle.queryPermission?.(wanted) ?? 'granted');
  if (now === 'granted' || !asking) return now === 'granted';
  return (await (handle.requestPermission?.(wanted) ?? 'denied')) === 'granted';
}

interface FileHandle {
  readonly kind: 'file';
  readonly getFile: () => Promise<{ size: number; lastModified: number; arrayBuffer: () => Promise<ArrayBuffer> }>;
  readonly createWritable: () => Promise<{ write: (text: string) => Promise<void>; close: () => Promise<void> }>;
}

/** A project folder lies at most so deep. */
const deepest = 4;

async function entriesOf(handle: DirectoryHandle, prefix: string, found: FolderEntry[], depth: number): Promise<void> {
  for await (const [name, entry] of handle.entries()) {
    if (name.startsWith('.') || name === 'node_modules') continue;
    const path = prefix + name;
    if (entry.kind === 'directory') {
      if (depth < deepest) await entriesOf(entry, `${path}/`, found, depth + 1);
    } else {
      const { size, lastModified } = await entry.getFile();
      found.push({ path, size, lastModified });
    }
  }
}

/** A folder chosen with the browser's folder picker. */
export function folderOf(root: DirectoryHandle): FolderAccess {
  const parentOf = async (path: string, create: boolean) => {
    const parts = path.split('/');
    let directory = root;
    for (const part of parts.slice(0, -1)) directory = await directory.getDirectoryHandle(part, { create });
    return { directory, name: parts.at(-1)! };
  };
  return {
    name: root.name,
    list: async () => {
      const found: FolderEntry[] = [];
      await entriesOf(root, '', found, 1);
      return found;
    },
    read: async (path) => {
      const { directory, name } = await parentOf(path, false);
      const file = await (await directory.getFileHandle(name)).getFile();
      return new Uint8Array(await file.arrayBuffer());
    },
    write: async (path, text) => {
      const { directory, name } = await parentOf(path, true);
      // The browser writes to a copy and swaps it in on close: a crash leaves the old file.
      const writable = await (await directory.getFileHandle(name, { create: true })).createWritable();
      await writable.write(text);
      await writable.close();
    },
    remove: async (path) => {
      const { directory, name } = await parentOf(path, false);
      await directory.removeEntry(name);
    },
  };
}

/** Lets the person choose a folder; undefined where nothing was chosen. */
export async function chooseFolder(): Promise<DirectoryHandle | undefined> {
  const picker = (globalThis as { showDirectoryPicker?: (options: object) => Promise<DirectoryHandle> })
    .showDirectoryPicker;
  if (picker === undefined) return undefined;
  try {
    return await picker({ id: 'noonwing', mode: 'readwrite' });
  } catch (error) {
    if ((error as { name?: string }).name === 'AbortError') return undefined;
    throw error;
  }
}
