import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import {
  type ComputedSections,
  computedSections,
  type MeasuredStore,
  type NeededPolars,
  neededPolars,
  type PolarStore,
  polarStoreName,
  polarStoreText,
  polarsOfSection,
  readStoredText,
  type StoredText,
} from '@noonwing/design';
import { computePolars, sectionKey } from '@noonwing/engine/section/viscous';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { writeText } from '../output/write-text.js';
import { loadDesign } from './design.js';
import { readText } from './file.js';
import type { MeasuredInput } from './measured-polar.js';
import { geometryOf } from './polar.js';

const unreadable = (path: string) =>
  refuse(
    exitCode.unusableInput,
    `${path}: not a store of computed polars; noonwing polar <design> --store <file> writes one, --no-polars goes without`,
  );

/** Where the polars of a design are kept where nothing else is said. */
export const storeBeside = (designPath: string): string => join(dirname(designPath), polarStoreName);

/** Models of sections from a store as named on the command line. */
export function loadComputed(path: string): Attempt<ComputedSections> {
  const text = readText(path);
  if (!text.ok) return text;
  const stored = readStoredText(text.value);
  return stored === undefined ? unreadable(path) : ready(computedSections(stored, path));
}

/** Polars that come with the program; undefined where they cannot be found. */
function libraryStore(): StoredText | undefined {
  try {
    const design = createRequire(import.meta.url).resolve('@noonwing/design');
    return readStoredText(readFileSync(join(dirname(design), '../polars/library.json'), 'utf8'));
  } catch {
    return undefined;
  }
}

/** Models of sections from them. */
export function libraryComputed(): ComputedSections | undefined {
  const stored = libraryStore();
  return stored && computedSections(stored, 'the polars that come with noonwing');
}

/** What a store holds after the sections of a design were added. */
export interface StoreUpdate {
  readonly computed: readonly string[];
  readonly kept: readonly string[];
  readonly left: readonly string[];
  /** Section that measured points were stored for, with their number. */
  readonly measured?: { readonly name: string; readonly points: number };
}

/** Polars of every section of a design, also under its cells, or of the section that is named. */
function polarsOf(name: string): Attempt<readonly NeededPolars[]> {
  if (!/\.ya?ml$/i.test(name)) {
    const one = geometryOf(name);
    if (!one.ok) return one;
    return ready(polarsOfSection(one.value));
  }
  const design = loadDesign(name);
  if (!design.ok) return design;
  const needed = neededPolars(design.value.aircraft, design.value.files);
  return needed.ok
    ? ready(needed.value)
    : refuse(exitCode.unusableInput, `${name}: ${needed.reason}; ${needed.remedy}`);
}

function storeAt(path: string): Attempt<StoredText> {
  if (!existsSync(path)) return ready({ polars: {}, measured: {} });
  const text = readText(path);
  if (!text.ok) return text;
  const stored = readStoredText(text.value);
  return stored === undefined ? unreadable(path) : ready(stored);
}

/**
 * Adds the polars of every section of a design, or of one section, to a store; what it holds already is not computed again. Measured
 * points are kept for the first section, in place of earlier ones.
 */
export function updatePolarStore(named: string, path: string, measured?: MeasuredInput): Attempt<StoreUpdate> {
  const needed = polarsOf(named);
  if (!needed.ok) return needed;
  const known = storeAt(path);
  if (!known.ok) return known;
  const store: Record<string, PolarStore[string]> = { ...known.value.polars };
  let library: PolarStore | undefined;
  const [computed, kept, left] = [new Set<string>(), new Set<string>(), new Set<string>()];
  for (const { key, name, geometry, settings, computable } of needed.value) {
    const isKnown = key in known.value.polars;
    library ??= isKnown ? undefined : (libraryStore()?.polars ?? {});
    const polars = isKnown || !computable ? [] : (library?.[key]?.polars ?? computePolars(geometry, settings));
    if (isKnown) kept.add(name);
    else if (polars.length === 0) left.add(name);
    else {
      store[key] = { name, polars };
      computed.add(name);
    }
  }
  const first = needed.value[0]?.geometry;
  const points = measured?.runs.flatMap((run) => [...run.points, ...run.returning]) ?? [];
  const laid: MeasuredStore =
    measured === undefined || first === undefined
      ? known.value.measured
      : { ...known.value.measured, [sectionKey(first)]: { name: first.name, source: measured.path, points } };
  const saved = writeText(path, polarStoreText(store, laid));
  if (!saved.ok) return saved;
  return ready({
    computed: [...computed],
    kept: [...kept],
    left: [...left],
    ...(measured === undefined || first === undefined ? {} : { measured: { name: first.name, points: points.length } }),
  });
}
