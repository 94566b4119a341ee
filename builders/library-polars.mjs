/**
 * Polars that come with the program, kept by content in packages/design/polars/library.json: of the sections that a new design begins with
 * (with its controls deflected too) and of those of the library that are made for flat cells. Computed by the project's own solver, nothing fitted. What the file or that of the
 * examples holds already is not computed again. Run after a build: node builders/library-polars.mjs
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  completeDesign,
  neededControls,
  newDesignText,
  polarStoreText,
  polarsOfSection,
  readDesign,
  readStoredText,
} from '../packages/design/dist/index.js';
import { librarySection, nacaSection } from '../packages/engine/dist/section/index.js';
import { computePolars, computeTurning } from '../packages/engine/dist/section/viscous/index.js';

/** @param {string} path */
const file = (path) => fileURLToPath(new URL(path, import.meta.url));
/** @param {string} path */
const kept = (path) => (existsSync(path) ? readStoredText(readFileSync(path, 'utf8')) : undefined);

const path = file('../packages/design/polars/library.json');
const stores = [kept(file('../examples/polars.json')), kept(path)];
const known = {
  polars: Object.assign({}, ...stores.map((one) => one?.polars)),
  controls: Object.assign({}, ...stores.map((one) => one?.controls)),
};

const made = [
  ...['3410', '2411', '0010', '0007'].map((digits) => nacaSection(digits)),
  ...['flat cells 3', 'flat cells 3 tailless'].map((name) => librarySection(name)),
];

/** @type {Record<string, { name: string, polars: readonly import('../packages/engine/dist/section/viscous/index.js').SectionPolar[] }>} */
const store = {};
for (const section of made) {
  if (!section.ok) throw new Error(section.reason);
  for (const { key, name, geometry, settings } of polarsOfSection(section.value))
    store[key] ??= known.polars[key] ?? { name, polars: computePolars(geometry, settings) };
  writeFileSync(path, polarStoreText(store, {}, known.controls));
}

/** @type {Record<string, { name: string, rows: readonly import('../packages/engine/dist/section/viscous/index.js').TurningRow[] }>} */
const controls = {};
for (const layout of ['tailed', 'flying wing', 'plank']) {
  const begun = newDesignText({ layout });
  const read = readDesign('text' in begun ? begun.text : '');
  if (read.design === undefined) throw new Error(`a new ${layout} cannot be read`);
  const needed = neededControls(completeDesign(read.design).aircraft, {});
  if (!needed.ok) throw new Error(needed.reason);
  for (const { key, name, geometry, settings, computable } of needed.value)
    if (computable) controls[key] ??= known.controls[key] ?? { name, rows: computeTurning(geometry, settings) };
}
writeFileSync(path, polarStoreText(store, {}, controls));
