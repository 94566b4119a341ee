import type { QuantityKind } from '@noonwing/quantities';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Command, CommandResult } from './commands.js';
import { type Capture, noHistory, recorded, redone, undone } from './history.js';
import { createJournal, type Recovered, recover } from './journal.js';
import { type Example, type Project, projectFromExample } from './project.js';
import { createSaver, type Saver, type SaverStatus } from './saver.js';
import {
  type AppState,
  activeOf,
  type Notice,
  type Persisted,
  type Preferences,
  type SaveStatus,
  type UiState,
  usualPreferences,
  usualUi,
  type Work,
} from './state.js';
import type { Storage } from './storage.js';
import { aloneTabs, keepTab, type TabKeeper, type Tabs } from './tabs.js';

export interface AppStoreOptions {
  /** Absent where the browser refuses any storage: work is then kept in this tab only, and that is said. */
  readonly storage?: Storage;
  /** Clock [ms since 1970]. */
  readonly now: () => number;
  /** A text that was never given before. */
  readonly newId: () => string;
  /** Opened at the first start, the first of them in view. */
  readonly examples?: readonly Example[];
  /** Other tabs of this browser; alone where absent. */
  readonly tabs?: Tabs;
}

/** The state of the application and everything that changes it. */
export interface AppStore {
  /** zustand store: `getState`, `subscribe`; for React `useStore(app.store, selector)`. */
  readonly store: StoreApi<AppState>;
  /** Resolves when the work of the storage is in the state and can be looked at and computed with; never rejects. */
  readonly read: Promise<void>;
  /** Resolves when the work can be changed too; never rejects. */
  readonly started: Promise<void>;
  /** Runs a command; by default a selection makes no step, everything else a new one. */
  readonly run: (command: Command, capture?: Capture) => CommandResult;
  /** Sets one value of the active design ('battery.x', '-43 mm'), or of the active day plan with file 'day'. */
  readonly setValue: (
    path: string,
    text: string,
    options?: { readonly file?: 'design' | 'day'; readonly capture?: Capture },
  ) => CommandResult;
  readonly setText: (path: string, text: string, capture?: Capture) => CommandResult;
  readonly undo: () => boolean;
  readonly redo: () => boolean;
  /** The next 'same step' begins a new step: a drag ended, a field lost focus. */
  readonly endStep: () => void;
  readonly newProject: (name: string, files: Readonly<Record<string, string>>) => string;
  readonly openExample: (key: string) => string | undefined;
  readonly duplicateProject: (project: string) => string | undefined;
  /** Keeps the active design and day as they are now, to compare with. */
  readonly remember: (label?: string) => void;
  readonly setPreferences: (change: Partial<Preferences>) => void;
  /** null: the usual unit again. */
  readonly setUnit: (kind: QuantityKind, unit: string | null) => void;
  /** A value of undefined takes the key away: `setUi({ hour: undefined })` is the best hour again. */
  readonly setUi: (change: { readonly [K in keyof UiState]?: UiState[K] | undefined }) => void;
  readonly notify: (notice: Omit<Notice, 'id'> & { readonly id?: string }) => void;
  readonly dismiss: (notice: string) => void;
  /** A read-only tab takes the work; the other tab becomes read-only. */
  readonly takeOver: () => Promise<void>;
  /** Tries again what could not be saved. */
  readonly retrySave: () => void;
  /** Resolves when everything is in the storage, or could not be written. */
  readonly saved: () => Promise<void>;
  readonly close: () => Promise<void>;
}

const emptyWork: Work = { projects: {}, current: '', pending: {} };

const emptyState: Persisted = { work: emptyWork, history: noHistory, preferences: usualPreferences, ui: usualUi };

const readOnlyText = 'This project is open in another tab. Here it can be looked at; take over to edit it here.';

const persistedOf = ({ work, history, preferences, ui }: AppState): Persisted => ({ work, history, preferences, ui });

/** Most projects whose order is remembered. */
const mostRecent = 50;

/** The order in which projects were open, where another one is opened. */
const opened = ({ work, ui }: AppState, next: Work): { readonly ui?: UiState } =>
  next.current === work.current
    ? {}
    : {
        ui: {
          ...ui,
          recent: [...new Set([next.current, work.current, ...(ui.recent ?? [])])].slice(0, mostRecent),
        },
      };

const withoutUndefined = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).filter(([, item]) => item !== undefined)) as T;

/** What a first start shows: every example as a project. */
function firstWork(examples: readonly Example[], newId: () => string): Work {
  const projects = examples.map((example): Project => projectFromExample(example, newId()));
  return {
    ...emptyWork,
    projects: Object.fromEntries(projects.map((project) => [project.id, project])),
    current: projects[0]?.id ?? '',
  };
}

