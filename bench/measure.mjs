/** How speed is measured, and what a row of `npm run bench` is. */
import { performance } from 'node:perf_hooks';

/**
 * @typedef {object} Row
 * @property {string} name what is measured
 * @property {number} value
 * @property {string} unit
 * @property {{ name: string, value: number, unit: string, ratio: number }} reference something independent that ran in this same
 *   run; ratio = how much faster than it noonwing is (times), which carries over to another machine
 * @property {number | null} budget null: shown for information
 * @property {'at most' | 'at least' | null} bound
 * @property {boolean | null} within
 * @property {string} [why] why it was not measured; the numbers are then none
 */

/**
 * Keeps results alive, so that no work is optimised away.
 * @type {{ sink: unknown }}
 */
export const kept = { sink: undefined };

/**
 * Starts a watch and returns what reads it [s]: the time passed, or the processor time of this process where that is less, so that
 * what else runs on the machine does not count. For work of this process alone.
 */
export function stopwatch() {
  const busy = process.cpuUsage();
  const start = performance.now();
  return () => {
    const passed = (performance.now() - start) / 1000;
    const { user, system } = process.cpuUsage(busy);
    return Math.min(passed, (user + system) / 1e6);
  };
}

/** Starts a watch of the time passed [s], for what other processes do. */
export function wallClock() {
  const start = performance.now();
  return () => (performance.now() - start) / 1000;
}

/**
 * Median and 95th percentile of a task's duration [s], after warming up.
 * @param {() => unknown} task
 * @param {{ seconds?: number, least?: number, watch?: () => () => number }} [effort] how long to repeat, and how often at least
 */
export function measure(task, { seconds = 0.8, least = 7, watch = stopwatch } = {}) {
  const warmUntil = performance.now() + 300 * seconds;
  do kept.sink = task();
  while (performance.now() < warmUntil);
  /** @type {number[]} */
  const durations = [];
  const until = performance.now() + 1000 * seconds;
  while (durations.length < least || performance.now() < until) {
    const read = watch();
    kept.sink = task();
    durations.push(read());
  }
  durations.sort((a, b) => a - b);
  const at = (/** @type {number} */ part) =>
    durations[Math.min(durations.length - 1, Math.floor(part * durations.length))] ?? 0;
  return { median: at(0.5), high: at(0.95) };
}

/** What a million exponentials take [s]: something independent that ran in this same run. */
export function exponentials() {
  return measure(() => {
    let sum = 0;
    for (let at = 0; at < 1e6; at += 1) sum += Math.exp(-at * 1e-6);
    kept.sink = sum;
  }).median;
}

/**
 * Row of a duration with a budget, beside a million exponentials.
 * @param {string} name
 * @param {number} seconds
 * @param {{ yardstick: number, budget: number, unit?: 's' | 'ms' }} of yardstick - from `exponentials` [s]; budget - in the unit
 */
export function duration(name, seconds, { yardstick, budget, unit = 'ms' }) {
  const scale = unit === 'ms' ? 1000 : 1;
  const reference = { name: 'a million exponentials', value: yardstick * scale, unit, ratio: yardstick / seconds };
  return atMost({ name, value: seconds * scale, unit, reference, budget });
}

/**
 * Row whose value must not exceed its budget.
 * @param {Omit<Row, 'bound' | 'within'> & { budget: number }} row
 * @returns {Row}
 */
export const atMost = (row) => ({ ...row, bound: 'at most', within: row.value <= row.budget });

/**
 * Row whose value must reach its budget.
 * @param {Omit<Row, 'bound' | 'within'> & { budget: number }} row
 * @returns {Row}
 */
export const atLeast = (row) => ({ ...row, bound: 'at least', within: row.value >= row.budget });

/**
 * Row without a budget.
 * @param {Omit<Row, 'budget' | 'bound' | 'within'>} row
 * @returns {Row}
 */
export const forInformation = (row) => ({ ...row, budget: null, bound: null, within: null });

/**
 * Row of what could not be measured here, with the way to have it measured.
 * @param {string} name
 * @param {string} why
 * @returns {Row}
 */
export const notMeasured = (name, why) => ({
  name,
  value: Number.NaN,
  unit: '',
  reference: { name: '', value: Number.NaN, unit: '', ratio: Number.NaN },
  budget: null,
  bound: null,
  within: null,
  why,
});

/**
 * Numbers between 0 and 1 that are the same in every run (Park and Miller, Comm. ACM 31, 1988).
 * @param {number} seed
 */
export function repeatable(seed) {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
