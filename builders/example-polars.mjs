/**
 * Polars of the sections of the examples, and of these with their controls deflected, kept by content in examples/polars.json: computed by the project's own solver, nothing fitted.
 * What the file holds already is kept. Run after a build: node builders/example-polars.mjs
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  completeDesign,
  neededControls,
  neededPolars,
  polarStoreText,
  readDesign,
  readStoredText,
} from '../packages/design/dist/index.js';
import { computePolars, computeTurning } from '../packages/engine/dist/section/viscous/index.js';

const examples = fileURLToPath(new URL('../examples/', import.meta.url));
const path = `${examples}polars.json`;
const known = existsSync(path) ? readStoredText(readFileSync(path, 'utf8')) : undefined;

/** @type {Record<string, { name: string, polars: readonly import('../packages/engine/dist/section/viscous/index.js').SectionPolar[] }>} */
const store = {};
/** @type {Record<string, { name: string, rows: readonly import('../packages/engine/dist/section/viscous/index.js').TurningRow[] }>} */
const controls = {};
for (const file of readdirSync(examples).filter((name) => name.endsWith('.yaml') && !name.endsWith('.day.yaml'))) {
  const read = readDesign(readFileSync(`${examples}${file}`, 'utf8'));
  if (read.design === undefined) throw new Error(`${file} cannot be read`);
  const { aircraft } = completeDesign(read.design);
  const needed = neededPolars(aircraft, {});
  if (!needed.ok) throw new Error(needed.reason);
  for (const { key, name, geometry, settings, computable } of needed.value)
    if (computable) store[key] ??= known?.polars[key] ?? { name, polars: computePolars(geometry, settings) };
  const deflected = neededControls(aircraft, {});
  if (!deflected.ok) throw new Error(deflected.reason);
  for (const { key, name, geometry, settings, computable } of deflected.value)
    if (computable) controls[key] ??= known?.controls?.[key] ?? { name, rows: computeTurning(geometry, settings) };
}
writeFileSync(path, polarStoreText(store, known?.measured, controls));
