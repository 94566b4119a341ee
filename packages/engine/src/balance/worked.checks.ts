import type { Check } from '../check.js';
import { sumMass } from './mass.js';
import { additionEffect, ballastAt, placeForBalance } from './placement.js';

const shiftRow = (id: string, quantity: string, expected: number, calls: string, compute: () => number): Check => ({
  id,
  topic: 'balance',
  quantity,
  expected,
  unit: id === 'balance-worked-ballast' ? 'g' : 'mm',
  tolerance: 1e-3 * Math.abs(expected),
  why: '1e-3 of the value: printed digits',
  provenance: 'recomputed from the published formula',
  source: 'moment equilibrium; FAA-H-8083-1, Aircraft Weight and Balance Handbook (from memory)',
  calls,
  compute,
});

const shiftChecks: readonly Check[] = [
  shiftRow(
    'balance-worked-ballast',
    'ballast at 20 mm that brings 1.25 kg from 210 to 195 mm',
    107.1,
    'ballastAt',
    () => {
      const outcome = ballastAt({ mass: 1.25, x: 0.21 }, 0.195, 0.02);
      return outcome.ok ? outcome.value.mass * 1000 : Number.NaN;
    },
  ),
  shiftRow(
    'balance-worked-addition',
    'shift of the balance point of 1.25 kg at 210 mm by 50 g at 800 mm',
    22.69,
    'additionEffect',
    () => additionEffect({ mass: 1.25, x: 0.21 }, { mass: 0.05, x: 0.8 }, 0.3).shift * 1000,
  ),
  shiftRow(
    'balance-worked-move',
    'move of 100 g that brings 1.25 kg from 210 to 198 mm',
    -150,
    'placeForBalance',
    () => {
      const placed = placeForBalance(
        { mass: 1.25, x: 0.21 },
        { name: 'battery', mass: 0.1, x: 0.4 },
        0.198,
        { from: 0, to: 1 },
        { from: 0, to: 1 },
      );
      return placed.ok ? (placed.value.x - 0.4) * 1000 : Number.NaN;
    },
  ),
];

/** Parts of a small model: mass [kg], x and z [m], own inertia about the three axes [kg m2]. */
const parts: readonly (readonly [string, number, number, number, number, number, number])[] = [
  ['wing', 0.18, 0.1, 0, 0.03375, 0.0006, 0.03435],
  ['cells', 0.2, 0.09, 0.008, 0.032667, 0.00026, 0.032927],
  ['spar', 0.05, 0.06, 0, 0.009375, 0, 0.009375],
  ['battery', 0.21, -0.02, -0.01, 0.000028, 0.000093, 0.000107],
  ['motor', 0.06, -0.12, 0, 0, 0, 0],
  ['tail', 0.05, 0.55, 0.02, 0.00051, 0.000042, 0.00051],
];

const smallSum = () =>
  sumMass(
    parts.map(([name, mass, x, z, xx, yy, zz]) => ({
      name,
      mass,
      x,
      y: 0,
      z,
      provenance: 'weighed',
      shape: { kind: 'inertia', inertia: { xx, yy, zz, xy: 0, xz: 0, yz: 0 } },
    })),
  );

const buildUpChecks: readonly Check[] = (
  [
    ['mass', 'mass', 'kg', 0.75, (sum: ReturnType<typeof smallSum>) => sum.mass],
    ['x', 'balance point aft of the datum', 'm', 0.073467, (sum: ReturnType<typeof smallSum>) => sum.x],
    ['z', 'balance point above the datum', 'm', 0.000667, (sum: ReturnType<typeof smallSum>) => sum.z],
    ['xx', 'inertia in roll', 'kg m2', 0.076384, (sum: ReturnType<typeof smallSum>) => sum.inertia.xx],
    ['yy', 'inertia in pitch', 'kg m2', 0.016673, (sum: ReturnType<typeof smallSum>) => sum.inertia.yy],
    ['zz', 'inertia in yaw', 'kg m2', 0.092895, (sum: ReturnType<typeof smallSum>) => sum.inertia.zz],
    ['xz', 'product of inertia', 'kg m2', 0.000699, (sum: ReturnType<typeof smallSum>) => sum.inertia.xz],
  ] as const
).map(([id, name, unit, expected, of]) => ({
  id: `balance-build-up-${id}`,
  topic: 'balance',
  quantity: `${name} of a small model of six parts`,
  expected,
  unit,
  tolerance: 1e-5,
  why: 'asked of a sum over parts; values have six decimals',
  provenance: 'recomputed from the published formula',
  source: 'definitions and parallel-axis theorem, any mechanics textbook (independent sum)',
  calls: 'sumMass',
  compute: () => of(smallSum()),
}));

/** Worked examples of ballast, shift and a build-up of parts. */
export const workedChecks: readonly Check[] = [...shiftChecks, ...buildUpChecks];
