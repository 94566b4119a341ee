/** One line of the trace: a stage that ran, or whose remembered result was used again. */
export interface StageEvent {
  readonly stage: string;
  readonly reused: boolean;
}

/**
 * Memory of the stages between a design file and its verdict. A stage's result is used again when every input is the
 * very same object (or an equal number or text): moving a battery then re-solves no lattice.
 */
export interface Stages {
  /** Result of a stage for its inputs, remembered or computed. `compute` must depend on nothing but the inputs. */
  readonly run: <T>(stage: string, inputs: readonly unknown[], compute: () => T) => T;
  /** What ran and what was reused, in order, since the last `clearTrace`. */
  readonly trace: () => readonly StageEvent[];
  readonly clearTrace: () => void;
}

interface Remembered {
  readonly inputs: readonly unknown[];
  readonly result: unknown;
}

/**
 * @param capacity - results kept per stage; the least recently used one is forgotten first
 */
export function createStages(capacity = 12): Stages {
  const memory = new Map<string, Remembered[]>();
  let events: StageEvent[] = [];
  return {
    run<T>(stage: string, inputs: readonly unknown[], compute: () => T): T {
      const kept = memory.get(stage) ?? [];
      const index = kept.findIndex((entry) => sameInputs(entry.inputs, inputs));
      events.push({ stage, reused: index >= 0 });
      const entry = index >= 0 ? kept.splice(index, 1)[0]! : { inputs, result: compute() };
      kept.unshift(entry);
      kept.length = Math.min(kept.length, capacity);
      memory.set(stage, kept);
      return entry.result as T;
    },
    trace: () => events,
    clearTrace: () => {
      events = [];
    },
  };
}

const sameInputs = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((value, i) => Object.is(value, b[i]));

/**
 * The next version of some plain data with every part that did not change replaced by the previous version's own object,
 * so that stages recognise it by identity after a file was read again.
 */
export function shareUnchanged<T>(previous: unknown, next: T): T {
  if (Object.is(previous, next)) return next;
  if (Array.isArray(next)) {
    if (!Array.isArray(previous)) return next;
    const parts = next.map((item, i) => shareUnchanged(previous[i], item));
    const same = previous.length === parts.length && parts.every((part, i) => part === previous[i]);
    return (same ? previous : parts) as T;
  }
  if (!isPlainObject(next) || !isPlainObject(previous)) return next;
  const keys = Object.keys(next);
  const parts: Record<string, unknown> = {};
  let same = keys.length === Object.keys(previous).length;
  for (const key of keys) {
    parts[key] = shareUnchanged(previous[key], next[key]);
    same &&= key in previous && Object.is(parts[key], previous[key]);
  }
  return (same ? previous : parts) as T;
}

const isPlainObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
