import { type DiodeCurve, openCircuitVoltage, shortCircuitCurrent } from './cell.js';
import { boltzmannOverCharge } from './constants.js';
import { type DiodeCurveBatch, maximumPowerPoint } from './maximum.js';

/**
 * A cell (or module of equal cells): its single-diode curve at the reference condition and what shifts it.
 * A CellParameters is itself the curve at its reference irradiance and temperature.
 */
export interface CellParameters extends DiodeCurve {
  /** Irradiance of the reference condition [W/m2]. */
  readonly referenceIrradiance: number;
  /** Cell temperature of the reference condition [K]. */
  readonly referenceTemperature: number;
  /** Change of the photocurrent with temperature [A/K]. */
  readonly currentTemperatureCoefficient: number;
  /** Band gap at the reference temperature [eV]; an effective value where it was fitted to a voltage coefficient. */
  readonly bandGap: number;
  /** Relative change of the band gap with temperature [1/K]. */
  readonly bandGapTemperatureCoefficient: number;
  /** Area that collects light [m2]. */
  readonly area: number;
  /** Cells in series inside the curve: 1 for a cell [count]. */
  readonly cellsInSeries: number;
}

/** Band gap of crystalline silicon at 25 C [eV] and its relative change [1/K]. Source: De Soto, Klein and Beckman, 2006, table 1. */
export const siliconBandGap = { bandGap: 1.121, bandGapTemperatureCoefficient: -0.0002677 } as const;

/**
 * Lowest irradiance at which the shunt resistance is still scaled [W/m2]: below it a dark cell keeps a finite, very
 * large, resistance.
 */
export const darkIrradiance = 1e-6;

/**
 * Saturation current at another temperature.
 *
 * @param cell - cell at reference
 * @param temperature - cell temperature [K]
 * @returns saturation current [A]
 * Source: De Soto, Klein and Beckman, Solar Energy 80, 2006, eqs. 10 and 11.
 */
export function saturationCurrentAt(cell: CellParameters, temperature: number): number {
  const reference = cell.referenceTemperature;
  const gap = cell.bandGap * (1 + cell.bandGapTemperatureCoefficient * (temperature - reference));
  const exponent = (cell.bandGap / reference - gap / temperature) / boltzmannOverCharge;
  const ratio = temperature / reference;
  return cell.saturationCurrent * ratio * ratio * ratio * Math.exp(exponent);
}

/**
 * Curve of a cell at another irradiance and temperature.
 *
 * @param cell - cell at reference
 * @param condition.irradiance - effective irradiance on the cell, after incidence, film and soiling [W/m2], 0 to 2000
 * @param condition.temperature - cell temperature [K], 220 to 400
 * @returns the five parameters at that condition; breakdown data pass through
 * Source: De Soto, Klein and Beckman, Improvement and validation of a model for photovoltaic array performance, Solar
 * Energy 80, 2006, eqs. 8 to 13.
 */
export function cellAt(
  cell: CellParameters,
  condition: { readonly irradiance: number; readonly temperature: number },
): DiodeCurve {
  const { irradiance, temperature } = condition;
  const ratio = Math.max(irradiance, 0) / cell.referenceIrradiance;
  const lit = Math.max(irradiance, darkIrradiance) / cell.referenceIrradiance;
  const photocurrent =
    ratio * (cell.photocurrent + cell.currentTemperatureCoefficient * (temperature - cell.referenceTemperature));
  const curve = {
    photocurrent: Math.max(photocurrent, 0),
    saturationCurrent: saturationCurrentAt(cell, temperature),
    seriesResistance: cell.seriesResistance,
    shuntResistance: cell.shuntResistance / lit,
    modifiedIdeality: (cell.modifiedIdeality * temperature) / cell.referenceTemperature,
  };
  return cell.breakdown === undefined ? curve : { ...curve, breakdown: cell.breakdown };
}

/**
 * Curves of one cell at many irradiances and temperatures, ready for `maximumPowerPoints`.
 *
 * @param cell - cell at reference
 * @param conditions.irradiance - effective irradiances [W/m2]
 * @param conditions.temperature - cell temperatures [K], same length
 * @returns five parameters by condition
 */
export function cellBatchAt(
  cell: CellParameters,
  conditions: { readonly irradiance: Float64Array; readonly temperature: Float64Array },
): DiodeCurveBatch {
  const { irradiance, temperature } = conditions;
  const count = irradiance.length;
  const batch = {
    photocurrent: new Float64Array(count),
    saturationCurrent: new Float64Array(count),
    seriesResistance: new Float64Array(count).fill(cell.seriesResistance),
    shuntResistance: new Float64Array(count),
    modifiedIdeality: new Float64Array(count),
  };
  for (let k = 0; k < count; k++) {
    const g = irradiance[k]!;
    const t = temperature[k]!;
    const shift = cell.currentTemperatureCoefficient * (t - cell.referenceTemperature);
    batch.photocurrent[k] = Math.max((Math.max(g, 0) / cell.referenceIrradiance) * (cell.photocurrent + shift), 0);
    batch.saturationCurrent[k] = saturationCurrentAt(cell, t);
    batch.shuntResistance[k] = (cell.shuntResistance * cell.referenceIrradiance) / Math.max(g, darkIrradiance);
    batch.modifiedIdeality[k] = (cell.modifiedIdeality * t) / cell.referenceTemperature;
  }
  return batch;
}

/** How a cell changes with temperature at the reference condition. */
export interface TemperatureCoefficients {
  /** Short-circuit current [A/K]. */
  readonly current: number;
  /** Open-circuit voltage [V/K]. */
  readonly voltage: number;
  /** Maximum power, relative [1/K]. */
  readonly power: number;
}

/**
 * Temperature coefficients that a cell model implies, by central difference over 2 K at its reference condition.
 *
 * @param cell - cell at reference
 * @returns coefficients of short-circuit current, open-circuit voltage and relative maximum power
 */
export function impliedTemperatureCoefficients(cell: CellParameters): TemperatureCoefficients {
  const at = (shift: number): DiodeCurve =>
    cellAt(cell, { irradiance: cell.referenceIrradiance, temperature: cell.referenceTemperature + shift });
  const [cold, warm] = [at(-1), at(1)];
  return {
    current: (shortCircuitCurrent(warm) - shortCircuitCurrent(cold)) / 2,
    voltage: (openCircuitVoltage(warm) - openCircuitVoltage(cold)) / 2,
    power: (maximumPowerPoint(warm).power - maximumPowerPoint(cold).power) / (2 * maximumPowerPoint(cell).power),
  };
}

/**
 * Ideality factor n of each cell of a curve.
 *
 * @param cell - cell at reference
 * @returns n [1]
 */
export const idealityFactor = (cell: CellParameters): number =>
  cell.modifiedIdeality / (cell.cellsInSeries * boltzmannOverCharge * cell.referenceTemperature);

/**
 * One cell of a module of equal cells.
 *
 * @param module - curve of `cellsInSeries` equal cells in series
 * @returns the curve of one of them; resistances, ideality and area divided by the count
 */
export function singleCell(module: CellParameters): CellParameters {
  const count = module.cellsInSeries;
  return {
    ...module,
    seriesResistance: module.seriesResistance / count,
    shuntResistance: module.shuntResistance / count,
    modifiedIdeality: module.modifiedIdeality / count,
    area: module.area / count,
    cellsInSeries: 1,
  };
}
