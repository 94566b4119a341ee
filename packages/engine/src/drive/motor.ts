/**
 * A permanent-magnet motor by constants.
 *
 * First order: speed constant, resistance and no-load current. Second order where known: no-load current that grows with speed,
 * resistance that grows with current or temperature, magnetic lag.
 */
export interface Motor {
  /** Speed constant [rad/s per V]; rpm/V x 2 pi / 60. */
  readonly speedConstant: number;
  /** Resistance between terminals [ohm], at `resistanceTemperature`. */
  readonly resistance: number;
  /** No-load current at standstill [A]. */
  readonly noLoadCurrent: number;
  /** Growth of the no-load current with motor speed [A s/rad] and its square [A s2/rad2]. */
  readonly noLoadCurrentSlope: number;
  readonly noLoadCurrentCurvature: number;
  /** Growth of the resistance with the square of current, by heating [ohm/A2]. */
  readonly resistanceGrowth: number;
  /** Magnetic lag [s]. */
  readonly magneticLag: number;
  /** Highest current [A] and shaft power [W] that the maker allows; Infinity is never used: absent where unknown. */
  readonly maximumCurrent?: number;
  readonly maximumPower?: number;
  /** Standard uncertainties (relative). */
  readonly speedConstantUncertainty: number;
  readonly resistanceUncertainty: number;
  readonly noLoadCurrentUncertainty: number;
}

/** Temperature coefficient of the resistance of copper at 20 C [1/K]. Source: IEC 60028. */
export const copperCoefficient = 0.00393;

/** rpm per volt to rad/s per volt. */
export const speedConstantFromRpmPerVolt = (rpmPerVolt: number): number => (rpmPerVolt * Math.PI) / 30;

/**
 * A motor from the three constants of its data sheet; everything else zero.
 *
 * @param data.speedConstant - [rad/s per V]
 * @param data.resistance - [ohm]
 * @param data.noLoadCurrent - [A]
 * @param data - any further field of `Motor`
 */
export function motor(data: Pick<Motor, 'speedConstant' | 'resistance' | 'noLoadCurrent'> & Partial<Motor>): Motor {
  const made: Motor = {
    noLoadCurrentSlope: 0,
    noLoadCurrentCurvature: 0,
    resistanceGrowth: 0,
    magneticLag: 0,
    speedConstantUncertainty: 0.03,
    resistanceUncertainty: 0.1,
    noLoadCurrentUncertainty: 0.15,
    ...data,
  };
  if (!(made.speedConstant > 0 && made.resistance > 0 && made.noLoadCurrent >= 0))
    throw new RangeError('speed constant and resistance must be positive, no-load current not negative');
  return made;
}

/**
 * Resistance of a copper winding at another temperature: R (1 + 0.00393 (T - T0)) [ohm].
 *
 * @param resistance - at the reference temperature [ohm]
 * @param temperature - of the winding [K]
 * @param referenceTemperature - [K], default 293.15
 */
export const windingResistance = (resistance: number, temperature: number, referenceTemperature = 293.15): number =>
  resistance * (1 + copperCoefficient * (temperature - referenceTemperature));

/** The same motor with its winding at another temperature [K]; magnets are taken as unchanged (about -0.1 per cent per kelvin). */
export const motorAtTemperature = (given: Motor, temperature: number, referenceTemperature = 293.15): Motor => ({
  ...given,
  resistance: windingResistance(given.resistance, temperature, referenceTemperature),
});

/** No-load current at a motor speed [A]: I0 + I1 omega + I2 omega^2. */
export const noLoadCurrentAt = (given: Motor, rotationRate: number): number =>
  given.noLoadCurrent + rotationRate * (given.noLoadCurrentSlope + rotationRate * given.noLoadCurrentCurvature);

/** Resistance at a current [ohm]: R0 + R2 I^2. */
export const resistanceAt = (given: Motor, current: number): number =>
  given.resistance + given.resistanceGrowth * current * current;

/** Electrical side of a loaded motor. */
export interface MotorState {
  /** [A] */
  readonly current: number;
  /** [V] */
  readonly voltage: number;
  /** Speed [rad/s] and shaft torque [N m]. */
  readonly rotationRate: number;
  readonly torque: number;
  /** Shaft power over electric power where both are positive, else 0. */
  readonly efficiency: number;
}

