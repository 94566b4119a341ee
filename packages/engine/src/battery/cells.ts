import {
  lithiumIon18650Curve,
  lithiumIon21700Curve,
  lithiumIon21700PowerCurve,
  lithiumPolymerCurve,
} from './curves.js';
import type { OpenCircuitCurve } from './openCircuit.js';
import type { CellPack, ResistanceCurve } from './pack.js';
import { stagedChargeLimits } from './temperature.js';

/** A kind of cell by chemistry and format, with what is typical of it. */
export interface CellKind {
  readonly name: string;
  readonly curve: OpenCircuitCurve;
  /** [C = A s] */
  readonly capacity: number;
  /** Direct current, about 10 s to minutes, 25 C, middle of the charge [ohm]. */
  readonly resistance: number;
  /** Standard uncertainty [ohm]. */
  readonly resistanceUncertainty: number;
  /** [kg] */
  readonly mass: number;
  /** [V] */
  readonly chargeVoltage: number;
  readonly minimumVoltage: number;
  /** Charge rate between 15 and 55 C [capacity per hour]. */
  readonly chargeRate: number;
  /** [A] */
  readonly dischargeCurrentLimit: number;
  readonly source: string;
}

const ampereHour = 3600;

/** Typical cells. Resistances and masses are typical of the kind and from memory unless the source line says otherwise. */
export const cellKinds = {
  'lithium-ion-18650': {
    name: 'lithium-ion 18650, 3 Ah',
    curve: lithiumIon18650Curve,
    capacity: 3 * ampereHour,
    resistance: 0.045,
    resistanceUncertainty: 0.01,
    mass: 0.0475,
    chargeVoltage: 4.2,
    minimumVoltage: 2.5,
    chargeRate: 0.5,
    dischargeCurrentLimit: 10,
    source: '30 to 60 mohm for 3 to 3.5 Ah cells, from memory',
  },
  'lithium-ion-21700': {
    name: 'lithium-ion 21700, 5 Ah',
    curve: lithiumIon21700Curve,
    capacity: 5 * ampereHour,
    resistance: 0.03,
    resistanceUncertainty: 0.004,
    mass: 0.07,
    chargeVoltage: 4.2,
    minimumVoltage: 2.5,
    chargeRate: 0.5,
    dischargeCurrentLimit: 10,
    source: '25 to 35 mohm, from memory; charge 0.5 C to 4.20 V and cut-off 2.5 V: data sheet of a 5 Ah 21700 cell',
  },
  'lithium-ion-21700-power': {
    name: 'lithium-ion 21700, 4.2 Ah, high power',
    curve: lithiumIon21700PowerCurve,
    capacity: 4.2 * ampereHour,
    resistance: 0.018,
    resistanceUncertainty: 0.004,
    mass: 0.069,
    chargeVoltage: 4.2,
    minimumVoltage: 2.5,
    chargeRate: 0.5,
    dischargeCurrentLimit: 30,
    source: '12 to 20 mohm for high-power cells, from memory',
  },
  'lithium-polymer': lithiumPolymerCell(2.2 * ampereHour),
} as const satisfies Record<string, CellKind>;

export type CellKindName = keyof typeof cellKinds;

/**
 * A lithium-polymer pouch cell of a stated capacity: resistance falls, mass grows in proportion.
 * @param capacity - [C = A s]
 * @returns 3 to 10 mohm per 5 Ah; cell level 165 Wh/kg at 3.8 V, from memory
 */
export function lithiumPolymerCell(capacity: number): CellKind {
  if (!(capacity > 0)) throw new RangeError('the capacity must be positive');
  const share = (5 * ampereHour) / capacity;
  return {
    name: 'lithium polymer pouch',
    curve: lithiumPolymerCurve,
    capacity,
    resistance: 0.0065 * share,
    resistanceUncertainty: 0.002 * share,
    mass: ((capacity / ampereHour) * 3.8) / 165,
    chargeVoltage: 4.2,
    minimumVoltage: 3.2,
    chargeRate: 1,
    dischargeCurrentLimit: (20 * capacity) / ampereHour,
    source: '3 to 10 mohm per 5 Ah and at least 3.0 to 3.3 V under load, common practice',
  };
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
 * A pack of one kind of cell with the usual limits; every field can be overridden.
 *
 * @param kind - of cell
 * @param cellsInSeries, cellsInParallel - whole numbers, at least 1
 * @param fields - what is known better
 * @throws RangeError for counts, capacity or resistance that cannot be
 */
export function cellPack(
  kind: CellKind,
  cellsInSeries: number,
  cellsInParallel: number,
  fields: Partial<Omit<CellPack, 'kind' | 'cellsInSeries' | 'cellsInParallel'>> = {},
): CellPack {
  const pack: CellPack = {
    kind: 'cells',
    cellsInSeries,
    cellsInParallel,
    cellCapacity: kind.capacity,
    curve: kind.curve,
    cellResistance: typicalResistanceCurve(kind.resistance),
    wiringResistance: 0.003,
    activationEnergy: 25e3,
    relaxation: [],
    chargeVoltage: kind.chargeVoltage,
    minimumCellVoltage: kind.minimumVoltage,
    chargeLimits: stagedChargeLimits(fields.cellCapacity ?? kind.capacity, kind.chargeRate),
    dischargeCurrentLimit: kind.dischargeCurrentLimit,
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
