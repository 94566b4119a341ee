import {
  estimatedNoLoadUncertainty,
  estimatedResistanceUncertainty,
  noLoadCurrentFromMass,
  resistanceFromMass,
} from '@noonwing/engine/drive';
import type { DriveDesign, MotorDesign } from '../aircraft.js';
import { MOTORS, type MotorName, type MotorSheet } from '../library/motors.js';
import { PROPELLERS } from '../library/propellers.js';
import type { KindedValue, Valued } from '../schema/field.js';
import { sectionOf } from './airframe.js';
import { type Default, type Log, orDefault, usual, withSpread } from './assumptions.js';
import type { CompleteBattery, CompleteDrive, CompleteMotor, CompletePropeller } from './types.js';

const RPM_PER_VOLT = (2 * Math.PI) / 60;
const INCH = 0.0254;
const ZERO: Valued = { value: 0, source: 'stated' };

/** Share of the mass of a geared motor that is motor; the rest is gear (judgement). */
const MOTOR_SHARE_OF_GEARED = 0.65;

/** Motor usual for the mass of the aircraft, common practice. */
function usualMotor(mass: number): MotorName {
  if (mass < 0.3) return 'outrunner 12 g 2000 rpm/V';
  if (mass < 0.65) return 'outrunner 30 g 1300 rpm/V';
  if (mass < 1.1) return 'outrunner 55 g 1000 rpm/V';
  if (mass < 2.2) return 'outrunner 75 g 750 rpm/V';
  return mass < 3.5 ? 'outrunner 110 g 500 rpm/V' : 'outrunner 180 g 380 rpm/V';
}

interface MotorContext {
  readonly log: Log;
  readonly motor: MotorDesign;
  readonly sheet: MotorSheet | undefined;
  readonly usual: MotorSheet;
}

/** A constant of the motor: as stated, from the named part, or estimated. */
function constant(
  context: MotorContext,
  key: keyof MotorSheet & keyof MotorDesign,
  kind: Parameters<typeof withSpread>[2],
  estimate: { value: number; share: number; why: string },
  words: string,
): Valued {
  const { log, motor, sheet } = context;
  const path = `drive.motor.${words}`;
  const given = motor[key] as Valued | undefined;
  const share = kind === 'motor speed constant' ? 0.03 : 0.1;
  if (given !== undefined) return withSpread(log, path, kind, given, { share }, 'seller data scatter');
  const known = sheet?.[key] as { value: number; sigma: number } | undefined;
  return known === undefined
    ? orDefault(log, path, undefined, {
        kind,
        value: estimate.value,
        sigma: estimate.share * estimate.value,
        why: estimate.why,
      })
    : orDefault(log, path, undefined, { kind, ...known, why: 'parts library', source: 'library' });
}

function chosenMotor(log: Log, motor: MotorDesign, mass: number): MotorName | undefined {
  if (motor.like !== undefined || motor.speedConstant !== undefined) return motor.like;
  const value = usualMotor(mass);
  log.push({ path: 'drive.motor', what: 'choice', kind: 'choice', value, why: 'no motor stated; usual for this size' });
  return value;
}

/** The constants of the motor, from the part that is named, or estimated from its speed constant and mass. */
function motorConstants(context: MotorContext, volts: number) {
  const size = { value: context.usual.mass.value, share: 0.3, why: 'usual for an aircraft of this size' };
  const mass = constant(context, 'mass', 'mass', size, 'mass');
  const speed = { value: 750 * RPM_PER_VOLT, share: 0.3, why: 'usual' };
  const speedConstant = constant(context, 'speedConstant', 'motor speed constant', speed, 'speed constant');
  const geared = (context.motor.gearRatio?.value ?? context.sheet?.gearRatio ?? 1) > 1;
  const turning = mass.value * (geared ? MOTOR_SHARE_OF_GEARED : 1);
  const ohms = resistanceFromMass(speedConstant.value, turning);
  const winding = {
    value: ohms,
    share: estimatedResistanceUncertainty,
    why: 'estimated from speed constant and motor mass',
  };
  const known = context.sheet?.noLoadVoltage ?? volts;
  const noLoadVoltage: Valued = context.motor.noLoadVoltage ?? { value: known, source: 'assumed' };
  const idleCurrent = noLoadCurrentFromMass(speedConstant.value, turning);
  const idle = {
    value: idleCurrent,
    share: estimatedNoLoadUncertainty,
    why: 'estimated from speed constant and motor mass',
  };
  const limit = { value: 250 * mass.value, share: 0.3, why: 'about 0.25 A per gram of motor, common practice' };
  return {
    speedConstant,
    resistance: constant(context, 'resistance', 'resistance', winding, 'resistance'),
    noLoadCurrent: constant(context, 'noLoadCurrent', 'current', idle, 'no load current'),
    noLoadVoltage,
    currentLimit: constant(context, 'currentLimit', 'current', limit, 'current limit'),
    mass,
  };
}

function completeMotor(log: Log, motor: MotorDesign, size: { mass: number; x: number; volts: number }): CompleteMotor {
  const count = motor.count?.value ?? 1;
  const like = chosenMotor(log, motor, size.mass / count);
  const sheet = like === undefined ? undefined : MOTORS[like];
  const gear = sheet?.gearRatio ?? 1;
  const nose = usual('length', size.x, 0.05, 'no place stated; in the nose');
  return {
    count,
    ...motorConstants({ log, motor, sheet, usual: MOTORS[usualMotor(size.mass / count)] }, size.volts),
    gearRatio: motor.gearRatio ?? { value: gear, source: gear === 1 ? 'stated' : 'library' },
    gearEfficiency: motor.gearEfficiency ?? gearLoss(log, motor.gearRatio?.value ?? gear),
    ...(motor.powerLimit === undefined ? {} : { powerLimit: motor.powerLimit }),
    x: orDefault(log, 'drive.motor.x', motor.x, nose),
    y: motor.y ?? ZERO,
    z: motor.z ?? ZERO,
  };
}

