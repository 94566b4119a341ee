/**
 * Pictures and table of docs/sections.md: computed polars beside measured points, nothing fitted. The measured data stay outside the
 * repository (../shared/data/sections); where they are absent nothing is written.
 * Measured: Selig et al., Summary of Low-Speed Airfoil Data, vol. 1 to 3, 1995 to 1998.
 * Run after a build: node builders/section-polars.mjs
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { comparedCurves } from '../packages/drawing/dist/index.js';
import {
  polarDragAtLift,
  preparedOutline,
  risingBranch,
  sweepPolar,
} from '../packages/engine/dist/section/viscous/index.js';

const data = fileURLToPath(new URL('../../shared/data/sections/', import.meta.url));
const docs = fileURLToPath(new URL('../docs/', import.meta.url));
const degree = Math.PI / 180;

/** @typedef {{ reynolds: number, state: string, points: { lift: number, drag: number }[] }} Run */

/** @param {string} file */
const rows = (file) =>
  readFileSync(`${data}${file}`, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

/** Design coordinates: measured ones scatter enough to trip a computed layer. @param {string} section */
function outline(section) {
  const points = rows(`${section}_coords.csv`).filter((row) => row[2]?.startsWith('design'));
  return { x: points.map((row) => Number(row[4])), y: points.map((row) => Number(row[5])) };
}

/** Runs of about one Reynolds number of one state, together. @param {string} section @returns {Run[]} */
function runs(section) {
  /** @type {Map<string, Run>} */
  const found = new Map();
  for (const row of rows(`${section}_drag.csv`)) {
    const reynolds = 50_000 * Math.round(Number(row[4]) / 50_000) || 50_000;
    const state = row[2] ?? 'clean';
    const run = found.get(`${state} ${reynolds}`) ?? { reynolds: Number(row[4]), state, points: [] };
    run.points.push({ lift: Number(row[8]), drag: Number(row[9]) });
    found.set(`${state} ${reynolds}`, run);
  }
  return [...found.values()].sort((a, b) => a.reynolds - b.reynolds);
}

/** Greatest measured lift near a Reynolds number. @param {string} section @param {Run} run */
function measuredMaximum(section, run) {
  const lifts = rows(`${section}_lift.csv`)
    .filter((row) => row[2] === run.state && Math.abs(Number(row[4]) / run.reynolds - 1) < 0.05)
    .map((row) => Number(row[8]));
  return lifts.length > 0 ? Math.max(...lifts) : undefined;
}

/** @param {readonly number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
/** @param {number} value */
const percent = (value) => `${(100 * value).toFixed(0)} %`;

/** @param {string} section @param {Run} run */
function compare(section, run) {
  const { x, y } = outline(section);
  const prepared = preparedOutline(x, y);
  if (!prepared.ok) throw new Error(prepared.reason);
  const trips = /** @type {[number, number]} */ (run.state === 'tripped' ? [0.02, 0.05] : [Number.NaN, Number.NaN]);
  const polar = sweepPolar(prepared.value, { reynolds: run.reynolds, critical: 9, trips, step: degree });
  const errors = run.points
    .filter(({ lift }) => lift >= -0.2 && lift <= 0.9)
    .flatMap(({ lift, drag }) => {
      const computed = polarDragAtLift(polar, lift);
      return computed === undefined ? [] : [computed / drag - 1];
    });
  return { section, run, polar, errors, maximum: measuredMaximum(section, run) };
}

/** @param {ReturnType<typeof compare>[]} compared @param {string} section @param {string} state */
function draw(compared, section, state) {
  const shown = compared.filter(({ run }) => run.state === state);
  const curve = (/** @type {ReturnType<typeof compare>} */ one, /** @type {[number, number][]} */ points) => ({
    id: String(one.run.reynolds),
    label: `${Math.round(one.run.reynolds / 1000)}k`,
    points: points.sort((a, b) => a[0] - b[0]),
  });
  const drawing = comparedCurves(
    {
      question: `${section}, ${state}: drag against lift, computed and measured`,
      x: { label: 'lift coefficient', unit: '' },
      y: { label: 'drag coefficient', unit: '', decimals: 4 },
      a: {
        name: 'computed',
        curves: shown.map((one) =>
          curve(
            one,
            risingBranch(one.polar)
              .filter((p) => p.drag < 0.06)
              .map((p) => [p.lift, p.drag]),
          ),
        ),
      },
      b: {
        name: 'measured',
        curves: shown.map((one) =>
          curve(
            one,
            one.run.points.filter((p) => p.drag < 0.06).map((p) => [p.lift, p.drag]),
          ),
        ),
      },
    },
    { standalone: true, width: 900, height: 460 },
  );
  const file = `sections/${section}-${state}.svg`;
  writeFileSync(`${docs}${file}`, `${drawing.svg}\n`);
  return `![${section}, ${state}](${file})`;
}

if (!existsSync(data)) {
  console.log('../shared/data/sections is absent: nothing written');
} else {
  mkdirSync(`${docs}sections`, { recursive: true });
  const lines = [
    '# Computed polars beside measured ones',
    '',
    'Computed by `packages/engine/src/section/viscous` from design coordinates with N = 9; nothing is fitted. Measured: Selig et al., _Summary of Low-Speed Airfoil Data_, vol. 1 to 3, 1995 to 1998. Drag is compared at equal lift between -0.2 and 0.9. Written by `builders/section-polars.mjs`.',
    '',
    '| section | state | Reynolds number | points | median of drag | median of the amount | worst | greatest lift, computed | measured |',
    '| --- | --- | --- | --- | --- | --- | --- | --- | --- |',
  ];
  const pictures = [];
  for (const section of ['E387', 'SD7037', 'A18', 'E374', 'SD7080', 'S1223']) {
    const compared = runs(section).map((run) => compare(section, run));
    for (const { run, errors, polar, maximum } of compared) {
      const top = polar.points.length === 0 ? Number.NaN : Math.max(...polar.points.map((point) => point.lift));
      const measures =
        errors.length === 0
          ? ['-', '-', '-']
          : [median(errors), median(errors.map(Math.abs)), Math.max(...errors.map(Math.abs))].map(percent);
      lines.push(
        `| ${section} | ${run.state} | ${run.reynolds} | ${errors.length} | ${measures.join(' | ')} | ${top.toFixed(2)} | ${maximum?.toFixed(2) ?? '-'} |`,
      );
    }
    for (const state of new Set(compared.map(({ run }) => run.state)))
      pictures.push(draw(compared, section, state), '');
    console.log(section);
  }
  writeFileSync(`${docs}sections.md`, `${[...lines, '', ...pictures].join('\n').trimEnd()}\n`);
}
