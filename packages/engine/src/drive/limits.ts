import { type Problem, problem } from '../result.js';
import type { BusPoint, Drive, DriveConditions, Point } from './drive.js';
import { advanceRange } from './measuredPropeller.js';

export const newBus = (): BusPoint => ({ busVoltage: 0, power: 0, duty: 0 });

/** Propeller speed that the motor cannot exceed at the bus voltage [rad/s]. */
export const highestRate = ({ drive, busVoltage }: DriveConditions) =>
  (drive.motor.speedConstant * busVoltage) / drive.gear.ratio;

/** Refuses conditions that no drive can be asked about. */
export function conditionsProblem(conditions: DriveConditions): Problem | undefined {
  const { drive, airspeed, busVoltage, batteryResistance = 0, air } = conditions;
  const numbers = [airspeed, busVoltage, batteryResistance, air.density, air.dynamicViscosity, air.soundSpeed];
  if (!numbers.every(Number.isFinite)) throw new RangeError('a condition of the drive is not a finite number');
  if (!(Number.isInteger(drive.count) && drive.count > 0)) throw new RangeError('a drive has at least one motor');
  if (!(airspeed >= 0 && batteryResistance >= 0)) throw new RangeError('airspeed and resistance are not negative');
  if (busVoltage > 0) return undefined;
  return problem({
    code: 'no-voltage',
    reason: 'The bus has no voltage.',
    where: 'battery',
    remedy: 'Charge the battery, or give it a positive voltage.',
  });
}

/** Lowest propeller speed at which the propeller model holds: where a measured table reaches its highest advance ratio. */
export function lowestRate(conditions: DriveConditions, top: number): number {
  const { drive, airspeed } = conditions;
  const { model } = drive.propeller;
  if (model.kind !== 'measured' || airspeed === 0) return top * 1e-4;
  let rate = top;
  // The range of advance ratio changes a little with speed; two passes settle it.
  for (let pass = 0; pass < 3; pass++)
    rate = Math.min(top, (2 * Math.PI * airspeed) / (model.diameter * advanceRange(model, rate)[1]));
  return rate;
}

/** What may bound a drive before the bus voltage does. */
export type Limit = 'motor current' | 'motor power' | 'controller current';

/** The first limit that a point exceeds. */
export function overLimit({ motor, controller }: Drive, point: Point): Limit | undefined {
  const slack = 1 + 1e-9;
  if (point.current > slack * (motor.maximumCurrent ?? Number.POSITIVE_INFINITY)) return 'motor current';
  if (point.current > slack * (controller.maximumCurrent ?? Number.POSITIVE_INFINITY)) return 'controller current';
  const power = point.motorTorque * point.motorRate;
  if (power > slack * (motor.maximumPower ?? Number.POSITIVE_INFINITY)) return 'motor power';
  return undefined;
}
