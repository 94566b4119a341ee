import type { Check } from '../check.js';
import { foamBed, wrinklingStress } from './buckling.js';
import { bendCantilever, cantileverFrequencies } from './cantilever.js';
import { leastBendRadius } from './cells.js';
import { row } from './checkRow.js';
import { freeChecks } from './free.checks.js';
import { sandwich } from './laminate.js';
import { plateChecks } from './plates.checks.js';
import { capsProfile, rectangleTorsionCoefficient, tubeProfile } from './profiles.js';
import { shearChecks } from './shear.checks.js';
import { bredtConstant, cellTorsion, openConstant } from './thinWalled.js';

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

export const structureChecks: readonly Check[] = [
  ...cantileverRows,
  ...ellipticRows,
  ...frequencyRows,
  ...sectionRows,
  ...foamRows,
  ...plateChecks,
  ...freeChecks,
  ...shearChecks,
];
