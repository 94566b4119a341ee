import type { Check } from '../check.js';
import { row } from './checkRow.js';
import { reducedBending, type StructuralMaterial, stackStiffness } from './laminate.js';
import {
  clampedModel,
  deflectionAt,
  heldSquare,
  panel,
  panelFrequencies,
  patchTest,
  pointLoads,
  uniformLoads,
  uniformPlate,
} from './panels.js';

const batoz = 'constant curvature: exact for any element that passes';
const patchRows: readonly Check[] = (['aft', 'out', 'twist'] as const).flatMap((kind) => [
  row({
    id: `patch-${kind}`,
    quantity: `energy of constant curvature (${kind}) on an irregular patch, 2 x 1, D = 1`,
    expected: kind === 'twist' ? 1.4 : 1,
    unit: '-',
    tolerance: 1e-8,
    why: 'rounding',
    source: batoz,
    calls: 'triangleStiffness',
    compute: () => patchTest(kind, 0.3).energy,
  }),
  row({
    id: `patch-${kind}-force`,
    quantity: `force left at the inner node (${kind})`,
    expected: 0,
    unit: '-',
    tolerance: 1e-8,
    why: 'rounding',
    source: batoz,
    calls: 'triangleStiffness',
    compute: () => patchTest(kind, 0.3).force,
  }),
]);

/** Square of 8 x 8 elements held along one edge. */
const square = (poisson: number) => panel(1, 1, uniformPlate(1, poisson));
const converged =
  '12 x 12 polynomial Ritz solution (converged); few-term values (Barton 1951; Leissa, NASA SP-160, 1969) lie 0.6 % above';
const plateFrequencyRows: readonly Check[] = [3.4711, 8.5071, 21.286, 27.199, 30.958].map((expected, i) =>
  row({
    id: `plate-frequency-${i + 1}`,
    quantity: `frequency ${i + 1} of a cantilever square, 8 x 8, omega a^2 sqrt(rho h / D)`,
    expected,
    unit: '-',
    tolerance: 0.005 * expected,
    why: '0.5 %, asked of a good element at this mesh',
    source: converged,
    calls: 'naturalModes',
    compute: () => panelFrequencies(square(0.3), 5, 81)[i],
  }),
);

const staticRows: readonly Check[] = (
  [
    ['uniform-mid', 'uniform load, middle of the tip', 0.12907, [0.5, 1], 'uniform'],
    ['uniform-corner', 'uniform load, corner', 0.12722, [0, 1], 'uniform'],
    ['point-mid', 'force at the middle of the tip, there', 0.3611, [0.5, 1], [[0.5, 1, 1]]],
    ['point-corner', 'force at the middle of the tip, corner', 0.32945, [0, 1], [[0.5, 1, 1]]],
  ] as const
).map(([id, name, expected, [x, y], forces]) =>
  row({
    id: `plate-${id}`,
    quantity: `deflection of a cantilever square, 8 x 8: ${name}`,
    expected,
    unit: '-',
    tolerance: 0.01 * expected,
    why: '1 %',
    source: 'converged Ritz solution',
    calls: 'solveStatic',
    compute: () => {
      const plate = clampedModel({ surfaces: [square(0.3)] }, { corners: 81 });
      return deflectionAt(plate, forces === 'uniform' ? uniformLoads(plate) : pointLoads(plate, forces), x, y);
    },
  }),
);

const twistRow = row({
  id: 'plate-twist',
  quantity: 'opposite forces 0.5 at the tip corners of a cantilever square, difference of their deflections',
  expected: 0.2708,
  unit: '-',
  tolerance: 0.01 * 0.2708,
  why: '1 %',
  source: 'converged Ritz solution',
  calls: 'solveStatic',
  compute: () => {
    const plate = clampedModel({ surfaces: [square(0.3)] }, { corners: 81 });
    const loads = pointLoads(plate, [
      [0, 1, -0.5],
      [1, 1, 0.5],
    ]);
    return deflectionAt(plate, loads, 1, 1) - deflectionAt(plate, loads, 0, 1);
  },
});

const heldRows: readonly Check[] = (
  [
    ['uniform', 'uniform load', 0.00406235],
    ['point', 'force in the middle', 0.0116008],
  ] as const
).map(([key, name, expected]) =>
  row({
    id: `plate-held-${key}`,
    quantity: `centre of a square held along all edges, 16 x 16: ${name}`,
    expected,
    unit: '-',
    tolerance: 0.01 * expected,
    why: '1 %',
    source: 'Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (from memory)',
    calls: 'solveStatic',
    compute: () => heldSquare(289)[key],
  }),
);

const prepreg: StructuralMaterial = {
  name: 'carbon prepreg',
  modulus: 98e9,
  modulusAcross: 7.9e9,
  shearModulus: 5.6e9,
  throughShear: 5.6e9,
  poisson: 0.28,
  density: 1520,
  tension: 1e9,
  compression: 1e9,
  shearStrength: 7e7,
  expansion: 0,
};

/** Six plies of 0.134 mm, angles in degrees from the length, counted from one face to the middle and back. */
function laminatePanel(degrees: readonly number[]) {
  const angles = [...degrees, ...[...degrees].reverse()].map((angle) => (angle * Math.PI) / 180);
  const thickness = 0.134e-3;
  const stack = stackStiffness(
    angles.map((angle, i) => ({ material: prepreg, thickness, angle, middle: (i - 2.5) * thickness })),
  );
  const [d11, d12, d22, d16, d26, d66] = reducedBending(stack);
  return panel(0.0762, 0.305, { d11, d12, d22, d16, d26, d66, arealMass: stack.arealMass, heatCurvature: 0 });
}

const laminateRows: readonly Check[] = (
  [
    ['0-90', [0, 0, 90], [11.04, 39.53, 69.16]],
    ['15', [15, 15, 0], [8.93, 42.86, 62.6]],
    ['30', [30, 30, 0], [6.3, 37.24, 57.07]],
    ['45', [45, 45, 0], [4.88, 30.04, 49.81]],
  ] as const
).flatMap(([id, degrees, expected]) =>
  expected.map((hertz, i) =>
    row({
      id: `laminate-${id}-${i + 1}`,
      quantity: `frequency ${i + 1} of a cantilever plate of six carbon plies [${degrees.join('/')}]s`,
      expected: hertz,
      unit: 'Hz',
      tolerance: 0.01 * hertz,
      why: '1 %',
      source: 'converged Ritz solution; [0_2/90]s as in Hollowell and Dugundji, J. Aircraft 21(1), 1984 (from memory)',
      calls: 'naturalModes',
      compute: () => panelFrequencies(laminatePanel(degrees), 3)[i] / (2 * Math.PI),
    }),
  ),
);

/** Plates against patch tests, converged solutions and a laminate. */
export const plateChecks: readonly Check[] = [
  ...patchRows,
  ...plateFrequencyRows,
  ...staticRows,
  twistRow,
  ...heldRows,
  ...laminateRows,
];
