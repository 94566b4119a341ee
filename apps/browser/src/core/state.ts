import type { QuantityKind } from '@noonwing/quantities';
import type { History } from './history.js';
import type { Example, Project } from './project.js';

/** What is set beside the active design: another design, or how this one was at a moment. */
export type CompareSlot =
  | { readonly kind: 'design'; readonly project: string; readonly design: string; readonly plan?: string }
  | {
      readonly kind: 'remembered';
      readonly label: string;
      readonly design: string;
      readonly plan: string;
      readonly sections: Readonly<Record<string, string>>;
      /** [ms] */
      readonly at: number;
    };

/** Text typed into a field that the file cannot take yet; nothing typed is lost. */
export interface Pending {
  readonly project: string;
  readonly file: string;
  readonly path: string;
  readonly text: string;
}

/** Everything that undo brings back. */
export interface Work {
  readonly projects: Readonly<Record<string, Project>>;
  /** The project looked at; empty where there is none. */
  readonly current: string;
  readonly compare?: CompareSlot;
  /** By `pendingKey`. */
  readonly pending: Readonly<Record<string, Pending>>;
}

export const pendingKey = (project: string, file: string, path: string): string => `${project}\n${file}\n${path}`;

export type Theme = 'system' | 'light' | 'dark' | 'sunlight';

/** Choices of the person, not of the design: kept on this device, not in the history. */
export interface Preferences {
  /** Unit by kind of quantity; kinds left out use the usual unit for the size. */
  readonly units: Readonly<Partial<Record<QuantityKind, string>>>;
  readonly theme: Theme;
  readonly reducedMotion: 'system' | 'yes' | 'no';
  /** Language tag for numbers (decimal mark, grouping): 'en', 'de', 'es' ...; 'system' follows the browser. */
  readonly language: string;
  readonly largeTargets: boolean;
}

export const usualPreferences: Preferences = {
  units: {},
  theme: 'system',
  reducedMotion: 'system',
  language: 'system',
  largeTargets: false,
};

/** Where the builder is in the application: not in the history, restored after a reload. */
export interface UiState {
  /** The place in the application: 'design/balance', 'measure' ... */
  readonly place: string;
  /** After the first local midnight [h]; absent: the best hour of the day. */
  readonly hour?: number;
  /** Index in the skies of the plan. */
  readonly sky: number;
  /** For the light on the cells: from north, clockwise [rad]. */
  readonly heading: number;
  /** Projects that were open, the newest first. */
  readonly recent?: readonly string[];
  /** Field to be focused next, as warnings lead to it. */
  readonly focus?: { readonly file: 'design' | 'day'; readonly path: string };
}

export const usualUi: UiState = { place: 'design', sky: 0, heading: 0 };

/** What is kept in the storage. */
export interface Persisted {
  readonly work: Work;
  readonly history: History;
  readonly preferences: Preferences;
  readonly ui: UiState;
}

/** Something that the user should be told; stays until dismissed. */
export interface Notice {
  readonly id: string;
  readonly severity: 'note' | 'warning' | 'error';
  readonly text: string;
  /** What can be done about it, in order of preference. */
  readonly actions: readonly NoticeAction[];
}

export type NoticeAction = 'reopen folder' | 'export' | 'take over' | 'retry' | 'show damaged' | 'reload' | 'dismiss';

/** Where the work stands in the storage. */
export type SaveStatus =
  /** Everything is in the storage. */
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  /** Kept in this tab only: the storage is full or fails. */
  | { readonly kind: 'not saved'; readonly reason: 'full' | 'failed' | 'none'; readonly text: string }
  /** Another tab has the work. */
  | { readonly kind: 'read only'; readonly text: string };

export interface AppState extends Persisted {
  readonly examples: readonly Example[];
  readonly save: SaveStatus;
  readonly notices: readonly Notice[];
  /** False until the storage was read. */
  readonly ready: boolean;
}

/** Projects, those that were open last first; what was never opened follows in the order in which it came. */
export function recentProjects({ work, ui }: Pick<AppState, 'work' | 'ui'>): readonly Project[] {
  const order = [work.current, ...(ui.recent ?? [])].filter((id) => Object.hasOwn(work.projects, id));
  return [...new Set([...order, ...Object.keys(work.projects)])].map((id) => work.projects[id]!).filter(Boolean);
}

/** The active project, design text and plan text, where there are any. */
export interface Active {
  readonly project?: Project;
  readonly designPath?: string;
  readonly planPath?: string;
  readonly design?: string;
  readonly plan?: string;
}

export function activeOf({ work }: Pick<AppState, 'work'>): Active {
  const project = work.projects[work.current];
  if (project === undefined) return {};
  const text = (path: string | undefined) => (path === undefined ? undefined : project.files[path]);
  const [design, plan] = [text(project.design), text(project.plan)];
  return {
    project,
    ...(project.design === undefined || design === undefined ? {} : { designPath: project.design, design }),
    ...(project.plan === undefined || plan === undefined ? {} : { planPath: project.plan, plan }),
  };
}
