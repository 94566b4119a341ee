import type { OpenCircuitCurve } from './openCircuit.js';
import type { CellPack, ResistanceCurve } from './pack.js';
import { stagedChargeLimits } from './temperature.js';

/** What a pack needs to know of its cells. Typical cells by format are the design package's library. */
export interface PackCell {
  readonly curve: OpenCircuitCurve;
  /** [C = A s] */
  readonly capacity: number;
  /** Direct current, about 10 s to minutes, 25 C, middle of the charge [ohm]. */
  readonly resistance: number;
  /** [V]; 4.2 where absent: lithium cells with graphite. */
  readonly chargeVoltage?: number;
  /** Under load [V]; 2.5 where absent, the cut-off in data sheets of lithium-ion cells. */
  readonly minimumVoltage?: number;
  /** Charge rate between 15 and 55 C [capacity per hour]; 0.5 where absent, the standard charge in data sheets. */
  readonly chargeRate?: number;
  /** [A]; 10 where absent, common for round cells of 3 to 5 Ah. */
  readonly dischargeCurrentLimit?: number;
}

/**
 * Resistance over state of charge from its value at half charge: rises towards empty.
 * @param resistance - direct current, 25 C, middle of the charge [ohm]
 * Source: shape from memory of pulse tests on lithium-ion cells; flat within some per cent from 0.3 to 0.9.
 */
export function typicalResistanceCurve(resistance: number): ResistanceCurve {
  if (!(resistance > 0)) throw new RangeError('the resistance must be positive');
  const factors = [2.5, 1.7, 1.35, 1.1, 1, 1, 1.05];
  return { stateOfCharge: [0, 0.05, 0.1, 0.2, 0.3, 0.9, 1], resistance: factors.map((f) => f * resistance) };
}

/**
 * A pack of equal cells with the usual limits; every field can be overridden.
 *
 * @param cell - capacity, resistance, curve and limits of one
 * @param cellsInSeries, cellsInParallel - whole numbers, at least 1
 * @param fields - what is known better
 * @throws RangeError for counts, capacity or resistance that cannot be
 */
export function cellPack(
  cell: PackCell,
  cellsInSeries: number,
  cellsInParallel: number,
  fields: Partial<Omit<CellPack, 'kind' | 'cellsInSeries' | 'cellsInParallel'>> = {},
): CellPack {
  const pack: CellPack = {
    kind: 'cells',
    cellsInSeries,
    cellsInParallel,
    cellCapacity: cell.capacity,
    curve: cell.curve,
    cellResistance: typicalResistanceCurve(cell.resistance),
    wiringResistance: 0.003,
    activationEnergy: 25e3,
    relaxation: [],
    chargeVoltage: cell.chargeVoltage ?? 4.2,
    minimumCellVoltage: cell.minimumVoltage ?? 2.5,
    chargeLimits: stagedChargeLimits(fields.cellCapacity ?? cell.capacity, cell.chargeRate ?? 0.5),
    dischargeCurrentLimit: cell.dischargeCurrentLimit ?? 10,
    lowestStateOfCharge: 0,
    highestStateOfCharge: 1,
    coulombicEfficiency: 0.998,
    ...fields,
  };
  requireUsablePack(pack);
  return pack;
}

function requireUsablePack(pack: CellPack): void {
  for (const count of [pack.cellsInSeries, pack.cellsInParallel]) {
    if (!(Number.isInteger(count) && count >= 1))
      throw new RangeError('cells in series and parallel are whole numbers >= 1');
  }
  if (!(pack.cellCapacity > 0)) throw new RangeError('the cell capacity must be positive');
  if (!pack.cellResistance.resistance.every((r) => r > 0)) throw new RangeError('the cell resistance must be positive');
  if (!(pack.minimumCellVoltage < pack.chargeVoltage))
    throw new RangeError('cut-off must lie below the charge voltage');
  if (!(pack.coulombicEfficiency > 0 && pack.coulombicEfficiency <= 1)) {
    throw new RangeError('coulombic efficiency lies between 0 and 1');
  }
  if (!(pack.lowestStateOfCharge >= 0 && pack.lowestStateOfCharge < pack.highestStateOfCharge)) {
    throw new RangeError('the window of state of charge must be open');
  }
  if (!(pack.highestStateOfCharge <= 1)) throw new RangeError('state of charge ends at 1');
}
