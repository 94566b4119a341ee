import { type AssembledShape, type AssembledStructure, assumedStructure, warmAssembled } from '@noonwing/design';
import { type Outcome, type Problem, problem, success, type Warning } from '@noonwing/engine';
import {
  type AeroelasticWing,
  aeroelasticWing,
  type Limit,
  type LimitCondition,
  type LimitsReport,
  limitsReport,
  type PitchLayers,
  type SteadyWing,
  steadyDiveSpeed,
  steadyWing,
} from '@noonwing/engine/aeroelastic';
import type { Air } from '@noonwing/engine/air';
import {
  chooseFlight,
  type PowerForThrust,
  standardGravity,
  type ThrustPower,
  type Trim,
} from '@noonwing/engine/flight';
import { controlEfficiency } from '@noonwing/engine/section';
import { type FaceTemperatures, type JointReport, jointReport, type StructuralModel } from '@noonwing/engine/structure';
import { type ModelControl, wingDerivatives } from '@noonwing/engine/wing';
import { type AircraftModel, type AirframeModel, wingOptions } from './aircraft.js';
import { noDeviation } from './deviations.js';
import { heldSpeedFindings, type KnownLimit, type LimitFlight } from './held-speed.js';
import { type LaunchLoad, type LineAnswer, launchLoad, lineAnswer } from './launch.js';
import { type Flown, limitModel, withStrength } from './limit-model.js';
import type { ToldDive } from './limit-words.js';
import { flightSetup } from './need.js';
import { type Slices, whole } from './slices.js';
import type { Stages } from './stages.js';
import { byStiffnessRecords, needsModel, type StiffnessReading } from './stiffness-records.js';
import { sunlitFaces, type WarmLimits, warmLimits } from './warm-limits.js';

export type { Flown };

/** How fast an aircraft may fly, with the structure that says so. */
export interface LimitsAnswer {
  readonly report: LimitsReport;
  readonly structure: AssembledStructure;
  readonly model: StructuralModel;
  /** What load tests, taps and bent strips said of its stiffness. */
  readonly readings: readonly StiffnessReading[];
  /** Airspeed flown that margins refer to [m/s]. */
  readonly airspeed: number;
  /** The flight that is flown, or wanted where the drive cannot hold it. */
  readonly flight: LimitFlight;
  /** Thrown by hand; absent where the wing is not described. */
  readonly launch: LaunchLoad | undefined;
  /** Launched on a line. */
  readonly line: LineAnswer;
  /** The aircraft cannot fly level as it is: limits were looked for without its drive, or above its stall. */
  readonly undriven: boolean;
  /** The same in the noon sun of the day; absent where no cell lies on it or nothing softens. */
  readonly warm?: WarmLimits;
}

/** Lattice in steady flow: remembered by the shape alone. */
function steadyWingOf({ assembled, aircraft, wing }: AirframeModel, stages: Stages): SteadyWing {
  return stages.run('steady elastic wing', [assembled], () => {
    const { sections } = aircraft;
    const moment = (name: string) => sections[name]!.momentCoefficient;
    return steadyWing(assembled.shape.surfaces, wingOptions(assembled), wing.reference, ({ strips }) =>
      Float64Array.from({ length: strips.count }, (_, s) => {
        const inner = moment(strips.sections[s]!);
        return inner + strips.blend[s]! * (moment(strips.outerSections[s]!) - inner);
      }),
    );
  });
}

/** Lattice in steady and oscillating flow: remembered by the shape alone. */
export function aeroelasticWingOf(airframe: AirframeModel, stages: Stages): AeroelasticWing {
  const steady = steadyWingOf(airframe, stages);
  return stages.run('aeroelastic wing', [steady], () => aeroelasticWing(steady));
}

/** Any thrust for the work that it does on the air. */
const anyThrust: PowerForThrust<ThrustPower> = ({ thrust, airspeed }) => success({ electricPower: thrust * airspeed });

/**
 * The flight that limits refer to: that of the verdict; where the drive cannot hold it the same without asking the drive, for a dive or a line
 * gets there too. Undefined where the wing itself does not carry or cannot be trimmed.
 */
