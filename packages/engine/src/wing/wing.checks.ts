import type { Check } from '../check.js';
import { type ControlSurface, type LiftingSurface, trapezoidalWing } from '../shape/index.js';
import { certain, degree, meshWhy, modelOf, rectangular, row } from './checkRow.js';
import { lateralDerivatives, wingDerivatives } from './derivatives.js';
import { summariseWing } from './planformSummary.js';
import { theoryChecks } from './theory.checks.js';

/** Aspect ratio, lift slope, a.c. aft of the leading edge / chord, span efficiency. */
const rectangles = [
  [0.5, 0.7734, 0.111, 1.0],
  [1, 1.46, 0.167, 1.0],
  [2, 2.4741, 0.2096, 0.9993],
  [4, 3.6116, 0.232, 0.9938],
  [6, 4.2143, 0.2389, 0.9839],
  [8, 4.5857, 0.242, 0.972],
  [12, 5.0212, 0.245, 0.9476],
] as const;

const rectangularRows = rectangles.flatMap(([aspectRatio, slope, centre, efficiency]) => {
  const summary = () => certain(summariseWing(rectangular(aspectRatio)));
  const name = `rectangular wing, AR ${aspectRatio}`;
  return [
    row({
      id: `slope-rectangle-${aspectRatio}`,
      quantity: `lift-curve slope, ${name}`,
      expected: slope,
      unit: '1/rad',
      tolerance: 0.003 * slope,
      why: meshWhy,
      calls: 'summariseWing',
      compute: () => summary().liftSlope,
    }),
    row({
      id: `centre-rectangle-${aspectRatio}`,
      quantity: `neutral point / chord, ${name}`,
      expected: centre,
      unit: '1',
      tolerance: 0.001,
      why: meshWhy,
      calls: 'summariseWing',
      compute: () => summary().neutralPoint,
    }),
    row({
      id: `efficiency-rectangle-${aspectRatio}`,
      quantity: `span efficiency, ${name}`,
      expected: efficiency,
      unit: '1',
      tolerance: 0.001,
      why: meshWhy,
      calls: 'summariseWing',
      compute: () => summary().spanEfficiency,
    }),
  ];
});

/** Aspect ratio, taper, sweep of the quarter chord in degrees, lift slope, span efficiency, neutral point / MAC. */
const swept = [
  [6, 0.5, 20, 4.23, 0.991, 0.24],
  [8, 0.6, 25, 4.427, 0.969, 0.233],
  [8, 0.5, 20, 4.571, 0.985, 0.244],
  [10, 0.5, 20, 4.795, 0.979, 0.246],
  [8, 0.5, 0, 4.728, 0.996, 0.244],
  [4, 0.5, 30, 3.534, 0.992, 0.242],
] as const;

const sweptRows = swept.flatMap(([aspectRatio, taper, sweep, slope, efficiency, neutral]) => {
  const wing = trapezoidalWing({ span: 1, aspectRatio, taper, sweep: sweep * degree });
  const summary = () => certain(summariseWing(wing));
  const name = `AR ${aspectRatio}, taper ${taper}, sweep ${sweep} deg`;
  const id = `${aspectRatio}-${taper}-${sweep}`;
  return [
    row({
      id: `slope-${id}`,
      quantity: `lift-curve slope, ${name}`,
      expected: slope,
      unit: '1/rad',
      tolerance: 0.003 * slope,
      why: meshWhy,
      calls: 'summariseWing',
      compute: () => summary().liftSlope,
    }),
    row({
      id: `neutral-${id}`,
      quantity: `neutral point / MAC, ${name}`,
      expected: neutral,
      unit: '1',
      tolerance: 0.003,
      why: `${meshWhy}; swept loads converge more slowly at the root`,
      calls: 'summariseWing',
      compute: () => summary().neutralPoint,
    }),
    row({
      id: `efficiency-${id}`,
      quantity: `span efficiency, ${name}`,
      expected: efficiency,
      unit: '1',
      tolerance: 0.002,
      why: meshWhy,
      calls: 'summariseWing',
      compute: () => summary().spanEfficiency,
    }),
  ];
});

const bertinWing = trapezoidalWing({ span: 1, aspectRatio: 5, sweep: 45 * degree });
const bertinSource =
  'Bertin and Smith, Aerodynamics for Engineers, vortex-lattice example (1 x 4 panels per half wing)';
const bertin = () => modelOf(bertinWing, { chordwise: 1, spanwise: 4, tipInset: false });

