import type { Check } from '../check.js';
import { bendCantilever, cantileverFrequencies } from './cantilever.js';
import { leastBendRadius } from './cells.js';
import { reducedBending, type StructuralMaterial, sandwich, stackStiffness } from './laminate.js';
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
import { capsProfile, rectangleTorsionCoefficient, tubeProfile } from './profiles.js';
import { foamBed, wrinklingStress } from './strength.js';
import { bredtConstant, cellTorsion, openConstant } from './thinWalled.js';

const topic = 'structure';
type Row = Pick<Check, 'id' | 'quantity' | 'expected' | 'unit' | 'tolerance' | 'calls' | 'compute'> & Partial<Check>;

const row = (given: Row): Check => ({
  topic,
  why: 'last printed digit',
  provenance: 'recomputed from the published formula',
  source: 'textbook: Gere and Timoshenko, Mechanics of Materials, appendix G',
  ...given,
  id: `structure-${given.id}`,
});

const unit = (elements: number) => ({ length: 1, elements, at: () => ({ bending: 1, torsion: 1, linearMass: 1 }) });

/** One element, end load or distributed load, exact at its node. */
const cantileverRows: readonly Check[] = (
  [
    ['tip-force', 'tip force', 1 / 3, 1 / 2, () => 0, 1],
    ['uniform', 'uniform load', 1 / 8, 1 / 6, () => 1, 0],
    ['root-triangle', 'load falling linearly to the tip', 1 / 30, 1 / 24, (x: number) => 1 - x, 0],
    ['tip-triangle', 'load rising linearly to the tip', 11 / 120, 1 / 8, (x: number) => x, 0],
  ] as const
).flatMap(([id, name, deflection, slope, load, force]) =>
  (['tipDeflection', 'tipSlope'] as const).map((key) =>
    row({
      id: `beam-${id}-${key === 'tipSlope' ? 'slope' : 'deflection'}`,
      quantity: `${key === 'tipSlope' ? 'slope' : 'deflection'} of the tip, one element, ${name}, EI = L = 1`,
      expected: key === 'tipSlope' ? slope : deflection,
      unit: '-',
      tolerance: 1e-10,
      why: 'the element is exact at its nodes',
      calls: 'bendCantilever',
      compute: () => bendCantilever(unit(1), load, { force })[key],
    }),
  ),
);

const elliptic = () => bendCantilever(unit(1), (x) => Math.sqrt(1 - x * x));
const ellipticRows: readonly Check[] = (
  [
    ['deflection', 'deflection of the tip', 'tipDeflection', 0.0759525],
    ['slope', 'slope of the tip', 'tipSlope', 0.0981748],
    ['moment', 'moment at the root', 'rootMoment', 0.3333333],
  ] as const
).map(([id, name, key, expected]) =>
  row({
    id: `beam-elliptic-${id}`,
    quantity: `${name}, elliptic load, w0 = EI = L = 1`,
    expected,
    unit: '-',
    tolerance: 1e-6,
    source: 'closed forms (3 pi/16 - 2/15)/6, pi/32 and 1/3',
    calls: 'bendCantilever',
    compute: () => elliptic()[key],
  }),
);

const frequencyRows: readonly Check[] = [3.516015, 22.0345, 61.697].map((expected, i) =>
  row({
    id: `beam-frequency-${i + 1}`,
    quantity: `frequency ${i + 1} of a cantilever, 10 elements, omega sqrt(m L^4 / EI)`,
    expected,
    unit: '-',
    tolerance: expected * [1e-4, 1e-4, 5e-4][i],
    why: '0.01 %, 0.01 % and 0.05 %: ten elements with consistent mass lie above the exact values',
    source: 'roots of cos x cosh x = -1',
    calls: 'cantileverFrequencies',
    compute: () => cantileverFrequencies(unit(10), 3)[i],
  }),
);

const tube = tubeProfile(8e-3, 6e-3);
const twoCells = () =>
  cellTorsion(
    [
      { area: 0.05 * 0.05, compliance: 0.2 / 1e-3 },
      { area: 0.1 * 0.05, compliance: 0.3 / 1e-3 },
    ],
    [0.05 / 1e-3],
  ).stiffness;
const equalCells = () => {
  const cell = { area: 0.05 * 0.05, compliance: 0.2 / 1e-3 };
  return cellTorsion([cell, cell], [0.05 / 1e-3]).stiffness;
};

