import { airAt } from '../packages/engine/dist/air/index.js';
import { backContactCell } from '../packages/engine/dist/array/index.js';
import { cellPack, lithiumIon21700Curve } from '../packages/engine/dist/battery/index.js';
import {
  arrayMaxima,
  cellTemperatures,
  cellWarmth,
  dayFigures,
  incomePowerAt,
  mismatchFactors,
  runCharge,
} from '../packages/engine/dist/day/index.js';
import { filmCover } from '../packages/engine/dist/sun/index.js';
import { duration, exponentials, measure } from './measure.mjs';

const steps = 1440;
const headings = 12;

const facet = { area: 0.15, from: 0.08, length: 0.2, laminarFraction: 0.5, rearFraction: 0 };

/** One string of 20 cells over both halves of a wing with dihedral, a boost converter, four cells of battery in series. */
/** @type {import('../packages/engine/dist/day/index.js').ArrayPlan} */
const plan = {
  facets: [
    { ...facet, normal: [0, -0.05, -1] },
    { ...facet, normal: [0, 0.05, -1] },
  ],
  strings: [
    {
      name: 'wing',
      cell: backContactCell,
      groups: [
        { facet: 0, count: 10 },
        { facet: 1, count: 10 },
      ],
      parallel: 1,
      seriesResistance: 0.05,
      converter: 0,
      cellsPerDiode: 0,
    },
  ],
  converters: [
    {
      topology: 'boost',
      loss: { fixed: 0.1, perAmpere: 0.05, resistance: 0.02 },
      limits: {},
      tracking: { method: 'maximum power' },
      standbyPower: 0.02,
    },
  ],
  incidence: filmCover,
  lightFactor: 0.95,
};

const sunAt = (/** @type {number} */ step) => Math.max(0, Math.sin((Math.PI * (step - 300)) / 840));

/** Light on both facets, and by heading: what a day keeps when its converter, battery or flight plan is edited. */
function rememberedLight() {
  const light = new Float64Array(steps * 2);
  const perHeading = new Float64Array(steps * headings * 2);
  for (let step = 0; step < steps; step += 1) {
    for (const side of [0, 1]) {
      light[step * 2 + side] = 950 * sunAt(step);
      for (let heading = 0; heading < headings; heading += 1) {
        const sway = 1 + 0.05 * Math.sin((2 * Math.PI * heading) / headings + Math.PI * side);
        perHeading[(step * headings + heading) * 2 + side] = 950 * sunAt(step) * sway;
      }
    }
  }
  return { light, perHeading };
}

const pack = cellPack({ curve: lithiumIon21700Curve, capacity: 5 * 3600, resistance: 0.03 }, 6, 1);
const times = Float64Array.from({ length: steps + 1 }, (_, step) => 60 * step);
const need = Float64Array.from({ length: steps }, () => 22);

/** @param {import('../packages/engine/dist/day/index.js').ArrayMaxima} maxima */
function runDay(maxima) {
  const income = (/** @type {number} */ step, /** @type {number} */ voltage) =>
    incomePowerAt(plan, maxima, step, voltage);
  const start = { stateOfCharge: 0.9, temperature: 298.15 };
  const course = runCharge(pack, start, { times, need, income, from: 360, to: steps });
  const offered = Float64Array.from({ length: steps }, (_, step) => income(step, 21));
  return dayFigures(pack, 298.15, course, { times, offered, need, launch: 360 * 60, dayEnd: steps * 60 });
}

/** @param {ReturnType<typeof rememberedLight>} remembered */
function maximaFrom({ light, perHeading }) {
  const temperature = cellTemperatures(cellWarmth(plan.facets, { air: airAt({ altitude: 80 }), airspeed: 9 }), light);
  const grid = { headings, stride: 15, until: steps };
  return arrayMaxima(plan, light, temperature, mismatchFactors(plan, perHeading, light, temperature, grid));
}

/** A day at 1-minute steps, from remembered string maxima and from remembered light. */
export default function day() {
  const remembered = rememberedLight();
  const maxima = maximaFrom(remembered);
  const yardstick = exponentials();
  const fromMaxima = measure(() => runDay(maxima)).median;
  const fromLight = measure(() => runDay(maximaFrom(remembered))).median;
  return [
    duration('a day at 1-minute steps with string maxima remembered', fromMaxima, { yardstick, budget: 10 }),
    duration('a day at 1-minute steps from remembered light', fromLight, { yardstick, budget: 100 }),
  ];
}
