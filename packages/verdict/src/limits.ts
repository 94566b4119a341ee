import { type AssembledStructure, assumedStructure, type Stiffening, stiffenings } from '@noonwing/design';
import { type Outcome, type Problem, problem, success, type Warning } from '@noonwing/engine';
import {
  type AeroelasticWing,
  aeroelasticWing,
  type Limit,
  type LimitCondition,
  type LimitsReport,
  limitsReport,
} from '@noonwing/engine/aeroelastic';
import { standardGravity } from '@noonwing/engine/flight';
import { buildModel, type StructuralModel } from '@noonwing/engine/structure';
import { wingDerivatives } from '@noonwing/engine/wing';
import { type AirframeModel, wingOptions } from './aircraft.js';
import { type Slices, whole } from './slices.js';
import type { Stages } from './stages.js';
import { byStiffnessRecords, type StiffnessReading } from './stiffness-records.js';
import type { Verdict } from './verdict.js';

/** How fast an aircraft may fly, with the structure that says so. */
export interface LimitsAnswer {
  readonly report: LimitsReport;
  readonly structure: AssembledStructure;
  readonly model: StructuralModel;
  /** What load tests, taps and bent strips said of its stiffness. */
  readonly readings: readonly StiffnessReading[];
  /** Airspeed flown that margins refer to [m/s]. */
  readonly airspeed: number;
}

/** Lattice in steady and oscillating flow: remembered by the shape alone. */
export function aeroelasticWingOf({ assembled, aircraft, wing }: AirframeModel, stages: Stages): AeroelasticWing {
  return stages.run('aeroelastic wing', [assembled], () => {
    const { sections } = aircraft;
    const moment = (name: string) => sections[name]!.momentCoefficient;
    return aeroelasticWing(assembled.shape.surfaces, wingOptions(assembled), wing.reference, ({ strips }) =>
      Float64Array.from({ length: strips.count }, (_, s) => {
        const inner = moment(strips.sections[s]!);
        return inner + strips.blend[s]! * (moment(strips.outerSections[s]!) - inner);
      }),
    );
  });
}

/** Corners of the largest surface's mesh: a finer one changes limits by 1 or 2 % and takes longer (docs/aeroelastic-convergence.md). */
const mesh = { corners: 70 };

/** What the limits ask of flight; undefined where the aircraft cannot fly level. */
export function limitCondition({ prepared, flight }: Verdict): LimitCondition | undefined {
  const { airframe, balance } = prepared.model;
  const chosen = flight?.chosen;
  if (airframe === undefined || balance === undefined || chosen === undefined) return undefined;
  const { wing, aircraft } = airframe;
  const { area, chord } = wing.reference;
  const { density } = prepared.conditions.air;
  const weight = balance.mass * standardGravity;
  const { forces } = chosen.flight.trim;
  const lift = forces.liftCoefficient;
  const rolling = wing.controls.filter(({ kind }) => kind === 'aileron' || kind === 'elevon' || kind === 'ruddervator');
  return {
    trim: {
      weight,
      balancePoint: balance.x,
      pitchControls: aircraft.pitchControls,
      chord,
      bodyMoment: wing.bodyMomentSlope * area * chord,
    },
    rollControls: rolling.map(({ name }) => name),
    controlRange: aircraft.controlRange,
    marginOffset: 0,
    density,
    stallSpeed: chosen.stallSpeed,
    airspeed: flight!.airspeed,
    area,
    liftSlope: wingDerivatives(wing, { x: balance.x }).alpha.lift,
    maximumLift: (2 * weight) / (density * chosen.stallSpeed ** 2 * area),
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
  reason: 'limits need an aircraft that is described and can fly level',
  where: 'design',
  remedy: 'describe surfaces, masses and drive, and bring it into balance first',
});

const withStrength = (condition: LimitCondition, { strength }: AssembledStructure): LimitCondition =>
  strength === undefined ? condition : { ...condition, strength };

/**
 * The stage `limits`: every airspeed above which structure and air together end flight. It takes about a second, so that a verdict does not
 * wait for it: it is asked for by itself, and remembers lattice, structure and answer apart. A change of stiffness or mass solves no lattice.
 */
export const limits = (of: Verdict, stages: Stages): Outcome<LimitsAnswer> => whole(limitSlices(of, stages));

