import { type Outcome, success } from '@noonwing/engine';
import {
  type BladeSection,
  bladeSectionOf,
  buildPropellerTable,
  checkPropellerGeometry,
  type Drive,
  genericBladeSection,
  genericChordFraction,
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
import { assembleSection, type SectionSources } from './section.js';
import { relativeSigma } from './sigma.js';

/** Chord at three quarters of the radius [m]: there plates of a stated thickness have their thickness over chord. */
export function middleChord({ diameter, geometry }: CompletePropeller): number {
  if (geometry === undefined) return (genericChordFraction(diameter) * diameter) / 2;
  const away = (radius: number) => Math.abs(radius - 0.375 * diameter);
  return geometry.reduce((best, station) => (away(station.radius) < away(best.radius) ? station : best)).chord;
}

/** Section of the blades: by its stored polars or the first estimate of it where it is stated, else the generic one. */
function bladeSection(propeller: CompletePropeller, sources: SectionSources): Outcome<BladeSection> {
  if (propeller.section === undefined) return success(genericBladeSection);
  const made = assembleSection('propeller blade', propeller.section, middleChord(propeller), sources, {});
  if (!made.ok) return { ...made, where: 'drive.propeller.section' };
  const { model, basis, geometry } = made.value;
  const message = `the polars of ${geometry.name} are not computed: its first estimate is used`;
  const missing =
    basis.kind === 'not computed' ? [{ code: 'section.estimate', message, where: 'propeller blade' }] : [];
  return success(bladeSectionOf(model), [...made.warnings, ...missing]);
}

/**
 * Shape of a propeller from its own blades, or the generic one of its size.
 * @param sources - what a stated section of the blades is made from
 */
export function propellerShape(propeller: CompletePropeller, sources: SectionSources): Outcome<PropellerGeometry> {
  const { diameter, pitch, blades } = propeller;
  const found = bladeSection(propeller, sources);
  if (!found.ok) return found;
  const section = found.value;
  const warned = (made: Outcome<PropellerGeometry>): Outcome<PropellerGeometry> =>
    made.ok ? success(made.value, [...found.warnings, ...made.warnings]) : made;
  if (propeller.geometry === undefined)
    return warned(genericPropeller({ diameter, pitch, bladeCount: blades, section }));
  const radius = diameter / 2;
  return warned(
    checkPropellerGeometry({
      diameter,
      bladeCount: blades,
      section,
      stations: propeller.geometry.map((station) => ({
        radiusFraction: station.radius / radius,
        chordFraction: station.chord / radius,
        pitchAngle: station.angle,
      })),
    }),
  );
}

/** A speed at which an unlabelled measured table is taken to hold [rad/s]. */
const usualSpeed = 500;

/**
 * Propeller of a completed design: measured table, own blades, or a generic propeller of the size, tabulated.
 * This is the slow part of a drive, so it is a stage of its own.
 * @param sources - what a stated section of the blades is made from
 */
export function assemblePropeller(propeller: CompletePropeller, sources: SectionSources = {}): Outcome<Propeller> {
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
  const shape = propellerShape(propeller, sources);
  if (!shape.ok) return { ...shape, where: shape.where.startsWith('drive.') ? shape.where : 'drive.propeller' };
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
