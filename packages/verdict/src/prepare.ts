import type { CompleteAircraft, CompletePlan, SectionSources } from '@noonwing/design';
import { assembleLoads, assemblePropeller } from '@noonwing/design';
import { type Outcome, type Problem, problem, success, type Warning } from '@noonwing/engine';
import { airAt } from '@noonwing/engine/air';
import { defaultAirFactor, type Load } from '@noonwing/engine/day';
import type { Propeller } from '@noonwing/engine/drive';
import { sectionDragSpread, TURBULENCE, turbulenceDragSpread } from '@noonwing/engine/section';
import { parsePropellerSize } from '@noonwing/quantities';
import { type AircraftModel, aircraftModel, flightAir, recordOf, usualReynolds } from './aircraft.js';
import { launchTime, type SkyCase, skyCases, turbidityOf } from './day-setup.js';
import { noDeviation } from './deviations.js';
import { arrayFactor, driveByRun, type Measured } from './measured.js';
import { type FlightConditions, flightNeed, flightParts, type KnownLevelPower, steadyLoadPower } from './need.js';
import type { RunSetup } from './run.js';
import type { Stages } from './stages.js';

/** Standard uncertainties that are known once a design and its day are prepared; relative where nothing else is said. */
export interface Spreads {
  /** Of the profile drag at the flight point. */
  readonly profileSigma: number;
  /** On it by the turbulence of the air, and that in words. */
  readonly turbulenceSigma: number;
  readonly air: string;
  /** Level power known instead of computed; the flight model then counts no more. */
  readonly stated?: { readonly sigma: number; readonly measured: boolean };
  /** Of an array reading that scales the model. */
  readonly arrayMeasured?: number;
  readonly driveMeasured?: number;
  /** Of the air-and-control factor [-]. */
  readonly airSigma: number;
  readonly loadsSigma: number;
  /** Of the Linke turbidity [-]. */
  readonly turbiditySigma: number;
  readonly massMeasured: boolean;
  /** Of the air temperature [K] and of the state of charge at launch. */
  readonly airTemperatureSigma: number;
  readonly chargeAtLaunchSigma: number;
}

/** An aircraft on a day, measured values applied, ready to be run. */
export interface Prepared {
  readonly model: AircraftModel;
  readonly plan: CompletePlan;
  readonly conditions: FlightConditions;
  readonly known: KnownLevelPower | undefined;
  /** Known over computed level power, where both exist; 1 otherwise. */
  readonly calibration: number;
  readonly run: RunSetup;
  readonly skies: readonly SkyCase[];
  readonly spreads: Spreads;
  readonly measured: readonly Measured[];
  readonly turbidity: { readonly value: number; readonly sigma: number; readonly note: string };
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
}

/** Batteries in a fuselage stay a little above the air (judgement) [K]. */
const batteryWarmth = 5;

/**
 * Applies measured records to their stages and gathers everything that a run through the days needs.
 * @param files - texts of coordinate files by name
 */
export function prepare(
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionSources,
  stages: Stages,
): Prepared {
  const plain = aircraftModel(aircraft, files, stages);
  const problems: Problem[] = [...plain.problems];
  const warnings: Warning[] = [...plain.warnings];
  const measured: Measured[] = massRecords(plain);
  const model = withBenchRun(plain, stages, measured, problems);
  const altitude = plan.altitude.value + (plan.height.value || (aircraft.flight.height?.value ?? 0));
  const temperature = (plan.temperature.value + plan.nightTemperature.value) / 2;
  const air = flightAir({ altitude, ground: plan.altitude.value, temperature, humidity: plan.humidity.value });
  const loads = assembleLoads(mergedLoads(aircraft, plan));
  const conditions = flightConditions(model, plan, air, loads);
  const turbidity = turbidityOf(plan);
  const factor = readingFactor(model, plan, turbidity, measured, problems);
  const known = knownLevelPower(aircraft);
  const calibration = levelPowerCalibration(model, conditions, known, stages, measured, problems);
  const run: RunSetup = {
    array: model.array?.plan,
    arrayFactor: factor.value,
    pack: model.battery.pack,
    busVoltage: conditions.busVoltage,
    batteryTemperature: air.temperature + batteryWarmth,
    chargeAtLaunch: plan.chargeAtLaunch.value,
    launch: launchTime(plan),
    loads,
    airFactor: { night: defaultAirFactor.night, midday: aircraft.flight.airAndControlFactor.value },
    turbidity: turbidity.value,
    albedo: plan.albedo.value,
    altitude,
    air,
  };
  const spreads: Spreads = {
    profileSigma: stages.run('profile spread', [model.airframe], () => profileSigma(model)),
    turbulenceSigma: turbulenceDragSpread(wingReynolds(model), TURBULENCE[aircraft.flight.turbulence].spread),
    air: aircraft.flight.turbulence,
    ...(known === undefined ? {} : { stated: { sigma: known.sigma / known.power, measured: known.measured } }),
    ...(factor.sigma === undefined ? {} : { arrayMeasured: factor.sigma }),
    ...driveSigma(measured),
    airSigma: aircraft.flight.airAndControlFactor.sigma ?? 0,
    loadsSigma: loadsSigma(mergedLoads(aircraft, plan)),
    turbiditySigma: turbidity.sigma,
    massMeasured: recordOf(aircraft.measured, 'mass') !== undefined,
    airTemperatureSigma: plan.temperature.sigma ?? 0,
    chargeAtLaunchSigma: plan.chargeAtLaunch.sigma ?? 0,
  };
  return {
    model,
    plan,
    conditions,
    known,
    calibration,
    run,
    skies: skyCases(plan),
    spreads,
    measured,
    turbidity,
    problems,
    warnings,
  };
}

