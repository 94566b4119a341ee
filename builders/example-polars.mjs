/**
 * Polars of the sections of the examples, kept by content in examples/polars.json: computed by the project's own solver, nothing fitted.
 * What the file holds already is kept. Run after a build: node builders/example-polars.mjs
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  completeDesign,
  neededPolars,
  polarStoreText,
  readDesign,
  readStoredText,
} from '../packages/design/dist/index.js';
import { computePolars } from '../packages/engine/dist/section/viscous/index.js';

const examples = fileURLToPath(new URL('../examples/', import.meta.url));
const path = `${examples}polars.json`;
const known = existsSync(path) ? readStoredText(readFileSync(path, 'utf8'))?.polars : undefined;

/** @type {Record<string, { name: string, polars: readonly import('../packages/engine/dist/section/viscous/index.js').SectionPolar[] }>} */
const store = {};
for (const file of readdirSync(examples).filter((name) => name.endsWith('.yaml') && !name.endsWith('.day.yaml'))) {
  const read = readDesign(readFileSync(`${examples}${file}`, 'utf8'));
  if (read.design === undefined) throw new Error(`${file} cannot be read`);
  const needed = neededPolars(completeDesign(read.design).aircraft, {});
  if (!needed.ok) throw new Error(needed.reason);
  for (const { key, name, geometry, settings, computable } of needed.value)
    if (computable) store[key] ??= known?.[key] ?? { name, polars: computePolars(geometry, settings) };
}
writeFileSync(path, polarStoreText(store));