const sectionRows: readonly Check[] = [
  row({
    id: 'tube-bending',
    quantity: 'EI of a tube 8/6 mm of 127 GPa',
    expected: 17.455,
    unit: 'N m2',
    tolerance: 17.455e-4,
    why: '0.01 %',
    calls: 'tubeProfile',
    compute: () => 127e9 * tube.inertia,
  }),
  row({
    id: 'tube-torsion',
    quantity: 'torsion constant of a tube 8/6 mm',
    expected: 274.889,
    unit: 'mm4',
    tolerance: 274.889e-4,
    why: '0.01 %',
    calls: 'tubeProfile',
    compute: () => tube.torsion * 1e12,
  }),
  row({
    id: 'caps',
    quantity: 'second moment of two caps 10 x 1 mm, 20 mm between their middles',
    expected: 2001.67,
    unit: 'mm4',
    tolerance: 0.01,
    calls: 'capsProfile',
    compute: () => capsProfile(0.01, 1e-3, 0.021).inertia * 1e12,
  }),
  row({
    id: 'box',
    quantity: 'torsion constant of a square box, side 50 mm, wall 1 mm',
    expected: 1.25e-7,
    unit: 'm4',
    tolerance: 1.25e-11,
    why: '0.01 %',
    source: 'Bredt 1896: a^3 t',
    calls: 'bredtConstant',
    compute: () => bredtConstant(0.0025, 0.2, 1e-3),
  }),
  row({
    id: 'slit',
    quantity: 'torsion constant of a slit tube R = 10 mm, t = 0.5 mm',
    expected: 2.618,
    unit: 'mm4',
    tolerance: 1e-3,
    calls: 'openConstant',
    compute: () => openConstant(2 * Math.PI * 0.01, 5e-4) * 1e12,
  }),
  row({
    id: 'd-box',
    quantity: 'GJ of a D-box of 0.0024 m2, 0.25 m around, 0.1 mm of 6 GPa',
    expected: 55.3,
    unit: 'N m2',
    tolerance: 0.05,
    source: 'Bredt 1896',
    calls: 'bredtConstant',
    compute: () => 6e9 * bredtConstant(0.0024, 0.25, 1e-4),
  }),
  row({
    id: 'cells-equal',
    quantity: 'torsion constant of two square cells of 50 mm, walls 1 mm',
    expected: 3.3333e-7,
    unit: 'm4',
    tolerance: 3.3333e-11,
    why: '0.01 %',
    source: 'Bredt 1896',
    calls: 'cellTorsion',
    compute: equalCells,
  }),
  row({
    id: 'cells-unequal',
    quantity: 'torsion constant of cells 50 x 50 and 100 x 50 mm with a common web',
    expected: 5.6522e-7,
    unit: 'm4',
    tolerance: 5.6522e-11,
    why: '0.01 %',
    source: 'Bredt 1896',
    calls: 'cellTorsion',
    compute: twoCells,
  }),
  ...(
    [
      [1, 0.14058],
      [2, 0.22868],
      [10, 0.31233],
    ] as const
  ).map(([ratio, expected]) =>
    row({
      id: `rectangle-${ratio}`,
      quantity: `torsion coefficient of a rectangle of ratio ${ratio}`,
      expected,
      unit: '-',
      tolerance: 1e-4 * expected,
      why: '0.01 %',
      source: "Saint-Venant's series; Young and Budynas, Roark's Formulas, table 10.1",
      calls: 'rectangleTorsionCoefficient',
      compute: () => rectangleTorsionCoefficient(ratio),
    }),
  ),
];

const shell = () => sandwich({ modulus: 20e9, thickness: 1e-4 }, { modulus: 15e6, shearModulus: 5e6, thickness: 6e-3 });
const zenkert = 'Zenkert, An Introduction to Sandwich Construction, 1995 (formulas from memory)';
const foamRows: readonly Check[] = [
  row({
    id: 'sandwich-bending',
    quantity: 'bending stiffness of 6 mm foam (15 MPa) with faces 0.1 mm of 20 GPa',
    expected: 37.483,
    unit: 'N m',
    tolerance: 37.483e-4,
    why: '0.01 %',
    source: zenkert,
    calls: 'sandwich',
    compute: () => shell().bending,
  }),
  row({
    id: 'sandwich-shear',
    quantity: 'shear stiffness of the same sandwich, core 5 MPa',
    expected: 31008,
    unit: 'N/m',
    tolerance: 3.1,
    why: '0.01 %',
    source: zenkert,
    calls: 'sandwich',
    compute: () => shell().shear,
  }),
  row({
    id: 'wrinkling',
    quantity: 'wrinkling stress of a 20 GPa face on foam of 15 and 5 MPa, factor 0.5',
    expected: 57.24,
    unit: 'MPa',
    tolerance: 0.057,
    why: '0.1 %',
    source: 'Hoff and Mautner, J. Aeronaut. Sci. 12, 1945',
    calls: 'wrinklingStress',
    compute: () => wrinklingStress({ modulus: 20e9 }, { modulus: 15e6, shearModulus: 5e6 }) / 1e6,
  }),
  row({
    id: 'foam-bed-deflection',
    quantity: 'end of an 8/6 mm tube in 20 mm of 15 MPa foam under 50 N',
    expected: 0.285,
    unit: 'mm',
    tolerance: 5e-4,
    source: 'Hetenyi, Beams on Elastic Foundation, 1946',
    calls: 'foamBed',
    compute: () => foamBed(17.455, { modulus: 15e6, depth: 0.02, width: 8e-3 }, 50).deflection * 1e3,
  }),
  row({
    id: 'foam-bed-pressure',
    quantity: 'pressure on the foam there',
    expected: 214,
    unit: 'kPa',
    tolerance: 0.5,
    source: 'Hetenyi, Beams on Elastic Foundation, 1946',
    calls: 'foamBed',
    compute: () => foamBed(17.455, { modulus: 15e6, depth: 0.02, width: 8e-3 }, 50).pressure / 1e3,
  }),
  row({
    id: 'cell-radius',
    quantity: 'radius at which 160 micrometres of silicon (130 GPa) reach 100 MPa',
    expected: 104,
    unit: 'mm',
    tolerance: 1e-6,
    why: 'exact',
    source: 'sigma = E t / 2R',
    calls: 'leastBendRadius',
    compute: () => leastBendRadius(130e9, 160e-6, 100e6) * 1e3,
  }),
];

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

export const structureChecks: readonly Check[] = [
  ...cantileverRows,
  ...ellipticRows,
  ...frequencyRows,
  ...sectionRows,
  ...foamRows,
  ...patchRows,
  ...plateFrequencyRows,
  ...staticRows,
  twistRow,
  ...heldRows,
  ...laminateRows,
];
