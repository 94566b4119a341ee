import { type BatteryPack, emptyPackStep, type PackLimit, type PackState, stepPack } from '../battery/index.js';

/** What the battery bus sees along the steps of a day. */
export interface BusPlan {
  /** Ends of the steps in order, one more than there are steps [s, Unix]. */
  readonly times: Float64Array;
  /** Mean power of each step that the flight and the loads take from the bus [W]. */
  readonly need: Float64Array;
  /** Mean power that the converters could deliver in a step at a bus voltage [W]. */
  readonly income: (step: number, busVoltage: number) => number;
  /** First step that is flown, and the step after the last. */
  readonly from: number;
  readonly to: number;
}

/** Charge through the day, one entry per step; steps before the launch and after the end keep zero power and the state. */
export interface ChargeCourse {
  /** State of charge at the ends of the steps, 0 to 1 (one more entry than steps). */
  readonly stateOfCharge: Float64Array;
  /** Power that the converters delivered, curtailment taken off [W]. */
  readonly income: Float64Array;
  /** Power that could have been delivered but was not accepted [W]. */
  readonly curtailed: Float64Array;
  /** Heat and lost charge in the battery [W]. */
  readonly batteryLoss: Float64Array;
  readonly terminalVoltage: Float64Array;
  /** When the bus could no longer be held up [s, Unix], or undefined when it never failed. */
  readonly emptyAt: number | undefined;
  /** What limited the battery at that moment. */
  readonly emptyBecause: PackLimit | undefined;
  /** First instant at which charging was held back because the battery was nearly full [s], or undefined. */
  readonly fullAt: number | undefined;
}

const chargeHeldBack: readonly PackLimit[] = ['full', 'charge voltage'];

/**
 * Runs the battery through the steps of a day: what income exceeds need charges it, what need exceeds income empties it,
 * each within the limits of the pack. Ends when the bus cannot be held up.
 *
 * @param pack - battery, or none: then every step in which income is below need ends the flight
 * @param start - state at the launch
 * @param plan - times, need, income, and the steps flown
 * @returns the course; power balance per step: income - need = accepted by the battery (see `stepPack`)
 */
export function runCharge(pack: BatteryPack, start: PackState, plan: BusPlan): ChargeCourse {
  const steps = plan.times.length - 1;
  const course = {
    stateOfCharge: new Float64Array(steps + 1).fill(start.stateOfCharge),
    income: new Float64Array(steps),
    curtailed: new Float64Array(steps),
    batteryLoss: new Float64Array(steps),
    terminalVoltage: new Float64Array(steps),
  };
  let emptyAt: number | undefined;
  let emptyBecause: PackLimit | undefined;
  let fullAt: number | undefined;
  const result = emptyPackStep();
  let state = start;
  let busVoltage = restVoltage(pack, start);
  for (let i = plan.from; i < plan.to; i++) {
    const duration = plan.times[i + 1]! - plan.times[i]!;
    const offered = plan.income(i, busVoltage);
    stepPack(pack, state, offered - plan.need[i]!, duration, result);
    if (result.unmetPower > 1e-6 * plan.need[i]! + 1e-9) {
      const met = 1 - result.unmetPower / Math.max(plan.need[i]! - offered, 1e-12);
      emptyAt = plan.times[i]! + duration * (pack.kind === 'none' ? 0 : Math.min(1, Math.max(0, met)));
      emptyBecause = result.limit;
      course.stateOfCharge.fill(result.stateOfCharge, i + 1);
      break;
    }
    course.income[i] = offered - result.curtailedPower;
    course.curtailed[i] = result.curtailedPower;
    course.batteryLoss[i] = result.lossPower;
    course.terminalVoltage[i] = result.terminalVoltage;
    course.stateOfCharge[i + 1] = result.stateOfCharge;
    if (fullAt === undefined && result.curtailedPower > 0 && chargeHeldBack.includes(result.limit)) {
      fullAt = plan.times[i]!;
    }
    if (result.terminalVoltage > 0) busVoltage = result.terminalVoltage;
    state = { stateOfCharge: result.stateOfCharge, temperature: start.temperature };
  }
  course.stateOfCharge.fill(course.stateOfCharge[plan.to]!, plan.to);
  return { ...course, emptyAt, emptyBecause, fullAt };
}

/** Terminal voltage without current [V]; zero where the pack has no voltage model. */
export function restVoltage(pack: BatteryPack, state: PackState): number {
  return pack.kind === 'none' ? 0 : stepPack(pack, state, 0, 1).terminalVoltage;
}

/**
 * How long a constant power can be taken from a state of charge, without sun [s].
 * @param power - from the bus, > 0 [W]
 * @param longest - give up after this long [s]
 */
export function enduranceOnBattery(pack: BatteryPack, start: PackState, power: number, longest = 7 * 86400): number {
  if (pack.kind === 'none' || !(power > 0)) return 0;
  const result = emptyPackStep();
  const step = 120;
  let state = start;
  for (let elapsed = 0; elapsed < longest; elapsed += step) {
    stepPack(pack, state, -power, step, result);
    if (result.unmetPower > 1e-6 * power) return elapsed + step * Math.max(0, 1 - result.unmetPower / power);
    state = { stateOfCharge: result.stateOfCharge, temperature: start.temperature };
  }
  return longest;
}
