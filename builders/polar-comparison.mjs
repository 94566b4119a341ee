/**
 * Table of docs/polars.md: level power of the examples and of the two published aircraft by the first estimate and by computed polars,
 * with the section drag of each surface at its flight point, which says why. Nothing is fitted; measured powers as in
 * docs/whole-aircraft.md. Run after builders/example-polars.mjs: node builders/polar-comparison.mjs
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  completeDesign,
  completePlan,
  computedSections,
  neededControls,
  neededPolars,
  readDayPlan,
  readDesign,
  readStoredText,
} from '../packages/design/dist/index.js';
import { sectionDragCoefficient, sectionMaximumLiftCoefficient } from '../packages/engine/dist/section/index.js';
import { computePolars, computeTurning } from '../packages/engine/dist/section/viscous/index.js';
import { createStages, verdict } from '../packages/verdict/dist/index.js';
import { published3200, published3200Day } from '../packages/verdict/dist/published/wing-3200.js';
import { published5690, published5690Day } from '../packages/verdict/dist/published/wing-5690.js';

/** @param {string} path */
const file = (path) => fileURLToPath(new URL(path, import.meta.url));
/** @param {string} path */
const text = (path) => readFileSync(file(path), 'utf8');

const aircraft = [
  ...['alondra', 'vigilia', 'bandeja'].map((name) => ({
    name,
    measured: '',
    design: text(`../examples/${name}.yaml`),
    day: text(`../examples/${name}.day.yaml`),
  })),
  { name: 'published, 5.69 m', measured: '43 W', design: published5690, day: published5690Day },
  { name: 'published, 3.2 m', measured: '16 W', design: published3200, day: published3200Day },
];

/** Verdict of one aircraft with the given files. @param {(typeof aircraft)[number]} one @param {import('../packages/design/dist/index.js').SectionSources} files */
function answer(one, files) {
  const design = readDesign(one.design).design;
  const plan = readDayPlan(one.day).plan;
  if (design === undefined || plan === undefined) throw new Error(`${one.name} cannot be read`);
  return verdict(completeDesign(design).aircraft, completePlan(plan).plan, files, createStages());
}

/** @typedef {ReturnType<typeof answer>} Answer */

const kept = readStoredText(text('../examples/polars.json'));
const store = { ...kept?.polars };
const controls = { ...kept?.controls };

/** Adds what the examples do not hold. @param {(typeof aircraft)[number]} one */
function addPolars(one) {
  const { design } = readDesign(one.design);
  if (design === undefined) throw new Error(`${one.name} cannot be read`);
  const complete = completeDesign(design).aircraft;
  const [needed, deflected] = [neededPolars(complete, {}), neededControls(complete, {})];
  if (!needed.ok) throw new Error(needed.reason);
  if (!deflected.ok) throw new Error(deflected.reason);
  for (const { key, name, geometry, settings, computable } of needed.value)
    if (computable) store[key] ??= { name, polars: computePolars(geometry, settings) };
  for (const { key, name, geometry, settings, computable } of deflected.value)
    if (computable) controls[key] ??= { name, rows: computeTurning(geometry, settings) };
}

/** @param {{ value: number, low: number, high: number } | undefined} of */
const watts = (of) =>
  of === undefined ? '-' : `${of.value.toFixed(1)} (${of.low.toFixed(1)} to ${of.high.toFixed(1)})`;

/** @param {Answer} found */
function row(found) {
  const sky = found.skies[0];
  const best = sky === undefined ? '-' : sky.bestRatio.value.toFixed(2);
  const hours = sky === undefined ? '-' : `${(sky.carried.value / 3600).toFixed(1)} h`;
  return `${watts(found.levelPower)} | ${found.flight?.airspeed.toFixed(2) ?? '-'} | ${best} | ${hours}`;
}

/** Section drag and greatest lift at the flight point, estimate and computed. @param {Answer} before @param {Answer} after */
function sectionRows(before, after) {
  const { airframe } = before.prepared.model;
  const speed = before.flight?.airspeed;
  if (airframe === undefined || speed === undefined) return [];
  return airframe.assembled.shape.surfaces.map((surface) => {
    const name = surface.stations[0]?.section;
    const chord = surface.stations[0]?.chord ?? 0;
    const reynolds = (speed * chord) / 1.5e-5;
    const lift = surface.kind === 'wing' ? 0.7 : 0;
    const models = [before, after].map(
      (found) => found.prepared.model.airframe?.assembled.sections.find((section) => section.name === name)?.model,
    );
    const [drag, most] = [
      models.map((model) => (model === undefined ? '-' : sectionDragCoefficient(model, lift, reynolds).toFixed(4))),
      models.map((model) => (model === undefined ? '-' : sectionMaximumLiftCoefficient(model, reynolds).toFixed(2))),
    ];
    return `${name} | ${Math.round(reynolds / 1000)} | ${lift} | ${drag.join(' | ')} | ${most.join(' | ')}`;
  });
}

const lines = [
  '| aircraft | measured | sections | level power [W] | airspeed [m/s] | best sun / need | carried, first sky |',
  '|---|---|---|---|---|---|---|',
];
const sections = [
  '| aircraft | section | Reynolds number / 1000 | lift | drag, estimate | drag, computed | greatest lift, estimate | computed |',
  '|---|---|---|---|---|---|---|---|',
];
for (const one of aircraft) {
  const before = answer(one, {});
  addPolars(one);
  const after = answer(one, { computed: computedSections({ polars: store, measured: {}, controls }, 'store') });
  lines.push(`| ${one.name} | ${one.measured} | first estimate | ${row(before)} |`);
  lines.push(`| | | computed | ${row(after)} |`);
  for (const words of sectionRows(before, after)) sections.push(`| ${one.name} | ${words} |`);
  const said = after.warnings.filter(({ code }) => code.startsWith('section.'));
  for (const { where, message } of said) process.stderr.write(`${one.name}: ${where}: ${message}\n`);
  for (const problem of after.problems) process.stderr.write(`${one.name}: ${problem.reason}\n`);
}
const page = file('../docs/polars.md');
const known = readFileSync(page, 'utf8');
const [start, end] = ['<!-- table -->', '<!-- end of the table -->'];
const [head, tail] = [known.split(start)[0], known.split(end)[1]];
writeFileSync(page, `${head}${start}\n\n${lines.join('\n')}\n\n${sections.join('\n')}\n\n${end}${tail}`);
