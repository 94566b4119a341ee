import { createStore, type StoreApi } from 'zustand/vanilla';
import type { ComputeState } from './compute.js';
import type { AppState } from './state.js';

/** What the page draws: files and answers that belong together. */
export interface Shown {
  readonly app: AppState;
  readonly compute: ComputeState;
}

/**
 * Follows both stores for drawing. Right after an edit it waits a moment for the central verdict: drawing takes longer than most
 * answers, and would hold them up only to be drawn again with them. Everything else is shown at once.
 * Must be made before anything that asks for verdicts follows `app`.
 * hold - does something after the longest wait for an answer; returns what calls it off
 */
export function createShown(
  app: StoreApi<AppState>,
  compute: StoreApi<ComputeState>,
  hold: (action: () => void) => () => void,
): StoreApi<Shown> {
  const shown = createStore<Shown>(() => ({ app: app.getState(), compute: compute.getState() }));
  let waiting: { readonly for: unknown; readonly callOff: () => void } | undefined;
  const show = () => {
    waiting?.callOff();
    waiting = undefined;
    shown.setState({ app: app.getState(), compute: compute.getState() });
  };
  app.subscribe((state, before) => {
    if (waiting !== undefined) return;
    if (before.ready && state.work !== before.work) {
      waiting = { for: compute.getState().channels.verdict, callOff: hold(show) };
    } else show();
  });
  compute.subscribe(({ channels: { verdict } }) => {
    const isAwaited = waiting !== undefined && (verdict === waiting.for || verdict.status.kind === 'running');
    if (!isAwaited) show();
  });
  return shown;
}
