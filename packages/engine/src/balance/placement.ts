import { type Outcome, problem, success } from '../result.js';
import type { BalanceRange } from './range.js';

/** What is balanced so far: total mass [kg] and balance point x aft from the datum [m]. */
export interface BalanceState {
  readonly mass: number;
  readonly x: number;
}

/** A span of x in which something can be put [m aft of the datum]. */
export interface AllowedSpan {
  readonly from: number;
  readonly to: number;
}

/** An item that can be moved; it is part of the total. */
export interface Movable {
  readonly name: string;
  readonly mass: number;
  readonly x: number;
}

export interface Ballast {
  /** [kg], >= 0 */
  readonly mass: number;
  /** Station [m aft of the datum]. */
  readonly x: number;
}

/** Where a movable item goes, and what ballast remains necessary. */
export interface Placement {
  /** Station that balances without regard to the allowed span [m aft of the datum]. */
  readonly wanted: number;
  /** Station inside the allowed span [m aft of the datum]. */
  readonly x: number;
  /** Balance point with the item there and no ballast [m aft of the datum]. */
  readonly balancePoint: number;
  /** Ballast that makes up the rest; none if the item alone does it. */
  readonly ballast: Ballast | undefined;
}

/**
 * Ballast mass at a station that brings the balance point to a target: m = M (x_t - x) / (x_b - x_t).
 *
 * @param state - aircraft without this ballast
 * @param target - wanted balance point [m aft of the datum]
 * @param station - where the ballast sits [m aft of the datum]
 * @returns mass [kg], or a Problem when the station lies on the wrong side
 * Source: moment equilibrium.
 */
export function ballastAt(state: BalanceState, target: number, station: number): Outcome<Ballast> {
  if (!(state.mass > 0)) throw new RangeError('the aircraft must have mass');
  const moment = state.mass * (target - state.x);
  if (moment === 0) return success({ mass: 0, x: station });
  const mass = moment / (station - target);
  if (!(mass > 0 && Number.isFinite(mass))) {
    return problem({
      code: 'ballast-station',
      reason: `ballast at ${millimetres(station)} cannot bring the balance point from ${millimetres(state.x)} to ${millimetres(target)}`,
      where: 'ballast',
      remedy: `choose a station ${moment > 0 ? 'behind' : 'ahead of'} ${millimetres(target)}`,
    });
  }
  return success({ mass, x: station });
}

/**
 * Station of a movable item that brings the balance point to a target, clamped to its allowed span, and the ballast
 * that makes up what the span does not give.
 *
 * @param state - aircraft with the item where it is now
 * @param movable - the item, usually the battery
 * @param target - wanted balance point [m aft of the datum]
 * @param allowed - span in which the item fits
 * @param ballastSpan - most forward and most aft station for ballast
 * @returns always a placement; see `ballast`. A Problem only when no ballast station could cure it.
 * Source: moment equilibrium.
 */
export function placeForBalance(
  state: BalanceState,
  movable: Movable,
  target: number,
  allowed: AllowedSpan,
  ballastSpan: AllowedSpan,
): Outcome<Placement> {
  if (!(movable.mass > 0)) throw new RangeError('the item to move must have mass');
  const wanted = movable.x + (state.mass * (target - state.x)) / movable.mass;
  const x = Math.min(Math.max(wanted, allowed.from), allowed.to);
  const balancePoint = state.x + (movable.mass * (x - movable.x)) / state.mass;
  if (x === wanted) return success({ wanted, x, balancePoint, ballast: undefined });
  const station = balancePoint > target ? ballastSpan.from : ballastSpan.to;
  const ballast = ballastAt({ mass: state.mass, x: balancePoint }, target, station);
  if (!ballast.ok) return ballast;
  return success({ wanted, x, balancePoint, ballast: ballast.value });
}

/**
 * Where the battery must go, as an answer that fails with the grams that cure it.
 * Parameters as in `placeForBalance`.
 * @returns station [m aft of the datum], or a Problem with the ballast in its remedy
 */