function limitFlight({ prepared, flight }: Flown): LimitFlight | undefined {
  if (flight !== undefined) return flight;
  const { model, conditions } = prepared;
  if (model.airframe === undefined || model.balance === undefined || model.drive === undefined) return undefined;
  const { airframe, condition } = flightSetup(model, conditions, conditions.bank, noDeviation);
  const { stallFactor, airspeed } = conditions;
  const at = (rule: { readonly stated?: number }) =>
    chooseFlight(airframe, condition, anyThrust, { stallFactor, ...rule });
  const wanted = at(airspeed === undefined ? {} : { stated: airspeed });
  // A stated airspeed below the stall still leaves limits above it.
  const chosen = wanted.ok ? wanted : at({});
  return chosen.ok ? { airspeed: chosen.value.flight.trim.airspeed, chosen: chosen.value } : undefined;
}

/** What the limits ask of flight; undefined where the aircraft cannot be trimmed above its stall. */
export const limitCondition = (of: Flown): LimitCondition | undefined => conditionAt(of, limitFlight(of)?.chosen);

/** Boundary layers of a pitch control as the limits take them: its loss and what that is uncertain by are those of the flight. */
function pitchLayersOf(
  control: ModelControl,
  { density, kinematicViscosity }: Pick<Air, 'density' | 'kinematicViscosity'>,
  { airspeed, control: deflection }: Pick<Trim, 'airspeed' | 'control'>,
): PitchLayers {
  const { chord, layerAhead, turning } = control;
  const reynolds = (airspeed * chord) / kinematicViscosity;
  const { value, spread } = controlEfficiency(control, { reynolds, deflection, gap: 0 });
  const layers = { chord, layerAhead, density, kinematicViscosity, spread: spread / value };
  return turning === undefined ? layers : { ...layers, turning };
}

function conditionAt({ prepared }: Flown, chosen: LimitFlight['chosen']): LimitCondition | undefined {
  const { airframe, balance, complete } = prepared.model;
  if (airframe === undefined || balance === undefined || chosen === undefined) return undefined;
  const { wing, aircraft } = airframe;
  const { area, chord } = wing.reference;
  const { density } = prepared.conditions.air;
  const weight = balance.mass * standardGravity;
  const { forces } = chosen.flight.trim;
  const lift = forces.liftCoefficient;
  const held = complete.surfaces.find(({ controls, structure }) =>
    structure === undefined ? false : controls.some(({ name }) => aircraft.pitchControls.includes(name)),
  )?.structure;
  const pitching = wing.controls.find(({ name }) => aircraft.pitchControls.includes(name));
  const rolling = wing.controls.filter(({ kind }) => kind === 'aileron' || kind === 'elevon' || kind === 'ruddervator');
  return {
    trim: {
      weight,
      balancePoint: balance.x,
      pitchControls: aircraft.pitchControls,
      chord,
      bodyMoment: wing.bodyMomentSlope * area * chord,
      ...(pitching === undefined
        ? {}
        : { pitchLayers: pitchLayersOf(pitching, prepared.conditions.air, chosen.flight.trim) }),
    },
    rollControls: rolling.map(({ name }) => name),
    controlRange: aircraft.controlRange,
    marginOffset: 0,
    density,
    // One servo on each side.
    ...(held?.servoTorque === undefined ? {} : { holdingTorque: 2 * held.servoTorque.value }),
    ...(held?.linkageSlop === undefined ? {} : { linkageSlop: held.linkageSlop.value }),
    stallSpeed: chosen.stallSpeed,
    // Before any limit holds it: the limits then do not depend on what they do to the flight.
    airspeed: chosen.wanted,
    area,
    liftSlope: wingDerivatives(wing, { x: balance.x }).alpha.lift,
    maximumLift: (2 * weight) / (density * chosen.stallSpeed ** 2 * area),
    profileDrag: forces.profileDragCoefficient,
    dive: {
      mass: balance.mass,
      area,
      density,
      zeroLiftDrag: forces.profileDragCoefficient + forces.parasiteDragCoefficient,
      inducedFactor: lift > 0 ? forces.inducedDragCoefficient / (lift * lift) : 0,
    },
  };
}

const notFlying: Problem = problem({
  code: 'limits-flight',
  reason: 'limits need an aircraft that is described and can be trimmed above its stall',
  where: 'design',
  remedy: 'describe surfaces, masses and drive, and bring it into balance first',
});

/**
 * The stage `limits`: every airspeed above which structure and air together end flight. It takes about a second, so that a verdict does not
 * wait for it: it is asked for by itself, and remembers lattice, structure and answer apart. A change of stiffness or mass solves no lattice.
 */
