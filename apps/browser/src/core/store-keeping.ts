import type { StoreApi } from 'zustand/vanilla';
import { createJournal, type Recovered, recover } from './journal.js';
import { createSaver, type Saver, type SaverStatus } from './saver.js';
import { type AppState, type Persisted, usualPreferences, usualUi } from './state.js';
import type { Storage } from './storage.js';
import type { AppStore } from './store.js';
import { keepTab, type TabKeeper, type Tabs } from './tabs.js';

/** Keeps the state of a store in the storage, alone among the tabs of the browser. */
export interface Keeping {
  /** Resolves when the work can be changed; never rejects. */
  readonly started: Promise<void>;
  /** The state as it is now goes into the storage, where this tab may write. */
  readonly save: () => void;
  readonly takeOver: () => Promise<void>;
  /** Resolves when everything is in the storage, or could not be written. */
  readonly saved: () => Promise<void>;
  readonly close: () => Promise<void>;
}

export interface KeepingOptions {
  readonly store: StoreApi<AppState>;
  readonly storage: Storage | undefined;
  readonly tabs: Tabs;
  readonly newId: () => string;
  readonly empty: Persisted;
  readonly notify: AppStore['notify'];
  readonly dismiss: AppStore['dismiss'];
  /** The work is in the state: what changes it may load. */
  readonly becomeReady: () => Promise<void>;
}

const readOnlyText = 'This project is open in another tab. Here it can be looked at; take over to edit it here.';

const persistedOf = ({ work, history, preferences, ui }: AppState): Persisted => ({ work, history, preferences, ui });

/** Reads the work, then keeps it: one tab writes, the others look; whatever fails is said. */
export function keepInStorage(options: KeepingOptions): Keeping {
  const { store, storage, tabs, newId, empty, notify, dismiss, becomeReady } = options;
  const { getState, setState } = store;
  let saver: Saver | undefined;
  let keeper: TabKeeper | undefined;

  const becomeReader = () => {
    saver?.stop();
    saver = undefined;
    setState({ save: { kind: 'read only', text: readOnlyText } });
    notify({ id: 'read only', severity: 'warning', text: readOnlyText, actions: ['take over', 'export'] });
  };

  const onSaver = (status: SaverStatus) => {
    if (status.kind !== 'failed') {
      setState({ save: status });
      if (status.kind === 'saved') {
        dismiss('not saved');
        keeper?.announceSaved();
      }
      return;
    }
    const text = failureText(status);
    setState({ save: { kind: 'not saved', reason: status.reason === 'full' ? 'full' : 'failed', text } });
    notify({
      id: 'not saved',
      severity: 'error',
      text,
      actions: status.reason === 'taken' ? ['export', 'take over'] : ['export', 'retry'],
    });
    if (status.reason === 'taken') {
      saver = undefined;
      setState({ save: { kind: 'read only', text } });
    }
  };

  const tellRecovery = ({ report, damaged }: Recovered) => {
    for (const [i, text] of report.entries()) {
      const actions = damaged.length > 0 ? (['show damaged', 'dismiss'] as const) : (['dismiss'] as const);
      notify({ id: `recovery ${i}`, severity: 'warning', text, actions });
    }
  };

  /** Reads the storage into the state; later readings leave alone where this tab is and how it looks. */
  const load = async (from: Storage, isFirst: boolean): Promise<Recovered> => {
    const found = await recover(from, empty);
    if (found.state === undefined) return found;
    const { work, history, preferences, ui } = found.state;
    // Settings that an older program did not know have their usual values.
    const own = { preferences: { ...usualPreferences, ...preferences }, ui: { ...usualUi, ...ui } };
    setState({ work, history, ...(isFirst ? own : {}) });
    return found;
  };

  const writeFrom = async (from: Storage, found: Recovered) => {
    const base = found.state ?? empty;
    const journal = createJournal(from, found, base);
    saver = createSaver(journal, onSaver);
    // The first start, and what was repaired, go into the storage at once.
    saver.save(persistedOf(getState()));
    if (found.replayed > 0 || found.damaged.length > 0) {
      await saver.settled();
      await journal.snapshot().catch(() => {});
    }
  };

  const start = async () => {
    if (storage === undefined) {
      const text = 'This browser keeps nothing for noonwing. Work lasts as long as this tab; export what should stay.';
      notify({ id: 'not saved', severity: 'warning', text, actions: ['export'] });
      setState({ save: { kind: 'not saved', reason: 'none', text } });
      return becomeReady();
    }
    try {
      keeper = await keepTab({
        tabs,
        id: newId(),
        beforeHandOver: async () => saver?.settled(),
        onLost: becomeReader,
        onSavedElsewhere: () => void load(storage, false).catch(() => {}),
      });
      const found = await load(storage, true);
      tellRecovery(found);
      await becomeReady();
      if (found.newer) setState({ save: { kind: 'not saved', reason: 'none', text: found.report[0]! } });
      else if (keeper.role() === 'reader') becomeReader();
      else await writeFrom(storage, found);
    } catch (error) {
      const text = `The work on this device cannot be read: ${error instanceof Error ? error.message : error}. It is left as it is; export what is done here.`;
      notify({ id: 'not saved', severity: 'error', text, actions: ['export', 'reload'] });
      setState({ save: { kind: 'not saved', reason: 'failed', text } });
      await becomeReady();
    }
  };

  const takeOver = async () => {
    if (storage === undefined || keeper === undefined || getState().save.kind !== 'read only') return;
    await keeper.takeOver();
    try {
      const found = await load(storage, false);
      tellRecovery(found);
      dismiss('read only');
      setState({ save: { kind: 'saving' } });
      await writeFrom(storage, found);
    } catch (error) {
      const text = `The work could not be taken over: ${error instanceof Error ? error.message : error}`;
      notify({ id: 'not saved', severity: 'error', text, actions: ['export', 'take over'] });
    }
  };

  const started = start();
  const saved = async () => {
    await started;
    await saver?.settled();
  };
  return {
    started,
    save: () => saver?.save(persistedOf(getState())),
    takeOver,
    saved,
    close: async () => {
      await saved();
      saver?.stop();
      keeper?.close();
    },
  };
}

const failureText = ({ reason, text }: Extract<SaverStatus, { kind: 'failed' }>): string => {
  if (reason === 'full') {
    return 'This device has no room left for noonwing. Work goes on in this tab, but is not saved: export it, or make room and try again.';
  }
  if (reason === 'taken') {
    return 'Another tab saved first. The newest change of this tab is only here: export it, or take over.';
  }
  return `The last change could not be saved (${text}). Work goes on in this tab: export it, or try again.`;
};
