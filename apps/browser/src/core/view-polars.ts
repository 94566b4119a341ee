import { type NeededPolars, neededPolars, polarStoreText } from '@noonwing/design';
import { computePolars, type SectionPolar } from '@noonwing/engine/section/viscous';
import type { Slices } from '@noonwing/verdict';
import { type LaterJob, refusedAs } from './job.js';
import type { PolarsView } from './messages.js';
import { keepPolars, keptPolars } from './polar-keeping.js';

type Polars = readonly SectionPolar[];

/** Rows computed of sets that are not whole yet: a computation that an edit breaks off goes on where it was. */
const begun = new Map<string, SectionPolar[]>();

/** Computes one Reynolds number after the other; each whole set is kept at once. found - sets that are there, added to; returns what is being written */
function* missingSlices(
  missing: readonly NeededPolars[],
  found: Map<string, Polars>,
): Slices<readonly Promise<void>[]> {
  const saving: Promise<void>[] = [];
  const rows = missing.reduce((sum, { settings }) => sum + settings.reynolds.length, 0);
  let done = 0;
  for (const { key, name, geometry, settings } of missing) {
    const polars = begun.get(key) ?? [];
    begun.set(key, polars);
    done += polars.length;
    for (const reynolds of settings.reynolds.slice(polars.length)) {
      polars.push(...computePolars(geometry, { ...settings, reynolds: [reynolds] }));
      done += 1;
      yield done / rows;
    }
    begun.delete(key);
    found.set(key, polars);
    saving.push(keepPolars(key, { name, polars }));
  }
  return saving;
}

function viewOf(wanted: readonly NeededPolars[], found: ReadonlyMap<string, Polars>): PolarsView {
  const there = wanted.filter(({ key }) => found.has(key));
  const store = Object.fromEntries(there.map(({ key, name }) => [key, { name, polars: found.get(key)! }]));
  return {
    text: there.length === 0 ? '' : polarStoreText(store),
    missing: wanted.filter(({ key }) => !found.has(key)).map(({ name }) => name),
  };
}

/** Polars of the sections of a design: those that this browser keeps and those of the examples; the rest computed where that is asked for. */
export const answer: LaterJob<'polars'>['answer'] = async ({ compute }, ready, { inSlices }) => {
  const needed = neededPolars(ready.aircraft, ready.sections);
  if (!needed.ok) return refusedAs(needed);
  const wanted = needed.value.filter(({ computable }) => computable);
  const found = new Map(await keptPolars(wanted.map(({ key }) => key)));
  if (compute) {
    const missing = wanted.filter(({ key }) => !found.has(key));
    const saving = await inSlices(missingSlices(missing, found));
    if (saving === undefined) return undefined;
    await Promise.all(saving);
  }
  return { kind: 'polars', view: viewOf(wanted, found) };
};
