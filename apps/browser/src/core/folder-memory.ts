import { type IDBPDatabase, openDB } from 'idb';
import type { DirectoryHandle, FolderState } from './folder.js';

/** A folder that was open in place: the browser keeps its handle, but may ask the person again before it is used. */
export interface RememberedFolder {
  readonly project: string;
  readonly handle: DirectoryHandle;
  /** What was in it when it was last read or written: what differs from it changed since. */
  readonly state: FolderState;
}

const storeName = 'folders';

const database = (): Promise<IDBPDatabase> =>
  openDB('noonwing folders', 1, {
    upgrade: (fresh) => {
      fresh.createObjectStore(storeName, { keyPath: 'project' });
    },
  });

/** Folders that outlive the tab. Where the browser keeps none, nothing is remembered: that is no fault of the work. */
export const folderMemory = {
  keep: async (folder: RememberedFolder): Promise<void> => {
    try {
      await (await database()).put(storeName, folder);
    } catch {
      // The folder is then opened by hand after a reload.
    }
  },
  all: async (): Promise<readonly RememberedFolder[]> => {
    try {
      return (await (await database()).getAll(storeName)) as RememberedFolder[];
    } catch {
      return [];
    }
  },
  forget: async (project: string): Promise<void> => {
    try {
      await (await database()).delete(storeName, project);
    } catch {
      // It is asked for once more.
    }
  },
};
