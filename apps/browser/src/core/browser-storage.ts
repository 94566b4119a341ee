import { type IDBPDatabase, openDB } from 'idb';
import { KeyTaken, type Storage } from './storage.js';
import type { TabChannel, TabLock, TabMessage, Tabs } from './tabs.js';

const storeName = 'records';

/**
 * Work in the browser's own database. Rejects where the browser refuses one (private windows of some browsers).
 * name - of the database; onBlocked - another tab holds an older version open
 */
export async function openBrowserStorage(name = 'noonwing', onBlocked: () => void = () => {}): Promise<Storage> {
  let database: IDBPDatabase = await openDB(name, 1, {
    upgrade: (fresh) => {
      fresh.createObjectStore(storeName);
    },
    blocked: onBlocked,
    terminated: () => {
      // The browser closed it, for example under storage pressure: opened again by the next call.
      void openDB(name, 1).then((again) => {
        database = again;
      });
    },
  });
  return {
    get: async (key) => (await database.get(storeName, key)) as string | undefined,
    keys: async (prefix) => {
      const keys = await database.getAllKeys(storeName, IDBKeyRange.bound(prefix, `${prefix}\uffff`));
      return keys.map(String);
    },
    put: async (key, value) => {
      const writing = database.transaction(storeName, 'readwrite', { durability: 'strict' });
      await Promise.all([writing.store.put(value, key), writing.done]);
    },
    add: async (key, value) => {
      const writing = database.transaction(storeName, 'readwrite', { durability: 'strict' });
      try {
        await Promise.all([writing.store.add(value, key), writing.done]);
      } catch (error) {
        if ((error as { name?: string }).name === 'ConstraintError') throw new KeyTaken(key);
        throw error;
      }
    },
    remove: async (keys) => {
      const writing = database.transaction(storeName, 'readwrite');
      await Promise.all([...keys.map((key) => writing.store.delete(key)), writing.done]);
    },
  };
}

/** Asks the browser not to clear the work when the device runs short of room; true where it agrees. */
export async function keepForGood(): Promise<boolean> {
  try {
    return (await navigator.storage?.persist?.()) ?? false;
  } catch {
    return false;
  }
}

function webLock(name: string): TabLock {
  const request = (options: LockOptions, onLost: () => void): Promise<(() => void) | undefined> =>
    new Promise((resolve, reject) => {
      let isHeld = false;
      let freed = false;
      navigator.locks
        .request(name, options, (lock) => {
          if (lock === null) {
            resolve(undefined);
            return undefined;
          }
          isHeld = true;
          return new Promise<void>((release) => {
            resolve(() => {
              freed = true;
              release();
            });
          });
        })
        .catch((error: unknown) => {
          // A stolen lock ends its request with an AbortError.
          if (isHeld) {
            if (!freed) onLost();
          } else reject(error);
        });
    });
  return {
    take: (onLost) => request({ ifAvailable: true }, onLost),
    steal: async (onLost) => {
      const release = await request({ steal: true }, onLost);
      if (release === undefined) throw new Error('the lock could not be taken');
      return release;
    },
  };
}

function broadcast(name: string): TabChannel {
  const channel = new BroadcastChannel(name);
  return {
    post: (message) => channel.postMessage(message),
    listen: (onMessage) => {
      channel.onmessage = (event: MessageEvent<TabMessage>) => onMessage(event.data);
    },
    close: () => channel.close(),
  };
}

/** The other tabs of this browser; undefined where it has no locks or channels: a tab is then taken as the only one. */
export const browserTabs = (name = 'noonwing'): Tabs | undefined =>
  typeof navigator !== 'undefined' && navigator.locks !== undefined && typeof BroadcastChannel !== 'undefined'
    ? { lock: webLock(`${name} writer`), channel: broadcast(`${name} tabs`) }
    : undefined;
