import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success, type Warning } from '../result.js';
import { loadFactor, turnPitchRate } from './turn.js';
import { type Airframe, type AirframeForces, type FlightCondition, standardGravity, type Trim } from './types.js';

const degree = Math.PI / 180;

interface TrimUnknowns {
  readonly alpha: number;
  readonly control: number;
}

interface Residuals {
  readonly lift: number;
  readonly moment: number;
  readonly forces: AirframeForces;
  readonly thrust: number;
}

/**
 * Trim in a steady level turn at an airspeed: lift and thrust carry the weight times load factor, thrust balances drag,
 * and the pitching moment about the balance point (with the thrust line's) vanishes, with elevator or elevons.
 *
 * @param airframe - forces of the airframe
 * @param condition - mass [kg], balance point and thrust line [m], air, bank [rad]
 * @param airspeed - true airspeed [m/s]
 * @returns the trimmed state; a problem when the control cannot hold the moment, or the wing would have to stall.
 *   Without a pitch control only the airspeed that trims by itself could be flown: that is said as a problem.
 *
 * Method: Newton on angle of attack and control with a numerical Jacobian kept while it converges.
 */
export function trimLevel(airframe: Airframe, condition: FlightCondition, airspeed: number): Outcome<Trim> {
  const range = airframe.controlRange;
  if (!range) {
    return problem({
      code: 'no-pitch-control',
      reason: 'the design has no elevator or elevon, so that only one airspeed would trim by itself',
      where: 'airframe',
      remedy: 'describe an elevator on the tail or elevons on the wing',
    });
  }
  const solved = newtonTrim(airframe, condition, airspeed);
  if (!solved || solved.residuals.forces.stallMargin < 0) return stallProblem(airspeed, solved?.residuals.forces);
  const { alpha, control, residuals } = solved;
  if (control < range.lower || control > range.upper) return controlProblem(control, range, airspeed);
  return success(trimmed(airframe, condition, airspeed, { alpha, control }, residuals), trimWarnings(control, range));
}

function newtonTrim(airframe: Airframe, condition: FlightCondition, airspeed: number) {
  let alpha = 4 * degree;
  let control = 0;
  const evaluate = (unknowns: TrimUnknowns) => trimResiduals(airframe, condition, airspeed, unknowns);
  let r = evaluate({ alpha, control });
  let jacobian = numericalJacobian(evaluate, { alpha, control }, r);
  let size = Math.hypot(r.lift, r.moment);
  for (let iteration = 0; iteration < 25; iteration++) {
    if (size < 1e-9) return { alpha, control, residuals: r };
    const determinant = jacobian.la * jacobian.mc - jacobian.lc * jacobian.ma;
    if (Math.abs(determinant) < 1e-12) return undefined;
    alpha = clamp(alpha - (r.lift * jacobian.mc - r.moment * jacobian.lc) / determinant, -0.6, 0.6);
    control = clamp(control - (jacobian.la * r.moment - jacobian.ma * r.lift) / determinant, -2, 2);
    r = evaluate({ alpha, control });
    const next = Math.hypot(r.lift, r.moment);
    if (next > 0.2 * size) jacobian = numericalJacobian(evaluate, { alpha, control }, r);
    size = next;
  }
  return size < 1e-6 ? { alpha, control, residuals: r } : undefined;
}

function numericalJacobian(evaluate: (u: TrimUnknowns) => Residuals, at: TrimUnknowns, r: Residuals) {
  const h = 0.01;
  const byAlpha = evaluate({ alpha: at.alpha + h, control: at.control });
  const byControl = evaluate({ alpha: at.alpha, control: at.control + h });
  return {
    la: (byAlpha.lift - r.lift) / h,
    ma: (byAlpha.moment - r.moment) / h,
    lc: (byControl.lift - r.lift) / h,
    mc: (byControl.moment - r.moment) / h,
  };
}

