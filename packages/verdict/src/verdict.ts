import type { CompleteAircraft, CompletePlan, SectionFiles } from '@noonwing/design';
import type { Problem, Warning } from '@noonwing/engine';
import { windAtHeight } from '@noonwing/engine/air';
import { totalDuration } from '@noonwing/engine/day';
import { heldSpeed } from '@noonwing/engine/flight';
import { type BalanceReport, balanceProblem, balanceStage } from './balance-report.js';
import { busWarnings } from './bus-watch.js';
import type { DayGrid, LightCourse, LightSetup } from './day-setup.js';
import { type GridRun, gridRun, skyRuns } from './grid-run.js';
import { heldSpeedFindings, type KnownLimit } from './held-speed.js';
import { type Interval, intervalOf, shareOf } from './interval.js';
import { type FlightNeed, needAtSpeed, needStage } from './need.js';
import { type Prepared, prepare } from './prepare.js';
import type { SkyRun } from './run.js';
import { type Slices, whole } from './slices.js';
import type { Stages } from './stages.js';
import { stringReports } from './string-report.js';
import { type TrackerOfDay, trackedDay } from './trackers.js';
import { type Deviations, deviationsAt, noDeviation, sampleDeviations, type UncertainInput } from './uncertainty.js';

/** How finely a verdict is computed. */
export interface VerdictOptions {
  /** Samples of the uncertainty; 0 for the central case alone. Default 128. */
  readonly samples?: number;
  /** Step of the central case [s], default 300. */
  readonly step?: number;
  /** Step of the samples [s], default 1200; its error is shown. */
  readonly sampleStep?: number;
  /** Every standard uncertainty times this: 0 makes all inputs exact. Default 1. */
  readonly uncertaintyFactor?: number;
  /** Whether to ask what each uncertain input contributes; default true. Without it and without samples the answer is quickest. */
  readonly contributions?: boolean;
  /** How fast the structure lets it fly: airspeeds are held below it. */
  readonly limit?: KnownLimit;
  /** Told the share of the samples done. */
  readonly onProgress?: (share: number) => void;
}

/** The day under one sky, with its uncertainty. */
export interface SkyVerdict {
  readonly run: SkyRun;
  /** Share of samples in which sunlight carries level flight at some time of the first day. */
  readonly confidence: number;
  /** Start and end of the longest window of the first day [s, Unix]; absent where there is none. */
  readonly start?: Interval;
  readonly end?: Interval;
  /** Time carried on the first day [s]. */
  readonly carried: Interval;
  /** From launch to empty [s]; `horizon` stands where it is not empty by then. */
  readonly endurance: Interval;
  /** Share of samples that are still flying at the end of the days computed. */
  readonly lasts: number;
  readonly lowestCharge: Interval;
  readonly leftAtDawn?: Interval;
  readonly fullBeforeDusk: Interval;
  readonly bestRatio: Interval;
}

/** What each uncertain input contributes, most important first. */
export interface Contribution {
  readonly input: UncertainInput;
  /** Change of the mean solar ratio under the first sky by one standard uncertainty, relative. */
  readonly effect: number;
  /** Share of the variance of the solar ratio, 0 to 1. */
  readonly share: number;
}

/** One design on one day: everything that a builder asks. */
export interface Verdict {
  readonly prepared: Prepared;
  readonly flight: FlightNeed | undefined;
  readonly balance: BalanceReport | undefined;
  /** Level power from the battery terminals, loads included [W]. */
  readonly levelPower: Interval | undefined;
  readonly skies: readonly SkyVerdict[];
  readonly contributions: readonly Contribution[];
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
  readonly samples: number;
  readonly grid: DayGrid;
  readonly light: LightSetup | undefined;
  readonly courses: readonly (LightCourse | undefined)[];
  /** Relative difference of the time carried between the steps of samples and central case. */
  readonly sampleStepError: number;
  /** What trackers find in the turns flown, where their method is stated. */
  readonly trackers: readonly TrackerOfDay[];
  /** How fast the structure lets it fly, where that was known. */
  readonly limit?: KnownLimit;
}

/**
 * The verdict of a design on a day.
 * @param files - texts of coordinate files by name
 * @param stages - memory of stages; a fresh one computes everything
 */
