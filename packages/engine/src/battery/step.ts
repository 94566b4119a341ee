import { meanFromIntegral, openCircuitIntegral, openCircuitSlope } from './openCircuit.js';
import {
  type BatteryPack,
  type CellPack,
  type EnergyPack,
  type PackState,
  packCapacity,
  packResistance,
} from './pack.js';
import { chargeCurrentLimit } from './temperature.js';

/** Why a pack took or gave less than was offered or asked. */
export type PackLimit =
  | 'none'
  | 'no battery'
  | 'full'
  | 'charge voltage'
  | 'charge current'
  | 'temperature'
  | 'charge power'
  | 'empty'
  | 'cut-off voltage'
  | 'discharge current'
  | 'maximum power'
  | 'discharge power';

/** Result of one step; powers are means over the step, at the terminals. acceptedPower + curtailedPower - unmetPower = offered net power. */
export interface PackStep {
  /** > 0 into the battery, < 0 out of it [W]. */
  acceptedPower: number;
  /** Offered but not taken, >= 0 [W]. */
  curtailedPower: number;
  /** Asked but not delivered, >= 0 [W]. */
  unmetPower: number;
  /** Pack current, > 0 charges [A]. 0 where the pack has no voltage model and no nominal voltage. */
  current: number;
  /** Mean over the step [V]. */
  terminalVoltage: number;
  /** Heat and lost charge, >= 0 [W]. */
  lossPower: number;
  /** At the end of the step. */
  stateOfCharge: number;
  limit: PackLimit;
}

/** An empty result to be filled again and again by `stepPack` in loops. */
export function emptyPackStep(): PackStep {
  return {
    acceptedPower: 0,
    curtailedPower: 0,
    unmetPower: 0,
    current: 0,
    terminalVoltage: 0,
    lossPower: 0,
    stateOfCharge: 0,
    limit: 'none',
  };
}

/**
 * One step of a battery under a net power at its terminals, with every limit of the pack.
 *
 * Within the step the current is constant and the open-circuit voltage is its exact mean over the charge moved, so
 * terminal energy = change of `storedEnergy` + losses to rounding, for any step length. Constant-voltage charging is
 * implicit in that mean; at 60 s and a time constant of 1200 s it is within 3e-4 of the exact exponential taper.
 * Resistance is the direct-current value at the start of the step (relaxation counted as settled).
 *
 * @param state - at the start of the step
 * @param netPower - > 0 offered to the battery, < 0 asked of it [W]
 * @param duration - length of the step, > 0 [s]; keep under about 10 minutes
 * @param into - result to fill, so that loops need not allocate
 * @throws RangeError for a power that is not finite, a duration that is not positive, a state of charge outside 0 to 1
 */
export function stepPack(
  pack: BatteryPack,
  state: PackState,
  netPower: number,
  duration: number,
  into: PackStep = emptyPackStep(),
): PackStep {
  if (!Number.isFinite(netPower)) throw new RangeError('net power must be finite');
  if (!(duration > 0 && duration < Number.POSITIVE_INFINITY)) throw new RangeError('duration must be positive');
  if (pack.kind === 'none') return stepNone(netPower, into);
  if (!(state.stateOfCharge >= 0 && state.stateOfCharge <= 1)) throw new RangeError('state of charge must be 0 to 1');
  if (pack.kind === 'energy') return stepEnergy(pack, state, netPower, duration, into);
  return stepCells(pack, state, netPower, duration, into);
}

function stepNone(netPower: number, into: PackStep): PackStep {
  into.acceptedPower = 0;
  into.curtailedPower = Math.max(netPower, 0);
  into.unmetPower = Math.max(-netPower, 0);
  into.current = 0;
  into.terminalVoltage = 0;
  into.lossPower = 0;
  into.stateOfCharge = 0;
  into.limit = netPower === 0 ? 'none' : 'no battery';
  return into;
}

function stepEnergy(pack: EnergyPack, state: PackState, net: number, duration: number, into: PackStep): PackStep {
  const stored = pack.energy * state.stateOfCharge;
  let limit: PackLimit = 'none';
  let power = net;
  if (net > 0) {
    if (power > pack.chargePowerLimit) {
      power = pack.chargePowerLimit;
      limit = 'charge power';
    }
    const room = Math.max(0, pack.energy * pack.highestStateOfCharge - stored) / (pack.chargeEfficiency * duration);
    if (power > room) {
      power = room;
      limit = 'full';
    }
  } else {
    if (-power > pack.dischargePowerLimit) {
      power = -pack.dischargePowerLimit;
      limit = 'discharge power';
    }
    const left = (Math.max(0, stored - pack.energy * pack.lowestStateOfCharge) * pack.dischargeEfficiency) / duration;
    if (-power > left) {
      power = -left;
      limit = 'empty';
    }
  }
  const storing = power > 0 ? power * pack.chargeEfficiency : power / pack.dischargeEfficiency;
  into.acceptedPower = power;
  into.curtailedPower = net > 0 ? net - power : 0;
  into.unmetPower = net < 0 ? power - net : 0;
  into.current = pack.nominalVoltage > 0 ? power / pack.nominalVoltage : 0;
  into.terminalVoltage = pack.nominalVoltage;
  into.lossPower = power - storing;
  into.stateOfCharge = clampUnit(state.stateOfCharge + (storing * duration) / pack.energy);
  into.limit = limit;
  return into;
}

