import { KeyTaken, memoryStorage, type Storage } from './storage.js';
import type { TabChannel, TabLock, TabMessage, Tabs } from './tabs.js';

/** A storage that fails from one call on, before or after the call did its work: a crash or a power loss at that point. */
export function crashingStorage(
  kept: Map<string, string>,
  failAt: number,
  after: boolean,
): Storage & { calls: () => number } {
  const inner = memoryStorage(kept);
  let calls = 0;
  const guarded = async <T>(action: () => Promise<T>): Promise<T> => {
    calls += 1;
    if (calls > failAt || (calls === failAt && !after)) throw new Error('power lost');
    const result = await action();
    if (calls === failAt) throw new Error('power lost');
    return result;
  };
  return {
    get: inner.get,
    keys: inner.keys,
    put: (key, value) => guarded(() => inner.put(key, value)),
    add: (key, value) => guarded(() => inner.add(key, value)),
    remove: (keys) => guarded(() => inner.remove(keys)),
    calls: () => calls,
  };
}

/** A storage with room for so many letters. */
export function smallStorage(kept: Map<string, string>, room: () => number): Storage {
  const inner = memoryStorage(kept);
  const check = (key: string, value: string) => {
    const others = [...kept].filter(([other]) => other !== key).reduce((sum, [, text]) => sum + text.length, 0);
    if (others + value.length > room()) throw Object.assign(new Error('no room'), { name: 'QuotaExceededError' });
  };
  return {
    ...inner,
    put: async (key, value) => {
      check(key, value);
      await inner.put(key, value);
    },
    add: async (key, value) => {
      if (kept.has(key)) throw new KeyTaken(key);
      check(key, value);
      await inner.add(key, value);
    },
  };
}

/** Tabs of one browser: a lock and a channel that they share. `frozen` tabs hear nothing. */
export function fakeBrowser() {
  let holder: { readonly lost: () => void } | undefined;
  const listeners = new Set<{ readonly hear: (message: TabMessage) => void; readonly frozen: () => boolean }>();
  const tab = (frozen: () => boolean = () => false): Tabs => {
    const lock: TabLock = {
      take: async (onLost) => {
        if (holder !== undefined) return undefined;
        const mine = { lost: onLost };
        holder = mine;
        return () => {
          if (holder === mine) holder = undefined;
        };
      },
      steal: async (onLost) => {
        holder?.lost();
        const mine = { lost: onLost };
        holder = mine;
        return () => {
          if (holder === mine) holder = undefined;
        };
      },
    };
    let own: { readonly hear: (message: TabMessage) => void; readonly frozen: () => boolean } | undefined;
    const channel: TabChannel = {
      post: (message) => {
        for (const other of listeners) if (other !== own && !other.frozen()) queueMicrotask(() => other.hear(message));
      },
      listen: (hear) => {
        own = { hear, frozen };
        listeners.add(own);
      },
      close: () => {
        if (own !== undefined) listeners.delete(own);
      },
    };
    return { lock, channel };
  };
  return { tab };
}

/** Ids in order. */
export function counter(prefix = 'id'): () => string {
  let next = 0;
  return () => `${prefix}${++next}`;
}