const driveSigma = (measured: readonly Measured[]): { driveMeasured?: number } => {
  const run = measured.find(({ stage }) => stage === 'drive');
  return run === undefined ? {} : { driveMeasured: run.sigma };
};

/** Loads of the plan in the place of loads of the same name, or on top. */
function mergedLoads(aircraft: CompleteAircraft, plan: CompletePlan): CompleteAircraft['loads'] {
  const replaced = new Set(plan.loads.map(({ name }) => name));
  return [...aircraft.loads.filter(({ name }) => !replaced.has(name)), ...plan.loads];
}

/** Relative uncertainty of all loads together, each independent. */
function loadsSigma(loads: CompleteAircraft['loads']): number {
  const total = loads.reduce((sum, { power, share }) => sum + power.value * share.value, 0);
  return total > 0 ? Math.hypot(...loads.map(({ power, share }) => (power.sigma ?? 0) * share.value)) / total : 0;
}

function massRecords(model: AircraftModel): Measured[] {
  const { measured } = model.complete;
  const scale = recordOf(measured, 'mass');
  const point = recordOf(measured, 'balance point');
  const found: Measured[] = [];
  if (scale !== undefined) {
    const { value, sigma = 0 } = scale.mass;
    found.push({
      stage: 'mass',
      value,
      sigma: sigma / value,
      source: `${(1000 * value).toFixed(0)} g on the scale`,
      on: true,
    });
  }
  if (point !== undefined) {
    found.push({
      stage: 'balance',
      value: point.x.value,
      sigma: 0,
      source: `balance point ${(1000 * point.x.value).toFixed(0)} mm aft of the datum`,
      on: true,
    });
  }
  return found;
}

/** The model with its drive corrected by the last static run, where there is one of this propeller. */
function withBenchRun(model: AircraftModel, stages: Stages, measured: Measured[], problems: Problem[]): AircraftModel {
  const run = recordOf(model.complete.measured, 'motor run');
  const { drive } = model;
  if (run === undefined || drive === undefined) return model;
  const bench = benchPropeller(run.propeller, model, stages);
  if (bench !== undefined && !bench.ok) {
    problems.push({ ...bench, where: 'measured: motor run: propeller' });
    return model;
  }
  const corrected = stages.run('bench run', [run, drive, bench], () => driveByRun(run, drive.drive, bench?.value));
  if (!corrected.ok) {
    problems.push(corrected);
    return model;
  }
  measured.push(corrected.value.measured);
  const benched = stages.run('corrected drive', [drive, corrected], () => ({ ...drive, drive: corrected.value.drive }));
  return { ...model, drive: benched };
}

/** The propeller of a bench run where it is named and has another size than that of the design. */
function benchPropeller(
  named: string | undefined,
  model: AircraftModel,
  stages: Stages,
): Outcome<Propeller> | undefined {
  const designed = model.complete.drive?.propeller;
  const size = named === undefined ? undefined : parsePropellerSize(named.replace(/^(folding|fixed)\s+/, ''));
  if (size === undefined || designed === undefined) return undefined;
  if (!size.ok) {
    return problem({
      code: 'bench-propeller',
      reason: `the propeller of the motor run is written "${named}"`,
      where: 'measured: motor run: propeller',
      remedy: 'write its size, as in "10x6 in"',
    });
  }
  const same = Math.abs(size.diameter - designed.diameter) < 1e-3 && Math.abs(size.pitch - designed.pitch) < 1e-3;
  if (same) return undefined;
  return stages.run('bench propeller', [size.diameter, size.pitch], () =>
    assemblePropeller({ diameter: size.diameter, pitch: size.pitch, blades: 2, folding: false, mass: designed.mass }),
  );
}

function flightConditions(
  model: AircraftModel,
  plan: CompletePlan,
  air: FlightConditions['air'],
  loads: readonly Load[],
): FlightConditions {
  const { flight } = model.complete;
  const airspeed = plan.airspeed?.value ?? (flight.airspeed === 'least power' ? undefined : flight.airspeed.value);
  const bank = plan.bank?.value ?? flight.bank?.value ?? 0;
  return {
    air,
    bank,
    ...(flight.circleRadius === undefined || plan.bank !== undefined
      ? {}
      : { circleRadius: flight.circleRadius.value }),
    ...(airspeed === undefined ? {} : { airspeed }),
    stallFactor: flight.stallFactor.value,
    busVoltage: busVoltageOf(model),
    steadyLoads: steadyLoadPower(loads),
  };
}