/** Residuals in units of the weight carried (lift) and of weight times chord (moment). */
function trimResiduals(
  airframe: Airframe,
  condition: FlightCondition,
  airspeed: number,
  { alpha, control }: TrimUnknowns,
): Residuals {
  const { air, bank, mass, centreOfGravity, thrustLine } = condition;
  const forces = airframe.forces({
    alpha,
    control,
    pitchRate: turnPitchRate(bank, airspeed),
    airspeed,
    air,
    momentReference: centreOfGravity,
  });
  const pressureArea = 0.5 * air.density * airspeed ** 2 * airframe.referenceArea;
  const inclination = alpha + thrustLine.angle;
  const thrust = (pressureArea * totalDragCoefficient(forces)) / Math.cos(inclination);
  const carried = mass * standardGravity * loadFactor(bank);
  const lift = pressureArea * forces.liftCoefficient + thrust * Math.sin(inclination);
  const moment =
    pressureArea * airframe.referenceChord * forces.pitchingMomentCoefficient -
    thrust * (thrustLine.z - centreOfGravity.z);
  return { lift: lift / carried - 1, moment: moment / (carried * airframe.referenceChord), forces, thrust };
}

export const totalDragCoefficient = (forces: AirframeForces): number =>
  forces.inducedDragCoefficient + forces.profileDragCoefficient + forces.parasiteDragCoefficient;

function trimmed(
  airframe: Airframe,
  condition: FlightCondition,
  airspeed: number,
  unknowns: TrimUnknowns,
  residuals: Residuals,
): Trim {
  const { forces, thrust } = residuals;
  const pressureArea = 0.5 * condition.air.density * airspeed ** 2 * airframe.referenceArea;
  const inducedDrag = pressureArea * forces.inducedDragCoefficient;
  const profileDrag = pressureArea * forces.profileDragCoefficient;
  const parasiteDrag = pressureArea * forces.parasiteDragCoefficient;
  return {
    airspeed,
    ...unknowns,
    forces,
    thrust,
    drag: inducedDrag + profileDrag + parasiteDrag,
    inducedDrag,
    profileDrag,
    parasiteDrag,
    loadFactor: loadFactor(condition.bank),
    warnings: [],
  };
}

function stallProblem(airspeed: number, forces: AirframeForces | undefined) {
  const where = forces ? `at ${(100 * forces.stallStation).toFixed(0)} % of the semi-span` : 'on the wing';
  return problem({
    code: 'stalled',
    reason: `at ${airspeed.toFixed(1)} m/s the wing would have to lift more than its sections can (first ${where})`,
    where: 'flight: airspeed',
    remedy: 'fly faster, bank less, or make the aircraft lighter or its wing larger',
  });
}

function controlProblem(control: number, range: { lower: number; upper: number }, airspeed: number) {
  const up = control < range.lower;
  const limit = up ? range.lower : range.upper;
  return problem({
    code: 'no-trim',
    reason: `to hold ${airspeed.toFixed(1)} m/s the pitch control would need ${deflection(control)}, it reaches ${deflection(limit)}`,
    where: 'airframe: controls',
    remedy: up ? 'move the balance point aft, or add reflex, washout or tail volume' : 'move the balance point forward',
  });
}

/** Deflection in words: 12 deg up. */
const deflection = (angle: number): string => `${Math.abs(angle / degree).toFixed(0)} deg ${angle < 0 ? 'up' : 'down'}`;

function trimWarnings(control: number, range: { lower: number; upper: number }): readonly Warning[] {
  const used = control < 0 ? control / range.lower : control / range.upper;
  if (!(used > 0.7)) return [];
  return [
    {
      code: 'little-control-left',
      message: `trim alone takes ${(100 * used).toFixed(0)} % of the pitch control`,
      where: 'airframe: controls',
    },
  ];
}

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
 * @returns stall point at the load factor of the condition's bank; a problem when no state in reach is trimmed
 */
