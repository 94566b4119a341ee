import type { Check } from '../check.js';
import { trapezoidalWing } from '../shape/index.js';
import { buildModel, halfModel } from '../structure/index.js';
import { panel, uniformPlate } from '../structure/panels.js';
import { wingReference } from '../wing/index.js';
import { row } from './checkRow.js';
import { elasticHalf, steadyHalves } from './elasticHalf.js';
import { elasticTrim, trimForces } from './elasticTrim.js';
import { gustLoad } from './gust.js';
import { landingLoad } from './landingLoad.js';
import { touchdownLoad } from './touchdown.js';

const nan = Number.NaN;
const pound = 4.4482216;
const foot = 0.3048;
const example = {
  wingLoading: (2300 * pound) / (174 * foot * foot),
  meanChord: 4.9 * foot,
  liftSlope: 4.9,
  density: 1.225,
};
const knots = 0.514444;

const gustRows: Check[] = (
  [
    ['mass ratio', 14.397, 'massRatio'],
    ['alleviation', 0.64322, 'alleviation'],
    ['load factor', 3.873, 'loadFactor'],
  ] as const
).map(([name, expected, key]) =>
  row({
    id: `aeroelastic-gust-${name.replaceAll(' ', '-')}`,
    quantity: `gust of 50 ft/s at 120 knots: ${name}`,
    expected,
    unit: '-',
    tolerance: 1e-3 * expected,
    why: '1e-3 of the value: 498 in the rule is rounded',
    source: '14 CFR 23.341(c) before 2017, worked example',
    calls: 'gustLoad',
    compute: () => gustLoad(example, 120 * knots, 50 * foot)[key],
  }),
);

const weight = 10;
/** Of the slender wing: half span and chord [m], bending stiffness along the span [N m2]. */
const [semispan, chord, bending] = [1, 0.2, 4];

/** A slender wing that bends, free in flight, trimmed with its elevator aft of the middle of its span. */
function bentWing() {
  const wing = {
    ...trapezoidalWing({ span: 2 * semispan, aspectRatio: (2 * semispan) / chord, section: 'plate' }),
    controls: [{ name: 'elevon', kind: 'elevon', fromY: 0.1, toY: 0.9, chordFraction: 0.3, effectiveness: 1 } as const],
  };
  const plate = uniformPlate(bending / chord, 0, weight / 9.80665 / (2 * semispan * chord));
  const part = { ...panel(chord, semispan, plate), name: 'wing' };
  const built = buildModel({ surfaces: [part], bodies: [], masses: [] }, { corners: 60 });
  if (!built.ok) throw new Error(built.reason);
  const reference = wingReference([wing]);
  const camber = { plate: { chordFractions: [0, 0.5, 1], slopes: [0.1, 0, 0.02] } };
  const { symmetric } = steadyHalves([wing], { panels: { chordwise: 4, spanwise: 8 }, camber }, reference);
  const elastic = elasticHalf(symmetric, built.value, halfModel(built.value, 'symmetric'));
  if (!elastic.ok) throw new Error(elastic.reason);
  const balancePoint = built.value.balancePoint;
  const condition = { weight, balancePoint, pitchControls: ['elevon'], chord: reference.chord, bodyMoment: 0 };
  const trim = elasticTrim(elastic.value, 60, condition);
  if (trim === undefined) throw new Error('the wing of the check cannot be trimmed');
  return { elastic: elastic.value, model: built.value, trim, condition };
}

/** Loads of the air on the bent wing in trim: their sum, and their moment about the balance point. */
function trimmedLoads() {
  const { elastic, trim, condition } = bentWing();
  const forces = trimForces(elastic, trim, condition.pitchControls);
  const { lattice } = elastic.steady;
  let [lift, moment] = [0, 0];
  forces.forEach((force, p) => {
    const up = 2 * force * lattice.strips.nz[lattice.stripOfPanel[p]];
    lift += up;
    moment += up * (condition.balancePoint - (lattice.ends[6 * p] + lattice.ends[6 * p + 3]) / 2);
  });
  return { lift, moment };
}

const balanceRows: Check[] = [
  row({
    id: 'aeroelastic-bent-lift',
    quantity: 'sum of the loads on the panels of a bent wing in trim, over its weight',
    expected: 1,
    unit: '-',
    tolerance: 1e-9,
    why: 'rounding',
    source: 'equilibrium of forces',
    calls: 'trimForces',
    compute: () => trimmedLoads().lift / weight,
  }),
  row({
    id: 'aeroelastic-bent-moment',
    quantity: 'moment of these loads about the balance point, over weight times chord',
    expected: 0,
    unit: '-',
    tolerance: 1e-9,
    why: 'rounding',
    source: 'equilibrium of moments',
    calls: 'trimForces',
    compute: () => trimmedLoads().moment / (weight * chord),
  }),
];

/** Bears far more than flight asks for, in the middle of the half span alone. */
const strength = { surface: 'wing', y: [semispan / 2], up: [1e6], down: [1e6], reasons: ['the spar breaks'] };
const landed = () => {
  const { elastic, model, trim, condition } = bentWing();
  return landingLoad(elastic, model, trim, condition, strength);
};

const touchdownRows: Check[] = [
  row({
    id: 'aeroelastic-touchdown-bending',
    quantity:
      'moment at half of the half span when a uniform wing is stopped in its middle, over load factor x weight x span / 32',
    expected: 1,
    unit: '-',
    tolerance: 0.02,
    why: '2 %: slopes vary linearly over elements of a tenth of the half span',
    source: 'statics of a uniform beam under its own inertia: m g n (L - y)^2 / 2',
    calls: 'landingLoad',
    compute: () => {
      const { loadFactor } = landed() ?? { loadFactor: nan };
      return (1e6 * bending) / (loadFactor * weight * ((2 * semispan) / 32));
    },
  }),
  row({
    id: 'aeroelastic-touchdown-energy',
    quantity: 'work of an even stop (load factor x weight x way) over the kinetic energy of the sink that it ends',
    expected: 1,
    unit: '-',
    tolerance: 1e-9,
    why: 'rounding',
    source: 'conservation of energy',
    calls: 'landingLoad',
    compute: () => {
      const { loadFactor, stoppedWithin, sinkRate } = landed() ?? {
        loadFactor: nan,
        stoppedWithin: nan,
        sinkRate: nan,
      };
      return (loadFactor * 9.80665 * stoppedWithin) / (sinkRate ** 2 / 2);
    },
  }),
  row({
    id: 'aeroelastic-touchdown-spring',
    quantity: 'peak force over weight of a fall of 50 mm on a spring that rests pressed in by 2 mm under the weight',
    expected: 1 + Math.sqrt(51),
    unit: '-',
    tolerance: 1e-9,
    why: 'closed form 1 + sqrt(1 + 2 h / delta); the way is delta times it',
    provenance: 'from memory',
    source: 'Gere and Timoshenko, Mechanics of Materials, impact loading; S. Timoshenko, Strength of Materials, part I',
    calls: 'touchdownLoad',
    compute: () => {
      const way = 0.002 * (1 + Math.sqrt(1 + (2 * 0.05) / 0.002));
      return touchdownLoad({ sinkRate: Math.sqrt(2 * 9.80665 * 0.05), way, carried: 0 }).spring;
    },
  }),
];

/** Loads and shape in flight: gusts, balance of the bent aircraft, touchdown. */
export const flightChecks: readonly Check[] = [...gustRows, ...balanceRows, ...touchdownRows];