export const limits = (of: Flown, stages: Stages): Outcome<LimitsAnswer> => whole(limitSlices(of, stages));

/** The same with a look at what is wanted between its parts. */
export function* limitSlices(of: Flown, stages: Stages): Slices<Outcome<LimitsAnswer>> {
  const put = yield* structureOf(of, stages);
  if (!put.ok) return put;
  const { condition, structure, model, readings, airframe, flight } = put.value;
  const wing = aeroelasticWingOf(airframe, stages);
  yield 0.3;
  const report = stages.run('limits', [wing, model, structure, JSON.stringify(condition)], () =>
    limitsReport(wing, model, withStrength(condition, structure), { stiffness: structure.stiffnessSigma }),
  );
  if (!report.ok) return report;
  const { airspeed } = flight;
  const undriven = of.flight === undefined;
  const { stallSpeed } = condition;
  const launch = launchLoad(structure, stallSpeed);
  const { complete, balance } = of.prepared.model;
  // Without a balance there is no condition, and no limits.
  const line = lineAnswer({ complete, balance: balance!, report: report.value, stallSpeed, thrown: launch });
  const warm = yield* warmLimits(of, wing, { structure, condition, airspeed }, stages);
  return success({
    ...{ report: report.value, structure, model, readings, airspeed, flight, undriven, launch, line },
    ...(warm === undefined ? {} : { warm }),
  });
}

/**
 * The limit speed as a plain day needs it, without a lattice in oscillating flow: divergence, reversal, trim and strength, not flutter, in a
 * third of the time. Where the sun softens the structure it is solved as warm as it flies at noon, once and not cold too.
 * Undefined where none is found or none can be computed.
 */
export function steadyLimit(of: Flown, stages: Stages): KnownLimit | undefined {
  const put = whole(structureOf(of, stages, { inSun: true }));
  if (!put.ok) return undefined;
  const { condition, structure, model, airframe, faces } = put.value;
  const wing = steadyWingOf(airframe, stages);
  const heated = faces === undefined ? condition : { ...condition, topWarmer: faces.upper - faces.lower };
  const report = stages.run('steady limits', [wing, model, structure, JSON.stringify(heated)], () =>
    limitsReport(
      wing,
      model,
      withStrength(heated, structure),
      { stiffness: structure.stiffnessSigma },
      { brief: true },
    ),
  );
  return report.ok ? limitTold(report.value.limits[0], structure, faces?.upper, 'flutter') : undefined;
}

interface StructureOfFlight {
  readonly flight: LimitFlight;
  readonly condition: LimitCondition;
  readonly airframe: AirframeModel;
  readonly structure: AssembledStructure;
  readonly model: StructuralModel;
  readonly readings: readonly StiffnessReading[];
  /** Where it is as warm as the noon sun makes it. */
  readonly faces?: FaceTemperatures;
}

/** The structure of a verdict as its design has it; as warm as given where temperatures of its faces are. */
function describedBy({ complete, masses }: AircraftModel, assembled: AssembledShape, weight: number, stages: Stages) {
  const { measured, surfaces, bodies, array } = complete;
  const parts = [measured, surfaces, bodies, complete.masses, array?.rows, array?.cell, masses, assembled, weight];
  return (faces?: FaceTemperatures): Outcome<AssembledStructure> => {
    const name = faces === undefined ? 'structure' : 'structure in the sun';
    const made = stages.run(name, [...parts, JSON.stringify(faces)], () =>
      assumedStructure(complete, assembled, masses, weight, faces),
    );
    return !made.ok ? made : made.value === undefined ? notFlying : success(made.value);
  };
}