const bertinRows: Check[] = [
  ...[0.0273, 0.02873, 0.02864, 0.02496].map((expected, i) =>
    row({
      id: `example-circulation-${i + 1}`,
      quantity: `circulation / (4 pi b V alpha) of panel ${i + 1}, AR 5, sweep 45 deg`,
      expected,
      unit: '1',
      tolerance: 6e-6,
      why: 'last printed digit',
      source: bertinSource,
      calls: 'solveWing',
      compute: () => bertin().symmetric.circulation[4 + i] / (4 * Math.PI),
    }),
  ),
  row({
    id: 'example-slope',
    quantity: 'lift-curve slope of the same 1 x 4 lattice',
    expected: 3.4442,
    unit: '1/rad',
    tolerance: 0.0002,
    why: 'same lattice, last digit',
    source: bertinSource,
    calls: 'wingDerivatives',
    compute: () => wingDerivatives(bertin(), { x: 0 }).alpha.lift,
  }),
  row({
    id: 'example-efficiency',
    quantity: 'span efficiency of the same 1 x 4 lattice (above 1: a coarse lattice without tip inset)',
    expected: 1.04,
    unit: '1',
    tolerance: 0.005,
    why: 'last printed digit',
    source: 'same lattice (independent computation)',
    calls: 'summariseWing',
    compute: () =>
      certain(summariseWing(bertinWing, { panels: { chordwise: 1, spanwise: 4, tipInset: false } })).spanEfficiency,
  }),
  row({
    id: 'example-neutral-point',
    quantity: 'neutral point of the same wing, converged, in chords aft of the apex',
    expected: 1.425,
    unit: '1',
    tolerance: 0.006,
    why: `${meshWhy}; swept loads converge more slowly at the root`,
    calls: 'summariseWing',
    compute: () => certain(summariseWing(bertinWing)).xNeutralPoint / 0.2,
  }),
  row({
    id: 'example-converged',
    quantity: 'lift-curve slope of the same wing, converged',
    expected: 3.186,
    unit: '1/rad',
    tolerance: 0.005,
    why: meshWhy,
    calls: 'summariseWing',
    compute: () => certain(summariseWing(bertinWing)).liftSlope,
  }),
];

const flapped = (fromY: number): LiftingSurface => {
  const control: ControlSurface = {
    name: 'elevon',
    kind: 'elevon',
    fromY,
    toY: 0.5,
    chordFraction: 0.25,
    effectiveness: 1,
  };
  return { ...rectangular(8), controls: [control] };
};
const flapMesh = { chordwise: 8, spanwise: 20 };
const coarseHinge =
  'the quoted lattice has 24 chordwise panels with its hinge between two of them, which in plane flow turns 1.9 % less flow ' +
  '(0.5977) than thin-airfoil theory (0.6090); here the plane limit is exact. That explains up to 1.9 %';

const controlRows: Check[] = [
  row({
    id: 'flap-outer-lift',
    quantity: 'lift per control angle, AR 8, sealed 25 % flap over the outer half',
    expected: 1.239,
    unit: '1/rad',
    tolerance: 0.004,
    why: meshWhy,
    calls: 'wingDerivatives',
    compute: () => wingDerivatives(modelOf(flapped(0.25), flapMesh), { x: 0 }).controls.elevon.lift,
    miss: coarseHinge,
  }),
  row({
    id: 'flap-full-lift',
    quantity: 'lift per control angle, AR 8, sealed 25 % flap over the full span',
    expected: 2.805,
    unit: '1/rad',
    tolerance: 0.008,
    why: meshWhy,
    calls: 'wingDerivatives',
    compute: () => wingDerivatives(modelOf(flapped(0), flapMesh), { x: 0 }).controls.elevon.lift,
    miss: coarseHinge,
  }),
  row({
    id: 'flap-full-lift-corrected',
    quantity: 'the same, quoted value x 0.60900 / 0.59766 (plane effectiveness exact / of 24 panels)',
    expected: 2.8582,
    unit: '1/rad',
    tolerance: 0.008,
    why: meshWhy,
    calls: 'wingDerivatives',
    compute: () => wingDerivatives(modelOf(flapped(0), flapMesh), { x: 0 }).controls.elevon.lift,
  }),
  ...(
    [
      [0.25, -0.299, 'outer half'],
      [0, -0.63, 'full span'],
    ] as const
  ).map(([fromY, expected, name]) =>
    row({
      id: `flap-moment-${fromY}`,
      quantity: `moment about the neutral point per control angle, AR 8, 25 % flap, ${name}`,
      expected,
      unit: '1/rad',
      tolerance: 0.006,
      why: `${meshWhy} (the plane limit is exact)`,
      calls: 'wingDerivatives',
      compute: () => {
        const model = modelOf(flapped(fromY), flapMesh);
        return wingDerivatives(model, { x: wingDerivatives(model, { x: 0 }).neutralPoint }).controls.elevon.moment;
      },
    }),
  ),
  row({
    id: 'aileron-outer',
    quantity:
      'rolling moment per opposed control angle, AR 8, 25 % flap over the outer half (right side down rolls left)',
    expected: -0.373,
    unit: '1/rad',
    tolerance: 0.002,
    why: meshWhy,
    calls: 'lateralDerivatives',
    compute: () => lateralDerivatives(modelOf(flapped(0.25), flapMesh), { x: 0, z: 0 })!.controls.elevon.rolling,
    miss: coarseHinge,
  }),
  row({
    id: 'roll-damping',
    quantity: 'roll damping, AR 8 rectangular',
    expected: -0.5165,
    unit: '1/rad',
    tolerance: 0.003,
    why: meshWhy,
    calls: 'lateralDerivatives',
    compute: () => lateralDerivatives(modelOf(rectangular(8)), { x: 0, z: 0 })!.rollRate.rolling,
  }),
];

/** External checks of wing. */
export const wingChecks: readonly Check[] = [
  ...bertinRows,
  ...rectangularRows,
  ...sweptRows,
  ...controlRows,
  ...theoryChecks,
];
