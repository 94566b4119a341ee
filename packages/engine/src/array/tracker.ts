import type { PowerPoint } from './cell.js';

/** How a converter finds its input voltage, step by step. */
export type Tracker =
  | {
      readonly method: 'perturb and observe';
      /** [V] */
      readonly step: number;
      /** Between steps [s]. */
      readonly period: number;
    }
  | {
      readonly method: 'fraction of open circuit';
      readonly fraction: number;
      /** Between two looks at the open circuit [s]. */
      readonly period: number;
      /** Without power while it looks [s]. */
      readonly pause: number;
    }
  | { readonly method: 'fixed voltage'; readonly voltage: number }
  | {
      readonly method: 'sweep';
      /** Between the beginnings of two sweeps [s]. */
      readonly period: number;
      /** Of a sweep from open circuit down to a tenth of it [s]. */
      readonly duration: number;
    };

/** What a tracker knows. */
export interface TrackerState {
  /** At the input now [V]. */
  readonly voltage: number;
  /** Asked for [V]. */
  readonly wanted: number;
  /** Since the last step, look or sweep began [s]. */
  readonly since: number;
  /** Of the last step: up 1, down -1. */
  readonly direction: 1 | -1;
  /** At the last step, or best of the sweep that runs [W]. */
  readonly power: number;
  /** Best of the sweep that runs [V]. */
  readonly best: number;
  /** Open-circuit voltage at the last look [V]. */
  readonly open: number;
}

/** A string at one instant, as a tracker meets it. */
export interface TrackedSource {
  readonly openCircuitVoltage: number;
  readonly currentAt: (voltage: number) => number;
}

/**
 * A tracker as it is switched on: at open circuit, or at a given voltage.
 *
 * @param tracker - method
 * @param openCircuitVoltage - of the string then [V]
 * @param startVoltage - [V]; open circuit where absent, except for a fixed voltage
 */
export function startTracker(tracker: Tracker, openCircuitVoltage: number, startVoltage?: number): TrackerState {
  const begin = startVoltage ?? (tracker.method === 'fixed voltage' ? tracker.voltage : openCircuitVoltage);
  const wanted = tracker.method === 'fraction of open circuit' ? tracker.fraction * openCircuitVoltage : begin;
  return { voltage: begin, wanted, since: 0, direction: -1, power: 0, best: begin, open: openCircuitVoltage };
}

/** Hill climbing: turn round when the power fell since the last step. */
function perturbed(state: TrackerState, tracker: { step: number; period: number }, power: number): TrackerState {
  if (state.since < tracker.period) return state;
  const direction = power < state.power ? (-state.direction as 1 | -1) : state.direction;
  return { ...state, since: 0, direction, power, wanted: state.wanted + direction * tracker.step };
}

/** Look at the open circuit, then hold a fraction of it. */
function looked(
  state: TrackerState,
  tracker: { fraction: number; period: number; pause: number },
  open: number,
): TrackerState {
  if (state.since < tracker.period) return state;
  if (state.since < tracker.period + tracker.pause) return { ...state, wanted: open };
  return { ...state, since: 0, open, wanted: tracker.fraction * open };
}

/** From open circuit down, then to the best voltage met. */
function swept(
  state: TrackerState,
  tracker: { period: number; duration: number },
  at: { readonly power: number; readonly open: number },
): TrackerState {
  if (state.since >= tracker.period) return { ...state, since: 0, power: 0, best: at.open, wanted: at.open };
  if (state.since > tracker.duration) return { ...state, wanted: state.best };
  const wanted = at.open * (1 - (0.9 * state.since) / tracker.duration);
  return at.power > state.power ? { ...state, power: at.power, best: state.voltage, wanted } : { ...state, wanted };
}

/** What a tracker does in one time step. */
export interface TrackerStep {
  readonly state: TrackerState;
  /** Voltage, current and power taken from the string during the step. */
  readonly point: PowerPoint;
}

/**
 * One time step of a tracker with its lag.
 *
 * @param tracker - method
 * @param state - before the step
 * @param source - the string now
 * @param at.duration - of the step [s]
 * @param at.timeConstant - with which the input voltage follows what is asked for [s]; 0 for none
 * @param at.window - lowest and highest input voltage that topology and battery allow [V]
 * @returns the state after the step and the point at which the string was held
 */
export function stepTracker(
  tracker: Tracker,
  state: TrackerState,
  source: TrackedSource,
  at: {
    readonly duration: number;
    readonly timeConstant: number;
    readonly window?: { readonly low: number; readonly high: number };
  },
): TrackerStep {
  const low = at.window?.low ?? 0;
  const high = Math.max(low, at.window?.high ?? Number.MAX_VALUE);
  const wanted = Math.min(Math.max(state.wanted, low, 0), high);
  const follow = at.timeConstant > 0 ? -Math.expm1(-at.duration / at.timeConstant) : 1;
  const voltage = state.voltage + (wanted - state.voltage) * follow;
  const current = voltage >= source.openCircuitVoltage ? 0 : Math.max(source.currentAt(voltage), 0);
  const power = voltage * current;
  const moved: TrackerState = { ...state, voltage, wanted, since: state.since + at.duration };
  const next = {
    'perturb and observe': () => perturbed(moved, tracker as Extract<Tracker, { step: number }>, power),
    'fraction of open circuit': () =>
      looked(moved, tracker as Extract<Tracker, { pause: number }>, source.openCircuitVoltage),
    'fixed voltage': () => moved,
    sweep: () =>
      swept(moved, tracker as Extract<Tracker, { method: 'sweep' }>, { power, open: source.openCircuitVoltage }),
  }[tracker.method]();
  return { state: next, point: { voltage, current, power } };
}
