import { aircraftBlockers, shadeTable, usualEdge } from '../packages/engine/dist/light/index.js';
import { noDeviation } from '../packages/verdict/dist/deviations.js';
import { gridRun, skyRuns } from '../packages/verdict/dist/grid-run.js';
import { createStages, verdict } from '../packages/verdict/dist/index.js';
import { aircraftOf, exampleText, hasExample, planOf } from './examples.mjs';
import { duration, exponentials, measure } from './measure.mjs';

/** Step of the day [s]. */
const step = 60;

/** Shade on cells, and a day whose strings are evaluated cell by cell, of the example that is covered with cells. */
export default function light() {
  if (!hasExample('bandeja.yaml')) return [];
  const aircraft = aircraftOf(exampleText('bandeja.yaml'));
  const found = verdict(aircraft, planOf(exampleText('bandeja.day.yaml')), {}, createStages(), {
    samples: 0,
    contributions: false,
  });
  const { prepared, flight } = found;
  const assembled = prepared.model.airframe?.assembled;
  const cells = prepared.run.array?.cells;
  if (assembled === undefined || cells === undefined || flight === undefined)
    throw new Error('the example has no cells');
  const yardstick = exponentials();
  const { shape, sections } = assembled;
  const blockers = aircraftBlockers(shape, new Map(sections.map(({ name, geometry }) => [name, geometry])));
  const table = measure(() => shadeTable(cells, shape.surfaces, blockers, usualEdge)).median;
  const oneSky = { ...prepared, skies: prepared.skies.slice(0, 1) };
  const cold = measure(() => {
    const at = gridRun(oneSky, flight, step, createStages());
    return skyRuns(oneSky, at, flight, noDeviation);
  }).median;
  const at = gridRun(oneSky, flight, step, createStages());
  const remembered = measure(() => skyRuns(oneSky, at, flight, noDeviation)).median;
  return [
    duration(
      `shade on ${cells.length} cells by ${blockers.length} parts, ${usualEdge ** 2} directions (budget for 60 cells)`,
      table,
      { yardstick, budget: (300 * cells.length) / 60 },
    ),
    duration('a day at 1-minute steps with strings of every cell, from sun to charge, one sky', cold, {
      yardstick,
      budget: 300,
    }),
    duration('the same with string maxima remembered', remembered, { yardstick, budget: 15 }),
  ];
}
