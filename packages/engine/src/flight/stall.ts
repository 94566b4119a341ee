import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { loadFactor, turnPitchRate } from './turn.js';
import { type Airframe, type AirframeForces, type FlightCondition, standardGravity } from './types.js';

const degree = Math.PI / 180;

/** The slowest trimmed flight. */
export interface StallPoint {
  readonly airspeed: number;
  readonly liftCoefficient: number;
  readonly alpha: number;
  readonly control: number;
  /** Where on the semi-span the first strip reaches its maximum lift. */
  readonly station: number;
}

/**
 * Airspeed at which the first strip of the trimmed aircraft reaches its section's maximum lift, or at which the pitch
 * control is used up, whichever is faster.
 *
 * @param near - where the search begins: the stall of much the same aircraft, its airspeed brought to this load factor
 * @returns stall point at the load factor of the condition's bank; a problem when no state in reach is trimmed
 */
export function stallPoint(airframe: Airframe, condition: FlightCondition, near?: StallPoint): Outcome<StallPoint> {
  let airspeed =
    near?.airspeed ??
    Math.sqrt(
      (2 * condition.mass * standardGravity * loadFactor(condition.bank)) /
        (condition.air.density * airframe.referenceArea),
    );
  let point: StallPoint | undefined;
  for (let iteration = 0; iteration < 6; iteration++) {
    const found = stallAtFixedSpeed(airframe, condition, airspeed, (point ?? near)?.alpha);
    if (!found) break;
    point = found;
    // Maximum lift changes by less than a tenth of the change in Reynolds number, so one more pass changes the speed by
    // less than a thirtieth of what this one did.
    if (Math.abs(found.airspeed / airspeed - 1) < 5e-3) break;
    airspeed = found.airspeed;
  }
  if (point) return success(point);
  return problem({
    code: 'no-trim',
    reason: 'no angle of attack in reach gives lift with the pitching moment balanced',
    where: 'airframe: controls',
    remedy: 'move the balance point, or add tail volume, reflex or washout',
  });
}

/** A balanced state and the margin left: to the stall of a strip, or to the end of the control's travel. */
interface Balanced {
  readonly forces: AirframeForces;
  readonly control: number;
  readonly margin: number;
}

/**
 * Stall at the Reynolds numbers of a speed: the angle of attack at which the stall margin or the control runs out.
 * @param near - where it was at a speed close by
 */
function stallAtFixedSpeed(
  airframe: Airframe,
  condition: FlightCondition,
  airspeed: number,
  near: number | undefined,
): StallPoint | undefined {
  const state = balancer(airframe, condition, airspeed);
  const limit =
    near === undefined ? searchedLimit(state) : (secantLimit(state, near - degree, near) ?? searchedLimit(state));
  if (limit === undefined) return undefined;
  const { forces, control } = state(limit);
  if (!(forces.liftCoefficient > 0)) return undefined;
  const carried = condition.mass * standardGravity * loadFactor(condition.bank);
  return {
    airspeed: Math.sqrt((2 * carried) / (condition.air.density * airframe.referenceArea * forces.liftCoefficient)),
    liftCoefficient: forces.liftCoefficient,
    alpha: limit,
    control,
    station: forces.stallStation,
  };
}

/**
 * Angle of attack at which the margin ends, searched upwards from the first that lifts. Near zero lift the margin still
 * rises (the tail's or the washed-out tip's lower limit is the nearer one), then it falls almost in a straight line: secants
 * find its end without asking for the fully stalled wing; a bracketed search takes over where they do not.
 */
function searchedLimit(state: (alpha: number) => Balanced): number | undefined {
  const step = 2 * degree;
  let alpha = -4 * degree;
  let here = state(alpha);
  while (!(here.margin > 0 && here.forces.liftCoefficient > 0.05)) {
    alpha += step;
    if (alpha > 20 * degree) return undefined;
    here = state(alpha);
  }
  const lower = alpha;
  let before = here.margin;
  for (alpha += step; alpha < 20 * degree; alpha += step) {
    const { margin } = state(alpha);
    if (margin < before) return secantLimit(state, alpha - step, alpha) ?? bracketedLimit(state, lower);
    before = margin;
  }
  return bracketedLimit(state, lower);
}

const bracketedLimit = (state: (alpha: number) => Balanced, lower: number): number | undefined =>
  brentRoot((alpha) => state(alpha).margin, lower, 30 * degree, { tolerance: 1e-5 });

/** End of the margin by secants from two angles below it; undefined where they lead away. */
function secantLimit(state: (alpha: number) => Balanced, first: number, second: number): number | undefined {
  let [a, b] = [first, second];
  let [fa, fb] = [state(a).margin, state(b).margin];
  for (let iteration = 0; iteration < 8; iteration++) {
    if (!((fb - fa) * (b - a) < 0)) return undefined;
    const next = b - (fb * (b - a)) / (fb - fa);
    if (!(next > -4 * degree && next < 30 * degree)) return undefined;
    if (Math.abs(next - b) < 1e-5) return next;
    [a, fa] = [b, fb];
    [b, fb] = [next, state(next).margin];
    // Two points this close differ by rounding of the balance, not by the slope of the margin.
    if (Math.abs(b - a) < 1e-4 && Math.abs(fb) < 1e-3) return b;
  }
  return undefined;
}

/**
 * States balanced by the pitch control (thrust line left out: small at the stall). Control and slope of the last angle of
 * attack start the next one; equal questions are answered once.
 */
function balancer(airframe: Airframe, condition: FlightCondition, airspeed: number): (alpha: number) => Balanced {
  const range = airframe.controlRange ?? { lower: 0, upper: 0 };
  const pitchRate = turnPitchRate(condition.bank, airspeed);
  const known = new Map<number, Balanced>();
  let control = 0;
  let slope = 0;
  return (alpha) => {
    const before = known.get(alpha);
    if (before !== undefined) return before;
    const at = (deflection: number) =>
      airframe.forces({
        alpha,
        control: deflection,
        pitchRate,
        airspeed,
        air: condition.air,
        momentReference: condition.centreOfGravity,
      });
    let forces = at(control);
    for (let iteration = 0; iteration < 6 && Math.abs(forces.pitchingMomentCoefficient) > 1e-6; iteration++) {
      // The moment is nearly linear in the control: one slope serves every angle.
      if (slope === 0) slope = (at(control + 0.02).pitchingMomentCoefficient - forces.pitchingMomentCoefficient) / 0.02;
      if (Math.abs(slope) < 1e-9) break;
      control = Math.min(1.5, Math.max(-1.5, control - forces.pitchingMomentCoefficient / slope));
      forces = at(control);
    }
    const controlMargin = Math.min(control - range.lower, range.upper - control) * 4;
    const balanced = { forces, control, margin: Math.min(forces.stallMargin, controlMargin) };
    known.set(alpha, balanced);
    return balanced;
  };
}
