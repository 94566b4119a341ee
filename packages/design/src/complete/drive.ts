import type { DriveDesign, MotorDesign } from '../aircraft.js';
import { MOTORS, type MotorName, type MotorSheet } from '../library/motors.js';
import { PROPELLERS } from '../library/propellers.js';
import type { Valued } from '../schema/field.js';
import { type Log, orDefault, withSpread } from './assumptions.js';
import type { CompleteBattery, CompleteDrive, CompleteMotor, CompletePropeller } from './types.js';

const RPM_PER_VOLT = (2 * Math.PI) / 60;
const INCH = 0.0254;
const ZERO: Valued = { value: 0, source: 'stated' };

/**
 * Torque per root of copper loss of small outrunners goes with their mass, 0.61 N m per root of W and kg; from the
 * size classes of the parts library (common practice, no source; scatter about 25 %).
 */
const MOTOR_CONSTANT_PER_MASS = 0.61;
/** Power that a small outrunner draws without propeller per mass [W/kg], from the same classes. */
const NO_LOAD_POWER_PER_MASS = 90;

/** Motor usual for the mass of the aircraft, common practice. */
function usualMotor(mass: number): MotorName {
  if (mass < 0.3) return 'outrunner 12 g 2000 rpm/V';
  if (mass < 0.65) return 'outrunner 30 g 1300 rpm/V';
  if (mass < 1.1) return 'outrunner 55 g 1000 rpm/V';
  if (mass < 2.2) return 'outrunner 75 g 750 rpm/V';
  return mass < 3.5 ? 'outrunner 110 g 500 rpm/V' : 'outrunner 180 g 380 rpm/V';
}

