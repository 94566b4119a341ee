import type { BatteryPack } from '../battery/index.js';
import { type ChargeCourse, enduranceOnBattery } from './charge.js';
import { longestWindow, type TimeWindow, totalDuration, windowsAboveZero } from './windows.js';

/** The figures of a day that a builder asks for. */
export interface DayFigures {
  /** Stretches in which sunlight alone carries level flight (income at least need). */
  readonly windows: readonly TimeWindow[];
  readonly longest: TimeWindow | undefined;
  /** Total of the windows of the first day [s]. */
  readonly carried: number;
  /** From launch to empty [s]; undefined when not empty by the end of the days computed. */
  readonly endurance: number | undefined;
  /** Days computed, from the launch to the end of the last [s]: what "not empty" refers to. */
  readonly horizon: number;
  /** Lowest state of charge from launch to the end, 0 to 1 (minimum state of charge). */
  readonly lowestCharge: number;
  readonly lowestChargeAt: number;
  /** Flight still possible if the sun did not come, at the first morning after launch at which income reaches need [s] (excess time); undefined when empty before. */
  readonly leftAtDawn: number | undefined;
  /** From full charge to the evening at which need exceeds income, on the first day [s] (charge margin); 0 when never full. */
  readonly fullBeforeDusk: number;
  /** Income over need, averaged over daylight of the first day. */
  readonly solarRatio: number;
  /** Greatest income over need of the first day and when. */
  readonly bestRatio: number;
  readonly bestRatioAt: number;
}

/**
 * Figures of a day from its course.
 *
 * @param day.times - ends of the steps [s]; day.offered - mean power that the converters could deliver per step [W];
 *   day.need - mean need per step [W]; day.launch, day.dayEnd - launch and end of the first local day [s]
 *
 * Source: definitions after P. Oettershagen et al., J. Field Robotics 34(7), 2017 (minimum state of charge, excess time,
 * charge margin; from memory).
 */
export function dayFigures(
  pack: BatteryPack,
  temperature: number,
  course: ChargeCourse,
  day: {
    readonly times: Float64Array;
    readonly offered: Float64Array;
    readonly need: Float64Array;
    readonly launch: number;
    readonly dayEnd: number;
  },
): DayFigures {
  const { times, offered, need, launch, dayEnd } = day;
  const steps = need.length;
  const middles = new Float64Array(steps);
  const surplus = new Float64Array(steps);
  for (let i = 0; i < steps; i++) {
    middles[i] = (times[i]! + times[i + 1]!) / 2;
    surplus[i] = offered[i]! - need[i]!;
  }
  const windows = windowsAboveZero(middles, surplus).map((window) => toTheEnds(window, middles, times));
  const first = windows.filter((window) => window.start < dayEnd);
  const emptyAt = course.emptyAt;
  const flown = emptyAt ?? times[steps]!;
  const lowest = lowestCharge(course, times, launch, flown);
  return {
    windows,
    longest: longestWindow(first),
    carried: totalDuration(first.map((window) => ({ start: window.start, end: Math.min(window.end, dayEnd) }))),
    endurance: emptyAt === undefined ? undefined : emptyAt - launch,
    horizon: times[steps]! - launch,
    lowestCharge: lowest.stateOfCharge,
    lowestChargeAt: lowest.time,
    leftAtDawn: leftAtDawn(pack, temperature, course, { times, need, windows, launch, flown }),
    fullBeforeDusk: fullBeforeDusk(course, first),
    ...ratios(middles, offered, need, dayEnd),
  };
}

/** A window that touches the middle of the first or last step fills that step. */
const toTheEnds = ({ start, end }: TimeWindow, middles: Float64Array, times: Float64Array): TimeWindow => ({
  start: start === middles[0] ? times[0]! : start,
  end: end === middles.at(-1) ? times.at(-1)! : end,
});

/** The state at the end of the step in which the battery empties is that at which it emptied. */
function lowestCharge(course: ChargeCourse, times: Float64Array, from: number, to: number) {
  let stateOfCharge = 1;
  let time = from;
  for (let i = 0; i < times.length; i++) {
    if (times[i]! < from || (i > 0 && times[i - 1]! >= to)) continue;
    if (course.stateOfCharge[i]! < stateOfCharge) {
      stateOfCharge = course.stateOfCharge[i]!;
      time = Math.min(times[i]!, to);
    }
  }
  return { stateOfCharge, time };
}

function leftAtDawn(
  pack: BatteryPack,
  temperature: number,
  course: ChargeCourse,
  day: {
    times: Float64Array;
    need: Float64Array;
    windows: readonly TimeWindow[];
    launch: number;
    flown: number;
  },
): number | undefined {
  const { times, need, windows, launch, flown } = day;
  // The first morning after a night in the air: the start of a window that begins well after the launch's own day began.
  const evening = windows.find((window) => window.end > launch)?.end;
  const morning = windows.find((window) => evening !== undefined && window.start > evening + 2 * 3600)?.start;
  if (morning === undefined || flown < morning) return undefined;
  let i = 0;
  while (i < need.length - 1 && times[i + 1]! < morning) i++;
  const t = (morning - times[i]!) / (times[i + 1]! - times[i]!);
  const charge = course.stateOfCharge[i]! + t * (course.stateOfCharge[i + 1]! - course.stateOfCharge[i]!);
  return enduranceOnBattery(pack, { stateOfCharge: charge, temperature }, need[i]!);
}

function fullBeforeDusk(course: ChargeCourse, windows: readonly TimeWindow[]): number {
  const evening = windows.at(-1)?.end;
  if (course.fullAt === undefined || evening === undefined || course.fullAt > evening) return 0;
  return evening - course.fullAt;
}

function ratios(middles: Float64Array, offered: Float64Array, need: Float64Array, dayEnd: number) {
  let sumIncome = 0;
  let sumNeed = 0;
  let bestRatio = 0;
  let bestRatioAt = middles[0] ?? 0;
  for (let i = 0; i < need.length && middles[i]! < dayEnd; i++) {
    if (!(offered[i]! > 0)) continue;
    sumIncome += offered[i]!;
    sumNeed += need[i]!;
    const ratio = need[i]! > 0 ? offered[i]! / need[i]! : 0;
    if (ratio > bestRatio) {
      bestRatio = ratio;
      bestRatioAt = middles[i]!;
    }
  }
  return { solarRatio: sumNeed > 0 ? sumIncome / sumNeed : 0, bestRatio, bestRatioAt };
}
