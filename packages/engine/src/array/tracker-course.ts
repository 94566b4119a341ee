import type { PowerPoint } from './cell.js';
import { type CurveSource, parallelSource } from './parallel-source.js';
import type { SeriesString } from './string.js';
import { startTracker, stepTracker, type Tracker } from './tracker.js';

/** A tracker through changing light. */
export interface TrackerCourse {
  /** Ends of the steps [s]. */
  readonly time: Float64Array;
  readonly voltage: Float64Array;
  /** Taken from the string [W]. */
  readonly power: Float64Array;
  /** Greatest power there [W]. */
  readonly maximum: Float64Array;
  /** Greatest power there, mean over what counts [W]. */
  readonly available: number;
  /** Energy taken over the energy that was there. */
  readonly share: number;
  /** Share of the time on a local maximum or slope that gives less than 95 % of the greatest power. */
  readonly caught: number;
}

/** What a tracker is run through. */
export interface TrackerRun {
  readonly tracker: Tracker;
  /** String, or source of several, at each time [s]; what is the same object is solved once. */
  readonly stringAt: (time: number) => SeriesString | CurveSource;
  /** [s] */
  readonly duration: number;
  /** [s]; default a hundredth of a second. */
  readonly step?: number;
  /** Of the input voltage behind what is asked for [s], default 0.02 (common practice, no source: 5 to 50 ms). */
  readonly timeConstant?: number;
  /** [V]; open circuit where absent. */
  readonly startVoltage?: number;
  readonly window?: { readonly low: number; readonly high: number };
  /** Share of the run in which it settles and nothing counts yet, 0 to below 1; default 0. */
  readonly settling?: number;
}

/** A string, or several on one converter, as a source remembered while it is the same object: steady light costs one search. */
export function rememberedSource() {
  let last: { readonly of: SeriesString | CurveSource; readonly source: CurveSource } | undefined;
  return (of: SeriesString | CurveSource): CurveSource => {
    if (last?.of !== of) last = { of, source: 'substrings' in of ? parallelSource([{ strings: [of] }]) : of };
    return last.source;
  };
}

/**
 * Runs a tracker through changing light, with its lag and its traps.
 *
 * @param run - tracker, string by time, duration, time step, lag, start voltage, window of the converter
 * @returns voltage, power and greatest power by step; share of the energy found, share of the time caught
 * Source: dynamic tracking efficiency as in EN 50530 and IEC 62891, integral of P over integral of the greatest power.
 */
export function trackerCourse(run: TrackerRun): TrackerCourse {
  const { tracker, duration, step = 0.01, timeConstant = 0.02, settling = 0 } = run;
  const steps = Math.max(1, Math.round(duration / step));
  const course = {
    time: new Float64Array(steps),
    voltage: new Float64Array(steps),
    power: new Float64Array(steps),
    maximum: new Float64Array(steps),
  };
  const seen = rememberedSource();
  let state = startTracker(tracker, seen(run.stringAt(0)).openCircuitVoltage, run.startVoltage);
  const from = Math.floor(steps * settling);
  let taken = 0;
  let there = 0;
  let caught = 0;
  for (let k = 0; k < steps; k++) {
    const source = seen(run.stringAt((k + 0.5) * step));
    const stepped = stepTracker(tracker, state, source, {
      duration: step,
      timeConstant,
      ...(run.window === undefined ? {} : { window: run.window }),
    });
    state = stepped.state;
    const { voltage, power } = stepped.point;
    course.time[k] = (k + 1) * step;
    course.voltage[k] = voltage;
    course.power[k] = power;
    course.maximum[k] = source.maximum.power;
    if (k < from) continue;
    taken += power;
    there += source.maximum.power;
    if (source.maximum.power > 0 && power < 0.95 * source.maximum.power) caught += 1;
  }
  const counted = steps - from;
  return { ...course, available: there / counted, share: there > 0 ? taken / there : 0, caught: caught / counted };
}

/**
 * Where a hill-climbing tracker comes to rest that starts from a voltage: the top of the hill on which it stands.
 *
 * @param maxima - local maxima of the string, as `stringMaxima` gives them
 * @param powerAt - power of the string by voltage [W]
 * @param start - [V]
 * @returns the maximum that it climbs to; the global one is `maxima[0]`
 */
export function climbedMaximum(
  maxima: readonly PowerPoint[],
  powerAt: (voltage: number) => number,
  start: number,
): PowerPoint | undefined {
  const byVoltage = [...maxima].sort((a, b) => a.voltage - b.voltage);
  const above = byVoltage.find(({ voltage }) => voltage >= start);
  const below = byVoltage.findLast(({ voltage }) => voltage < start);
  if (above === undefined || below === undefined) return above ?? below;
  const nudge = 0.002 * (above.voltage - below.voltage);
  return powerAt(start + nudge) >= powerAt(start - nudge) ? above : below;
}