const clampUnit = (x: number): number => Math.min(1, Math.max(0, x));

/** What stays the same while the current of one step is sought. */
interface StepFrame {
  readonly pack: CellPack;
  readonly temperature: number;
  /** State of charge at the start, and the integral of the open-circuit voltage up to it. */
  readonly from: number;
  readonly integralFrom: number;
  readonly resistance: number;
  /** Change of state of charge per ampere over the step [1/A]. */
  readonly gain: number;
}

function stepCells(pack: CellPack, state: PackState, net: number, duration: number, into: PackStep): PackStep {
  const from = state.stateOfCharge;
  const frame: StepFrame = {
    pack,
    temperature: state.temperature,
    from,
    integralFrom: openCircuitIntegral(pack.curve, from),
    resistance: packResistance(pack, from, state.temperature),
    gain: ((net > 0 ? pack.coulombicEfficiency : 1) * duration) / packCapacity(pack),
  };
  into.limit = 'none';
  let current = 0;
  if (net > 0) current = chargeCurrent(frame, net, into);
  else if (net < 0) current = dischargeCurrent(frame, net, into);
  const { resistance } = frame;
  const mean = meanOpen(frame, current);
  const power = current * (mean + current * resistance);
  const limited = into.limit !== 'none';
  into.acceptedPower = power;
  into.curtailedPower = net > 0 && limited ? Math.max(0, net - power) : 0;
  into.unmetPower = net < 0 && limited ? Math.max(0, power - net) : 0;
  into.current = current;
  into.terminalVoltage = mean + current * resistance;
  into.lossPower = current * current * resistance + (current > 0 ? mean * current * (1 - pack.coulombicEfficiency) : 0);
  into.stateOfCharge = clampUnit(from + frame.gain * current);
  return into;
}

/** Mean open-circuit voltage of the pack over a step with a current [V]. */
function meanOpen(frame: StepFrame, current: number): number {
  const { pack, from } = frame;
  return pack.cellsInSeries * meanFromIntegral(pack.curve, from, frame.integralFrom, from + frame.gain * current);
}

/** Current of a charging step [A]: the offered power, then each limit in turn; every limit only lowers it. */
function chargeCurrent(frame: StepFrame, net: number, into: PackStep): number {
  const { pack } = frame;
  let current = solveCurrent(frame, net, undefined);
  const most = pack.cellsInParallel * chargeCurrentLimit(pack.chargeLimits, frame.temperature);
  if (current > most) {
    current = most;
    into.limit = most === 0 ? 'temperature' : 'charge current';
  }
  const ceiling = pack.cellsInSeries * pack.chargeVoltage;
  if (meanOpen(frame, current) + current * frame.resistance > ceiling) {
    current = Math.max(0, solveCurrent(frame, 0, ceiling));
    into.limit = 'charge voltage';
  }
  const room = Math.max(0, pack.highestStateOfCharge - frame.from) / frame.gain;
  if (current > room) {
    current = room;
    into.limit = 'full';
  }
  return current;
}

/** Current of a discharging step [A], negative: the power asked, then each limit in turn. */
function dischargeCurrent(frame: StepFrame, net: number, into: PackStep): number {
  const { pack, resistance } = frame;
  let current = solveCurrent(frame, net, undefined);
  const voltage = meanOpen(frame, current) + current * resistance;
  if (current * voltage > net * (1 - 1e-9)) into.limit = 'maximum power';
  const most = pack.cellsInParallel * pack.dischargeCurrentLimit;
  if (-current > most) {
    current = -most;
    into.limit = 'discharge current';
  }
  const floor = pack.cellsInSeries * pack.minimumCellVoltage;
  if (meanOpen(frame, current) + current * resistance < floor) {
    current = Math.min(0, solveCurrent(frame, 0, floor));
    into.limit = 'cut-off voltage';
  }
  const left = Math.max(0, frame.from - pack.lowestStateOfCharge) / frame.gain;
  if (-current > left) {
    current = left === 0 ? 0 : -left;
    into.limit = 'empty';
  }
  return current;
}

/**
 * Current at which the step has a mean terminal power, or (if `voltage` is given) a mean terminal voltage.
 * Newton on the mean open-circuit voltage U(I), linearised as U0 + k I with k from the slope of the curve.
 * A discharge beyond the greatest possible power gives the current of greatest power.
 */
function solveCurrent(frame: StepFrame, power: number, voltage: number | undefined): number {
  const { pack, from, gain } = frame;
  let current = 0;
  for (let iteration = 0; iteration < 30; iteration++) {
    const mean = meanOpen(frame, current);
    const k = (pack.cellsInSeries * gain * openCircuitSlope(pack.curve, clampUnit(from + (gain * current) / 2))) / 2;
    const apparent = frame.resistance + k;
    const intercept = mean - k * current;
    let next: number;
    if (voltage !== undefined) next = (voltage - intercept) / apparent;
    else {
      const discriminant = intercept * intercept + 4 * apparent * power;
      // 2 P / (U + sqrt(D)) is the root near P / U without cancellation.
      next = discriminant > 0 ? (2 * power) / (intercept + Math.sqrt(discriminant)) : -intercept / (2 * apparent);
    }
    // The error shrinks about a thousandfold per pass, so the one just found is good to rounding.
    if (Math.abs(next - current) <= 1e-10 * Math.abs(next)) return next;
    current = next;
  }
  return current;
}
