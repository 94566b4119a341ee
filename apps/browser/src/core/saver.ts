import type { Journal } from './journal.js';
import type { Persisted } from './state.js';
import { isFull, KeyTaken } from './storage.js';

export type SaverStatus =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'failed'; readonly reason: 'full' | 'failed' | 'taken'; readonly text: string };

export interface Saver {
  /** The newest state; it is written at once, or as soon as the write before it has ended. */
  readonly save: (state: Persisted) => void;
  /** Resolves when everything given so far is in the storage, or could not be written. */
  readonly settled: () => Promise<void>;
  /** Writes nothing more. */
  readonly stop: () => void;
}

/** A snapshot after so many changes keeps the start quick. */
const snapshotEvery = 60;

/** Writes every change to the journal, one write at a time, the newest state each time. */
export function createSaver(journal: Journal, onStatus: (status: SaverStatus) => void): Saver {
  let newest: Persisted | undefined;
  let running: Promise<void> | undefined;
  let stopped = false;
  let isFailing = false;
  let isAsked = false;

  const failed = (error: unknown) => {
    if (error instanceof KeyTaken) {
      stopped = true;
      onStatus({ kind: 'failed', reason: 'taken', text: 'another tab saved first' });
      return;
    }
    const text = error instanceof Error ? error.message : String(error);
    onStatus({ kind: 'failed', reason: isFull(error) ? 'full' : 'failed', text });
  };

  const trimmed = async () => {
    if (journal.length() < snapshotEvery) return;
    try {
      await journal.snapshot();
    } catch {
      // Every change is in the journal already; the next change tries again.
    }
  };

  const work = async () => {
    while (newest !== undefined && !stopped) {
      const state = newest;
      isAsked = false;
      onStatus({ kind: 'saving' });
      try {
        await journal.append(state);
      } catch (error) {
        failed(error);
        // Something newer, or a wish to try again, came while this write was failing.
        isFailing = !isAsked;
        return;
      }
      isFailing = false;
      if (newest === state) newest = undefined;
      await trimmed();
    }
    if (!stopped) onStatus({ kind: 'saved' });
  };

  const start = () => {
    if (running !== undefined || newest === undefined || stopped) return;
    running = work().finally(() => {
      running = undefined;
      // A change may have come between the last write and here.
      if (!isFailing) start();
    });
  };

  return {
    save: (state) => {
      newest = state;
      isFailing = false;
      isAsked = true;
      start();
    },
    settled: async () => {
      while (running !== undefined) await running;
    },
    stop: () => {
      stopped = true;
    },
  };
}
