import type { QuantityKind } from '@noonwing/quantities';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Command, CommandResult } from './commands.js';
import { type Capture, noHistory, recorded, redone, undone } from './history.js';
import { type Example, type Project, projectFromExample } from './project.js';
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
import { keepInStorage } from './store-keeping.js';
import { aloneTabs, type Tabs } from './tabs.js';

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

  const readOnly = () => getState().save.kind === 'read only';

  const keep = (change: Partial<Persisted>) => {
    setState(change);
    keeping.save();
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

  const keeping = keepInStorage({ store, storage, tabs, newId, empty: emptyState, notify, dismiss, becomeReady });

  return {
    store,
    read,
    started: keeping.started,
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
    takeOver: () => keeping.takeOver(),
    retrySave: keeping.save,
    saved: keeping.saved,
    close: keeping.close,
  };
}

/** Coordinate files of a project, by path. */
export const sectionsOf = (project: Project): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(project.files).filter(([path]) => /\.(dat|cor|txt)$/i.test(path)));

export type { SaveStatus };