export const verdict = (
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionFiles,
  stages: Stages,
  options: VerdictOptions = {},
): Verdict => whole(verdictSlices(aircraft, plan, files, stages, options), options.onProgress);

/** The same in slices: the central case, then every sample and every contribution. */
export function* verdictSlices(
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionFiles,
  stages: Stages,
  options: Omit<VerdictOptions, 'onProgress'> = {},
): Slices<Verdict> {
  const { step = 300, sampleStep = 1200, samples = 128, uncertaintyFactor = 1 } = options;
  const ask = options.contributions ?? true;
  const free = prepare(aircraft, plan, files, stages);
  const { limit } = options;
  const untracked =
    limit === undefined ? free : { ...free, conditions: { ...free.conditions, limitSpeed: limit.airspeed } };
  const scaled = untracked.inputs.map((input) => ({ ...input, sigma: input.sigma * uncertaintyFactor }));
  const problems: Problem[] = [...untracked.problems];
  const warnings: Warning[] = [...untracked.warnings];
  const { model, conditions } = untracked;
  const flown = needStage(model, conditions, untracked.known, untracked.calibration, stages);
  if (!flown.ok) problems.push(flown);
  else warnings.push(...flown.warnings);
  const flight = flown.ok ? flown.value : undefined;
  if (flight !== undefined && limit !== undefined) {
    const held = heldSpeedFindings(flight, limit);
    problems.push(...held.problems);
    warnings.push(...held.warnings);
  }
  const tracked = flight === undefined ? undefined : trackedDay(untracked, flight, stages);
  const prepared = tracked?.prepared ?? untracked;
  warnings.push(...(tracked?.warnings ?? []));
  const balance = balanceStage(model, conditions, flight, stages);
  const unstable = balanceProblem(balance);
  if (unstable !== undefined) problems.push(unstable);
  else if (balance?.problem !== undefined) warnings.push(warningOf(balance.problem));
  for (const { fit } of stringReports(model, dayTemperatures(plan))) if (!fit.ok) problems.push(fit);
  if (flight !== undefined) warnings.push(...windWarnings(prepared, flight));
  const fine = gridRun(prepared, flight, step, stages);
  const central = flight === undefined ? [] : skyRuns(prepared, fine, flight, noDeviation);
  warnings.push(...batteryWarnings(central), ...busWarnings(prepared, fine.grid, central[0]));
  const unsure = flight !== undefined && (samples > 0 || ask);
  const coarse = unsure ? gridRun(prepared, flight, sampleStep, stages) : fine;
  const drawn = flight === undefined ? [] : yield* sampled(prepared, coarse, flight, scaled, samples);
  const coarseCentral = unsure ? skyRuns(prepared, coarse, flight, noDeviation) : central;
  const asked =
    flight === undefined || !ask ? [] : yield* contributions(prepared, coarse, flight, scaled, coarseCentral);
  return {
    prepared,
    flight,
    balance,
    levelPower: flight === undefined ? undefined : levelPowerInterval(prepared, flight, drawn),
    skies: central.map((run, i) =>
      skyVerdict(
        run,
        coarseCentral[i]!,
        drawn.map(({ runs }) => runs[i]!),
      ),
    ),
    contributions: asked,
    problems,
    warnings,
    samples: drawn.length,
    grid: fine.grid,
    light: fine.light,
    courses: fine.courses,
    sampleStepError: stepError(central, coarseCentral),
    trackers: tracked?.trackers ?? [],
    ...(limit === undefined ? {} : { limit }),
  };
}

const warningOf = ({ code, reason, remedy, where }: Problem): Warning => ({
  code,
  message: `${reason}; ${remedy}`,
  where,
});

/** Open farmland; the flight height is above the surface layer's roughness in any case (common practice). */
const windRoughness = 0.03;
/** Mean wind at height above this share of the airspeed leaves too little to come home against gusts (from memory, field practice). */
const windShare = 0.55;

