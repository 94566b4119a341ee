/**
 * Pictures and tables of docs/sections.md: computed polars beside measured points, nothing fitted. The measured data stay outside the
 * repository (../shared/data/sections); where they are absent nothing is written.
 * Measured: Selig et al., Summary of Low-Speed Airfoil Data, vol. 1 to 3, 1995 to 1998.
 * Run after a build: node builders/section-polars.mjs
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { comparedCurves } from '../packages/drawing/dist/index.js';
import {
  builtOutline,
  polarDragAtLift,
  preparedOutline,
  risingBranch,
  sweepPolar,
} from '../packages/engine/dist/section/viscous/index.js';

const data = fileURLToPath(new URL('../../shared/data/sections/', import.meta.url));
const docs = fileURLToPath(new URL('../docs/', import.meta.url));
const degree = Math.PI / 180;

/** Zigzag strips of 0.023 in on a chord of 12 in (the chord from memory). */
const TRIP_HEIGHT = 0.0019;

/** @typedef {{ model: string, reynolds: number, state: string, points: { lift: number, drag: number }[] }} Run */

/** @param {string} file */
const rows = (file) =>
  readFileSync(`${data}${file}`, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

/** @param {string} section @param {string} kind */
function coordinates(section, kind) {
  const points = rows(`${section}_coords.csv`).filter((row) => row[2]?.startsWith(kind));
  return { x: points.map((row) => Number(row[4])), y: points.map((row) => Number(row[5])) };
}

/** Outline as designed, and as built where the model was measured. @param {string} section */
function outlines(section) {
  const design = coordinates(section, 'design');
  const measured = coordinates(section, 'measured');
  // Of the two models of the E387 one was measured.
  const model = section === 'E387' ? 'E387 (C)' : undefined;
  return { design, model, ...(measured.x.length > 0 ? { built: builtOutline(design, measured) } : {}) };
}

/** Runs of one model at about one Reynolds number in one state, together. @param {string} section @returns {Run[]} */
function runs(section) {
  /** @type {Map<string, Run>} */
  const found = new Map();
  for (const row of rows(`${section}_drag.csv`)) {
    const reynolds = 50_000 * Math.round(Number(row[4]) / 50_000) || 50_000;
    const state = row[2] ?? 'clean';
    const model = row[1] ?? section;
    const run = found.get(`${model} ${state} ${reynolds}`) ?? { model, reynolds: Number(row[4]), state, points: [] };
    run.points.push({ lift: Number(row[8]), drag: Number(row[9]) });
    found.set(`${model} ${state} ${reynolds}`, run);
  }
  return [...found.values()].sort((a, b) => a.reynolds - b.reynolds);
}

/** Lift measured near a Reynolds number while the incidence rises, [degrees, lift]. @param {string} section @param {Run} run */
function measuredLift(section, run) {
  /** @type {Map<string, [number, number][]>} */
  const blocks = new Map();
  for (const row of rows(`${section}_lift.csv`)) {
    if (row[1] !== run.model || row[2] !== run.state || Math.abs(Number(row[4]) / run.reynolds - 1) >= 0.05) continue;
    const block = blocks.get(`${row[1]} ${row[5]}`) ?? [];
    block.push([Number(row[7]), Number(row[8])]);
    blocks.set(`${row[1]} ${row[5]}`, block);
  }
  return [...blocks.values()].flatMap((block) => {
    const top = Math.max(...block.map(([angle]) => angle));
    return block.slice(0, block.findIndex(([angle]) => angle === top) + 1);
  });
}

/** Straight line through lifts of 0.15 to 0.75 below 8 degrees: slope per degree and angle of no lift. @param {[number, number][]} points */
function liftLine(points) {
  const used = points.filter(([angle, lift]) => lift >= 0.15 && lift <= 0.75 && angle < 8);
  const mean = (/** @type {0 | 1} */ part) => used.reduce((sum, point) => sum + point[part], 0) / used.length;
  const [angle, lift] = [mean(0), mean(1)];
  const slope =
    used.reduce((sum, point) => sum + (point[0] - angle) * (point[1] - lift), 0) /
    used.reduce((sum, point) => sum + (point[0] - angle) ** 2, 0);
  return { slope, zero: angle - lift / slope };
}

/** Median of computed less measured lift at the measured incidences from -2 to 7 degrees. @param {[number, number][]} computed @param {[number, number][]} measured */
function liftOffset(computed, measured) {
  const offsets = measured.flatMap(([angle, lift]) => {
    const i = computed.findIndex(([other]) => other >= angle);
    if (angle < -2 || angle > 7 || i < 1) return [];
    const [a, b] = [computed[i - 1], computed[i]];
    if (a === undefined || b === undefined) return [];
    return [a[1] + ((b[1] - a[1]) * (angle - a[0])) / (b[0] - a[0]) - lift];
  });
  return median(offsets);
}

/** @param {readonly number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
/** @param {number} value */
const percent = (value) => `${(100 * value).toFixed(0)} %`;

/** @param {string} section @param {Run} run @param {string} shape @param {{ x: readonly number[], y: readonly number[] }} outline */
function compare(section, run, shape, outline) {
  const prepared = preparedOutline(outline.x, outline.y);
  if (!prepared.ok) throw new Error(prepared.reason);
  const trips = /** @type {[number, number]} */ (run.state === 'tripped' ? [0.02, 0.05] : [Number.NaN, Number.NaN]);
  const tripHeights = /** @type {[number, number]} */ ([TRIP_HEIGHT, TRIP_HEIGHT]);
  const polar = sweepPolar(prepared.value, { reynolds: run.reynolds, critical: 9, trips, tripHeights, step: degree });
  const errors = run.points
    .filter(({ lift }) => lift >= -0.2 && lift <= 0.9)
    .flatMap(({ lift, drag }) => {
      const computed = polarDragAtLift(polar, lift);
      return computed === undefined ? [] : [computed / drag - 1];
    });
  const measured = measuredLift(section, run);
  /** @type {[number, number][]} */
  const computed = polar.points.map((point) => [point.alpha / degree, point.lift]);
  return { section, run, shape, polar, errors, computed, measured };
}

/** One row of the table. @param {ReturnType<typeof compare>} one */
function row({ run, shape, errors, computed, measured }) {
  const top = (/** @type {[number, number][]} */ points) => Math.max(...points.map(([, lift]) => lift));
  const drag =
    errors.length === 0
      ? ['-', '-', '-']
      : [median(errors), median(errors.map(Math.abs)), Math.max(...errors.map(Math.abs))].map(percent);
  const [a, b] = [liftLine(computed), liftLine(measured)];
  const fixed = (/** @type {number} */ value, /** @type {number} */ digits) =>
    Number.isFinite(value) ? value.toFixed(digits) : '-';
  const lift = [
    fixed(liftOffset(computed, measured), 3),
    `${fixed(a.zero, 1)} / ${fixed(b.zero, 1)}`,
    `${fixed(a.slope, 3)} / ${fixed(b.slope, 3)}`,
    `${fixed(top(computed), 2)} / ${fixed(top(measured), 2)}`,
    percent(top(computed) / top(measured) - 1),
  ];
  return `| ${[run.model, run.state, shape, run.reynolds, errors.length, ...drag, ...lift].join(' | ')} |`;
}

/** Pooled row of clean runs between two Reynolds numbers. @param {ReturnType<typeof compare>[]} all @param {string} name @param {number} from @param {number} to */
function pooled(all, name, from, to) {
  const used = all.filter(({ run }) => run.state === 'clean' && run.reynolds > from && run.reynolds < to);
  const errors = used.flatMap((one) => one.errors);
  const top = (/** @type {[number, number][]} */ points) => Math.max(...points.map(([, lift]) => lift));
  const tops = used.map(({ computed, measured }) => top(computed) / top(measured) - 1).filter(Number.isFinite);
  const offsets = used.map(({ computed, measured }) => liftOffset(computed, measured)).filter(Number.isFinite);
  const worst = (/** @type {number[]} */ values) => Math.max(...values.map(Math.abs));
  return `| ${name} | ${errors.length} | ${percent(median(errors))} | ${percent(median(errors.map(Math.abs)))} | ${percent(worst(errors))} | ${median(offsets).toFixed(3)} | ${percent(median(tops.map(Math.abs)))} | ${percent(worst(tops))} |`;
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

/** Puts text between two marks of a page. @param {string} page @param {string} mark @param {string} text */
function between(page, mark, text) {
  const [open, close] = [`<!-- ${mark} -->`, `<!-- end of ${mark} -->`];
  const [from, to] = [page.indexOf(open), page.indexOf(close)];
  if (from < 0 || to < from) throw new Error(`docs/sections.md lacks the marks of ${mark}`);
  return `${page.slice(0, from + open.length)}\n\n${text}\n\n${page.slice(to)}`;
}

const HEAD = [
  '| section | state | outline | Reynolds number | points | median of drag | median of the amount | worst | lift at equal incidence, less measured | no lift at [deg], computed / measured | slope per degree | greatest lift | error |',
  '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |',
];
const POOLED_HEAD = [
  '| clean runs | points | median of drag | median of the amount | worst | lift at equal incidence, less measured | greatest lift, median of the amount | worst |',
  '| --- | --- | --- | --- | --- | --- | --- | --- |',
];

if (!existsSync(data)) {
  console.log('../shared/data/sections is absent: nothing written');
} else {
  mkdirSync(`${docs}sections`, { recursive: true });
  /** @type {string[]} */
  const lines = [];
  /** @type {string[]} */
  const pictures = [];
  /** Sections whose model was measured, by outline. */
  const both = {
    designed: /** @type {ReturnType<typeof compare>[]} */ ([]),
    built: /** @type {ReturnType<typeof compare>[]} */ ([]),
  };
  for (const section of ['E387', 'SD7037', 'A18', 'E374', 'SD7080', 'S1223']) {
    const { design, built, model } = outlines(section);
    const designed = runs(section).map((run) => compare(section, run, 'designed', design));
    const shown = designed.flatMap((one) => {
      lines.push(row(one));
      if (built === undefined || one.run.model !== (model ?? one.run.model)) return [one];
      const other = compare(section, one.run, 'built', built);
      lines.push(row(other));
      both.designed.push(one);
      both.built.push(other);
      return [other];
    });
    if (built !== undefined) {
      const [above, below] = built.scatter.map((value) => (100 * value).toFixed(3));
      console.log(
        `${section}: scatter ${above} and ${below} % of chord, trailing edge ${(100 * built.tailGap).toFixed(2)} %`,
      );
    }
    // One curve for each Reynolds number: of the measured model where there are two.
    const drawn = shown.filter(({ run }) => run.model === (model ?? run.model));
    for (const state of new Set(drawn.map(({ run }) => run.state))) pictures.push(draw(drawn, section, state), '');
    console.log(section);
  }
  const summary = [
    ['60 000', 5e4, 8e4],
    ['100 000', 9e4, 12e4],
    ['150 000', 14e4, 17e4],
    ['200 000 and above', 19e4, 1e6],
  ].flatMap(([name, from, to]) => [
    pooled(both.designed, `${name}, as designed`, Number(from), Number(to)),
    pooled(both.built, `${name}, as built`, Number(from), Number(to)),
  ]);
  let page = readFileSync(`${docs}sections.md`, 'utf8');
  page = between(page, 'summary', [...POOLED_HEAD, ...summary].join('\n'));
  page = between(page, 'runs', [...HEAD, ...lines].join('\n'));
  page = between(page, 'pictures', pictures.join('\n').trimEnd());
  writeFileSync(`${docs}sections.md`, page);
}
