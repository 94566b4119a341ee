import {
  type MeasuredStore,
  type NeededControl,
  type NeededPolars,
  neededControls,
  neededPolars,
  readStoredText,
} from '@noonwing/design';
import { computePolars, computeTurning, type SectionPolar, type TurningRow } from '@noonwing/engine/section/viscous';
import type { Slices } from '@noonwing/verdict';
import { type LaterJob, refusedAs } from './job.js';
import type { PolarsView } from './messages.js';
import { type KeptSet, keepPolars, keptPolars, textOfSets } from './polar-keeping.js';

/** A set that an aircraft wants, computed one Reynolds number after the other. */
interface Wanted {
  readonly key: string;
  readonly name: string;
  readonly reynolds: readonly number[];
  readonly begin: () => Begun;
}

/** Rows computed so far; add - computes another one; whole - the set of them. */
interface Begun {
  readonly done: () => number;
  readonly add: (reynolds: number) => void;
  readonly whole: () => KeptSet;
}

function wantedPolars({ key, name, geometry, settings }: NeededPolars): Wanted {
  const begin = (): Begun => {
    const polars: SectionPolar[] = [];
    return {
      done: () => polars.length,
      add: (reynolds) => polars.push(...computePolars(geometry, { ...settings, reynolds: [reynolds] })),
      whole: () => ({ kind: 'polars', set: { name, polars } }),
    };
  };
  return { key, name, reynolds: settings.reynolds, begin };
}

function wantedControl({ key, name, geometry, settings }: NeededControl): Wanted {
  const begin = (): Begun => {
    const rows: TurningRow[] = [];
    return {
      done: () => rows.length,
      add: (reynolds) => rows.push(...computeTurning(geometry, { ...settings, reynolds: [reynolds] })),
      whole: () => ({ kind: 'control', set: { name, rows } }),
    };
  };
  return { key, name, reynolds: settings.reynolds, begin };
}

/** Sets that are not whole yet: a computation that an edit breaks off goes on where it was. */
const begun = new Map<string, Begun>();

/** Computes one Reynolds number after the other; each whole set is kept at once. found - sets that are there, added to; returns what is being written */
function* missingSlices(missing: readonly Wanted[], found: Map<string, KeptSet>): Slices<readonly Promise<void>[]> {
  const saving: Promise<void>[] = [];
  const rows = missing.reduce((sum, { reynolds }) => sum + reynolds.length, 0);
  let done = 0;
  for (const { key, reynolds, begin } of missing) {
    const set = begun.get(key) ?? begin();
    begun.set(key, set);
    done += set.done();
    for (const one of reynolds.slice(set.done())) {
      set.add(one);
      done += 1;
      yield done / rows;
    }
    begun.delete(key);
    const whole = set.whole();
    found.set(key, whole);
    saving.push(keepPolars(key, whole));
  }
  return saving;
}

const measuredIn = (text: string | undefined): MeasuredStore =>
  text === undefined ? {} : (readStoredText(text)?.measured ?? {});

const viewOf = (
  wanted: readonly Wanted[],
  found: ReadonlyMap<string, KeptSet>,
  measured: MeasuredStore,
): PolarsView => ({
  text: found.size === 0 && Object.keys(measured).length === 0 ? '' : textOfSets(found, measured),
  missing: wanted.filter(({ key }) => !found.has(key)).map(({ name }) => name),
});

/**
 * Polars of the sections of a design and of these with their controls deflected: those that this browser keeps and those of the examples; the
 * rest computed where that is asked for. With the measured points that the project keeps.
 */
export const answer: LaterJob<'polars'>['answer'] = async ({ compute, input }, ready, { inSlices }) => {
  const needed = neededPolars(ready.aircraft, ready.sections);
  if (!needed.ok) return refusedAs(needed);
  const controls = neededControls(ready.aircraft, ready.sections);
  const wanted = [
    ...needed.value.filter(({ computable }) => computable).map(wantedPolars),
    ...(controls.ok ? controls.value.filter(({ computable }) => computable).map(wantedControl) : []),
  ];
  const found = new Map(await keptPolars(wanted.map(({ key }) => key)));
  if (compute) {
    const missing = wanted.filter(({ key }) => !found.has(key));
    const saving = await inSlices(missingSlices(missing, found));
    if (saving === undefined) return undefined;
    await Promise.all(saving);
  }
  return { kind: 'polars', view: viewOf(wanted, found, measuredIn(input.measured)) };
};
