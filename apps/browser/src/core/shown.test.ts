import { describe, expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { ComputeState } from './compute.js';
import { createShown } from './shown.js';
import type { AppState } from './state.js';

const idle = { kind: 'idle' } as const;

/** Both stores as far as drawing reads them, and the longest wait in our hands. */
function made({ ready = true } = {}) {
  const app = createStore(() => ({ work: { current: 'a' }, ui: { hour: 10 }, ready }) as unknown as AppState);
  const compute = createStore(
    () =>
      ({ channels: { verdict: { status: idle, stale: false }, hour: { status: idle } } }) as unknown as ComputeState,
  );
  let waited: (() => void) | undefined;
  const shown = createShown(app, compute, (action) => {
    waited = action;
    return () => {
      waited = undefined;
    };
  });
  let drawn = 0;
  shown.subscribe(() => {
    drawn++;
  });
  const verdict = (change: object) => {
    const { channels } = compute.getState();
    compute.setState({ channels: { ...channels, verdict: { ...channels.verdict, ...change } } as never });
  };
  const edit = (current: string) => app.setState({ work: { current } as never });
  return { app, compute, shown, verdict, edit, drawn: () => drawn, waited: () => waited };
}

describe('what the page draws', () => {
  it('is an edit together with its answer, drawn once', () => {
    const { shown, edit, verdict, drawn, waited } = made();
    edit('b');
    verdict({ status: { kind: 'running' }, stale: true });
    expect(drawn()).toBe(0);
    expect(shown.getState().app.work.current).toBe('a');
    verdict({ status: idle, stale: false, view: 'new' });
    expect(drawn()).toBe(1);
    expect(shown.getState().app.work.current).toBe('b');
    expect(shown.getState().compute.channels.verdict.view).toBe('new');
    expect(waited()).toBeUndefined();
  });

  it('is the edit alone when the answer takes longer', () => {
    const { shown, edit, verdict, drawn, waited } = made();
    edit('b');
    verdict({ status: { kind: 'running' }, stale: true });
    waited()?.();
    expect(drawn()).toBe(1);
    expect(shown.getState().app.work.current).toBe('b');
    expect(shown.getState().compute.channels.verdict.stale).toBe(true);
  });

  it('does not wait where nothing was edited', () => {
    const { app, compute, shown, verdict, waited } = made();
    app.setState({ ui: { hour: 11 } as never });
    expect(shown.getState().app.ui.hour).toBe(11);
    verdict({ status: { kind: 'running' } });
    expect(shown.getState().compute).toBe(compute.getState());
    expect(waited()).toBeUndefined();
  });

  it('does not wait while the work is still being read', () => {
    const { shown, edit } = made({ ready: false });
    edit('b');
    expect(shown.getState().app.work.current).toBe('b');
  });

  it('is not held up longer by a second edit', () => {
    const { shown, edit, waited } = made();
    edit('b');
    const first = waited();
    edit('c');
    expect(waited()).toBe(first);
    first?.();
    expect(shown.getState().app.work.current).toBe('c');
  });

  it('follows what takes the answers away, as where another project is opened', () => {
    const { shown, edit, verdict } = made();
    edit('b');
    verdict({ view: undefined });
    expect(shown.getState().app.work.current).toBe('b');
  });
});
