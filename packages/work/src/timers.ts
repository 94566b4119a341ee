/** The timers that browsers and Node share; neither's type definitions are needed for them. */
interface Timers {
  readonly setTimeout: (action: () => void, milliseconds: number) => unknown;
  readonly clearTimeout: (timer: unknown) => void;
}

const timers = globalThis as unknown as Timers;

/**
 * Does something later, unless it is called off.
 * @param milliseconds - how much later [ms]
 * @param action - what to do
 * @returns calls it off
 */
export function later(milliseconds: number, action: () => void): () => void {
  const timer = timers.setTimeout(action, milliseconds);
  return () => timers.clearTimeout(timer);
}

/** Lets waiting messages arrive. */
export const nextTurn = (): Promise<void> => new Promise((resolve) => void later(0, resolve));
