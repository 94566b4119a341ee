import { brentRoot } from '../math/index.js';
import { type Outcome, type Problem, problem, success, type Warning } from '../result.js';
import {
  accountFor,
  type BusPoint,
  type DriveConditions,
  type DriveState,
  loadBus,
  newPoint,
  operate,
  type Point,
} from './drive.js';
import { conditionsProblem, highestRate, type Limit, lowestRate, newBus, overLimit } from './limits.js';
import { propellerRangeProblem, propellerWarnings } from './propeller.js';
import { freeWheelRate } from './unpowered.js';

/** Propeller speed at a duty, or at the most that the battery can give. */
interface ThrottlePoint {
  readonly rate: number;
  /** Whether the battery gives out before the duty is reached. */
  readonly exhausted: boolean;
}

/** Finds the speed at which the controller's duty is the wanted one, and leaves the state in point and bus. */
function speedAtDuty(request: DriveConditions, duty: number, point: Point, bus: BusPoint): ThrottlePoint | Problem {
  const { drive, airspeed } = request;
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
    return outside ?? tooLowProblem(duty);
  }
  const rate = brentRoot(excess, bottom, top, { tolerance: 1e-10 * top });
  if (rate === undefined) throw new Error('duty is bracketed by construction');
  // Where the battery gives out the excess jumps: the last speed below the jump is the most it can drive.
  const exhausted = Math.abs(excess(rate)) > 1e-4;
  const steady = exhausted ? rate * (1 - 1e-6) : rate;
  excess(steady);
  return propellerRangeProblem(drive.propeller, airspeed, steady) ?? { rate: steady, exhausted };
}

const tooLowProblem = (duty: number) =>
  problem({
    code: 'throttle-too-low',
    reason: `At a duty of ${duty.toFixed(2)} the motor does not drive the propeller.`,
    where: 'drive',
    remedy: 'Open the throttle further, or ask for the drag of the unpowered propeller.',
  });

/**
 * What the drive does at a throttle duty: climb, or a static bench run at zero airspeed.
 *
 * @param request.duty - share of the bus voltage that the controller passes on, above 0 up to 1
 * @returns the state; limits of motor and controller come as warnings, because the hardware would do it; refused where the battery
 * would sag below half of its open-circuit voltage
 */
export function driveAtThrottle(request: DriveConditions & { readonly duty: number }): Outcome<DriveState> {
  const { drive, duty, airspeed, air } = request;
  const fault = conditionsProblem(request);
  if (fault !== undefined) return fault;
  if (!(duty > 0 && duty <= 1)) throw new RangeError('the duty lies above 0 and at most at 1');
  const point = newPoint();
  const bus = newBus();
  const found = speedAtDuty(request, duty, point, bus);
  if ('ok' in found) return found;
  if (found.exhausted)
    return problem({
      code: 'battery-power',
      reason: `At a duty of ${duty.toFixed(2)} the battery would sag below half of its ${request.busVoltage.toFixed(1)} V.`,
      where: 'battery',
      remedy: 'A battery of lower resistance, more cells in parallel, or less throttle.',
    });
  const warnings: Warning[] = propellerWarnings(drive.propeller, airspeed, found.rate, air);
  const limit = overLimit(drive, point);
  if (limit !== undefined)
    warnings.push({
      code: limit.replace(' ', '-'),
      message: `This exceeds the ${limit} that is allowed.`,
      where: 'drive',
    });
  return success(accountFor(request, found.rate, point, bus), warnings);
}

/** The greatest thrust and what bounds it. */
export interface MaximumThrust {
  readonly state: DriveState;
  readonly limitedBy: 'voltage' | 'battery power' | Limit;
}

/**
 * Greatest thrust at an airspeed: full throttle, or less where battery, motor or speed controller bound it first.
 *
 * @param request - drive, airspeed, air, bus voltage, battery resistance
 */
export function maximumThrust(request: DriveConditions): Outcome<MaximumThrust> {
  const fault = conditionsProblem(request);
  if (fault !== undefined) return fault;
  const { drive, airspeed, air } = request;
  const point = newPoint();
  const bus = newBus();
  const full = speedAtDuty(request, 1, point, bus);
  if ('ok' in full) return full;
  const limit = overLimit(drive, point);
  const rate = limit === undefined ? full.rate : speedAtLimit(request, full.rate);
  if (rate === undefined)
    return problem({
      code: limit?.replace(' ', '-') ?? 'limit',
      reason: `The ${limit} limit is exceeded at any thrust.`,
      where: 'drive',
      remedy: 'Check the limits of motor and speed controller.',
    });
  const outside = propellerRangeProblem(drive.propeller, airspeed, rate);
  if (outside !== undefined) return outside;
  operate(request, rate, point);
  loadBus(request, point, bus);
  const limitedBy = limit ?? (full.exhausted ? 'battery power' : 'voltage');
  const warnings = propellerWarnings(drive.propeller, airspeed, rate, air);
  return success({ state: accountFor(request, rate, point, bus), limitedBy }, warnings);
}

/** Speed at which the first limit of motor or controller is just met, below one that exceeds it. */
function speedAtLimit(request: DriveConditions, above: number): number | undefined {
  const { motor, controller } = request.drive;
  const unlimited = Number.POSITIVE_INFINITY;
  const highestCurrent = Math.min(motor.maximumCurrent ?? unlimited, controller.maximumCurrent ?? unlimited);
  const highestPower = motor.maximumPower ?? unlimited;
  const point = newPoint();
  const excess = (rate: number) => {
    operate(request, rate, point);
    return Math.max(point.current / highestCurrent, (point.motorTorque * point.motorRate) / highestPower) - 1;
  };
  return brentRoot(excess, lowestRate(request, above), above, { tolerance: 1e-10 * above });
}