/** Creates the store; it can be used at once, what is kept in the storage arrives with `started`. */
export function createAppStore(options: AppStoreOptions): AppStore {
  const { storage, now, newId, examples = [], tabs = aloneTabs } = options;
  const store = createStore<AppState>(() => ({
    ...emptyState,
    work: firstWork(examples, newId),
    examples,
    save: { kind: 'saving' },
    notices: [],
    ready: false,
  }));
  const { getState, setState } = store;
  let saver: Saver | undefined;
  let keeper: TabKeeper | undefined;
  /** What edits files reads them too; it loads while the first verdict is computed. */
  let commands: typeof import('./commands.js') | undefined;
  let finishReading = (): void => {};
  const read = new Promise<void>((resolve) => {
    finishReading = resolve;
  });

  const notify: AppStore['notify'] = (notice) => {
    const id = notice.id ?? newId();
    const others = getState().notices.filter((one) => one.id !== id);
    setState({ notices: [...others, { ...notice, id }] });
  };
  const dismiss = (id: string) => setState({ notices: getState().notices.filter((one) => one.id !== id) });

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
    const found = await recover(from, { ...emptyState, work: emptyWork });
    if (found.state === undefined) return found;
    const { work, history, preferences, ui } = found.state;
    // Settings that an older program did not know have their usual values.
    const own = { preferences: { ...usualPreferences, ...preferences }, ui: { ...usualUi, ...ui } };
    setState({ work, history, ...(isFirst ? own : {}) });
    return found;
  };

  const writeFrom = async (from: Storage, found: Recovered) => {
    const base = found.state ?? { ...emptyState, work: emptyWork };
    const journal = createJournal(from, found, base);
    saver = createSaver(journal, onSaver);
    // The first start, and what was repaired, go into the storage at once.
    saver.save(persistedOf(getState()));
    if (found.replayed > 0 || found.damaged.length > 0) {
      await saver.settled();
      await journal.snapshot().catch(() => {});
    }
  };

  /** The work is there; it can be changed as soon as the commands are loaded. */
  const becomeReady = async () => {
    finishReading();
    try {
      commands ??= await import('./commands.js');
      setState({ ready: true });
    } catch {
      const text =
        'A part of the program could not be loaded, so that nothing can be changed. Nothing is lost: load again.';
      notify({ id: 'not loaded', severity: 'error', text, actions: ['reload', 'export'] });
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

  const readOnly = () => getState().save.kind === 'read only';

  const keep = (change: Partial<Persisted>) => {
    setState(change);
    saver?.save(persistedOf(getState()));
  };

  const run: AppStore['run'] = (command, capture) => {
    const { work, history } = getState();
    if (readOnly() || !getState().ready || commands === undefined) {
      const reason = readOnly() ? 'this tab is read-only' : 'the work is still being read';
      const remedy = readOnly() ? 'take over from the other tab' : 'wait a moment';
      return { ok: false, reason, remedy, pending: false, messages: [] };
    }
    const { work: next, result } = commands.apply(work, command);
    if (next !== work) {
      const change = {
        label: commands.labelOf(command),
        key: commands.keyOf(command, work),
        capture: capture ?? (commands.isSelection(command) ? 'no history' : 'new step'),
        now: now(),
      } as const;
      keep({ work: next, history: recorded(history, work, next, change), ...opened(getState(), next) });
    }
    return result;
  };

  const travel = (moved: ReturnType<typeof undone<Work>>): boolean => {
    if (moved === undefined || readOnly()) return false;
    keep(moved);
    return true;
  };

  const started = start();

  return {
    store,
    read,
    started,
    run,
    setValue: (path, text, { file = 'design', capture = 'same step' } = {}) =>
      run({ kind: 'set value', file, path, text }, capture),
    setText: (path, text, capture = 'same step') => run({ kind: 'set text', path, text }, capture),
    undo: () => travel(undone(getState().history, getState().work)),
    redo: () => travel(redone(getState().history, getState().work)),
    endStep: () => {
      if (getState().history.open) setState({ history: { ...getState().history, open: false } });
    },
    newProject: (name, files) => {
      const id = newId();
      run({ kind: 'new project', id, name, files });
      return id;
    },
    openExample: (key) => {
      const example = getState().examples.find((one) => one.key === key);
      if (example === undefined) return undefined;
      const id = newId();
      return run({ kind: 'new project', id, name: example.name, files: example.files }).ok ? id : undefined;
    },
    duplicateProject: (project) => {
      const id = newId();
      return run({ kind: 'duplicate project', project, id }).ok ? id : undefined;
    },
    remember: (label) => {
      const { design, plan, project } = activeOf(getState());
      if (design === undefined || plan === undefined || project === undefined) return;
      run({
        kind: 'compare',
        slot: {
          kind: 'remembered',
          label: label ?? 'as it was',
          design,
          plan,
          sections: sectionsOf(project),
          at: now(),
        },
      });
    },
    setPreferences: (change) => keep({ preferences: { ...getState().preferences, ...change } }),
    setUnit: (kind, unit) => {
      const { preferences } = getState();
      const { [kind]: _, ...units } = preferences.units;
      keep({ preferences: { ...preferences, units: unit === null ? units : { ...units, [kind]: unit } } });
    },
    setUi: (change) => keep({ ui: withoutUndefined({ ...getState().ui, ...change }) as UiState }),
    notify,
    dismiss,
    takeOver: async () => {
      if (storage === undefined || keeper === undefined || !readOnly()) return;
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
    },
    retrySave: () => {
      saver?.save(persistedOf(getState()));
    },
    saved: async () => {
      await started;
      await saver?.settled();
    },
    close: async () => {
      await started;
      await saver?.settled();
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

/** Coordinate files of a project, by path. */
export const sectionsOf = (project: Project): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(project.files).filter(([path]) => /\.(dat|cor|txt)$/i.test(path)));

export type { SaveStatus };
