import { brentRoot } from '../math/index.js';
import { type Outcome, problem, success, type Warning } from '../result.js';
import { loadFactor, turnPitchRate } from './turn.js';
import { type Airframe, type AirframeForces, type FlightCondition, standardGravity, type Trim } from './types.js';

const degree = Math.PI / 180;

/** Angle of attack and pitch control [rad]. */
export interface TrimUnknowns {
  readonly alpha: number;
  readonly control: number;
}

const usualStart: TrimUnknowns = { alpha: 4 * degree, control: 0 };

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
 * @param start - where the search begins: the state at a speed close by saves steps
 * @returns the trimmed state; a problem when the control cannot hold the moment, or the wing would have to stall.
 *   Without a pitch control only the airspeed that trims by itself could be flown: that is said as a problem.
 *
 * Method: Newton on angle of attack and control with a numerical Jacobian kept while it converges.
 */
export function trimLevel(
  airframe: Airframe,
  condition: FlightCondition,
  airspeed: number,
  start: TrimUnknowns = usualStart,
): Outcome<Trim> {
  const range = airframe.controlRange;
  if (!range) {
    return problem({
      code: 'no-pitch-control',
      reason: 'the design has no elevator or elevon, so that only one airspeed would trim by itself',
      where: 'airframe',
      remedy: 'describe an elevator on the tail or elevons on the wing',
    });
  }
  const solved = newtonTrim(airframe, condition, airspeed, start);
  if (!solved || solved.residuals.forces.stallMargin < 0) return stallProblem(airspeed, solved?.residuals.forces);
  const { alpha, control, residuals } = solved;
  if (control < range.lower || control > range.upper) return controlProblem(control, range, airspeed);
  return success(trimmed(airframe, condition, airspeed, { alpha, control }, residuals), trimWarnings(control, range));
}

function newtonTrim(airframe: Airframe, condition: FlightCondition, airspeed: number, start: TrimUnknowns) {
  let { alpha, control } = start;
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
    const found = stallAtFixedSpeed(airframe, condition, airspeed, point?.alpha);
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
      control = clamp(control - forces.pitchingMomentCoefficient / slope, -1.5, 1.5);
      forces = at(control);
    }
    const controlMargin = Math.min(control - range.lower, range.upper - control) * 4;
    const balanced = { forces, control, margin: Math.min(forces.stallMargin, controlMargin) };
    known.set(alpha, balanced);
    return balanced;
  };
}

const clamp = (value: number, lower: number, upper: number): number => Math.min(upper, Math.max(lower, value));