/** The structure that limits rest on, corrected by what was read of it; as warm as in flight at noon where that is asked for. */
function* structureOf(
  of: Flown,
  stages: Stages,
  { inSun = false }: { readonly inSun?: boolean } = {},
): Slices<Outcome<StructureOfFlight>> {
  const { model } = of.prepared;
  const flight = limitFlight(of);
  const condition = conditionAt(of, flight?.chosen);
  if (flight === undefined || condition === undefined || model.airframe === undefined) return notFlying;
  const { airframe, complete } = model;
  const structureAt = describedBy(model, airframe.assembled, condition.trim.weight, stages);
  const faces = inSun ? sunlitFaces(of, flight.airspeed)?.flight : undefined;
  const read = needsModel(complete.measured);
  // What was read on the bench was read in the cool: the model that it corrects is cold.
  const described = structureAt(read ? undefined : faces);
  if (!described.ok) return described;
  yield 0.05;
  const first = stages.run('structural model', [described.value], () => limitModel(described.value));
  if (!first.ok) return first;
  yield 0.1;
  const { structure: tested, readings } = stages.run(
    'stiffness records',
    [described.value, first, complete.measured],
    () => byStiffnessRecords(described.value, first.value, complete.measured),
  );
  const structure =
    read && faces !== undefined
      ? stages.run('warm structure', [tested, JSON.stringify(faces)], () => warmAssembled(tested, faces).structure)
      : tested;
  const built =
    structure === described.value ? first : stages.run('structural model', [structure], () => limitModel(structure));
  if (!built.ok) return built;
  yield 0.15;
  return success({
    ...{ flight, condition, airframe, structure, model: built.value, readings },
    ...(faces === undefined ? {} : { faces }),
  });
}

/** The limit that comes first, as a verdict takes it: quoted in whole tenths of m/s, rounded down. Undefined where none was found. */
function limitTold(
  first: Limit | undefined,
  { assumed }: AssembledStructure,
  warmTop?: number,
  without?: string,
): KnownLimit | undefined {
  if (first === undefined) return undefined;
  return {
    airspeed: Math.floor(10 * first.low) / 10,
    words: first.words,
    assumed: assumed.length > 0,
    ...(warmTop === undefined ? {} : { warmTop }),
    ...(without === undefined ? {} : { without }),
  };
}

/** The limit that a verdict holds its airspeed below: the lower of the cold aircraft's and of that which the noon sun has warmed in flight. */
export function knownLimit({
  report,
  structure,
  warm,
}: Pick<LimitsAnswer, 'report' | 'structure' | 'warm'>): KnownLimit | undefined {
  const [cold] = report.limits;
  const hot = warm?.flight.first;
  const isWarm = hot !== undefined && (cold === undefined || hot.low < cold.low);
  return isWarm ? limitTold(hot, structure, warm?.flight.faces.upper) : limitTold(cold, structure);
}

/** Level power of the bent aircraft over that of the stiff one, drive and profile drag as they were; undefined where it is not known. */
export function bentPower({ report, flight }: Pick<LimitsAnswer, 'report' | 'flight'>): number | undefined {
  const forces = flight.chosen?.flight.trim.forces;
  if (report.bent === undefined || forces === undefined) return undefined;
  const { inducedDragCoefficient: induced, profileDragCoefficient, parasiteDragCoefficient } = forces;
  return 1 + ((report.bent.inducedDrag - 1) * induced) / (induced + profileDragCoefficient + parasiteDragCoefficient);
}

/** What a verdict says of the limits: that the airspeed flown is above, at or close to the first of them. */
export function limitWarnings(answer: LimitsAnswer): readonly Warning[] {
  const { acrossJoints, slackWires } = answer.structure;
  const joints = [
    ...acrossJoints.map((message) => ({ code: 'joint-cells', message, where: 'array.rows' })),
    ...slackWires.map((message) => ({ code: 'slack-wire', message, where: 'structure' })),
  ];
  const limit = knownLimit(answer);
  // What is not flown is not flown too fast.
  if (limit === undefined || answer.undriven) return joints;
  const { warnings, problems } = heldSpeedFindings(answer.flight, limit);
  return [...problems.map(({ code, reason, where }) => ({ code, message: reason, where })), ...warnings, ...joints];
}

/** What every joint of the described surfaces keeps and bears. */
export const jointReports = ({
  described,
}: AssembledStructure): readonly (JointReport & { readonly surface: string })[] =>
  Object.values(described).flatMap((surface) =>
    (surface.joints ?? []).map((joint) => ({ surface: surface.name, ...jointReport(surface, joint) })),
  );

/** Dives to the limit, with the airspeed at which drag holds each. aircraft - what dives are computed with, where it is known */
export const toldDives = (
  { dives }: Pick<LimitsReport, 'dives'>,
  aircraft: LimitCondition['dive'] | undefined,
): readonly ToldDive[] =>
  dives.map(({ angle, dive }) => {
    const steady = aircraft && steadyDiveSpeed(aircraft, angle);
    return { angle, ...dive, ...(steady === undefined ? {} : { steady }) };
  });