/** Bus voltage: of the battery at half charge; without one, of the strings at their best in full sun. */
function busVoltageOf(model: AircraftModel): number {
  if (model.battery.nominalVoltage > 0) return model.battery.nominalVoltage;
  const cell = model.complete.array?.cell.maximumPowerVoltage.value ?? 0.57;
  const cells = model.complete.array?.strings[0]?.cellsInSeries ?? 12;
  return cell * cells;
}

function readingFactor(
  model: AircraftModel,
  plan: CompletePlan,
  turbidity: { readonly value: number },
  measured: Measured[],
  problems: Problem[],
): { readonly value: number; readonly sigma?: number } {
  const reading = recordOf(model.complete.measured, 'array reading');
  if (reading === undefined || model.array === undefined) return { value: 1 };
  const found = arrayFactor(reading, model.array.plan, plan, turbidity);
  if (!found.ok) {
    problems.push(found);
    return { value: 1 };
  }
  measured.push(found.value);
  return found.value;
}

/** Level power stated in the design, or the last one measured in flight, which holds before it. */
function knownLevelPower(aircraft: CompleteAircraft): KnownLevelPower | undefined {
  const flown = recordOf(aircraft.measured, 'level power');
  const source = flown ?? aircraft.levelPower;
  if (source === undefined) return undefined;
  const density = source.altitude === undefined ? undefined : airAt({ altitude: source.altitude.value }).density;
  return {
    power: source.power.value,
    sigma: source.power.sigma ?? 0,
    measured: flown !== undefined,
    ...(source.airspeed === undefined ? {} : { airspeed: source.airspeed.value }),
    ...(source.mass === undefined ? {} : { mass: source.mass.value }),
    ...(flown?.bank === undefined ? {} : { bank: flown.bank.value }),
    ...(density === undefined ? {} : { density }),
  };
}

/** Known over computed level power at the conditions of the known one, loads included in both. */
function levelPowerCalibration(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower | undefined,
  stages: Stages,
  measured: Measured[],
  problems: Problem[],
): number {
  if (known === undefined) return 1;
  const found = calibrationStage(model, conditions, known, stages);
  if (!found.ok) {
    problems.push(found);
    return 1;
  }
  if (known.measured) {
    const source = `${known.power.toFixed(1)} W in level flight${found.value.computed}`;
    measured.push({
      stage: 'level power',
      value: found.value.value,
      sigma: known.sigma / known.power,
      source,
      on: true,
    });
  }
  return found.value.value;
}

function calibrationStage(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower,
  stages: Stages,
): Outcome<{ value: number; computed: string }> {
  if (model.airframe === undefined) return success({ value: 1, computed: '' });
  const compute = () => calibrationOf(model, conditions, known);
  const parts = flightParts(model);
  if (parts === undefined) return compute();
  return stages.run('level power calibration', [...parts, JSON.stringify([conditions, known])], compute);
}

function calibrationOf(
  model: AircraftModel,
  conditions: FlightConditions,
  known: KnownLevelPower,
): Outcome<{ value: number; computed: string }> {
  const { circleRadius: _, ...straight } = conditions;
  const at: FlightConditions = {
    ...straight,
    bank: known.bank ?? 0,
    ...(known.airspeed === undefined ? {} : { airspeed: known.airspeed }),
  };
  const computed = flightNeed(model, at, undefined, 1, noDeviation);
  if (!computed.ok) return computed;
  const byMass = known.mass === undefined ? 1 : ((model.balance?.mass ?? known.mass) / known.mass) ** 1.5;
  const drive = Math.max(0.2 * known.power, known.power - conditions.steadyLoads);
  return success({
    value: (drive * byMass) / computed.value.drivePower,
    computed: `, ${(computed.value.drivePower + conditions.steadyLoads).toFixed(1)} W computed`,
  });
}

/** Relative uncertainty of the profile drag at a usual flight point: that of the wing's root section (errors of one section are alike everywhere). */
function profileSigma(model: AircraftModel): number {
  const { airframe } = model;
  if (airframe === undefined) return 0;
  const wing = airframe.assembled.shape.surfaces.find(({ kind }) => kind === 'wing');
  const root = airframe.assembled.sections.find(({ name }) => name === wing?.stations[0]?.section);
  return root === undefined ? 0.15 : sectionDragSpread(root.model, 0.7, wingReynolds(model));
}

/** Reynolds number on the mean chord at a usual airspeed; on 200 mm where there is no wing. */
const wingReynolds = ({ airframe }: AircraftModel): number => usualReynolds(airframe?.wing.reference.chord ?? 0.2);