/** The same with a look at what is wanted between its parts. */
export function* limitSlices(of: Verdict, stages: Stages): Slices<Outcome<LimitsAnswer>> {
  const { model } = of.prepared;
  const condition = limitCondition(of);
  if (condition === undefined || model.airframe === undefined) return notFlying;
  const { complete, masses, airframe } = model;
  const { assembled } = airframe;
  const weight = condition.trim.weight;
  const { measured } = complete;
  const parts = [
    measured,
    complete.surfaces,
    complete.bodies,
    complete.masses,
    complete.array?.rows,
    masses,
    assembled,
    weight,
  ];
  const made = stages.run('structure', parts, () => assumedStructure(complete, assembled, masses, weight));
  if (!made.ok) return made;
  const described = made.value;
  if (described === undefined) return notFlying;
  yield 0.05;
  const first = stages.run('structural model', [described], () => buildModel(described.half, mesh));
  if (!first.ok) return first;
  yield 0.1;
  const { structure, readings } = stages.run('stiffness records', [described, first, measured], () =>
    byStiffnessRecords(described, first.value, measured),
  );
  const built =
    structure === described
      ? first
      : stages.run('structural model', [structure], () => buildModel(structure.half, mesh));
  if (!built.ok) return built;
  yield 0.15;
  const wing = aeroelasticWingOf(airframe, stages);
  yield 0.3;
  const report = stages.run('limits', [wing, built, structure, JSON.stringify(condition)], () =>
    limitsReport(wing, built.value, withStrength(condition, structure), { stiffness: structure.stiffnessSigma }),
  );
  if (!report.ok) return report;
  return success({ report: report.value, structure, model: built.value, readings, airspeed: condition.airspeed });
}

/** A change of structure and the limit that comes first with it. */
export interface LimitChange {
  readonly name: string;
  /** Of the whole aircraft [kg]. */
  readonly mass: number;
  /** Lower edge with the change [m/s]; that of the end of the search where no limit is left. */
  readonly limitSpeed: number;
  readonly first: Limit | undefined;
  /** Rise of the limit speed for each gram [m/s per g]. */
  readonly perGram: number;
}

/**
 * What would raise the limit speed, the most for its mass first; strength is taken as it is without the change. Solves every change anew, about a third of a second each; the lattice is remembered.
 */
export const limitChanges = (of: Verdict, answer: LimitsAnswer, stages: Stages): readonly LimitChange[] =>
  whole(limitChangeSlices(of, answer, stages));

/** The same with a look at what is wanted between the changes. */
export function* limitChangeSlices(of: Verdict, answer: LimitsAnswer, stages: Stages): Slices<readonly LimitChange[]> {
  const condition = limitCondition(of);
  const { airframe } = of.prepared.model;
  if (condition === undefined || airframe === undefined) return [];
  const { structure } = answer;
  const wing = aeroelasticWingOf(airframe, stages);
  const tried = stages.run('stiffenings', [structure], () => stiffenings(structure));
  const found: LimitChange[] = [];
  for (const [i, change] of tried.entries()) {
    const one = stages.run(`stiffening ${i + 1}`, [change, answer.report, wing, JSON.stringify(condition)], () =>
      limitChange(change, wing, condition, answer),
    );
    if (one !== undefined) found.push(one);
    yield (i + 1) / tried.length;
  }
  return found.toSorted((a, b) => b.perGram - a.perGram);
}

/** The first limit of a changed structure; undefined where the change cannot be modelled. */
function limitChange(
  { name, structure, mass }: Stiffening,
  wing: AeroelasticWing,
  condition: LimitCondition,
  { report: now, structure: unchanged }: LimitsAnswer,
): LimitChange | undefined {
  const built = buildModel(structure.half, mesh);
  if (!built.ok) return undefined;
  const weight = condition.trim.weight + mass * standardGravity;
  const heavier = withStrength({ ...condition, trim: { ...condition.trim, weight } }, structure);
  const spread = { stiffness: unchanged.stiffnessSigma };
  const report = limitsReport(wing, built.value, heavier, spread, { brief: true, kept: 10 });
  if (!report.ok) return undefined;
  const edge = (limits: readonly Limit[]) => limits[0]?.low ?? now.searchedTo;
  const limitSpeed = edge(report.value.limits);
  const [first] = report.value.limits;
  return { name, mass, limitSpeed, first, perGram: (limitSpeed - edge(now.limits)) / (1000 * mass) };
}

/** Least ratio of limit speed to the airspeed flown that passes without a word (common practice: a fifth for gusts and errors). */
const leastMargin = 1.2;

/** What a verdict says of the limits: that the airspeed flown is above or close to the first of them. */
export function limitWarnings({ report, airspeed, structure }: LimitsAnswer): readonly Warning[] {
  const first = report.limits[0];
  if (first === undefined || first.low >= leastMargin * airspeed) return [];
  const above = first.low < airspeed ? 'above' : 'close to';
  const basis = structure.assumed.length > 0 ? ' (its structure is assumed)' : '';
  return [
    {
      code: 'limit-speed',
      message: `flown at ${airspeed.toFixed(1)} m/s, ${above} its limit speed of ${first.low.toFixed(1)} m/s${basis}: ${first.words}`,
      where: 'structure',
    },
  ];
}
