/**
 * The place where work is kept. Keys sort as texts; values are texts, so that damage can be seen by a checksum and shown.
 * Every call may fail at any time, and a crash may come between any two.
 */
export interface Storage {
  readonly get: (key: string) => Promise<string | undefined>;
  /** All keys that begin so, in order. */
  readonly keys: (prefix: string) => Promise<readonly string[]>;
  readonly put: (key: string, value: string) => Promise<void>;
  /** Puts where nothing stands yet; rejects with `KeyTaken` where something does. */
  readonly add: (key: string, value: string) => Promise<void>;
  readonly remove: (keys: readonly string[]) => Promise<void>;
}

/** Another tab wrote there first. */
export class KeyTaken extends Error {
  constructor(key: string) {
    super(`${key} is there already`);
    this.name = 'KeyTaken';
  }
}

/** Whether the device has no room left (QuotaExceededError of the browsers, whatever class they throw it as). */
export const isFull = (error: unknown): boolean =>
  typeof error === 'object' && error !== null && (error as { name?: unknown }).name === 'QuotaExceededError';

/** Storage in this tab's memory only: for browsers that refuse any, and for tests. */
export function memoryStorage(kept: Map<string, string> = new Map()): Storage {
  return {
    get: async (key) => kept.get(key),
    keys: async (prefix) => [...kept.keys()].filter((key) => key.startsWith(prefix)).sort(),
    put: async (key, value) => {
      kept.set(key, value);
    },
    add: async (key, value) => {
      if (kept.has(key)) throw new KeyTaken(key);
      kept.set(key, value);
    },
    remove: async (keys) => {
      for (const key of keys) kept.delete(key);
    },
  };
}
