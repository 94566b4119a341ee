import {
  type BatteryPack,
  type CellPack,
  lithiumIon18650Curve,
  lithiumIon21700Curve,
  lithiumPolymerCurve,
  noPack,
  type OpenCircuitCurve,
  packOpenCircuitVoltage,
  stagedChargeLimits,
  typicalResistanceCurve,
} from '@noonwing/engine/battery';
import type { CompleteBattery } from '../complete/index.js';
import { relativeSigma } from './sigma.js';

/** A battery ready for the engine, with the relative standard uncertainties that its samples need. */
export interface AssembledBattery {
  readonly pack: BatteryPack;
  /** At half charge without load [V]; zero without a battery. */
  readonly nominalVoltage: number;
  /** Lowest and highest terminal voltage in use [V]. */
  readonly lowestVoltage: number;
  readonly highestVoltage: number;
  readonly capacitySigma: number;
  readonly resistanceSigma: number;
}

const withoutBattery: AssembledBattery = {
  pack: noPack,
  nominalVoltage: 0,
  lowestVoltage: 0,
  highestVoltage: 0,
  capacitySigma: 0,
  resistanceSigma: 0,
};

/** Round cells above about 3.7 Ah are of the larger format. */
const largeCell = 3.7 * 3600;

function curveOf(battery: CompleteBattery): OpenCircuitCurve {
  if (battery.chemistry === 'lithium polymer') return lithiumPolymerCurve;
  return battery.capacity.value / battery.parallel > largeCell ? lithiumIon21700Curve : lithiumIon18650Curve;
}

/** Battery of a completed design. The stated resistance of the pack is taken as that of its cells; leads are part of it. */
export function assembleBattery(battery: CompleteBattery | undefined): AssembledBattery {
  if (battery === undefined) return withoutBattery;
  const { series, parallel } = battery;
  const cellCapacity = battery.capacity.value / parallel;
  const chargeRate = battery.chargeCurrentLimit.value / (battery.capacity.value / 3600);
  const pack: CellPack = {
    kind: 'cells',
    cellsInSeries: series,
    cellsInParallel: parallel,
    cellCapacity,
    curve: curveOf(battery),
    cellResistance: typicalResistanceCurve((battery.resistance.value * parallel) / series),
    wiringResistance: 0,
    activationEnergy: 25e3,
    relaxation: [],
    chargeVoltage: battery.fullVoltage.value,
    minimumCellVoltage: battery.emptyVoltage.value,
    chargeLimits: stagedChargeLimits(cellCapacity, chargeRate),
    dischargeCurrentLimit: battery.dischargeCurrentLimit.value / parallel,
    lowestStateOfCharge: 1 - battery.usable.value,
    highestStateOfCharge: 1,
    coulombicEfficiency: 0.998,
  };
  return {
    pack,
    nominalVoltage: packOpenCircuitVoltage(pack, 0.5),
    lowestVoltage: series * battery.emptyVoltage.value,
    highestVoltage: series * battery.fullVoltage.value,
    capacitySigma: relativeSigma(battery.capacity),
    resistanceSigma: relativeSigma(battery.resistance),
  };
}
