import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import {
  type ComputedSections,
  type ControlStore,
  computedSections,
  type MeasuredStore,
  type NeededControl,
  type NeededPolars,
  neededControls,
  neededPolars,
  type PolarStore,
  polarStoreName,
  polarStoreText,
  polarsOfSection,
  readStoredText,
  type StoredText,
} from '@noonwing/design';
import { computePolars, computeTurning, sectionKey } from '@noonwing/engine/section/viscous';
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

/** A store as named on the command line. */
export function loadStore(path: string): Attempt<StoredText> {
  const text = readText(path);
  if (!text.ok) return text;
  const stored = readStoredText(text.value);
  return stored === undefined ? unreadable(path) : ready(stored);
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

/** Models of sections from them. measured - points of a store beside the design, laid over them */
export function libraryComputed(measured: MeasuredStore): ComputedSections | undefined {
  const stored = libraryStore();
  return stored && computedSections({ ...stored, measured }, 'the polars that come with noonwing');
}

/** What a store holds after the sections of a design were added: names of sections and of their controls. */
export interface StoreUpdate {
  readonly computed: readonly string[];
  /** Copied from the polars that come with the program. */
  readonly copied: readonly string[];
  readonly kept: readonly string[];
  readonly left: readonly string[];
  /** Section that measured points were stored for, with their number. */
  readonly measured?: { readonly name: string; readonly points: number };
}

interface Needed {
  readonly polars: readonly NeededPolars[];
  readonly controls: readonly NeededControl[];
}

/** What every section of a design needs, also under its cells and with its controls deflected, or the section that is named. */
function neededOf(name: string): Attempt<Needed> {
  if (!/\.ya?ml$/i.test(name)) {
    const one = geometryOf(name);
    if (!one.ok) return one;
    return ready({ polars: polarsOfSection(one.value), controls: [] });
  }
  const design = loadDesign(name);
  if (!design.ok) return design;
  const { aircraft, files } = design.value;
  const [polars, controls] = [neededPolars(aircraft, files), neededControls(aircraft, files)];
  if (!polars.ok) return refuse(exitCode.unusableInput, `${name}: ${polars.reason}; ${polars.remedy}`);
  return ready({ polars: polars.value, controls: controls.ok ? controls.value : [] });
}

function storeAt(path: string): Attempt<StoredText> {
  return existsSync(path) ? loadStore(path) : ready({ polars: {}, measured: {} });
}

type Made = 'computed' | 'copied' | 'kept' | 'left';

/** Adds what is needed to what a store holds: from there, from the program's own store, or computed. */
function added<N extends { readonly key: string; readonly name: string; readonly computable: boolean }, T>(
  needed: readonly N[],
  {
    known,
    library,
    compute,
  }: {
    known: Readonly<Record<string, T>>;
    library: () => Readonly<Record<string, T>>;
    compute: (one: N) => T | undefined;
  },
  note: (made: Made, name: string) => void,
): Readonly<Record<string, T>> {
  const store: Record<string, T> = { ...known };
  for (const one of needed) {
    const { key, name, computable } = one;
    if (key in known) note('kept', name);
    else if (computable && key in library()) {
      store[key] = library()[key]!;
      note('copied', name);
    } else {
      const made = computable ? compute(one) : undefined;
      if (made !== undefined) store[key] = made;
      note(made === undefined ? 'left' : 'computed', name);
    }
  }
  return store;
}

const unlessEmpty = <T>(list: readonly T[]): readonly T[] | undefined => (list.length === 0 ? undefined : list);

function polarSet({ name, geometry, settings }: NeededPolars): PolarStore[string] | undefined {
  const polars = unlessEmpty(computePolars(geometry, settings));
  return polars && { name, polars };
}

function controlSet({ name, geometry, settings }: NeededControl): ControlStore[string] | undefined {
  const rows = unlessEmpty(computeTurning(geometry, settings));
  return rows && { name, rows };
}

/** Everything that is needed, from what is known, from the program's own store, or computed; onCompute - told before each set that takes seconds */
function filled(needed: Needed, known: StoredText, onCompute: (name: string) => void) {
  const names: Record<Made, Set<string>> = { computed: new Set(), copied: new Set(), kept: new Set(), left: new Set() };
  const note = (made: Made, name: string) => names[made].add(name);
  let shipped: StoredText | undefined;
  const library = (): StoredText => {
    shipped ??= libraryStore() ?? { polars: {}, measured: {} };
    return shipped;
  };
  const told =
    <N extends { readonly name: string }, T>(compute: (one: N) => T) =>
    (one: N): T => {
      onCompute(one.name);
      return compute(one);
    };
  const polars = { known: known.polars, library: () => library().polars, compute: told(polarSet) };
  const controls = {
    known: known.controls ?? {},
    library: () => library().controls ?? {},
    compute: told(controlSet),
  };
  return {
    store: added(needed.polars, polars, note),
    controls: added(needed.controls, controls, note),
    made: {
      computed: [...names.computed],
      copied: [...names.copied],
      kept: [...names.kept],
      left: [...names.left],
    },
  };
}

/**
 * Adds the polars of every section of a design, or of one section, to a store; what it holds already is not computed again. Measured
 * points are kept for the first section, in place of earlier ones.
 * onCompute - told before each set that takes seconds
 */
export function updatePolarStore(
  named: string,
  path: string,
  measured?: MeasuredInput,
  onCompute: (name: string) => void = () => {},
): Attempt<StoreUpdate> {
  const needed = neededOf(named);
  if (!needed.ok) return needed;
  const known = storeAt(path);
  if (!known.ok) return known;
  const { store, controls, made } = filled(needed.value, known.value, onCompute);
  const first = needed.value.polars[0]?.geometry;
  if (measured === undefined || first === undefined) {
    const saved = writeText(path, polarStoreText(store, known.value.measured, controls));
    return saved.ok ? ready(made) : saved;
  }
  const points = measured.runs.flatMap((run) => [...run.points, ...run.returning]);
  const laid = { ...known.value.measured, [sectionKey(first)]: { name: first.name, source: measured.path, points } };
  const saved = writeText(path, polarStoreText(store, laid, controls));
  return saved.ok ? ready({ ...made, measured: { name: first.name, points: points.length } }) : saved;
}
