import { type Outcome, problem, success } from '@noonwing/engine';
import type { Air } from '@noonwing/engine/air';
import { type Load, loadPowerAt } from '@noonwing/engine/day';
import { type Drive, type DriveState, driveAtThrust } from '@noonwing/engine/drive';
import {
  bankForRadius,
  type ChosenFlight,
  chooseFlight,
  type FlightCondition,
  levelFlight,
  type PowerForThrust,
  trimmer,
  wingAirframe,
} from '@noonwing/engine/flight';
import { type AircraftModel, recordOf } from './aircraft.js';
import { type Deviations, noDeviation } from './deviations.js';
import type { Stages } from './stages.js';

/** How the aircraft is flown on the day. */
export interface FlightConditions {
  readonly air: Air;
  /** Bank of the circles flown [rad]; a stated radius takes its place. */
  readonly bank: number;
  readonly circleRadius?: number;
  /** Stated airspeed [m/s]; that of least power when absent. */
  readonly airspeed?: number;
  readonly stallFactor: number;
  /** Airspeed that the structure bears, where it is known [m/s]. */
  readonly limitSpeed?: number;
  /** At the speed controllers [V]. */
  readonly busVoltage: number;
  /** Loads that are always on [W]: part of a level power that was read at the battery. */
  readonly steadyLoads: number;
}

/** What level flight takes, in calm air. */
export interface FlightNeed {
  /** Of the drive alone, from the battery terminals [W]. */
  readonly drivePower: number;
  readonly airspeed: number;
  readonly bank: number;
  /** Flight point in full; absent where the level power is stated and no airframe described. */
  readonly chosen?: ChosenFlight<DriveState>;
  /** Factor by which a stated or measured level power scales the computed one; 1 where there is none. */
  readonly calibration: number;
}

/** A level power known from elsewhere, at the conditions at which it holds. */
export interface KnownLevelPower {
  /** From the battery terminals, loads included [W]. */
  readonly power: number;
  readonly sigma: number;
  readonly airspeed?: number;
  readonly mass?: number;
  readonly bank?: number;
  /** Density of the air in which it holds [kg/m3]. */
  readonly density?: number;
  readonly measured: boolean;
}

/**
 * Level power under some deviations: computed from airframe and drive, scaled to a known level power where there is
 * one, or that known power alone.
 */
export function flightNeed(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower | undefined,
  calibration: number,
  deviations: Deviations,
): Outcome<FlightNeed> {
  if (flightParts(model) === undefined) {
    return known === undefined ? nothingKnown(model) : success(fromKnown(model, conditions, known, deviations));
  }
  const chosen = computedFlight(model, conditions, deviations);
  if (!chosen.ok) return chosen;
  const factor = calibration * deviations.levelPower * model.complete.flight.levelPowerFactor.value;
  const { flight } = chosen.value;
  return success(
    {
      drivePower: flight.levelPower * factor,
      airspeed: flight.trim.airspeed,
      // The bank at which the flight was solved, which meets a stated radius to a thousandth.
      bank: Math.acos(1 / flight.trim.loadFactor),
      chosen: chosen.value,
      calibration,
    },
    chosen.warnings,
  );
}

/**
 * The parts of an aircraft that a computed flight reads, for stages to recognise it by: loads, names or strings may have changed
 * beside them. Undefined where no flight is computed, but a known level power taken.
 */
export function flightParts({ airframe, balance, drive, complete }: AircraftModel): readonly unknown[] | undefined {
  if (airframe === undefined || balance === undefined || drive === undefined) return undefined;
  return [airframe, drive, balance.mass, balance.x, balance.z, complete.flight];
}

/** The central flight need, remembered where it is computed. */
export function needStage(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower | undefined,
  calibration: number,
  stages: Stages,
): Outcome<FlightNeed> {
  const parts = flightParts(model);
  if (parts === undefined) return flightNeed(model, conditions, known, calibration, noDeviation);
  const needAt = (at: FlightConditions) => {
    // Loads count only where a known level power includes them, and there they enter by the calibration.
    const { steadyLoads: _, ...flown } = at;
    return stages.run('flight', [...parts, JSON.stringify(flown), calibration], () =>
      flightNeed(model, at, known, calibration, noDeviation),
    );
  };
  // A limit that is not reached changes nothing: the flight without it is remembered.
  const { limitSpeed, ...free } = conditions;
  const wanted = needAt(free);
  return limitSpeed === undefined || !wanted.ok || wanted.value.airspeed <= limitSpeed ? wanted : needAt(conditions);
}

/**
 * Level power of a sample at a given airspeed, without looking for stall or least power again.
 * @param central - need of the central case, whose bank and calibration hold
 */
export function needAtSpeed(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower | undefined,
  central: FlightNeed,
  airspeed: number,
  deviations: Deviations,
): Outcome<FlightNeed> {
  if (central.chosen === undefined) return flightNeed(model, conditions, known, central.calibration, deviations);
  const bank = central.bank + bankAt(conditions, airspeed) - bankAt(conditions, central.airspeed);
  const { airframe, condition, power } = flightSetup(model, conditions, bank, deviations);
  const trimAt = trimmer(airframe, condition, central.chosen.flight.trim);
  const flight = levelFlight(airframe, condition, power, airspeed, trimAt);
  if (!flight.ok) return flight;
  const factor = central.calibration * deviations.levelPower * model.complete.flight.levelPowerFactor.value;
  return success({ drivePower: flight.value.levelPower * factor, airspeed, bank, calibration: central.calibration });
}

