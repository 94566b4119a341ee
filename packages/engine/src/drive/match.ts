import { brentRoot } from '../math/index.js';
import { type Outcome, type Problem, problem, success } from '../result.js';
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
import { maximumThrust } from './throttle.js';

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

function greatestThrustText(request: DriveConditions): string {
  const greatest = maximumThrust(request);
  if (!greatest.ok) return '';
  if (!(greatest.value.state.thrust > 0)) return ` At ${request.airspeed.toFixed(1)} m/s it gives no thrust at all.`;
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
