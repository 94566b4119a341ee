import { brentRoot, gaussLegendre } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { openCircuitVoltage } from './openCircuit.js';
import {
  type CellPack,
  type PackState,
  packCapacity,
  packOpenCircuitVoltage,
  packResistance,
  storedEnergy,
} from './pack.js';
import { chargeCurrentLimit } from './temperature.js';

/** Current and terminal voltage under a load. */
export interface LoadPoint {
  /** > 0 out of the battery [A]. */
  readonly current: number;
  /** [V] */
  readonly voltage: number;
}

/**
 * Current that a constant-power load draws: I = (U - sqrt(U^2 - 4 R P))/(2 R).
 *
 * @param openCircuitVoltage - of the pack [V]
 * @param resistance - of the pack [ohm]
 * @param power - drawn at the terminals, >= 0 [W]
 * @returns current [A] and terminal voltage [V], or a Problem beyond U^2/(4 R)
 * Source: power balance of a source with series resistance.
 */
export function constantPowerCurrent(at: {
  readonly openCircuitVoltage: number;
  readonly resistance: number;
  readonly power: number;
}): Outcome<LoadPoint> {
  const { openCircuitVoltage: open, resistance, power } = at;
  if (!(open > 0) || !(resistance > 0) || !(power >= 0)) {
    throw new RangeError('voltage and resistance must be positive, power not negative');
  }
  const discriminant = open * open - 4 * resistance * power;
  if (discriminant < 0) return flattened(power, (open * open) / (4 * resistance), 'battery');
  const current = (2 * power) / (open + Math.sqrt(discriminant));
  return success({ current, voltage: open - current * resistance });
}

function flattened(asked: number, greatest: number, where: string, remedy?: string): Outcome<never> {
  return problem({
    code: 'battery-flattened',
    reason: `the motor flattens this battery at once: ${watts(asked)} asked, ${watts(greatest)} is the most it can give`,
    where,
    remedy:
      remedy ??
      `ask for less than ${watts(greatest)}, or lower the resistance: more cells in parallel, a high-power cell, thicker leads`,
  });
}

const watts = (power: number): string => `${power >= 100 ? power.toFixed(0) : power.toFixed(1)} W`;

/**
 * Greatest power a pack can give now without passing its cut-off voltage or current limit.
 * @returns power at the terminals [W], >= 0
 */
export function greatestDischargePower(pack: CellPack, state: PackState): number {
  if (state.stateOfCharge <= pack.lowestStateOfCharge) return 0;
  const open = packOpenCircuitVoltage(pack, state.stateOfCharge);
  const resistance = packResistance(pack, state.stateOfCharge, state.temperature);
  const toCutOff = Math.max(0, (open - pack.cellsInSeries * pack.minimumCellVoltage) / resistance);
  const toPeak = open / (2 * resistance);
  const current = Math.min(toCutOff, toPeak, pack.cellsInParallel * pack.dischargeCurrentLimit);
  return current * (open - current * resistance);
}

/**
 * Whether a pack holds a power now; says how many cells in parallel would.
 * @param power - drawn at the terminals, >= 0 [W]
 */
export function holdPower(pack: CellPack, state: PackState, power: number): Outcome<LoadPoint> {
  const greatest = greatestDischargePower(pack, state);
  if (power > greatest) {
    const rows = greatest > 0 ? Math.ceil((pack.cellsInParallel * power) / greatest) : 0;
    const remedy =
      rows > 0
        ? `about ${rows} cells in parallel of this kind, a cell of lower resistance, or a smaller propeller`
        : 'charge the battery first';
    return flattened(power, greatest, 'battery', remedy);
  }
  return constantPowerCurrent({
    openCircuitVoltage: packOpenCircuitVoltage(pack, state.stateOfCharge),
    resistance: packResistance(pack, state.stateOfCharge, state.temperature),
    power,
  });
}

/**
 * Greatest power a pack accepts now: the least of charge current, temperature and charge voltage, none when full.
 * Near full this tapers: I = (V_charge - U(s))/R.
 * @returns power at the terminals [W], >= 0
 * Source: constant-current constant-voltage charging of a source with series resistance.
 */
export function greatestChargePower(pack: CellPack, state: PackState): number {
  if (state.stateOfCharge >= pack.highestStateOfCharge) return 0;
  const open = packOpenCircuitVoltage(pack, state.stateOfCharge);
  const resistance = packResistance(pack, state.stateOfCharge, state.temperature);
  const toCeiling = Math.max(0, (pack.cellsInSeries * pack.chargeVoltage - open) / resistance);
  const current = Math.min(toCeiling, pack.cellsInParallel * chargeCurrentLimit(pack.chargeLimits, state.temperature));
  return current * (open + current * resistance);
}

