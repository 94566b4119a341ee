import type { CompleteAircraft, CompletePlan, SectionSources } from '@noonwing/design';
import { heldSpeed } from '@noonwing/engine/flight';
import { type Contribution, centralCase, type Sample, type Verdict, verdictOf } from './central.js';
import { type Deviations, noDeviation } from './deviations.js';
import { type GridRun, gridRun, skyRuns } from './grid-run.js';
import type { KnownLimit } from './held-speed.js';
import { type FlightNeed, needAtSpeed } from './need.js';
import type { Prepared } from './prepare.js';
import type { SkyRun } from './run.js';
import { type Slices, whole } from './slices.js';
import type { Stages } from './stages.js';
import { deviationsAt, sampleDeviations, type UncertainInput, uncertainInputs } from './uncertainty.js';

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

/**
 * The verdict of a design on a day.
 * @param files - texts of coordinate files by name
 * @param stages - memory of stages; a fresh one computes everything
 */
export const verdict = (
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionSources,
  stages: Stages,
  options: VerdictOptions = {},
): Verdict => whole(verdictSlices(aircraft, plan, files, stages, options), options.onProgress);

/** The same in slices: the central case, then every sample and every contribution. */
export function* verdictSlices(
  aircraft: CompleteAircraft,
  plan: CompletePlan,
  files: SectionSources,
  stages: Stages,
  options: Omit<VerdictOptions, 'onProgress'> = {},
): Slices<Verdict> {
  const { sampleStep = 1200, samples = 128, uncertaintyFactor = 1, contributions: ask = true } = options;
  const central = centralCase(aircraft, plan, files, stages, options);
  const { prepared, flight, runs } = central;
  if (flight === undefined || (samples === 0 && !ask)) {
    return verdictOf(central, { samples: [], coarse: runs, contributions: [] });
  }
  const inputs = uncertainInputs(prepared.model, prepared.spreads);
  const scaled = inputs.map((input) => ({ ...input, sigma: input.sigma * uncertaintyFactor }));
  const coarse = gridRun(prepared, flight, sampleStep, stages);
  const drawn = yield* sampled(prepared, coarse, flight, scaled, samples);
  const coarseRuns = skyRuns(prepared, coarse, flight, noDeviation);
  const asked = ask ? yield* contributions(prepared, coarse, flight, scaled, coarseRuns) : [];
  return verdictOf(central, { samples: drawn, coarse: coarseRuns, contributions: asked });
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