function windWarnings({ plan }: Prepared, { airspeed }: FlightNeed): readonly Warning[] {
  const height = Math.max(plan.height.value, 10);
  const wind = windAtHeight({
    height,
    referenceSpeed: plan.wind.speed.value,
    law: { kind: 'logarithmic', roughness: windRoughness },
  });
  const gusts = plan.wind.gusts?.value ?? 0;
  if (wind <= windShare * airspeed && gusts <= airspeed) return [];
  const gusting = gusts > 0 ? `, gusts ${gusts.toFixed(1)} m/s` : '';
  return [
    {
      code: 'wind',
      message: `wind of about ${wind.toFixed(1)} m/s at ${height.toFixed(0)} m${gusting} against an airspeed of ${airspeed.toFixed(1)} m/s: coming home upwind is doubtful`,
      where: 'day plan: wind',
    },
  ];
}

/** Charge above which a battery that gives up was too weak rather than empty. */
const weakAbove = 0.3;
/** Endurance below which a battery was flattened at once [s]. */
const atOnce = 600;

/** A battery that gives up at once, or although it is charged: its cells or leads are too weak for the motor. */
function batteryWarnings([first]: readonly SkyRun[]): readonly Warning[] {
  if (first === undefined) return [];
  const { emptyAt, emptyBecause } = first.course;
  const { lowestCharge: left, endurance = Number.MAX_VALUE } = first.figures;
  if (emptyAt === undefined || emptyBecause === 'no battery' || (left < weakAbove && endurance > atOnce)) return [];
  return [
    {
      code: 'battery-gives-up',
      message: `the battery gives up ${(endurance / 60).toFixed(0)} min after launch with ${(100 * left).toFixed(0)} % of its charge left (limit: ${emptyBecause}): more cells in parallel, or cells of less resistance`,
      where: 'battery',
    },
  ];
}

const dayTemperatures = (plan: CompletePlan) => ({
  coldest: plan.nightTemperature.value,
  hottest: plan.temperature.value,
});

/** One sample of everything that is uncertain. */
export interface Sample {
  /** Loads included [W]; undefined where level flight is not possible under these deviations. */
  readonly levelPower: number | undefined;
  /** Under each sky. */
  readonly runs: readonly SkyRun[];
}

/** One sample of a verdict at the steps of its central case, for deviations of one's own. */
export function runSample(of: Verdict, deviations: Deviations): Sample | undefined {
  const { prepared, flight, grid, light, courses } = of;
  if (flight === undefined) return undefined;
  return sampleAt(prepared, { grid, light, courses, maxima: courses.map(() => undefined) }, flight, deviations);
}

function* sampled(
  prepared: Prepared,
  at: GridRun,
  flight: FlightNeed,
  inputs: readonly UncertainInput[],
  count: number,
): Slices<readonly Sample[]> {
  const samples: Sample[] = [];
  for (const [i, deviations] of sampleDeviations(inputs, count).entries()) {
    samples.push(sampleAt(prepared, at, flight, deviations));
    yield (i + 1) / count;
  }
  return samples;
}

/** One sample: the flight solved again at the speed that suits its mass, then every sky. */
function sampleAt(prepared: Prepared, at: GridRun, flight: FlightNeed, deviations: Deviations): Sample {
  const need = deviatedNeed(prepared, flight, deviations);
  return {
    levelPower: need === undefined ? undefined : need.drivePower + deviations.loads * prepared.conditions.steadyLoads,
    runs: skyRuns(prepared, at, need ?? { ...flight, drivePower: outOfReach }, deviations),
  };
}

/** Drive power of a sample that cannot fly [W]: more than any income. */
const outOfReach = 1e6;

/**
 * Need of a sample. A pilot flies the speed that suits the mass: the central speed scaled with the root of the mass,
 * unless a speed is stated, and held below the limit of the structure. Undefined where the sample cannot fly.
 */
function deviatedNeed(prepared: Prepared, flight: FlightNeed, deviations: Deviations): FlightNeed | undefined {
  const { model, conditions, known } = prepared;
  const mass = model.balance?.mass;
  const faster = mass === undefined ? 1 : Math.sqrt(Math.max(0.3, 1 + deviations.mass / mass));
  const { wanted = flight.airspeed, stallSpeed = 0 } = flight.chosen ?? {};
  const floor = conditions.stallFactor * stallSpeed * faster;
  const airspeed = heldSpeed(conditions.airspeed ?? wanted * faster, floor, conditions.limitSpeed);
  const need = needAtSpeed(model, conditions, known, flight, airspeed, deviations);
  return need.ok ? need.value : undefined;
}

