import type { Outcome, Problem } from '@noonwing/engine';
import type { DriveState } from '@noonwing/engine/drive';
import { maximumThrust, unpoweredDrag } from '@noonwing/engine/drive';
import {
  type Airframe,
  bestRangeFlight,
  climbRate,
  type FlightCondition,
  glide,
  type LevelFlight,
  leastPowerFlight,
  levelFlight,
  stallPoint,
  standardGravity,
  type Trim,
  totalDragCoefficient,
  trimmer,
  turnPitchRate,
} from '@noonwing/engine/flight';
import { noDeviation } from './deviations.js';
import { flightSetup } from './need.js';
import type { Prepared } from './prepare.js';

/** Level flight at one airspeed with what else can be done there. */
export interface PowerPoint {
  readonly airspeed: number;
  readonly flight: LevelFlight<DriveState>;
  /** At the battery, loads included, known level power applied [W]. */
  readonly levelPower: number;
  /** At full throttle, straight flight [m/s]; absent where the drive cannot even hold height. */
  readonly climbRate?: number;
  /** Propeller stopped or folded [m/s]. */
  readonly sinkRate: number;
  readonly glideRatio: number;
}

/** Forces with the pitch control and the thrust held as in one level flight: whether the aircraft returns to it by itself. */
export interface HeldControl {
  /** Of that flight [m/s]. */
  readonly airspeed: number;
  /** Trailing edge down positive [rad]. */
  readonly control: number;
  /** Angle of attack of that flight [rad]. */
  readonly alpha: number;
  /** By angle of attack, up to where the wing begins to stall. */
  readonly points: readonly HeldPoint[];
}

export interface HeldPoint {
  readonly alpha: number;
  readonly liftCoefficient: number;
  readonly dragCoefficient: number;
  /** About the balance point, the thrust line's included, nose up positive; zero at the angle of attack flown. */
  readonly pitchingMomentCoefficient: number;
}

/** Level power against airspeed with its marks. */
export interface PowerReport {
  readonly bank: number;
  readonly stallSpeed: number;
  readonly points: readonly PowerPoint[];
  readonly leastPower?: PowerPoint;
  readonly bestRange?: PowerPoint;
  /** Loads that always run: a part of every level power here [W]. */
  readonly steadyLoads: number;
  /** Forces with the pitch control held; absent where level flight was not found. */
  readonly held?: HeldControl;
  /** Why the first airspeed that could not be flown was left out. */
  readonly leftOut?: Problem;
}

/**
 * Level power against airspeed at the bank flown.
 * @param bank - [rad]; of the flight conditions when absent
 * @param count - points between just above the stall and twice it
 */
export function powerReport(prepared: Prepared, bank: number, count = 15): Outcome<PowerReport> {
  const { model, conditions } = prepared;
  if (model.airframe === undefined || model.balance === undefined || model.drive === undefined) {
    return {
      ok: false,
      code: 'no-airframe',
      reason: 'level power against airspeed needs an airframe, masses and a drive',
      where: 'design file',
      remedy: 'describe surfaces and drive',
    };
  }
  const setup = flightSetup(model, conditions, bank, noDeviation);
  const { airframe, condition, power } = setup;
  const stall = stallPoint(airframe, condition);
  if (!stall.ok) return stall;
  const stallSpeed = stall.value.airspeed;
  const factor = prepared.calibration * model.complete.flight.levelPowerFactor.value;
  const points: PowerPoint[] = [];
  let leftOut: Problem | undefined;
  const trimAt = trimmer(airframe, condition);
  for (let i = 0; i < count; i++) {
    const airspeed = stallSpeed * (1.04 + (1.1 * i) / (count - 1));
    const flight = levelFlight(airframe, condition, power, airspeed, trimAt);
    if (flight.ok) points.push(pointOf(prepared, flight.value, factor));
    else leftOut ??= flight;
  }
  const least = leastPowerFlight(airframe, condition, power, stallSpeed);
  const range = bestRangeFlight(airframe, condition, power, stallSpeed);
  return {
    ok: true,
    value: {
      bank,
      stallSpeed,
      points,
      ...(least.ok ? { leastPower: pointOf(prepared, least.value, factor) } : {}),
      ...(range.ok ? { bestRange: pointOf(prepared, range.value, factor) } : {}),
      steadyLoads: conditions.steadyLoads,
      ...(least.ok ? { held: heldControl(airframe, condition, least.value.trim) } : {}),
      ...(leftOut === undefined ? {} : { leftOut }),
    },
    warnings: [],
  };
}

function pointOf(prepared: Prepared, flight: LevelFlight<DriveState>, factor: number): PowerPoint {
  const { model, conditions } = prepared;
  const { airspeed } = flight.trim;
  const weight = model.balance!.mass * standardGravity;
  const straight = flightSetup(model, conditions, 0, noDeviation);
  const trim = trimmer(straight.airframe, straight.condition, flight.trim)(airspeed);
  const drag = trim.ok ? trim.value.drag : flight.trim.drag;
  const drive = model.drive!;
  const request = { drive: drive.drive, airspeed, air: conditions.air, busVoltage: conditions.busVoltage };
  const most = maximumThrust(request);
  const state = drive.folding ? ('folded' as const) : ('stopped' as const);
  const unpowered = unpoweredDrag({ ...request, state });
  const gliding = glide(drag + (unpowered.ok ? unpowered.value.drag : 0), airspeed, weight);
  return {
    airspeed,
    flight,
    levelPower: flight.levelPower * factor + conditions.steadyLoads,
    ...(most.ok && most.value.state.thrust > drag
      ? { climbRate: climbRate(most.value.state.thrust, drag, airspeed, weight) }
      : {}),
    ...gliding,
  };
}

/** Angles of attack about that of the flight: enough to show a bend of the moment, all within the reach of a gust. */
const heldAngles = Array.from({ length: 17 }, (_, i) => ((i - 8) * Math.PI) / 180);

function heldControl(airframe: Airframe, condition: FlightCondition, trim: Trim): HeldControl {
  const { air, bank, centreOfGravity, thrustLine } = condition;
  const { airspeed, control } = trim;
  const pressureArea = 0.5 * air.density * airspeed ** 2 * airframe.referenceArea;
  const thrustMoment = (trim.thrust * (thrustLine.z - centreOfGravity.z)) / (pressureArea * airframe.referenceChord);
  const points: HeldPoint[] = [];
  for (const angle of heldAngles) {
    const alpha = trim.alpha + angle;
    const state = { alpha, control, pitchRate: turnPitchRate(bank, airspeed), airspeed, air };
    const forces = airframe.forces({ ...state, momentReference: centreOfGravity });
    if (forces.stallMargin < 0) {
      if (angle > 0) break;
      continue;
    }
    points.push({
      alpha,
      liftCoefficient: forces.liftCoefficient,
      dragCoefficient: totalDragCoefficient(forces),
      pitchingMomentCoefficient: forces.pitchingMomentCoefficient - thrustMoment,
    });
  }
  return { airspeed, control, alpha: trim.alpha, points };
}