export function batteryStation(
  state: BalanceState,
  battery: Movable,
  target: number,
  allowed: AllowedSpan,
  ballastSpan: AllowedSpan,
): Outcome<number> {
  const placement = placeForBalance(state, battery, target, allowed, ballastSpan);
  if (!placement.ok) return placement;
  const { wanted, x, balancePoint, ballast } = placement.value;
  if (ballast === undefined) return success(x);
  const heavy = balancePoint > target ? 'tail-heavy' : 'nose-heavy';
  return problem({
    code: 'battery-out-of-reach',
    reason: `${heavy}: '${battery.name}' would have to sit at ${millimetres(wanted)}, but fits only from ${millimetres(allowed.from)} to ${millimetres(allowed.to)}`,
    where: battery.name,
    remedy: `put it at ${millimetres(x)} and add ${grams(ballast.mass)} of ballast at ${millimetres(ballast.x)}`,
  });
}

/** Room between the balance point and the ends of its range, both >= 0 [m]. */
export interface BalanceRoom {
  readonly toForward: number;
  readonly toAft: number;
}

/**
 * Whether the balance point lies in its range; if not, which ballast cures it.
 *
 * @param state - aircraft as it is
 * @param range - from `balanceRange`
 * @param ballastSpan - most forward and most aft station for ballast
 */
export function checkBalance(state: BalanceState, range: BalanceRange, ballastSpan: AllowedSpan): Outcome<BalanceRoom> {
  const where = 'balance point';
  if (range.width < 0) {
    return problem({
      code: 'no-balance-range',
      reason: `no balance point is both stable enough (ahead of ${millimetres(range.aft)}) and within reach of the control (behind ${millimetres(range.forward)})`,
      where,
      remedy: 'more nose-up control or reflex, a larger tail, or trim for less lift',
    });
  }
  if (state.x > range.aft) {
    return problem({
      code: 'balance-too-far-aft',
      reason: `tail-heavy: the balance point at ${millimetres(state.x)} lies ${millimetres(state.x - range.aft)} behind the last that is stable enough`,
      where,
      remedy: ballastRemedy(state, range.aft, ballastSpan.from),
    });
  }
  if (state.x < range.forward) {
    return problem({
      code: 'balance-too-far-forward',
      reason: `nose-heavy: at a balance point of ${millimetres(state.x)} full control cannot trim; the first that it can is ${millimetres(range.forward)}`,
      where,
      remedy: ballastRemedy(state, range.forward, ballastSpan.to),
    });
  }
  return success({ toForward: state.x - range.forward, toAft: range.aft - state.x });
}

function ballastRemedy(state: BalanceState, target: number, station: number): string {
  const ballast = ballastAt(state, target, station);
  const move = `move what is heavy ${state.x > target ? 'forward' : 'aft'}`;
  if (!ballast.ok) return `${move}; ballast at ${millimetres(station)} cannot cure it`;
  return `${move}, or add ${grams(ballast.value.mass)} of ballast at ${millimetres(station)}`;
}

/** What an added item does to the balance. */
export interface AdditionEffect {
  /** New total mass [kg]. */
  readonly mass: number;
  /** New balance point if nothing else moves [m aft of the datum]. */
  readonly x: number;
  /** Shift of the balance point, > 0 aft [m]. */
  readonly shift: number;
  /** Movement of the battery that restores the old balance point, > 0 aft [m]. */
  readonly batteryMove: number;
}

/**
 * Effect of an added item, such as a row of cells: shift of the balance point and the battery move that undoes it.
 *
 * @param state - aircraft before
 * @param added - mass [kg] (negative when something is taken off) and station x [m aft of the datum]
 * @param batteryMass - mass of what can be moved [kg]
 * Source: moment equilibrium; move = -m_added (x_added - x_CG) / m_battery.
 */
export function additionEffect(
  state: BalanceState,
  added: { readonly mass: number; readonly x: number },
  batteryMass: number,
): AdditionEffect {
  const mass = state.mass + added.mass;
  if (!(mass > 0) || !(batteryMass > 0)) throw new RangeError('the aircraft and the battery must have mass');
  const shift = (added.mass * (added.x - state.x)) / mass;
  return { mass, x: state.x + shift, shift, batteryMove: (-added.mass * (added.x - state.x)) / batteryMass };
}

const millimetres = (x: number): string => `${Math.round(x * 1000)} mm`;
/** Rounded up, since less would not cure it. */
const grams = (mass: number): string => `${Math.ceil(mass * 1000)} g`;
