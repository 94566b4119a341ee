import { backward, difference, forward, type Patch } from './patch.js';

/** How a change enters the history. */
export type Capture =
  /** A step of its own. */
  | 'new step'
  /** Joins the last step where that has the same key and nothing came between: dragging, typing in one field. */
  | 'same step'
  /** No step: it goes back together with the step before it (choosing another file, a change from outside). */
  | 'no history';

/** One undoable change. */
export interface Step {
  /** In words, for the menu: 'battery.x to -43 mm'. */
  readonly label: string;
  /** What 'same step' joins by; empty: joins nothing. */
  readonly key: string;
  /** When it was last added to [ms]. */
  readonly at: number;
  readonly patches: readonly Patch[];
}

/** Steps by number, from 1; those up to `position` are done, those after it undone. Kept by number so that a change writes little. */
export interface History {
  readonly steps: Readonly<Record<string, Step>>;
  readonly position: number;
  /** Number of the oldest step kept. */
  readonly oldest: number;
  /** Whether the last step still takes 'same step' changes. */
  readonly open: boolean;
}

export const noHistory: History = { steps: {}, position: 0, oldest: 1, open: false };

/** Older steps are forgotten. */
export const longestHistory = 500;

/** Pauses longer than this end a step of typing or dragging [ms]; common practice, no source. */
export const longestPause = 4000;

export const canUndo = ({ position, oldest }: History): boolean => position >= oldest;
export const canRedo = ({ steps, position }: History): boolean => String(position + 1) in steps;
export const undoLabel = (history: History): string | undefined => history.steps[history.position]?.label;
export const redoLabel = (history: History): string | undefined => history.steps[history.position + 1]?.label;

/** Labels of all steps kept, oldest first, and which are done. */
export const historyList = ({
  steps,
  position,
}: History): readonly { number: number; label: string; done: boolean }[] =>
  Object.keys(steps)
    .map(Number)
    .sort((a, b) => a - b)
    .map((number) => ({ number, label: steps[number]!.label, done: number <= position }));

/** The steps that are done; undone ones are dropped. */
const doneSteps = ({ steps, position }: History): Record<string, Step> =>
  Object.fromEntries(Object.entries(steps).filter(([number]) => Number(number) <= position));

export interface Change {
  readonly label: string;
  readonly key: string;
  readonly capture: Capture;
  readonly now: number;
}

/**
 * The history after a change of the work.
 * was, now - work before and after the change
 */
export function recorded<T>(history: History, was: T, now: T, change: Change): History {
  if (Object.is(was, now)) return history;
  const { position, oldest } = history;
  const last = history.steps[position];
  const joins =
    last !== undefined &&
    (change.capture === 'no history' ||
      (change.capture === 'same step' &&
        history.open &&
        change.key !== '' &&
        last.key === change.key &&
        change.now - last.at <= longestPause));
  if (joins) {
    const before = backward(was, last.patches);
    const step: Step = {
      ...last,
      ...(change.capture === 'no history' ? {} : { label: change.label, at: change.now }),
      patches: difference(before, now),
    };
    return {
      steps: { ...doneSteps(history), [position]: step },
      position,
      oldest,
      open: change.capture === 'no history' ? history.open : true,
    };
  }
  // Without a step to go back with, the change becomes the start of the history.
  if (change.capture === 'no history') return { steps: doneSteps(history), position, oldest, open: false };
  const step: Step = { label: change.label, key: change.key, at: change.now, patches: difference(was, now) };
  const steps: Record<string, Step> = { ...doneSteps(history), [position + 1]: step };
  const kept = Math.max(oldest, position + 2 - longestHistory);
  for (let number = oldest; number < kept; number++) delete steps[String(number)];
  return { steps, position: position + 1, oldest: kept, open: true };
}

export function undone<T>(history: History, work: T): { readonly history: History; readonly work: T } | undefined {
  if (!canUndo(history)) return undefined;
  const step = history.steps[history.position]!;
  return {
    history: { ...history, position: history.position - 1, open: false },
    work: backward(work, step.patches),
  };
}

export function redone<T>(history: History, work: T): { readonly history: History; readonly work: T } | undefined {
  if (!canRedo(history)) return undefined;
  const step = history.steps[history.position + 1]!;
  return {
    history: { ...history, position: history.position + 1, open: false },
    work: forward(work, step.patches),
  };
}
