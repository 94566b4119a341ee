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

/** Slopes of the residuals of lift and moment by angle of attack and control. */
interface Slopes {
  readonly la: number;
  readonly ma: number;
  readonly lc: number;
  readonly mc: number;
}

interface Solved extends TrimUnknowns {
  readonly airspeed: number;
  readonly residuals: Residuals;
  readonly slopes: Slopes;
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
 */
export const trimLevel = (airframe: Airframe, condition: FlightCondition, airspeed: number): Outcome<Trim> =>
  trimmer(airframe, condition)(airspeed);

/**
 * Trims of one aircraft in one condition at one airspeed after another. A search begins from the states found before, with
 * their slopes; its end is the same to 1e-9 of the weight, wherever it began.
 *
 * @param start - where the first search begins: the state of an aircraft much like it saves steps
 * @returns trim by airspeed [m/s], as `trimLevel`
 *
 * Method: Newton on angle of attack and control with a numerical Jacobian, corrected by each step.
 * Source: C. G. Broyden, A class of methods for solving nonlinear simultaneous equations, Math. Comp. 19, 1965.
 */
export function trimmer(
  airframe: Airframe,
  condition: FlightCondition,
  start: TrimUnknowns = usualStart,
): (airspeed: number) => Outcome<Trim> {
  const range = airframe.controlRange;
  let last: Solved | undefined;
  let before: Solved | undefined;
  return (airspeed) => {
    if (!range) return noPitchControl;
    const evaluate = (unknowns: TrimUnknowns) => trimResiduals(airframe, condition, airspeed, unknowns);
    const warm =
      last === undefined
        ? undefined
        : newtonTrim(evaluate, airspeed, predicted(airspeed, last, before), scaled(airspeed, last));
    const found = warm ?? newtonTrim(evaluate, airspeed, start);
    const solved = isAttached(found) ? found : (attachedTrim(evaluate, airspeed) ?? found);
    if (!solved || !isAttached(solved)) return stallProblem(airspeed, solved?.residuals.forces);
    before = last;
    last = solved;
    const { alpha, control, residuals } = solved;
    if (control < range.lower || control > range.upper) return controlProblem(control, range, airspeed);
    return success(trimmed(airframe, condition, airspeed, { alpha, control }, residuals), trimWarnings(control, range));
  };
}

const noPitchControl = problem({
  code: 'no-pitch-control',
  reason: 'the design has no elevator or elevon, so that only one airspeed would trim by itself',
  where: 'airframe',
  remedy: 'describe an elevator on the tail or elevons on the wing',
});

/** State to be expected at an airspeed: lift coefficient, and so angle and control, are nearly straight in 1 / V^2. */
function predicted(airspeed: number, last: Solved, before: Solved | undefined): TrimUnknowns {
  const span = before === undefined ? 0 : before.airspeed ** -2 - last.airspeed ** -2;
  if (before === undefined || Math.abs(span) < 1e-3 * last.airspeed ** -2) return last;
  const part = (airspeed ** -2 - last.airspeed ** -2) / span;
  return {
    alpha: last.alpha + part * (before.alpha - last.alpha),
    control: last.control + part * (before.control - last.control),
  };
}

/** Slopes at another airspeed: the residuals are forces over weight, in proportion to dynamic pressure. */
function scaled(airspeed: number, { airspeed: known, slopes: { la, ma, lc, mc } }: Solved): Slopes {
  const factor = (airspeed / known) ** 2;
  return { la: factor * la, ma: factor * ma, lc: factor * lc, mc: factor * mc };
}

function newtonTrim(
  evaluate: (unknowns: TrimUnknowns) => Residuals,
  airspeed: number,
  start: TrimUnknowns,
  known?: Slopes,
): Solved | undefined {
  let { alpha, control } = start;
  let r = evaluate({ alpha, control });
  let slopes = known ?? numericalSlopes(evaluate, { alpha, control }, r);
  let size = Math.hypot(r.lift, r.moment);
  for (let iteration = 0; iteration < 25; iteration++) {
    if (size < 1e-9) return { airspeed, alpha, control, residuals: r, slopes };
    const determinant = slopes.la * slopes.mc - slopes.lc * slopes.ma;
    if (Math.abs(determinant) < 1e-12) return undefined;
    const from = { alpha, control, r };
    alpha = clamp(alpha - (r.lift * slopes.mc - r.moment * slopes.lc) / determinant, -0.6, 0.6);
    control = clamp(control - (slopes.la * r.moment - slopes.ma * r.lift) / determinant, -2, 2);
    r = evaluate({ alpha, control });
    const next = Math.hypot(r.lift, r.moment);
    slopes =
      next > 0.2 * size
        ? numericalSlopes(evaluate, { alpha, control }, r)
        : corrected(slopes, { alpha: alpha - from.alpha, control: control - from.control }, from.r, r);
    size = next;
  }
  return size < 1e-6 ? { airspeed, alpha, control, residuals: r, slopes } : undefined;
}

const isAttached = (solved: Solved | undefined): boolean =>
  solved !== undefined && solved.residuals.forces.stallMargin >= 0;

/** Angles of attack from which a second search may begin [rad]: wings are set on at anything from -4 to 8 degrees. */
const attachedStarts = [-12, -8, -4, 0, 4, 8].map((angle) => angle * degree);

/**
 * Trim sought from the state farthest from stall. Lift is carried twice, once before and once beyond the stall: a search that begins
 * beyond it finds the second state, though the first can be flown.
 */
function attachedTrim(evaluate: (unknowns: TrimUnknowns) => Residuals, airspeed: number): Solved | undefined {
  let alpha = 0;
  let margin = -Infinity;
  for (const start of attachedStarts) {
    const { stallMargin } = evaluate({ alpha: start, control: 0 }).forces;
    if (stallMargin > margin) [alpha, margin] = [start, stallMargin];
  }
  return margin > 0 ? newtonTrim(evaluate, airspeed, { alpha, control: 0 }) : undefined;
}

function numericalSlopes(evaluate: (u: TrimUnknowns) => Residuals, at: TrimUnknowns, r: Residuals): Slopes {
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

/** Slopes changed as little as possible so that they agree with what a step did (Broyden 1965). */
function corrected({ la, ma, lc, mc }: Slopes, step: TrimUnknowns, from: Residuals, to: Residuals): Slopes {
  const square = step.alpha ** 2 + step.control ** 2;
  if (square === 0) return { la, ma, lc, mc };
  const lift = (to.lift - from.lift - la * step.alpha - lc * step.control) / square;
  const moment = (to.moment - from.moment - ma * step.alpha - mc * step.control) / square;
  return {
    la: la + lift * step.alpha,
    lc: lc + lift * step.control,
    ma: ma + moment * step.alpha,
    mc: mc + moment * step.control,
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

const clamp = (value: number, lower: number, upper: number): number => Math.min(upper, Math.max(lower, value));
