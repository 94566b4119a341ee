/**
 * Polars of the sections of the examples, kept by content in examples/polars.json: computed by the project's own solver, nothing fitted.
 * Run after a build: node builders/example-polars.mjs
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { assembleGeometry, completeDesign, polarStoreText, readDesign } from '../packages/design/dist/index.js';
import { computePolars, isComputable, polarKey } from '../packages/engine/dist/section/viscous/index.js';

const examples = fileURLToPath(new URL('../examples/', import.meta.url));

/** @type {Record<string, { name: string, polars: readonly import('../packages/engine/dist/section/viscous/index.js').SectionPolar[] }>} */
const store = {};
for (const file of readdirSync(examples).filter((name) => name.endsWith('.yaml') && !name.endsWith('.day.yaml'))) {
  const read = readDesign(readFileSync(`${examples}${file}`, 'utf8'));
  if (read.design === undefined) throw new Error(`${file} cannot be read`);
  for (const surface of completeDesign(read.design).aircraft.surfaces) {
    for (const { section, chord } of surface.stations) {
      const made = assembleGeometry(section, chord.value, {});
      if (!made.ok || !isComputable(made.value)) continue;
      const key = polarKey(made.value);
      store[key] ??= { name: made.value.name, polars: computePolars(made.value) };
    }
  }
}
writeFileSync(`${examples}polars.json`, polarStoreText(store));
