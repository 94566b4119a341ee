import { brentRoot } from '../math/index.js';
import { type Outcome, type Problem, problem, success, type Warning } from '../result.js';
import {
  accountFor,
  type BusPoint,
  type Drive,
  type DriveConditions,
  type DriveState,
  loadBus,
  newPoint,
  operate,
  type Point,
} from './drive.js';
import { advanceRange } from './measuredPropeller.js';
import { propellerRangeProblem, propellerWarnings } from './propeller.js';
import { freeWheelRate } from './unpowered.js';

const newBus = (): BusPoint => ({ busVoltage: 0, power: 0, duty: 0 });

/** Propeller speed that the motor cannot exceed at the bus voltage [rad/s]. */
const highestRate = ({ drive, busVoltage }: DriveConditions) =>
  (drive.motor.speedConstant * busVoltage) / drive.gear.ratio;

/** Refuses conditions that no drive can be asked about. */
function conditionsProblem(conditions: DriveConditions): Problem | undefined {
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
function lowestRate(conditions: DriveConditions, top: number): number {
  const { drive, airspeed } = conditions;
  const { model } = drive.propeller;
  if (model.kind !== 'measured' || airspeed === 0) return top * 1e-4;
  let rate = top;
  // The range of advance ratio changes a little with speed; two passes settle it.
  for (let pass = 0; pass < 3; pass++)
    rate = Math.min(top, (2 * Math.PI * airspeed) / (model.diameter * advanceRange(model, rate)[1]));
  return rate;
}

/**
 * Electric power and everything between battery and air for a thrust at an airspeed.
 * Deeply stalled blades of a high pitch can give one thrust at several speeds; one of them is found.
 *
 * @param request.thrust - of all propellers together, zero or positive [N]
 * @param request - drive, airspeed [m/s], air, bus voltage [V], battery resistance [ohm]
 * @returns the state, or why the drive cannot give that thrust
 */
export function driveAtThrust(request: DriveConditions & { readonly thrust: number }): Outcome<DriveState> {
  const { drive, thrust, airspeed, air } = request;
  const fault = conditionsProblem(request);
  if (fault !== undefined) return fault;
  if (!Number.isFinite(thrust)) throw new RangeError('the thrust is not a finite number');
  if (thrust < 0)
    return problem({
      code: 'negative-thrust',
      reason: `A thrust of ${thrust.toFixed(2)} N would brake; the drive only pulls.`,
      where: 'drive',
      remedy: 'Ask for the drag of the unpowered propeller instead.',
    });
  const point = newPoint();
  const each = thrust / drive.count;
  const top = highestRate(request);
  const bottom = lowestRate(request, top);
  const excess = (rate: number) => {
    operate(request, rate, point);
    return point.loads.thrust - each;
  };
  if (excess(top) < 0) return tooMuchThrust(request, Number.NaN);
  if (excess(bottom) > 0) {
    const outside = propellerRangeProblem(drive.propeller, airspeed, bottom * 0.99);
    return outside ?? accepted(request, bottom, point, newBus());
  }
  const rate = brentRoot(excess, bottom, top, { tolerance: 1e-10 * top });
  if (rate === undefined) throw new Error('thrust is bracketed by construction');
  const outside = propellerRangeProblem(drive.propeller, airspeed, rate);
  if (outside !== undefined) return outside;
  const bus = newBus();
  operate(request, rate, point);
  loadBus(request, point, bus);
  if (bus.busVoltage < 0 || bus.duty > 1) return tooMuchThrust(request, point.voltage);
  const limit = overLimit(drive, point);
  if (limit !== undefined) return limitProblem(request, limit, point);
  return success(accountFor(request, rate, point, bus), propellerWarnings(drive.propeller, airspeed, rate, air));
}

function accepted(request: DriveConditions, rate: number, point: Point, bus: BusPoint): Outcome<DriveState> {
  operate(request, rate, point);
  loadBus(request, point, bus);
  const { drive, airspeed, air } = request;
  return success(accountFor(request, rate, point, bus), propellerWarnings(drive.propeller, airspeed, rate, air));
}

type Limit = 'motor current' | 'motor power' | 'controller current';

function overLimit({ motor, controller }: Drive, point: Point): Limit | undefined {
  const slack = 1 + 1e-9;
  if (point.current > slack * (motor.maximumCurrent ?? Number.POSITIVE_INFINITY)) return 'motor current';
  if (point.current > slack * (controller.maximumCurrent ?? Number.POSITIVE_INFINITY)) return 'controller current';
  const power = point.motorTorque * point.motorRate;
  if (power > slack * (motor.maximumPower ?? Number.POSITIVE_INFINITY)) return 'motor power';
  return undefined;
}

function greatestThrustText(request: DriveConditions): string {
  const greatest = maximumThrust(request);
  if (!greatest.ok) return '';
  return ` It gives at most ${greatest.value.state.thrust.toFixed(2)} N at ${request.airspeed.toFixed(1)} m/s.`;
}

function tooMuchThrust(request: DriveConditions & { readonly thrust: number }, voltage: number): Problem {
  const needed = Number.isFinite(voltage) ? ` The motor would need ${voltage.toFixed(1)} V.` : '';
  return problem({
    code: 'too-much-thrust',
    reason: `The drive cannot give ${request.thrust.toFixed(2)} N at ${request.busVoltage.toFixed(1)} V.${greatestThrustText(request)}${needed}`,
    where: 'drive',
    remedy: 'More cells in series, a motor with a higher speed constant, or a propeller with more diameter or pitch.',
  });
}

function limitProblem(request: DriveConditions & { readonly thrust: number }, limit: Limit, point: Point): Problem {
  const { motor, controller } = request.drive;
  const text = {
    'motor current': `${point.current.toFixed(1)} A in the motor, which allows ${motor.maximumCurrent?.toFixed(1)} A`,
    'controller current': `${point.current.toFixed(1)} A in the speed controller, which allows ${controller.maximumCurrent?.toFixed(1)} A`,
    'motor power': `${(point.motorTorque * point.motorRate).toFixed(0)} W from the motor, which allows ${motor.maximumPower?.toFixed(0)} W`,
  }[limit];
  return problem({
    code: limit.replace(' ', '-'),
    reason: `${request.thrust.toFixed(2)} N needs ${text}.${greatestThrustText(request)}`,
    where: limit.startsWith('motor') ? 'motor' : 'speed controller',
    remedy: 'A larger motor or speed controller, a larger and slower propeller, or a gear.',
  });
}

/**
 * What the drive does at a throttle duty: climb, or a static bench run at zero airspeed.
 *
 * @param request.duty - share of the bus voltage that the controller passes on, above 0 up to 1
 * @returns the state; limits of motor and controller come as warnings, because the hardware would do it
 */
export function driveAtThrottle(request: DriveConditions & { readonly duty: number }): Outcome<DriveState> {
  const { drive, duty, airspeed, air } = request;
  const fault = conditionsProblem(request);
  if (fault !== undefined) return fault;
  if (!(duty > 0 && duty <= 1)) throw new RangeError('the duty lies above 0 and at most at 1');
  const point = newPoint();
  const bus = newBus();
  const top = highestRate(request);
  const measured = drive.propeller.model.kind === 'measured';
  const bottom = Math.max(lowestRate(request, top), measured ? 0 : freeWheelRate(request));
  const excess = (rate: number) => {
    operate(request, rate, point);
    loadBus(request, point, bus);
    return bus.busVoltage < 0 ? 2 : bus.duty - duty;
  };
  if (bottom >= top || excess(bottom) >= 0) {
    const outside = propellerRangeProblem(drive.propeller, airspeed, Math.max(bottom * 0.99, top * 1e-4));
    if (outside !== undefined) return outside;
    return problem({
      code: 'throttle-too-low',
      reason: `At a duty of ${duty.toFixed(2)} the motor does not drive the propeller.`,
      where: 'drive',
      remedy: 'Open the throttle further, or ask for the drag of the unpowered propeller.',
    });
  }
  const rate = brentRoot(excess, bottom, top, { tolerance: 1e-10 * top });
  if (rate === undefined) throw new Error('duty is bracketed by construction');
  const outside = propellerRangeProblem(drive.propeller, airspeed, rate);
  if (outside !== undefined) return outside;
  excess(rate);
  const warnings: Warning[] = propellerWarnings(drive.propeller, airspeed, rate, air);
  const limit = overLimit(drive, point);
  if (limit !== undefined)
    warnings.push({
      code: limit.replace(' ', '-'),
      message: `This exceeds the ${limit} that is allowed.`,
      where: 'drive',
    });
  return success(accountFor(request, rate, point, bus), warnings);
}

/** The greatest thrust and what bounds it. */
export interface MaximumThrust {
  readonly state: DriveState;
  readonly limitedBy: 'voltage' | Limit;
}

/**
 * Greatest thrust at an airspeed: full throttle, or less where a limit of motor or speed controller comes first.
 *
 * @param request - drive, airspeed, air, bus voltage, battery resistance
 */
export function maximumThrust(request: DriveConditions): Outcome<MaximumThrust> {
  const full = driveAtThrottle({ ...request, duty: 1 });
  if (!full.ok) return full;
  const { drive } = request;
  const point = newPoint();
  operate(request, full.value.rotationRate, point);
  const limit = overLimit(drive, point);
  if (limit === undefined) return success({ state: full.value, limitedBy: 'voltage' }, full.warnings);
  const { motor, controller } = drive;
  const unlimited = Number.POSITIVE_INFINITY;
  const highestCurrent = Math.min(motor.maximumCurrent ?? unlimited, controller.maximumCurrent ?? unlimited);
  const highestPower = motor.maximumPower ?? unlimited;
  const excess = (rate: number) => {
    operate(request, rate, point);
    return Math.max(point.current / highestCurrent, (point.motorTorque * point.motorRate) / highestPower) - 1;
  };
  const bottom = lowestRate(request, full.value.rotationRate);
  const rate = brentRoot(excess, bottom, full.value.rotationRate, { tolerance: 1e-10 * full.value.rotationRate });
  if (rate === undefined)
    return problem({
      code: limit.replace(' ', '-'),
      reason: `The ${limit} limit is exceeded at any thrust.`,
      where: 'drive',
      remedy: 'Check the limits of motor and speed controller.',
    });
  const outside = propellerRangeProblem(drive.propeller, request.airspeed, rate);
  if (outside !== undefined) return outside;
  const bus = newBus();
  operate(request, rate, point);
  loadBus(request, point, bus);
  const warnings = propellerWarnings(drive.propeller, request.airspeed, rate, request.air);
  return success({ state: accountFor(request, rate, point, bus), limitedBy: limit }, warnings);
}