/** What a load gets out of a pack before the cut-off. */
export interface UsableCharge {
  /** State of charge at the end. */
  readonly endStateOfCharge: number;
  /** [C] */
  readonly charge: number;
  /** At the terminals [J]. */
  readonly energy: number;
  /** [s] */
  readonly duration: number;
  readonly stoppedBy: 'cut-off voltage' | 'empty' | 'cannot start';
}

/**
 * Charge and energy that a steady load draws from a state of charge down to the cut-off voltage or the lowest state
 * of charge, at a constant cell temperature (no self-heating: low at high rates in the cold).
 *
 * @param load - constant power at the terminals [W] or constant current [A], > 0
 * @param state - start
 * Source: equivalent circuit, section by section over state of charge.
 */
export function usableCharge(
  pack: CellPack,
  state: PackState,
  load: { readonly power: number } | { readonly current: number },
): UsableCharge {
  const floor = pack.cellsInSeries * pack.minimumCellVoltage;
  const atFloor = 'power' in load ? load.power / floor : load.current;
  if (!(atFloor > 0)) throw new RangeError('the load must be positive');
  const { temperature, stateOfCharge: start } = state;
  const reserve = (s: number): number =>
    packOpenCircuitVoltage(pack, s) - atFloor * packResistance(pack, s, temperature) - floor;
  if (start <= pack.lowestStateOfCharge || reserve(start) <= 0) {
    return { endStateOfCharge: start, charge: 0, energy: 0, duration: 0, stoppedBy: 'cannot start' };
  }
  const lowest = pack.lowestStateOfCharge;
  const reached = reserve(lowest) < 0 ? brentRoot(reserve, lowest, start) : undefined;
  const end = reached ?? lowest;
  const capacity = packCapacity(pack);
  const { nodes, weights } = gaussLegendre(8);
  const pieces = 24;
  let energy = 0;
  let duration = 0;
  for (let piece = 0; piece < pieces; piece++) {
    const width = (start - end) / pieces;
    for (let i = 0; i < nodes.length; i++) {
      const s = end + width * (piece + (1 + nodes[i]) / 2);
      const point = loadPoint(pack, s, temperature, load);
      const share = (weights[i] * width * capacity) / 2;
      energy += share * point.voltage;
      duration += share / point.current;
    }
  }
  return {
    endStateOfCharge: end,
    charge: (start - end) * capacity,
    energy,
    duration,
    stoppedBy: reached === undefined ? 'empty' : 'cut-off voltage',
  };
}

/** Above the cut-off a constant-power load always has its root, so no Problem can arise here. */
function loadPoint(
  pack: CellPack,
  s: number,
  temperature: number,
  load: { readonly power: number } | { readonly current: number },
): LoadPoint {
  const open = packOpenCircuitVoltage(pack, s);
  const resistance = packResistance(pack, s, temperature);
  const current =
    'power' in load
      ? (2 * load.power) / (open + Math.sqrt(Math.max(0, open * open - 4 * resistance * load.power)))
      : load.current;
  return { current, voltage: open - current * resistance };
}

/**
 * Energy efficiency of putting charge in and taking it out again at one state of charge.
 * @param chargeCurrent, dischargeCurrent - of the pack, >= 0 [A]
 * @returns (U - I_d R)/(U + I_c R) times coulombic efficiency
 * Source: equivalent circuit.
 */
export function roundTripEfficiency(
  pack: CellPack,
  state: PackState,
  currents: { readonly chargeCurrent: number; readonly dischargeCurrent: number },
): number {
  const open = packOpenCircuitVoltage(pack, state.stateOfCharge);
  const resistance = packResistance(pack, state.stateOfCharge, state.temperature);
  const out = Math.max(0, open - currents.dischargeCurrent * resistance);
  return (pack.coulombicEfficiency * out) / (open + currents.chargeCurrent * resistance);
}

/**
 * Energy of cells per mass [J/kg].
 * @param capacity - [C]
 * @param nominalVoltage - [V]
 * @param mass - [kg]
 */
export function specificEnergy(at: {
  readonly capacity: number;
  readonly nominalVoltage: number;
  readonly mass: number;
}): number {
  if (!(at.mass > 0)) throw new RangeError('the mass must be positive');
  return (at.capacity * at.nominalVoltage) / at.mass;
}

/** Energy of a pack over its whole charge, before losses, per mass of the pack [J/kg]. */
export function packSpecificEnergy(pack: CellPack, mass: number): number {
  if (!(mass > 0)) throw new RangeError('the mass must be positive');
  return storedEnergy(pack, 1) / mass;
}

/** Voltage of a single cell at rest in the middle of its charge [V]. */
export function nominalCellVoltage(pack: CellPack): number {
  return openCircuitVoltage(pack.curve, 0.5);
}
