import { type Problem, problem, type Warning } from '../result.js';
import type { PropellerLoads } from './bladeElement.js';
import { advanceRange, type MeasuredPropeller, measuredLoads, rateRefusal, rateWarning } from './measuredPropeller.js';
import { type PropellerTable, propellerReynolds, tableLoads } from './propellerTable.js';

/** A propeller as tabulated from its shape or as measured. */
export type PropellerModel = PropellerTable | MeasuredPropeller;

/** A propeller in a drive: its model and what measurements say about it. */
export interface Propeller {
  readonly model: PropellerModel;
  /** Factors on thrust and torque, 1 until a run sets them. */
  readonly thrustFactor: number;
  readonly powerFactor: number;
  /** Their standard uncertainties (relative). */
  readonly thrustUncertainty: number;
  readonly powerUncertainty: number;
}

/**
 * Standard uncertainty of thrust and power of a propeller computed from known blade shape (relative). Judgement from six measured
 * two-blade propellers (see README): 1 to 7 per cent off, 16 per cent for one.
 */
export const computedPropellerUncertainty = 0.08;
/**
 * The same for a generic blade of which only diameter and nominal pitch are known. Judgement: static thrust of four measured
 * propellers is met within 14 per cent, static power within 22 per cent; nominal pitch alone is uncertain by 10 per cent.
 */
export const genericPropellerUncertainty = 0.12;
/** Standard uncertainty of a measured table. Source: J. B. Brandt, M. S. Selig, AIAA 2011-1255 (from memory, about 2 per cent). */
export const measuredPropellerUncertainty = 0.025;

/**
 * A propeller without corrections.
 *
 * @param model - table from the shape, or measured curves
 * @param uncertainty - relative standard uncertainty of thrust and power; default that of known blades or of measurements
 */
export function uncorrectedPropeller(
  model: PropellerModel,
  uncertainty = model.kind === 'table' ? computedPropellerUncertainty : measuredPropellerUncertainty,
): Propeller {
  return { model, thrustFactor: 1, powerFactor: 1, thrustUncertainty: uncertainty, powerUncertainty: uncertainty };
}

/** Air at the propeller; an `Air` of the atmosphere fits. */
export interface DriveAir {
  /** [kg/m3] */
  readonly density: number;
  /** [Pa s] */
  readonly dynamicViscosity: number;
  /** [m/s] */
  readonly soundSpeed: number;
}

/** Standard air at sea level. Source: ISO 2533:1975. */
export const seaLevelAir: DriveAir = { density: 1.225, dynamicViscosity: 1.7894e-5, soundSpeed: 340.294 };

/** Loads of a corrected propeller; allocates nothing. */
export function propellerLoads(
  propeller: Propeller,
  airspeed: number,
  rotationRate: number,
  air: DriveAir,
  into: PropellerLoads,
): void {
  const { model } = propeller;
  if (model.kind === 'table') {
    tableLoads(model, airspeed, rotationRate, air.density, air.dynamicViscosity / air.density, into);
  } else measuredLoads(model, airspeed, rotationRate, air.density, into);
  into.thrust *= propeller.thrustFactor;
  into.torque *= propeller.powerFactor;
}

const perMinute = (rotationRate: number) => ((rotationRate * 30) / Math.PI).toFixed(0);

/** Why a measured propeller may not be used at an operating point, or undefined. */
export function propellerRangeProblem(
  propeller: Propeller,
  airspeed: number,
  rotationRate: number,
): Problem | undefined {
  const { model } = propeller;
  if (model.kind !== 'measured') return undefined;
  const advanceRatio = (airspeed * 2 * Math.PI) / (rotationRate * model.diameter);
  const [low, high] = advanceRange(model, rotationRate);
  const slack = 1e-9;
  if (!(advanceRatio >= low - slack && advanceRatio <= high + slack)) {
    return problem({
      code: 'propeller-advance-range',
      reason: `The advance ratio ${advanceRatio.toFixed(3)} lies outside the measured ${low.toFixed(3)} to ${high.toFixed(3)}.`,
      where: model.name,
      remedy: 'Measure that range, or describe the blades so that the loads can be computed.',
    });
  }
  const excess = rateExcess(model, rotationRate);
  if (excess > rateRefusal) {
    return problem({
      code: 'propeller-rate-range',
      reason: `${perMinute(rotationRate)} rpm lies far outside the measured ${measuredRates(model)} rpm.`,
      where: model.name,
      remedy: 'Measure nearer to that speed, or describe the blades so that the loads can be computed.',
    });
  }
  return undefined;
}

/** Relative distance of a rotation rate from the measured ones; 0 inside. */
function rateExcess(model: MeasuredPropeller, rotationRate: number): number {
  const slowest = model.curves[0].rotationRate;
  const fastest = model.curves[model.curves.length - 1].rotationRate;
  return Math.max(rotationRate / fastest - 1, 1 - rotationRate / slowest, 0);
}

const measuredRates = (model: MeasuredPropeller) =>
  `${perMinute(model.curves[0].rotationRate)} to ${perMinute(model.curves[model.curves.length - 1].rotationRate)}`;

/** Doubts about the propeller at an operating point. */
export function propellerWarnings(
  propeller: Propeller,
  airspeed: number,
  rotationRate: number,
  air: DriveAir,
): Warning[] {
  const { model } = propeller;
  const warnings: Warning[] = [];
  const tipMach = Math.hypot(airspeed, (rotationRate * model.diameter) / 2) / air.soundSpeed;
  if (tipMach > 0.6)
    warnings.push({
      code: 'tip-mach',
      message: `The blade tips run at Mach ${tipMach.toFixed(2)}; above 0.6 compressibility adds losses that are not computed.`,
      where: 'propeller',
    });
  if (model.kind === 'measured') {
    if (rateExcess(model, rotationRate) > rateWarning)
      warnings.push({
        code: 'propeller-rate',
        message: `${perMinute(rotationRate)} rpm lies outside the measured ${measuredRates(model)} rpm; the nearest curve is used.`,
        where: model.name,
      });
    return warnings;
  }
  const reynolds = propellerReynolds(model, airspeed, rotationRate, air.dynamicViscosity / air.density);
  const lowest = Math.exp(model.logReynoldsStart);
  const highest = Math.exp(model.logReynoldsStart + model.logReynoldsStep * (model.reynoldsCount - 1));
  if (reynolds < lowest * 0.999 || reynolds > highest * 1.001)
    warnings.push({
      code: 'propeller-reynolds',
      message: `Reynolds number ${reynolds.toFixed(0)} lies outside the table's ${lowest.toFixed(0)} to ${highest.toFixed(0)}.`,
      where: 'propeller',
    });
  return warnings;
}
