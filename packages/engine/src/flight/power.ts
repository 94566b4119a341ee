import type { Air } from '../air/index.js';
import { minimise } from '../math/index.js';
import { type Outcome, problem, success, type Warning } from '../result.js';
import { type StallPoint, stallPoint } from './stall.js';
import { trimmer } from './trim.js';
import { loadFactor } from './turn.js';
import type { Airframe, FlightCondition, Trim } from './types.js';

/** Electric power that a drive needs for a thrust; the drive model fills it in. */
export interface ThrustPower {
  /** From the battery terminals, all motors [W]. */
  readonly electricPower: number;
}

/** Power for a thrust [N] at an airspeed [m/s] in given air; a problem when the drive cannot give it. */
export type PowerForThrust<P extends ThrustPower> = (request: {
  readonly thrust: number;
  readonly airspeed: number;
  readonly air: Air;
}) => Outcome<P>;

/** Level flight at one airspeed: the trimmed state and what the drive takes for it. */
export interface LevelFlight<P extends ThrustPower> {
  readonly trim: Trim;
  readonly drive: P;
  /** Electric power from the battery terminals that holds level flight in calm air [W], drive only. */
  readonly levelPower: number;
}

/**
 * Level power at an airspeed: trim, then the drive at the thrust that balances drag.
 * @param trimAt - a trimmer of this airframe and condition that has already found states close by
 * @returns a problem from the trim (stall, no trim) or from the drive (not enough thrust)
 */
export function levelFlight<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
  airspeed: number,
  trimAt = trimmer(airframe, condition),
): Outcome<LevelFlight<P>> {
  const trim = trimAt(airspeed);
  if (!trim.ok) return trim;
  const drive = powerForThrust({ thrust: trim.value.thrust, airspeed, air: condition.air });
  if (!drive.ok) return drive;
  return success({ trim: trim.value, drive: drive.value, levelPower: drive.value.electricPower }, [
    ...trim.warnings,
    ...drive.warnings,
  ]);
}

/** How the airspeed of the day is chosen. */
export interface AirspeedRule {
  /** Stated airspeed [m/s]; least power when absent. */
  readonly stated?: number;
  /** Least airspeed as a multiple of the stall speed at the bank flown; 1.25 is common practice, no source. */
  readonly stallFactor: number;
  /** Airspeed that the structure bears [m/s]; flown faster only where the stall asks for it. */
  readonly limit?: number;
}

export interface ChosenFlight<P extends ThrustPower> {
  readonly flight: LevelFlight<P>;
  readonly stallSpeed: number;
  readonly stall: StallPoint;
  /** Airspeed of least level power [m/s], floor or not. */
  readonly leastPowerSpeed: number;
  /** Level power at that airspeed [W]. */
  readonly leastPower: number;
  /** Airspeed that the rule asks for before the limit of the structure [m/s]. */
  readonly wanted: number;
  /** Why this airspeed: stated, least power, the stall floor, or held at the limit of the structure. */
  readonly reason: 'stated' | 'least power' | 'stall floor' | 'limit speed';
  /** Extra power that the floor, the limit or the stated airspeed costs over the least [W]. */
  readonly cost: number;
}

/**
 * The airspeed that is flown: the stated one, else that of least level power but not below the stall factor times the
 * stall speed at the bank flown; held at the limit of the structure as far as the stall allows.
 * @param near - the flight chosen at another bank: the searches begin where it ended
 */
export function chooseFlight<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
  rule: AirspeedRule,
  near?: ChosenFlight<P>,
): Outcome<ChosenFlight<P>> {
  // At the same lift coefficient the airspeed grows with the root of the load factor.
  const faster = near === undefined ? 1 : Math.sqrt(loadFactor(condition.bank) / near.flight.trim.loadFactor);
  const stall = stallPoint(airframe, condition, near && { ...near.stall, airspeed: faster * near.stall.airspeed });
  if (!stall.ok) return stall;
  const stallSpeed = stall.value.airspeed;
  const fly = flier(airframe, condition, powerForThrust);
  const power = (flight: LevelFlight<P>) => flight.levelPower;
  const least = bestFlight(fly, stallSpeed, power, near && faster * near.leastPowerSpeed);
  const floor = rule.stallFactor * stallSpeed;
  const wanted = rule.stated ?? (least.ok ? Math.max(least.value.trim.airspeed, floor) : floor);
  const flown = heldSpeed(wanted, floor, rule.limit);
  const flight = fly(flown);
  if (!flight.ok) return flight;
  const leastPower = least.ok ? Math.min(least.value.levelPower, flight.value.levelPower) : flight.value.levelPower;
  const unheld = rule.stated !== undefined ? 'stated' : wanted === floor ? 'stall floor' : 'least power';
  return success(
    {
      flight: flight.value,
      stallSpeed,
      stall: stall.value,
      leastPowerSpeed: least.ok ? least.value.trim.airspeed : wanted,
      leastPower,
      wanted,
      reason: flown < wanted ? 'limit speed' : unheld,
      cost: flight.value.levelPower - leastPower,
    },
    [...flight.warnings, ...statedSpeedWarnings(rule, stallSpeed)],
  );
}

/**
 * Airspeed that is wanted, held at the limit of the structure: not below the floor that keeps clear of the stall, for a stall is worse.
 *
 * wanted, floor - airspeeds [m/s]; limit - that of the structure [m/s], absent: none
 */
