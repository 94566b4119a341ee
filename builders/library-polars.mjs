/**
 * Polars that come with the program, kept by content in packages/design/polars/library.json: of the sections that a new design begins with
 * and of those of the library that are made for flat cells. Computed by the project's own solver, nothing fitted. What the file or that of the
 * examples holds already is not computed again. Run after a build: node builders/library-polars.mjs
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { polarStoreText, polarsOfSection, readStoredText } from '../packages/design/dist/index.js';
import { librarySection, nacaSection } from '../packages/engine/dist/section/index.js';
import { computePolars } from '../packages/engine/dist/section/viscous/index.js';

/** @param {string} path */
const file = (path) => fileURLToPath(new URL(path, import.meta.url));
/** @param {string} path */
const kept = (path) => (existsSync(path) ? readStoredText(readFileSync(path, 'utf8'))?.polars : undefined) ?? {};

const path = file('../packages/design/polars/library.json');
const known = { ...kept(file('../examples/polars.json')), ...kept(path) };

const made = [
  ...['3410', '2411', '0010', '0007'].map((digits) => nacaSection(digits)),
  ...['flat cells 3', 'flat cells 3 tailless'].map((name) => librarySection(name)),
];

/** @type {Record<string, { name: string, polars: readonly import('../packages/engine/dist/section/viscous/index.js').SectionPolar[] }>} */
const store = {};
for (const section of made) {
  if (!section.ok) throw new Error(section.reason);
  for (const { key, name, geometry, settings } of polarsOfSection(section.value))
    store[key] ??= known[key] ?? { name, polars: computePolars(geometry, settings) };
  writeFileSync(path, polarStoreText(store));
}
