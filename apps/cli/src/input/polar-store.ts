import { existsSync, writeFileSync } from 'node:fs';
import { assembleGeometry, type PolarStore, polarStoreText, readPolarStore } from '@noonwing/design';
import { computePolars, isComputable, polarKey } from '@noonwing/engine/section/viscous';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { loadDesign } from './design.js';
import { readText, systemReason } from './file.js';

const unreadable = (path: string) =>
  refuse(
    exitCode.unusableInput,
    `${path}: not a store of polars; write one with noonwing polar <design> --store ${path}`,
  );

/** Text of a store as named on the command line, once it is known to be one. */
export function loadPolarStore(path: string): Attempt<string> {
  const text = readText(path);
  if (!text.ok) return text;
  return readPolarStore(text.value) === undefined ? unreadable(path) : text;
}

/** What a store holds after the sections of a design were added. */
export interface StoreUpdate {
  readonly computed: readonly string[];
  readonly kept: readonly string[];
  readonly left: readonly string[];
}

/** Adds the polars of every section of a design to a store; what it holds already is not computed again. */
export function updatePolarStore(designPath: string, path: string): Attempt<StoreUpdate> {
  const design = loadDesign(designPath);
  if (!design.ok) return design;
  const text = existsSync(path) ? readText(path) : undefined;
  if (text !== undefined && !text.ok) return text;
  const known = text === undefined ? {} : readPolarStore(text.value);
  if (known === undefined) return unreadable(path);
  const store: Record<string, PolarStore[string]> = { ...known };
  const [computed, kept, left] = [new Set<string>(), new Set<string>(), new Set<string>()];
  for (const { section, chord } of design.value.aircraft.surfaces.flatMap((surface) => surface.stations)) {
    const made = assembleGeometry(section, chord.value, design.value.files);
    if (!made.ok) return refuse(exitCode.unusableInput, `${designPath}: ${made.reason}; ${made.remedy}`);
    const { name } = made.value;
    const key = polarKey(made.value);
    const polars = key in known || !isComputable(made.value) ? [] : (store[key]?.polars ?? computePolars(made.value));
    if (key in known) kept.add(name);
    else if (polars.length === 0) left.add(name);
    else {
      store[key] = { name, polars };
      computed.add(name);
    }
  }
  try {
    writeFileSync(path, polarStoreText(store));
  } catch (error) {
    return refuse(exitCode.unusableInput, `${path}: ${systemReason(error)}`);
  }
  return ready({ computed: [...computed], kept: [...kept], left: [...left] });
}