function gearLoss(log: Log, ratio: number): Valued {
  if (ratio === 1) return { value: 1, source: 'stated' };
  return orDefault(log, 'drive.motor.gear efficiency', undefined, {
    kind: 'ratio',
    value: 0.95,
    sigma: 0.02,
    why: 'one stage of small gears, common practice',
  });
}

/** Diameter that suits the level power of such a mass; common practice: 11 in at 1.3 kg [in]. */
const usualDiameter = (mass: number): number => Math.round(11 * (mass / 1.3) ** 0.4);

type PropellerDesign = NonNullable<DriveDesign['propeller']>;

function propellerSize(log: Log, propeller: PropellerDesign, mass: number): { diameter: number; pitch: number } {
  if (propeller.size !== undefined) return propeller.size;
  if (propeller.like !== undefined) {
    const { diameter, pitch } = PROPELLERS[propeller.like];
    return { diameter, pitch };
  }
  const diameter = usualDiameter(mass);
  const pitch = Math.round(0.57 * diameter);
  const value = `${diameter}x${pitch} in`;
  log.push({
    path: 'drive.propeller',
    what: 'choice',
    kind: 'choice',
    value,
    why: 'no propeller stated; usual for this size',
  });
  return { diameter: diameter * INCH, pitch: pitch * INCH };
}

/** Blade stations in metres, and the measured table as plain numbers, where the design has them. */
function bladeData(propeller: PropellerDesign, radius: number): Pick<CompletePropeller, 'geometry' | 'measured'> {
  const metres = (of: KindedValue) => (of.kind === 'ratio' ? of.value * radius : of.value);
  const geometry = propeller.geometry?.map((station) => ({
    radius: metres(station.radius),
    chord: metres(station.chord),
    angle: station.angle.value,
  }));
  const measured = propeller.measured?.map((point) => ({
    advanceRatio: point.advanceRatio.value,
    thrustCoefficient: point.thrustCoefficient.value,
    powerCoefficient: point.powerCoefficient.value,
    ...(point.speed === undefined ? {} : { speed: point.speed.value }),
  }));
  return { ...(geometry === undefined ? {} : { geometry }), ...(measured === undefined ? {} : { measured }) };
}

function completePropeller(log: Log, propeller: PropellerDesign, mass: number): CompletePropeller {
  const sheet = propeller.like === undefined ? undefined : PROPELLERS[propeller.like];
  const size = propellerSize(log, propeller, mass);
  const kilograms = sheet?.mass ?? 0.025 * (size.diameter / (11 * INCH)) ** 2.5;
  const weight = usual('mass', kilograms, 0.25 * kilograms, 'usual for this size with hub and spinner');
  return {
    ...size,
    blades: propeller.blades?.value ?? sheet?.blades ?? 2,
    folding: propeller.folding ?? sheet?.folding ?? true,
    ...bladeData(propeller, size.diameter / 2),
    ...(propeller.section === undefined
      ? {}
      : { section: sectionOf(log, 'drive.propeller.section', propeller.section) }),
    mass: orDefault(log, 'drive.propeller.mass', propeller.mass, weight),
  };
}

type Controller = NonNullable<DriveDesign['speedController']>;

function completeController(
  log: Log,
  given: Controller,
  motorLimit: number,
  series: number | undefined,
): CompleteDrive['speedController'] {
  const amps = given.currentLimit?.value ?? 1.3 * motorLimit;
  const pick = (words: string, stated: Valued | undefined, otherwise: Default) =>
    orDefault(log, `drive.speed controller.${words}`, stated, otherwise);
  const drop = usual('resistance', 0.15 / amps, 0.06 / amps, 'about 0.15 V lost at its current limit, common practice');
  const limit = usual('current', amps, 0.1 * amps, 'a third above the motor, common practice');
  const standby = usual('power', 0.2, 0.1, 'its processor, common practice');
  const controller = {
    resistance: pick('resistance', given.resistance, drop),
    currentLimit: pick('current limit', given.currentLimit, limit),
    standbyPower: pick('standby power', given.standbyPower, standby),
  };
  if (series === undefined) return controller;
  const cut = usual('voltage', 2.8 * series, 0.1 * series, '2.8 V per cell');
  return { ...controller, lowVoltageCut: pick('low voltage cut', given.lowVoltageCut, cut) };
}

const WIRING = usual('resistance', 0.006, 0.003, 'short leads and two connectors');

/** The drive with every number. size - rough mass of the aircraft [kg], and where a motor without a place is put [m] */
export function completeDrive(
  log: Log,
  drive: DriveDesign,
  size: { mass: number; x: number },
  battery: CompleteBattery | undefined,
): CompleteDrive {
  const motor = completeMotor(log, drive.motor ?? {}, { ...size, volts: 3.7 * (battery?.series ?? 3) });
  return {
    motor,
    propeller: completePropeller(log, drive.propeller ?? {}, size.mass / motor.count),
    speedController: completeController(log, drive.speedController ?? {}, motor.currentLimit.value, battery?.series),
    wiringResistance: orDefault(log, 'drive.wiring resistance', drive.wiringResistance, WIRING),
    downThrust: drive.downThrust ?? ZERO,
  };
}
