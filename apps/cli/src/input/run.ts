import { existsSync } from 'node:fs';
import { computedSections, eitherComputed } from '@noonwing/design';
import { createStages, isWithinReach, type KnownLimit, type Stages, type Verdict, verdict } from '@noonwing/verdict';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { type LoadedDesign, loadDesign } from './design.js';
import { type LoadedPlan, loadPlan } from './plan.js';
import { type Options, typed } from './plan-options.js';
import { libraryComputed, loadStore, storeBeside } from './polar-store.js';

/** A design on a day with its verdict. */
export interface Answered {
  readonly design: LoadedDesign;
  readonly day: LoadedPlan;
  readonly stages: Stages;
  readonly verdict: Verdict;
}

/** The count after --samples. */
function samplesOf(options: Options): Attempt<number> {
  const written = typed(options, 'samples') ?? '128';
  const count = Number(written);
  if (Number.isInteger(count) && count >= 0 && count <= 20_000) return ready(count);
  return refuse(exitCode.wrongUsage, `--samples: found "${written}"; expected a whole number from 0 to 20000`);
}

/**
 * Design file with the computed polars of its sections: of the store that is named, else of the one beside it and of those that come with
 * the program.
 */
function designWithPolars(designPath: string, options: Options): Attempt<LoadedDesign> {
  const design = loadDesign(designPath);
  if (!design.ok || options.polars === false) return design;
  const named = typed(options, 'polars');
  const beside = storeBeside(designPath);
  const path = named ?? (existsSync(beside) ? beside : undefined);
  const store = path === undefined ? ready(undefined) : loadStore(path);
  if (!store.ok) return store;
  const own = store.value && path !== undefined ? computedSections(store.value, path) : undefined;
  const measured = store.value?.measured ?? {};
  const computed =
    named !== undefined && own !== undefined ? own : eitherComputed(own, () => libraryComputed(measured));
  return ready({ ...design.value, files: { ...design.value.files, computed } });
}

/** Design file and day plan as named on the command line. */
export function loadBoth(
  designPath: string,
  options: Options,
  today: Date,
): Attempt<{ readonly design: LoadedDesign; readonly day: LoadedPlan }> {
  const design = designWithPolars(designPath, options);
  if (!design.ok) return design;
  const day = loadPlan(designPath, options, today);
  return day.ok ? ready({ design: design.value, day: day.value }) : day;
}

/** Reads both files and computes the verdict. */
export function answer(designPath: string, options: Options, today: Date): Attempt<Answered> {
  const samples = samplesOf(options);
  if (!samples.ok) return samples;
  const both = loadBoth(designPath, options, today);
  if (!both.ok) return both;
  const { design, day } = both.value;
  const stages = createStages();
  const found = verdict(design.aircraft, day.plan, design.files, stages, { samples: samples.value });
  return ready({ design, day, stages, verdict: found });
}

/** The same once its limit speed is known; what does not depend on the airspeed is remembered. */
export function withinLimit(answered: Answered, limit: KnownLimit | undefined): Answered {
  if (limit === undefined) return answered;
  const { design, day, stages } = answered;
  const { samples, flight } = answered.verdict;
  if (flight === undefined || !isWithinReach(limit, flight.airspeed))
    return { ...answered, verdict: { ...answered.verdict, limit } };
  const held = verdict(design.aircraft, day.plan, design.files, stages, { samples, limit });
  return { ...answered, verdict: held };
}

/** The same without samples, and with a mild day where no place is known: for what depends on the aircraft alone. */
export function answerForAircraft(designPath: string, options: Options, today: Date): Attempt<Answered> {
  const central = { ...options, samples: '0' };
  const found = answer(designPath, central, today);
  const placeless = options.at === undefined && options.plan === undefined;
  if (found.ok || found.code !== exitCode.wrongUsage || !placeless) return found;
  const mild = answer(designPath, { ...central, at: mildPlace }, today);
  if (!mild.ok) return found;
  const { day } = mild.value;
  return ready({ ...mild.value, day: { ...day, assumptions: [], notes: [mildNote] } });
}

/** Where an aircraft is looked at when nobody said where it flies; only air and season come from it. */
const mildPlace = '45 N 0 E';

const mildNote = 'No place is stated: air and season are those of 45 N today, at sea level.';