export function stallPoint(airframe: Airframe, condition: FlightCondition): Outcome<StallPoint> {
  let airspeed = Math.sqrt(
    (2 * condition.mass * standardGravity * loadFactor(condition.bank)) /
      (condition.air.density * airframe.referenceArea),
  );
  let point: StallPoint | undefined;
  for (let iteration = 0; iteration < 6; iteration++) {
    const found = stallAtFixedSpeed(airframe, condition, airspeed);
    if (!found) break;
    point = found;
    // Maximum lift changes by less than a tenth of the change in Reynolds number, so one more pass changes the speed by less still.
    if (Math.abs(found.airspeed / airspeed - 1) < 1e-3) break;
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

/** Stall at the Reynolds numbers of a speed: the angle of attack at which the stall margin or the control runs out. */
function stallAtFixedSpeed(airframe: Airframe, condition: FlightCondition, airspeed: number): StallPoint | undefined {
  const state = (alpha: number) => balancedAtAlpha(airframe, condition, airspeed, alpha);
  const lower = firstLiftingAlpha(state);
  if (lower === undefined) return undefined;
  const limit = marginEnd((alpha) => state(alpha).margin, lower);
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
 * Angle of attack at which the margin ends. It falls almost in a straight line, so secants from below find it in a few
 * steps without asking for the fully stalled wing; a bracketed search takes over where they do not.
 */
function marginEnd(margin: (alpha: number) => number, lower: number): number | undefined {
  let [a, b] = [lower, lower + 3 * degree];
  let [fa, fb] = [margin(a), margin(b)];
  for (let iteration = 0; iteration < 8 && fb < fa; iteration++) {
    const next = b - (fb * (b - a)) / (fb - fa);
    if (!(next > lower && next < 30 * degree)) break;
    [a, fa] = [b, fb];
    [b, fb] = [next, margin(next)];
    if (Math.abs(b - a) < 1e-5) return b;
  }
  return brentRoot(margin, lower, 30 * degree, { tolerance: 1e-5 });
}

/** Smallest angle of attack (searched upwards) at which the aircraft is balanced, lifts and is not stalled. */
function firstLiftingAlpha(state: (alpha: number) => { margin: number; forces: AirframeForces }): number | undefined {
  for (let alpha = -4 * degree; alpha < 20 * degree; alpha += 2 * degree) {
    const { margin, forces } = state(alpha);
    if (margin > 0 && forces.liftCoefficient > 0.05) return alpha;
  }
  return undefined;
}

/** Control that zeroes the moment at an angle of attack (thrust line left out: small at the stall), and the margin left. */
function balancedAtAlpha(airframe: Airframe, condition: FlightCondition, airspeed: number, alpha: number) {
  const at = (control: number) =>
    airframe.forces({
      alpha,
      control,
      pitchRate: turnPitchRate(condition.bank, airspeed),
      airspeed,
      air: condition.air,
      momentReference: condition.centreOfGravity,
    });
  const range = airframe.controlRange ?? { lower: 0, upper: 0 };
  let control = 0;
  let forces = at(0);
  let slope = 0;
  for (let iteration = 0; iteration < 4 && Math.abs(forces.pitchingMomentCoefficient) > 1e-6; iteration++) {
    // The moment is nearly linear in the control: one slope serves every step.
    if (slope === 0) slope = (at(control + 0.02).pitchingMomentCoefficient - forces.pitchingMomentCoefficient) / 0.02;
    if (Math.abs(slope) < 1e-9) break;
    control = clamp(control - forces.pitchingMomentCoefficient / slope, -1.5, 1.5);
    forces = at(control);
  }
  const controlMargin = Math.min(control - range.lower, range.upper - control) * 4;
  return { forces, control, margin: Math.min(forces.stallMargin, controlMargin) };
}

const clamp = (value: number, lower: number, upper: number): number => Math.min(upper, Math.max(lower, value));
