import { type Outcome, success } from '@noonwing/engine';
import {
  buildPropellerTable,
  checkPropellerGeometry,
  type Drive,
  genericBladeSection,
  genericPropeller,
  genericPropellerUncertainty,
  genericSpeedController,
  measuredPropeller,
  motor,
  type Propeller,
  type PropellerGeometry,
  uncorrectedPropeller,
} from '@noonwing/engine/drive';
import type { CompleteDrive, CompletePropeller } from '../complete/index.js';
import { relativeSigma } from './sigma.js';

/** Shape of a propeller from its own blades, or the generic one of its size. */
export function propellerShape(propeller: CompletePropeller): Outcome<PropellerGeometry> {
  const { diameter, pitch, blades } = propeller;
  if (propeller.geometry === undefined) return genericPropeller({ diameter, pitch, bladeCount: blades });
  const radius = diameter / 2;
  return checkPropellerGeometry({
    diameter,
    bladeCount: blades,
    section: genericBladeSection,
    stations: propeller.geometry.map((station) => ({
      radiusFraction: station.radius / radius,
      chordFraction: station.chord / radius,
      pitchAngle: station.angle,
    })),
  });
}

/** A speed at which an unlabelled measured table is taken to hold [rad/s]. */
const usualSpeed = 500;

/**
 * Propeller of a completed design: measured table, own blades, or a generic propeller of the size, tabulated.
 * This is the slow part of a drive, so it is a stage of its own.
 */
export function assemblePropeller(propeller: CompletePropeller): Outcome<Propeller> {
  if (propeller.measured !== undefined) {
    const made = measuredPropeller({
      name: 'measured propeller',
      diameter: propeller.diameter,
      bladeCount: propeller.blades,
      points: propeller.measured.map(({ speed, ...point }) => ({ ...point, rotationRate: speed ?? usualSpeed })),
    });
    return made.ok
      ? success(uncorrectedPropeller(made.value), made.warnings)
      : { ...made, where: 'drive.propeller.measured' };
  }
  const shape = propellerShape(propeller);
  if (!shape.ok) return { ...shape, where: 'drive.propeller' };
  const table = buildPropellerTable(shape.value);
  // Blades that are only known by their size are surer than nothing, but not by much.
  const generic = propeller.geometry === undefined ? genericPropellerUncertainty : undefined;
  return success(uncorrectedPropeller(table, generic), shape.warnings);
}

/** A drive ready for the engine, with what its samples need. */
export interface AssembledDrive {
  readonly drive: Drive;
  readonly folding: boolean;
  /** Of leads between battery and speed controllers [ohm]. */
  readonly wiringResistance: number;
  /** Thrust line: height above the datum [m], angle above the body axis [rad]. */
  readonly thrustLine: { readonly z: number; readonly angle: number };
}

/** Drive of a completed design around its propeller. */
export function assembleDrive(complete: CompleteDrive, propeller: Propeller): AssembledDrive {
  const { motor: data, speedController } = complete;
  return {
    drive: {
      propeller,
      motor: motor({
        speedConstant: data.speedConstant.value,
        resistance: data.resistance.value,
        noLoadCurrent: data.noLoadCurrent.value,
        speedConstantUncertainty: relativeSigma(data.speedConstant),
        resistanceUncertainty: relativeSigma(data.resistance),
        noLoadCurrentUncertainty: relativeSigma(data.noLoadCurrent),
        maximumCurrent: data.currentLimit.value,
        ...(data.powerLimit === undefined ? {} : { maximumPower: data.powerLimit.value }),
      }),
      gear: { ratio: data.gearRatio.value, efficiency: data.gearEfficiency.value },
      controller: {
        ...genericSpeedController,
        switchResistance: speedController.resistance.value / 2,
        standbyPower: speedController.standbyPower.value,
        maximumCurrent: speedController.currentLimit.value,
      },
      count: data.count,
    },
    folding: complete.propeller.folding,
    wiringResistance: complete.wiringResistance.value,
    thrustLine: { z: data.z.value, angle: -complete.downThrust.value },
  };
}