export const heldSpeed = (wanted: number, floor: number, limit: number | undefined): number =>
  limit === undefined ? wanted : Math.min(wanted, Math.max(limit, floor));

function statedSpeedWarnings(rule: AirspeedRule, stallSpeed: number): readonly Warning[] {
  if (rule.stated === undefined || rule.stated >= rule.stallFactor * stallSpeed) return [];
  return [
    {
      code: 'slow',
      message: `the stated ${rule.stated.toFixed(1)} m/s is only ${(rule.stated / stallSpeed).toFixed(2)} times the stall speed of ${stallSpeed.toFixed(1)} m/s at the bank flown`,
      where: 'flight: airspeed',
    },
  ];
}

/** Level flight of least electric power between just above the stall and three times it. */
export function leastPowerFlight<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
  stallSpeed: number,
): Outcome<LevelFlight<P>> {
  return bestFlight(flier(airframe, condition, powerForThrust), stallSpeed, (flight) => flight.levelPower);
}

/** Level flight of least electric energy per distance, in calm air. */
export function bestRangeFlight<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
  stallSpeed: number,
): Outcome<LevelFlight<P>> {
  const energyPerDistance = ({ levelPower, trim }: LevelFlight<P>) => levelPower / trim.airspeed;
  return bestFlight(flier(airframe, condition, powerForThrust), stallSpeed, energyPerDistance);
}

/** Level flights of one aircraft at one airspeed after the other. */
function flier<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
): (airspeed: number) => Outcome<LevelFlight<P>> {
  const trimAt = trimmer(airframe, condition);
  return (airspeed) => levelFlight(airframe, condition, powerForThrust, airspeed, trimAt);
}

/** Relative to the best airspeed: the cost is so flat there that it is known to better than 1e-4. */
const speedTolerance = 5e-3;
/** Half-width of the range searched about an expected airspeed, as a part of it; a minimum at its edge is not believed. */
const expectedWithin = 0.08;
const edge = 4 * speedTolerance;
/** Cost of a speed that cannot be flown: more than any that can [W, J/m]. */
const unflyable = 1e6;

/**
 * Flight of least cost between just above the stall and three times it.
 * @param expected - airspeed near which it is looked for first
 */
function bestFlight<P extends ThrustPower>(
  fly: (airspeed: number) => Outcome<LevelFlight<P>>,
  stallSpeed: number,
  cost: (flight: LevelFlight<P>) => number,
  expected?: number,
): Outcome<LevelFlight<P>> {
  // A speed that cannot be flown costs more the further it is from the flyable ones, so that the search walks back.
  const costAt = (airspeed: number) => {
    const flight = fly(airspeed);
    return flight.ok ? cost(flight.value) : unflyable * (1 + Math.abs(airspeed / stallSpeed - 1.3));
  };
  const best = fly(cheapestSpeed(costAt, { from: 1.01 * stallSpeed, to: 3 * stallSpeed }, expected));
  if (best.ok) return best;
  return problem({
    code: 'no-level-flight',
    reason: `no airspeed holds level flight: ${best.reason}`,
    where: best.where,
    remedy: best.remedy,
  });
}

function cheapestSpeed(
  costAt: (airspeed: number) => number,
  whole: { readonly from: number; readonly to: number },
  expected: number | undefined,
): number {
  const anywhere = () => minimise(costAt, whole.from, whole.to, speedTolerance).argument;
  if (expected === undefined) return anywhere();
  const from = Math.max(whole.from, (1 - expectedWithin) * expected);
  const to = Math.min(whole.to, (1 + expectedWithin) * expected);
  if (!(from < to)) return anywhere();
  const { argument, value } = minimise(costAt, from, to, speedTolerance);
  const fromBelow = from > whole.from && argument < (1 + edge) * from;
  const fromAbove = to < whole.to && argument > (1 - edge) * to;
  return fromBelow || fromAbove || value >= unflyable ? anywhere() : argument;
}

/** Points of the power curve; airspeeds that cannot be flown are left out and counted with the first reason. */
export interface PowerCurve<P extends ThrustPower> {
  readonly points: readonly LevelFlight<P>[];
  readonly leftOut: number;
  readonly firstReason: string | undefined;
}

/** Level power against airspeed. */
export function powerCurve<P extends ThrustPower>(
  airframe: Airframe,
  condition: FlightCondition,
  powerForThrust: PowerForThrust<P>,
  airspeeds: readonly number[],
): PowerCurve<P> {
  const points: LevelFlight<P>[] = [];
  let leftOut = 0;
  let firstReason: string | undefined;
  const fly = flier(airframe, condition, powerForThrust);
  for (const airspeed of airspeeds) {
    const flight = fly(airspeed);
    if (flight.ok) points.push(flight.value);
    else {
      leftOut++;
      firstReason ??= flight.reason;
    }
  }
  return { points, leftOut, firstReason };
}

/**
 * Rate of climb in steady straight flight [m/s] from the thrust left over, small climb angles.
 * Source: specific excess power (T - D) V / W.
 */
export const climbRate = (thrust: number, drag: number, airspeed: number, weight: number): number =>
  ((thrust - drag) * airspeed) / weight;

/** Sink rate [m/s] and glide ratio of gliding flight with a drag [N] (the stopped or folded propeller's included). */
export const glide = (drag: number, airspeed: number, weight: number): { sinkRate: number; glideRatio: number } => ({
  sinkRate: (drag * airspeed) / weight,
  glideRatio: weight / drag,
});
