import type { CompleteAircraft, CompletePlan, SectionSources } from '@noonwing/design';
import type { Problem, Warning } from '@noonwing/engine';
import { windAtHeight } from '@noonwing/engine/air';
import { totalDuration } from '@noonwing/engine/day';
import { type BalanceReport, balanceProblem, balanceStage } from './balance-report.js';
import { busWarnings } from './bus-watch.js';
import type { DayGrid, LightCourse, LightSetup } from './day-setup.js';
import { noDeviation } from './deviations.js';
import { type GridRun, gridRun, skyRuns } from './grid-run.js';
import { heldSpeedFindings, type KnownLimit } from './held-speed.js';
import { type Interval, intervalOf, shareOf } from './interval.js';
import { type FlightNeed, needStage } from './need.js';
import { type Prepared, prepare } from './prepare.js';
import type { SkyRun } from './run.js';
import { sectionWarnings } from './section-watch.js';
import { sharedWarnings } from './shared-watch.js';
import type { Stages } from './stages.js';
import { stringReports } from './string-report.js';
import { type TrackerOfDay, trackedDay } from './trackers.js';
import type { UncertainInput } from './uncertainty.js';

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

/** One sample of everything that is uncertain. */
export interface Sample {
  /** Loads included [W]; undefined where level flight is not possible under these deviations. */
  readonly levelPower: number | undefined;
  /** Under each sky. */
  readonly runs: readonly SkyRun[];
}

/** The central case of a design on a day: every input at its value. */
export interface CentralCase {
  readonly prepared: Prepared;
  readonly flight: FlightNeed | undefined;
  readonly balance: BalanceReport | undefined;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
  readonly at: GridRun;
  /** Under each sky; empty where it cannot fly. */
  readonly runs: readonly SkyRun[];
  readonly trackers: readonly TrackerOfDay[];
  readonly limit?: KnownLimit;
}

/** What was drawn about a central case, and the same case at the steps of the samples. */
export interface Drawn {
  readonly samples: readonly Sample[];
  readonly coarse: readonly SkyRun[];
  readonly contributions: readonly Contribution[];
}

/** How finely a central case is computed, and what is known of its structure. */
export interface CentralOptions {
  /** Step [s], default 300. */
  readonly step?: number;
  readonly limit?: KnownLimit;
}

/**
 * Computes the central case.
 * @param files - texts of coordinate files by name
 * @param stages - memory of stages; a fresh one computes everything
 */
export function centralCase(
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionSources,
  stages: Stages,
  { step = 300, limit }: CentralOptions = {},
): CentralCase {
  const free = prepare(aircraft, plan, files, stages);
  const untracked =
    limit === undefined ? free : { ...free, conditions: { ...free.conditions, limitSpeed: limit.airspeed } };
  const { model, conditions } = untracked;
  const flown = needStage(model, conditions, untracked.known, untracked.calibration, stages);
  const flight = flown.ok ? flown.value : undefined;
  const held = flight === undefined || limit === undefined ? undefined : heldSpeedFindings(flight, limit);
  const tracked = flight === undefined ? undefined : trackedDay(untracked, flight, stages);
  const prepared = tracked?.prepared ?? untracked;
  const balance = balanceStage(model, conditions, flight, stages);
  const unstable = balanceProblem(balance);
  const at = gridRun(prepared, flight, step, stages);
  const runs = flight === undefined ? [] : skyRuns(prepared, at, flight, noDeviation);
  const problems = [
    ...untracked.problems,
    ...(flown.ok ? [] : [flown]),
    ...(held?.problems ?? []),
    ...(unstable === undefined ? [] : [unstable]),
    ...stringReports(model, dayTemperatures(plan)).flatMap(({ fit }) => (fit.ok ? [] : [fit])),
  ];
  const warnings = [
    ...untracked.warnings,
    ...(flown.ok ? flown.warnings : []),
    ...(held?.warnings ?? []),
    ...(tracked?.warnings ?? []),
    ...sectionWarnings(prepared, flight, stages),
    ...(unstable === undefined && balance?.problem !== undefined ? [warningOf(balance.problem)] : []),
    ...(flight === undefined ? [] : windWarnings(prepared, flight)),
    ...batteryWarnings(runs),
    ...busWarnings(prepared, at.grid, runs[0]),
    ...sharedWarnings(prepared, runs[0]),
  ];
  const trackers = tracked?.trackers ?? [];
  return {
    prepared,
    flight,
    balance,
    problems,
    warnings,
    at,
    runs,
    trackers,
    ...(limit === undefined ? {} : { limit }),
  };
}

/** The verdict of a central case with what was drawn about it. */
export function verdictOf(central: CentralCase, { samples, coarse, contributions }: Drawn): Verdict {
  const { at, runs, ...kept } = central;
  const { prepared, flight } = kept;
  return {
    ...kept,
    levelPower: flight === undefined ? undefined : levelPowerInterval(prepared, flight, samples),
    skies: runs.map((run, i) =>
      skyVerdict(
        run,
        coarse[i]!,
        samples.map((sample) => sample.runs[i]!),
      ),
    ),
    contributions,
    samples: samples.length,
    grid: at.grid,
    light: at.light,
    courses: at.courses,
    sampleStepError: stepError(runs, coarse),
  };
}

/** The verdict of the central case alone, for which nothing uncertain is drawn: the quickest answer. */
export function centralVerdict(
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionSources,
  stages: Stages,
  options: CentralOptions = {},
): Verdict {
  const central = centralCase(aircraft, plan, files, stages, options);
  return verdictOf(central, { samples: [], coarse: central.runs, contributions: [] });
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

function stepError(fine: readonly SkyRun[], coarse: readonly SkyRun[]): number {
  let worst = 0;
  for (const [i, run] of fine.entries()) {
    const a = totalDuration(run.figures.windows);
    const b = totalDuration(coarse[i]!.figures.windows);
    if (a > 0) worst = Math.max(worst, Math.abs(b / a - 1));
  }
  return worst;
}
