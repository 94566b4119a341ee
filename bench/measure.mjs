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
 * Median and 95th percentile of a task's duration [s], after warming up.
 * @param {() => unknown} task
 * @param {{ seconds?: number, least?: number }} [effort] how long to repeat, and how often at least
 */
export function measure(task, { seconds = 0.8, least = 7 } = {}) {
  const warmUntil = performance.now() + 300 * seconds;
  do kept.sink = task();
  while (performance.now() < warmUntil);
  /** @type {number[]} */
  const durations = [];
  const until = performance.now() + 1000 * seconds;
  while (durations.length < least || performance.now() < until) {
    const start = performance.now();
    kept.sink = task();
    durations.push((performance.now() - start) / 1000);
  }
  durations.sort((a, b) => a - b);
  const at = (/** @type {number} */ part) =>
    durations[Math.min(durations.length - 1, Math.floor(part * durations.length))] ?? 0;
  return { median: at(0.5), high: at(0.95) };
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
