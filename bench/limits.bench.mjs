import {
  elasticHalf,
  flutterPoints,
  growthCurves,
  modalModel,
  staticLimits,
} from '../packages/engine/dist/aeroelastic/index.js';
import { halfModel } from '../packages/engine/dist/structure/index.js';
import { createStages, verdict } from '../packages/verdict/dist/index.js';
import { aeroelasticWingOf, limitCondition, limits } from '../packages/verdict/dist/limits.js';
import { aircraftOf, exampleText, hasExample, planOf } from './examples.mjs';
import { duration, exponentials, measure } from './measure.mjs';

/** @template T @param {import('../packages/engine/dist/index.js').Outcome<T>} outcome */
function got(outcome) {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const speeds = Array.from({ length: 40 }, (_, i) => 8 + i);

/** Limits of the example whose plate bends most, with its lattice remembered, as after an edit of its stiffness. */
export default function limitRows() {
  if (!hasExample('bandeja.yaml')) return [];
  const stages = createStages();
  const options = { samples: 0, contributions: false };
  const aircraft = aircraftOf(exampleText('bandeja.yaml'));
  const found = verdict(aircraft, planOf(exampleText('bandeja.day.yaml')), {}, stages, options);
  const { model } = got(limits(found, stages));
  const condition = limitCondition(found);
  const { airframe } = found.prepared.model;
  if (condition === undefined || airframe === undefined) throw new Error('the example cannot fly');
  const wing = aeroelasticWingOf(airframe, stages);
  const yardstick = exponentials();
  const effort = { seconds: 1, least: 3 };
  const pressure = (/** @type {number} */ airspeed) => (condition.density / 2) * airspeed ** 2;
  const halves = () => ({
    symmetric: halfModel(model, 'symmetric'),
    antisymmetric: halfModel(model, 'antisymmetric'),
  });
  const fixed = measure(() => {
    const { symmetric, antisymmetric } = halves();
    const even = got(elasticHalf(wing.symmetric, model, symmetric));
    const odd = got(elasticHalf(wing.antisymmetric, model, antisymmetric));
    return staticLimits(even, odd, {
      condition: condition.trim,
      rollControls: condition.rollControls,
      controlRange: condition.controlRange,
      marginOffset: condition.marginOffset,
      lowest: pressure(condition.stallSpeed),
      flown: pressure(condition.airspeed),
      highest: pressure(Math.max(5 * condition.airspeed, 50)),
    });
  }, effort).median;
  const range = { lowest: 0.01 / wing.chord, highest: 4.4 / wing.chord };
  const flutter = measure(() => {
    const half = halfModel(model, 'symmetric');
    const modal = got(
      modalModel(wing.symmetric, wing.oscillating.symmetric, { model, half }, { density: condition.density }),
    );
    return [flutterPoints(modal, range, Math.max(...speeds)), growthCurves(modal, speeds)];
  }, effort).median;
  const size = `${model.dofCount} structural and ${wing.symmetric.panels} lattice unknowns`;
  return [
    duration(`static limits of both halves, ${size}, lattice remembered`, fixed, { yardstick, budget: 1, unit: 's' }),
    duration(`flutter searched, and followed over ${speeds.length} speeds, ${size}, lattice remembered`, flutter, {
      yardstick,
      budget: 3,
      unit: 's',
    }),
  ];
}