function levelPowerInterval(prepared: Prepared, flight: FlightNeed, samples: readonly Sample[]): Interval {
  const central = flight.drivePower + prepared.conditions.steadyLoads;
  return intervalOf(
    central,
    samples.flatMap(({ levelPower }) => (levelPower === undefined ? [] : [levelPower])),
  );
}

const flies = (run: SkyRun): boolean => run.figures.longest !== undefined;

/**
 * Figures of one sky with their intervals. Samples run at coarser steps than the central case: what the step alone does
 * to the central case is taken off every sample, so that intervals hold the uncertainty and nothing else.
 */
function skyVerdict(run: SkyRun, coarse: SkyRun, samples: readonly SkyRun[]): SkyVerdict {
  const { figures } = run;
  const of = (figure: (run: SkyRun) => number | undefined, least: number, most: number): Interval => {
    const value = figure(run) ?? least;
    const shift = value - (figure(coarse) ?? value);
    const values = samples.flatMap((sample) => {
      const drawn = figure(sample);
      return drawn === undefined ? [] : [Math.min(most, Math.max(least, drawn + shift))];
    });
    return intervalOf(value, values);
  };
  const always = Number.MAX_VALUE;
  const edge = (end: 'start' | 'end') =>
    figures.longest === undefined ? {} : { [end]: of(({ figures: f }) => f.longest?.[end], -always, always) };
  return {
    run,
    confidence: samples.length === 0 ? Number(flies(run)) : shareOf(samples.map(flies)),
    ...edge('start'),
    ...edge('end'),
    carried: of(({ figures: f }) => f.carried, 0, 86400),
    endurance: of(({ figures: f }) => f.endurance ?? f.horizon, 0, figures.horizon),
    lasts:
      samples.length === 0
        ? Number(figures.endurance === undefined)
        : shareOf(samples.map(({ figures: f }) => f.endurance === undefined)),
    lowestCharge: of(({ figures: f }) => f.lowestCharge, 0, 1),
    ...(figures.leftAtDawn === undefined ? {} : { leftAtDawn: of(({ figures: f }) => f.leftAtDawn, 0, always) }),
    fullBeforeDusk: of(({ figures: f }) => f.fullBeforeDusk, 0, always),
    bestRatio: of(({ figures: f }) => f.bestRatio, 0, always),
  };
}

/** Effect of each input alone, by one standard uncertainty up and down, on the mean solar ratio under the first sky. */
function* contributions(
  prepared: Prepared,
  at: GridRun,
  flight: FlightNeed,
  inputs: readonly UncertainInput[],
  central: readonly SkyRun[],
): Slices<readonly Contribution[]> {
  const base = central[0]?.figures.solarRatio ?? 0;
  if (!(base > 0)) return [];
  const first: Prepared = { ...prepared, skies: prepared.skies.slice(0, 1) };
  const effects: { input: UncertainInput; effect: number }[] = [];
  for (const [i, input] of inputs.entries()) {
    const at1 = (z: number) => {
      const coordinates = inputs.map((_, k) => (k === i ? z : 0));
      return sampleAt(first, at, flight, deviationsAt(inputs, coordinates)).runs[0]!.figures.solarRatio;
    };
    effects.push({ input, effect: (at1(1) - at1(-1)) / (2 * base) });
    // Samples come before; what is left is little beside them.
    yield 1;
  }
  const variance = effects.reduce((sum, { effect }) => sum + effect ** 2, 0);
  return effects
    .map(({ input, effect }) => ({ input, effect, share: variance > 0 ? effect ** 2 / variance : 0 }))
    .sort((a, b) => b.share - a.share);
}

function stepError(fine: readonly SkyRun[], coarse: readonly SkyRun[]): number {
  let worst = 0;
  for (const [i, run] of fine.entries()) {
    const a = totalDuration(run.figures.windows);
    const b = totalDuration(coarse[i]!.figures.windows);
    if (a > 0) worst = Math.max(worst, Math.abs(b / a - 1));
  }
  return worst;
}