/**
 * Current and voltage that a motor needs for a torque at a speed: I = Q Kv + I0(omega), V = (1 + tau omega) omega / Kv + I R(I).
 *
 * @param given - motor
 * @param torque - shaft torque [N m]
 * @param rotationRate - motor speed [rad/s]
 *
 * Source: M. Drela, First-order DC electric motor model, MIT, 2007, and Second-order DC electric motor model, MIT, 2006 (from memory).
 */
export function motorFromTorque(given: Motor, torque: number, rotationRate: number): MotorState {
  const current = torque * given.speedConstant + noLoadCurrentAt(given, rotationRate);
  const voltage =
    ((1 + given.magneticLag * rotationRate) * rotationRate) / given.speedConstant +
    current * resistanceAt(given, current);
  return motorState(torque, rotationRate, current, voltage);
}

/**
 * Speed and torque of a motor at a terminal voltage and current (first-order constants with resistance growth; no magnetic lag).
 *
 * @param given - motor
 * @param voltage - [V]
 * @param current - [A]
 */
export function motorFromCurrent(given: Motor, voltage: number, current: number): MotorState {
  const rotationRate = given.speedConstant * (voltage - current * resistanceAt(given, current));
  const torque = (current - noLoadCurrentAt(given, rotationRate)) / given.speedConstant;
  return motorState(torque, rotationRate, current, voltage);
}

function motorState(torque: number, rotationRate: number, current: number, voltage: number): MotorState {
  const electric = current * voltage;
  const shaft = torque * rotationRate;
  return { current, voltage, rotationRate, torque, efficiency: electric > 0 && shaft > 0 ? shaft / electric : 0 };
}

/** Landmarks of a first-order motor at a voltage. */
export interface MotorLandmarks {
  /** Current at the highest efficiency [A], and that efficiency. */
  readonly bestCurrent: number;
  readonly bestEfficiency: number;
  readonly stallCurrent: number;
  /** [rad/s] */
  readonly noLoadSpeed: number;
  /** Current at the highest shaft power [A]. */
  readonly greatestPowerCurrent: number;
  /** [N m/A] */
  readonly torqueConstant: number;
}

/**
 * I = sqrt(V I0 / R) at eta = (1 - sqrt(I0 R / V))^2; stall V/R; no-load Kv (V - I0 R); greatest power (V/R + I0)/2; Kt = 1/Kv.
 *
 * @param given - motor; second-order terms are left out
 * @param voltage - terminal voltage, above I0 R [V]
 *
 * Source: M. Drela, First-order DC electric motor model, MIT, 2007 (from memory).
 */
export function motorLandmarks(given: Motor, voltage: number): MotorLandmarks {
  const { resistance, noLoadCurrent, speedConstant } = given;
  if (!(voltage > noLoadCurrent * resistance)) throw new RangeError('the voltage does not turn the motor');
  return {
    bestCurrent: Math.sqrt((voltage * noLoadCurrent) / resistance),
    bestEfficiency: (1 - Math.sqrt((noLoadCurrent * resistance) / voltage)) ** 2,
    stallCurrent: voltage / resistance,
    noLoadSpeed: speedConstant * (voltage - noLoadCurrent * resistance),
    greatestPowerCurrent: (voltage / resistance + noLoadCurrent) / 2,
    torqueConstant: 1 / speedConstant,
  };
}

/**
 * Constants from the points of a data sheet: no-load speed and current, stall current, at one voltage.
 *
 * @returns resistance V / I_stall [ohm], speed constant omega_0 / (V - I0 R) [rad/s per V]
 */
export function motorFromDataSheet(sheet: {
  readonly voltage: number;
  readonly noLoadSpeed: number;
  readonly noLoadCurrent: number;
  readonly stallCurrent: number;
}): Motor {
  const { voltage, noLoadSpeed, noLoadCurrent, stallCurrent } = sheet;
  const resistance = voltage / stallCurrent;
  return motor({ resistance, noLoadCurrent, speedConstant: noLoadSpeed / (voltage - noLoadCurrent * resistance) });
}

/** Gear between motor and propeller; ratio 1 and efficiency 1 for direct drive. */
export interface Gear {
  /** Motor speed over propeller speed. */
  readonly ratio: number;
  readonly efficiency: number;
}

export const directDrive: Gear = { ratio: 1, efficiency: 1 };

/** Speed [rad/s] and torque [N m] behind the gear: omega / G and G eta Q. */
export const throughGear = (
  gear: Gear,
  shaft: { readonly rotationRate: number; readonly torque: number },
): { readonly rotationRate: number; readonly torque: number } => ({
  rotationRate: shaft.rotationRate / gear.ratio,
  torque: shaft.torque * gear.ratio * gear.efficiency,
});
