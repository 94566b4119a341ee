import type { BatteryDesign, DriveDesign, MotorDesign } from '../aircraft.js';
import { MOTORS, type MotorName, type MotorSheet } from '../library/motors.js';
import { PROPELLERS } from '../library/propellers.js';
import type { Valued } from '../schema/field.js';
import { type Log, orDefault, withSpread } from './assumptions.js';
import type { Size } from './types.js';

const RPM_PER_VOLT = (2 * Math.PI) / 60;
const INCH = 0.0254;
const exactly = (value: number): Valued => ({ value, source: 'stated' });
const ZERO = exactly(0);

/** Motor of which the numbers that others need are known to be there. */
type CompleteMotor = MotorDesign & { readonly count: Valued; readonly currentLimit: Valued };

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

/** A gear of one stage; without a gear nothing is lost. */
function gearOf(
  log: Log,
  motor: MotorDesign,
  sheet: MotorSheet | undefined,
): Pick<MotorDesign, 'gearRatio' | 'gearEfficiency'> {
  const ratio = motor.gearRatio ?? exactly(sheet?.gearRatio ?? 1);
  if (motor.gearEfficiency !== undefined || ratio.value === 1)
    return { gearRatio: ratio, gearEfficiency: motor.gearEfficiency ?? exactly(1) };
  const usual = { kind: 'ratio', value: 0.95, sigma: 0.02, why: 'one stage of small gears, common practice' } as const;
  return { gearRatio: ratio, gearEfficiency: orDefault(log, 'drive.motor.gear efficiency', undefined, usual) };
}

function chosenMotor(log: Log, motor: MotorDesign, mass: number): MotorName | undefined {
  if (motor.like !== undefined || motor.speedConstant !== undefined) return motor.like;
  const value = usualMotor(mass);
  log.push({ path: 'drive.motor', what: 'choice', kind: 'choice', value, why: 'no motor stated; usual for this size' });
  return value;
}

function completeMotor(log: Log, motor: MotorDesign, size: Size, volts: number): CompleteMotor {
  const count = motor.count ?? exactly(1);
  const like = chosenMotor(log, motor, size.mass / count.value);
  const usual = MOTORS[usualMotor(size.mass / count.value)];
  const context: MotorContext = { log, motor, sheet: like === undefined ? undefined : MOTORS[like], usual };
  const mass = constant(
    context,
    'mass',
    'mass',
    { value: usual.mass.value, share: 0.3, why: 'usual for an aircraft of this size' },
    'mass',
  );
  const speed = { value: 750 * RPM_PER_VOLT, share: 0.3, why: 'usual' };
  const speedConstant = constant(context, 'speedConstant', 'motor speed constant', speed, 'speed constant');
  const ohms = estimatedMotorResistance({ speedConstant: speedConstant.value, mass: mass.value });
  const noLoadVoltage = motor.noLoadVoltage ?? { value: context.sheet?.noLoadVoltage ?? volts, source: 'assumed' };
  const idle = (NO_LOAD_POWER_PER_MASS * mass.value) / noLoadVoltage.value;
  const limit = { value: 250 * mass.value, share: 0.3, why: 'about 0.25 A per gram of motor, common practice' };
  const resistance = { value: ohms, share: 0.4, why: 'estimated from speed constant and motor mass' };
  const noLoad = { value: idle, share: 0.4, why: 'estimated from motor mass' };
  const place = { kind: 'length', value: size.nose, sigma: 0.05, why: 'no place stated; in the nose' } as const;
  return {
    ...motor,
    ...(like === undefined ? {} : { like }),
    count,
    speedConstant,
    resistance: constant(context, 'resistance', 'resistance', resistance, 'resistance'),
    noLoadCurrent: constant(context, 'noLoadCurrent', 'current', noLoad, 'no load current'),
    noLoadVoltage,
    ...gearOf(log, motor, context.sheet),
    currentLimit: constant(context, 'currentLimit', 'current', limit, 'current limit'),
    mass,
    x: orDefault(log, 'drive.motor.x', motor.x, place),
    y: motor.y ?? ZERO,
    z: motor.z ?? ZERO,
  };
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
  log.push({
    path: 'drive.propeller',
    what: 'choice',
    kind: 'choice',
    value: `${diameter}x${pitch} in`,
    why: 'no propeller stated; usual for this size',
  });
  return { diameter: diameter * INCH, pitch: pitch * INCH };
}

function completePropeller(log: Log, propeller: PropellerDesign, mass: number): PropellerDesign {
  const sheet = propeller.like === undefined ? undefined : PROPELLERS[propeller.like];
  const size = propellerSize(log, propeller, mass);
  const kilograms = sheet?.mass ?? 0.025 * (size.diameter / (11 * INCH)) ** 2.5;
  const usual = {
    kind: 'mass',
    value: kilograms,
    sigma: 0.25 * kilograms,
    why: 'usual for this size with hub and spinner',
  } as const;
  return {
    ...propeller,
    size,
    blades: propeller.blades ?? exactly(sheet?.blades ?? 2),
    folding: propeller.folding ?? sheet?.folding ?? true,
    mass: orDefault(log, 'drive.propeller.mass', propeller.mass, usual),
  };
}

type SpeedController = NonNullable<DriveDesign['speedController']>;

function completeController(
  log: Log,
  given: SpeedController,
  motorLimit: number,
  series: number | undefined,
): SpeedController {
  const amps = given.currentLimit?.value ?? 1.3 * motorLimit;
  const pick = (words: string, stated: Valued | undefined, usual: Parameters<typeof orDefault>[3]) =>
    orDefault(log, `drive.speed controller.${words}`, stated, usual);
  const cut =
    series === undefined
      ? given.lowVoltageCut
      : pick('low voltage cut', given.lowVoltageCut, {
          kind: 'voltage',
          value: 2.8 * series,
          sigma: 0.1 * series,
          why: '2.8 V per cell',
        });
  return {
    resistance: pick('resistance', given.resistance, {
      kind: 'resistance',
      value: 0.15 / amps,
      sigma: 0.06 / amps,
      why: 'about 0.15 V lost at its current limit, common practice',
    }),
    currentLimit: pick('current limit', given.currentLimit, {
      kind: 'current',
      value: amps,
      sigma: 0.1 * amps,
      why: 'a third above the motor, common practice',
    }),
    standbyPower: pick('standby power', given.standbyPower, {
      kind: 'power',
      value: 0.2,
      sigma: 0.1,
      why: 'its processor, common practice',
    }),
    ...(cut === undefined ? {} : { lowVoltageCut: cut }),
  };
}

/** The drive with every number; what is open follows from the size of the aircraft and the battery. */
export function completeDrive(
  log: Log,
  drive: DriveDesign,
  size: Size,
  battery: BatteryDesign | undefined,
): DriveDesign {
  const series = battery?.layout?.series;
  const motor = completeMotor(log, drive.motor ?? {}, size, 3.7 * (series ?? 3));
  const wiring = { kind: 'resistance', value: 0.006, sigma: 0.003, why: 'short leads and two connectors' } as const;
  return {
    ...drive,
    motor,
    propeller: completePropeller(log, drive.propeller ?? {}, size.mass / motor.count.value),
    speedController: completeController(log, drive.speedController ?? {}, motor.currentLimit.value, series),
    wiringResistance: orDefault(log, 'drive.wiring resistance', drive.wiringResistance, wiring),
    downThrust: drive.downThrust ?? ZERO,
  };
}