/** Winding resistance from speed constant and mass: R = (Kt / (0.61 m))^2 with Kt = 1 / speed constant [ohm]. */
export function estimatedMotorResistance(motor: { readonly speedConstant: number; readonly mass: number }): number {
  return (1 / motor.speedConstant / (MOTOR_CONSTANT_PER_MASS * motor.mass)) ** 2;
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

function motorMass(context: MotorContext): Valued {
  const estimate = { value: context.usual.mass.value, share: 0.3, why: 'usual for an aircraft of this size' };
  return constant(context, 'mass', 'mass', estimate, 'mass');
}

function completeMotor(log: Log, motor: MotorDesign, size: { mass: number; x: number; volts: number }): CompleteMotor {
  const chosen = motor.like ?? (motor.speedConstant === undefined ? usualMotor(size.mass) : undefined);
  if (chosen !== undefined && motor.like === undefined) {
    log.push({
      path: 'drive.motor',
      what: 'choice',
      kind: 'choice',
      value: chosen,
      why: 'no motor stated; usual for this size',
    });
  }
  const usual = MOTORS[usualMotor(size.mass / (motor.count?.value ?? 1))];
  const context: MotorContext = { log, motor, sheet: chosen === undefined ? undefined : MOTORS[chosen], usual };
  const mass = motorMass(context);
  const speedConstant = constant(
    context,
    'speedConstant',
    'motor speed constant',
    { value: 750 * RPM_PER_VOLT, share: 0.3, why: 'usual' },
    'speed constant',
  );
  const resistance = estimatedMotorResistance({ speedConstant: speedConstant.value, mass: mass.value });
  const noLoadVolts = motor.noLoadVoltage?.value ?? context.sheet?.noLoadVoltage ?? size.volts;
  const noLoad = (NO_LOAD_POWER_PER_MASS * mass.value) / noLoadVolts;
  const gear = context.sheet?.gearRatio ?? 1;
  const place = (key: 'x', given: Valued | undefined) =>
    orDefault(log, `drive.motor.${key}`, given, {
      kind: 'length',
      value: size.x,
      sigma: 0.05,
      why: 'no place stated; in the nose',
    });
  const limit = { value: 0.25 * mass.value * 1000, share: 0.3, why: 'about 0.25 A per gram of motor, common practice' };
  return {
    count: motor.count?.value ?? 1,
    speedConstant,
    resistance: constant(
      context,
      'resistance',
      'resistance',
      { value: resistance, share: 0.4, why: 'estimated from speed constant and motor mass' },
      'resistance',
    ),
    noLoadCurrent: constant(
      context,
      'noLoadCurrent',
      'current',
      { value: noLoad, share: 0.4, why: 'estimated from motor mass' },
      'no load current',
    ),
    noLoadVoltage: motor.noLoadVoltage ?? { value: noLoadVolts, source: 'assumed' },
    gearRatio: motor.gearRatio ?? { value: gear, source: gear === 1 ? 'stated' : 'library' },
    gearEfficiency: motor.gearEfficiency ?? gearLoss(log, motor.gearRatio?.value ?? gear),
    currentLimit: constant(context, 'currentLimit', 'current', limit, 'current limit'),
    ...(motor.powerLimit === undefined ? {} : { powerLimit: motor.powerLimit }),
    mass,
    x: place('x', motor.x),
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

/** Diameter that suits the level power of such a mass; common practice: 11 in at 1.3 kg. */
const usualDiameter = (mass: number): number => Math.round(11 * (mass / 1.3) ** 0.4) * INCH;

function completePropeller(log: Log, propeller: DriveDesign['propeller'], mass: number): CompletePropeller {
  const sheet = propeller?.like === undefined ? undefined : PROPELLERS[propeller.like];
  let size = propeller?.size ?? (sheet === undefined ? undefined : { diameter: sheet.diameter, pitch: sheet.pitch });
  if (size === undefined) {
    const diameter = usualDiameter(mass);
    size = { diameter, pitch: 0.57 * diameter };
    log.push({
      path: 'drive.propeller',
      what: 'choice',
      kind: 'choice',
      value: `${Math.round(diameter / INCH)}x${Math.round((0.57 * diameter) / INCH)} in`,
      why: 'no propeller stated; usual for this size',
    });
  }
  const radius = size.diameter / 2;
  const geometry = propeller?.geometry?.map((station) => ({
    radius: station.radius.kind === 'ratio' ? station.radius.value * radius : station.radius.value,
    chord: station.chord.kind === 'ratio' ? station.chord.value * radius : station.chord.value,
    angle: station.angle.value,
  }));
  const measured = propeller?.measured?.map((point) => ({
    advanceRatio: point.advanceRatio.value,
    thrustCoefficient: point.thrustCoefficient.value,
    powerCoefficient: point.powerCoefficient.value,
    ...(point.speed === undefined ? {} : { speed: point.speed.value }),
  }));
  const grams = sheet?.mass ?? 0.025 * (size.diameter / (11 * INCH)) ** 2.5;
  return {
    ...size,
    blades: propeller?.blades?.value ?? sheet?.blades ?? 2,
    folding: propeller?.folding ?? sheet?.folding ?? true,
    ...(geometry === undefined ? {} : { geometry }),
    ...(measured === undefined ? {} : { measured }),
    mass: orDefault(log, 'drive.propeller.mass', propeller?.mass, {
      kind: 'mass',
      value: grams,
      sigma: 0.25 * grams,
      why: 'usual for this size with hub and spinner',
    }),
  };
}

/** The drive with every number. size.x - where the motor is assumed to be when no place is stated [m] */
export function completeDrive(
  log: Log,
  drive: DriveDesign,
  size: { mass: number; x: number },
  battery: CompleteBattery | undefined,
): CompleteDrive {
  const volts = 3.7 * (battery?.series ?? 3);
  const motor = completeMotor(log, drive.motor ?? {}, { ...size, volts });
  const controller = drive.speedController ?? {};
  const amps = controller.currentLimit?.value ?? 1.3 * motor.currentLimit.value;
  return {
    motor,
    propeller: completePropeller(log, drive.propeller, size.mass / motor.count),
    speedController: {
      resistance: orDefault(log, 'drive.speed controller.resistance', controller.resistance, {
        kind: 'resistance',
        value: 0.15 / amps,
        sigma: 0.06 / amps,
        why: 'about 0.15 V lost at its current limit, common practice',
      }),
      currentLimit: orDefault(log, 'drive.speed controller.current limit', controller.currentLimit, {
        kind: 'current',
        value: amps,
        sigma: 0.1 * amps,
        why: 'a third above the motor, common practice',
      }),
      standbyPower: orDefault(log, 'drive.speed controller.standby power', controller.standbyPower, {
        kind: 'power',
        value: 0.2,
        sigma: 0.1,
        why: 'its processor, common practice',
      }),
      ...(battery === undefined
        ? {}
        : {
            lowVoltageCut: orDefault(log, 'drive.speed controller.low voltage cut', controller.lowVoltageCut, {
              kind: 'voltage',
              value: 2.8 * battery.series,
              sigma: 0.1 * battery.series,
              why: '2.8 V per cell',
            }),
          }),
    },
    wiringResistance: orDefault(log, 'drive.wiring resistance', drive.wiringResistance, {
      kind: 'resistance',
      value: 0.006,
      sigma: 0.003,
      why: 'short leads and two connectors',
    }),
    downThrust: drive.downThrust ?? ZERO,
  };
}
