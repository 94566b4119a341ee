import { interpolateLinear } from '../math/index.js';
import { type OpenCircuitCurve, openCircuitIntegral, openCircuitVoltage } from './openCircuit.js';
import { resistanceFactor, type TemperatureLimit } from './temperature.js';

/** Direct-current resistance of one cell at 25 C against state of charge: linear between points, constant beyond. */
export interface ResistanceCurve {
  readonly stateOfCharge: readonly number[];
  /** [ohm] */
  readonly resistance: readonly number[];
}

/** One resistor-capacitor pair of the equivalent circuit: a share of the direct-current resistance that builds up. */
export interface RelaxationPair {
  /** Part of the direct-current resistance, 0 to 1. */
  readonly share: number;
  /** [s] */
  readonly timeConstant: number;
}

/** A battery of equal cells, `cellsInSeries` groups of `cellsInParallel` each. */
export interface CellPack {
  readonly kind: 'cells';
  readonly cellsInSeries: number;
  readonly cellsInParallel: number;
  /** Charge between the ends of the open-circuit curve [C = A s]. */
  readonly cellCapacity: number;
  readonly curve: OpenCircuitCurve;
  readonly cellResistance: ResistanceCurve;
  /** Of leads, strips and connectors of the whole pack [ohm]. */
  readonly wiringResistance: number;
  /** Of the cell resistance [J/mol]. */
  readonly activationEnergy: number;
  /** None, one or two pairs; their shares sum to at most 1. Used by `stepCircuit`, not by the day. */
  readonly relaxation: readonly RelaxationPair[];
  /** Highest terminal voltage while charging [V per cell]. */
  readonly chargeVoltage: number;
  /** Lowest terminal voltage under load [V per cell]. */
  readonly minimumCellVoltage: number;
  /** Charge current limits by temperature [A per cell], rising temperatures. */
  readonly chargeLimits: readonly TemperatureLimit[];
  /** [A per cell] */
  readonly dischargeCurrentLimit: number;
  /** Usable window of state of charge. */
  readonly lowestStateOfCharge: number;
  readonly highestStateOfCharge: number;
  /** Charge that comes out per charge put in, > 0.995 for lithium-ion (from memory). Applied while charging. */
  readonly coulombicEfficiency: number;
}

/** A battery of which only energy and efficiencies are known, as in many published cases. No voltage model, no taper. */
export interface EnergyPack {
  readonly kind: 'energy';
  /** Energy between empty and full [J]. */
  readonly energy: number;
  readonly chargeEfficiency: number;
  readonly dischargeEfficiency: number;
  /** At the terminals [W]. */
  readonly chargePowerLimit: number;
  /** At the terminals [W]. */
  readonly dischargePowerLimit: number;
  readonly lowestStateOfCharge: number;
  readonly highestStateOfCharge: number;
  /** Reported as terminal voltage [V]. */
  readonly nominalVoltage: number;
}

/** No battery at all: accepts nothing, delivers nothing. What the bus then does is a matter of the day. */
export interface NoPack {
  readonly kind: 'none';
}

export type BatteryPack = CellPack | EnergyPack | NoPack;

export const noPack: NoPack = { kind: 'none' };

/** State of a pack between steps. */
export interface PackState {
  readonly stateOfCharge: number;
  /** Cell temperature [K]. */
  readonly temperature: number;
}

/** An energy bucket; limits default to none that matter, the window to the whole. */
export function energyPack(
  fields: Pick<EnergyPack, 'energy' | 'chargeEfficiency' | 'dischargeEfficiency'> & Partial<EnergyPack>,
): EnergyPack {
  return {
    kind: 'energy',
    chargePowerLimit: 1e9,
    dischargePowerLimit: 1e9,
    lowestStateOfCharge: 0,
    highestStateOfCharge: 1,
    nominalVoltage: 0,
    ...fields,
  };
}

/** Capacity of a pack [C]: cells in parallel times cell capacity. */
export function packCapacity(pack: CellPack): number {
  return pack.cellsInParallel * pack.cellCapacity;
}

/**
 * Direct-current resistance of a pack, R_cell Ns / Np plus wiring.
 * @param stateOfCharge - 0 to 1
 * @param temperature - cell temperature [K]
 * @returns resistance [ohm]
 */
export function packResistance(pack: CellPack, stateOfCharge: number, temperature: number): number {
  const { stateOfCharge: states, resistance } = pack.cellResistance;
  const cell =
    interpolateLinear(states, resistance, stateOfCharge) * resistanceFactor(temperature, pack.activationEnergy);
  return (cell * pack.cellsInSeries) / pack.cellsInParallel + pack.wiringResistance;
}

/** Open-circuit voltage of a pack [V]. */
export function packOpenCircuitVoltage(pack: CellPack, stateOfCharge: number): number {
  return pack.cellsInSeries * openCircuitVoltage(pack.curve, stateOfCharge);
}

/**
 * Energy stored between empty and a state of charge, before any loss: integral of open-circuit voltage over charge.
 * @returns energy [J]; 0 without a battery
 */
export function storedEnergy(pack: BatteryPack, stateOfCharge: number): number {
  if (pack.kind === 'none') return 0;
  if (pack.kind === 'energy') return pack.energy * stateOfCharge;
  return pack.cellsInSeries * packCapacity(pack) * openCircuitIntegral(pack.curve, stateOfCharge);
}

/** Energy between the ends of the usable window of state of charge, before losses [J]. */
export function windowEnergy(pack: BatteryPack): number {
  if (pack.kind === 'none') return 0;
  return storedEnergy(pack, pack.highestStateOfCharge) - storedEnergy(pack, pack.lowestStateOfCharge);
}