function nothingKnown(model: AircraftModel) {
  const first = model.problems[0];
  if (first !== undefined) return first;
  return problem({
    code: 'no-level-power',
    reason: 'neither a level power is stated nor an airframe with a drive described',
    where: 'design file',
    remedy: 'write "level power: 16 W ± 3 W", or describe surfaces and drive',
  });
}

/** A known power scaled to mass and air: P ~ m^1.5 / rho^0.5 at the same lift coefficient. */
function fromKnown(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower,
  deviations: Deviations,
): FlightNeed {
  const mass = wholeMass(model);
  const byMass = known.mass !== undefined && mass !== undefined ? (mass / known.mass) ** 1.5 : 1;
  const byAir = known.density !== undefined ? Math.sqrt(known.density / conditions.air.density) : 1;
  const airspeed = known.airspeed ?? conditions.airspeed ?? 8;
  const bank = bankAt(conditions, airspeed);
  const byBank = known.bank !== undefined ? (Math.cos(known.bank) / Math.cos(bank)) ** 1.5 : 1;
  const drive = Math.max(0.2 * known.power, known.power - conditions.steadyLoads);
  return {
    drivePower: drive * byMass * byAir * byBank * deviations.levelPower,
    airspeed,
    bank,
    calibration: 1,
  };
}

/** Mass of the aircraft where all of it is known: masses listed without an airframe are only some of its parts. */
function wholeMass({ airframe, balance, complete }: AircraftModel): number | undefined {
  const stated = complete.allUpMass !== undefined || recordOf(complete.measured, 'mass') !== undefined;
  return airframe !== undefined || stated ? balance?.mass : undefined;
}

const bankAt = (conditions: FlightConditions, airspeed: number): number =>
  conditions.circleRadius === undefined ? conditions.bank : bankForRadius(conditions.circleRadius, airspeed);

/**
 * The computed flight point. A circle of stated radius is banked by the speed flown, which grows with the root of the load
 * factor at the same lift coefficient: the bank predicted so after one pass is the bank flown, to the effect of Reynolds number.
 */
function computedFlight(
  model: AircraftModel,
  conditions: FlightConditions,
  deviations: Deviations,
): Outcome<ChosenFlight<DriveState>> {
  const { circleRadius } = conditions;
  if (circleRadius === undefined) return flightAtBank(model, conditions, conditions.bank, deviations);
  let bank = usualCircleBank;
  let result = flightAtBank(model, conditions, bank, deviations);
  for (let pass = 0; pass < 3 && result.ok; pass++) {
    const { airspeed } = result.value.flight.trim;
    if (Math.abs(bankForRadius(circleRadius, airspeed) - bank) < 1e-3) break;
    const fixed = conditions.airspeed !== undefined || result.value.reason === 'limit speed';
    let next = bank;
    for (let i = 0; i < 8; i++) {
      next = bankForRadius(circleRadius, airspeed * (fixed ? 1 : Math.sqrt(Math.cos(bank) / Math.cos(next))));
    }
    bank = next;
    result = flightAtBank(model, conditions, bank, deviations, result.value);
  }
  return result;
}

/** A usual bank in circles, to begin with [rad]. */
const usualCircleBank = 0.15;

function flightAtBank(
  model: AircraftModel,
  conditions: FlightConditions,
  bank: number,
  deviations: Deviations,
  near?: ChosenFlight<DriveState>,
): Outcome<ChosenFlight<DriveState>> {
  const { airframe, condition, power } = flightSetup(model, conditions, bank, deviations);
  const { stallFactor, airspeed, limitSpeed } = conditions;
  const rule = {
    stallFactor,
    ...(airspeed === undefined ? {} : { stated: airspeed }),
    ...(limitSpeed === undefined ? {} : { limit: limitSpeed }),
  };
  return chooseFlight(airframe, condition, power, rule, near);
}

/** Airframe, condition and drive under some deviations, as the engine's flight functions take them. */
export function flightSetup(model: AircraftModel, conditions: FlightConditions, bank: number, deviations: Deviations) {
  const { airframe, balance, drive, complete } = model;
  if (airframe === undefined || balance === undefined || drive === undefined) {
    throw new Error('a flight is computed for an airframe with masses and a drive');
  }
  const condition: FlightCondition = {
    mass: Math.max(0.3 * balance.mass, balance.mass + deviations.mass),
    centreOfGravity: { x: balance.x, z: balance.z },
    thrustLine: drive.thrustLine,
    air: conditions.air,
    bank,
  };
  const factors = {
    profile: complete.flight.profileDragFactor.value * deviations.profileDrag * deviations.turbulence,
    induced: complete.flight.inducedDragFactor.value * deviations.inducedDrag,
    parasite: deviations.parasiteDrag,
  };
  const deviated = deviatedDrive(drive.drive, deviations);
  const power: PowerForThrust<DriveState> = ({ thrust, airspeed, air }) =>
    driveAtThrust({
      drive: deviated,
      thrust,
      airspeed,
      air,
      busVoltage: conditions.busVoltage,
      batteryResistance: drive.wiringResistance,
    });
  return { airframe: wingAirframe(airframe.aircraft, factors), condition, power };
}

function deviatedDrive(drive: Drive, deviations: Deviations): Drive {
  const { motor, propeller } = drive;
  return {
    ...drive,
    motor: {
      ...motor,
      resistance: motor.resistance * deviations.motorResistance,
      noLoadCurrent: motor.noLoadCurrent * deviations.motorNoLoad,
    },
    propeller: { ...propeller, powerFactor: propeller.powerFactor * deviations.propellerPower },
  };
}

/** Loads without hours, or with a whole day of them [W]: what a reading of level power at the battery includes. */
export const steadyLoadPower = (loads: readonly Load[]): number =>
  loadPowerAt(
    loads.filter(({ hours }) => hours === undefined),
    12,
  );
