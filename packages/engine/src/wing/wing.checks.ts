import type { Check } from '../check.js';
import type { Outcome } from '../result.js';
import { type ControlSurface, type LiftingSurface, trapezoidalWing } from '../shape/index.js';
import {
  datcomDownwash,
  datcomSlope,
  groundEffect,
  helmboldSlope,
  liftingLine,
  suctionConstant,
  taperedChord,
} from './classical.js';
import { lateralDerivatives, wingDerivatives } from './derivatives.js';
import { downwashGradient } from './downwash.js';
import { wingForces } from './forces.js';
import { summariseWing } from './planformSummary.js';
import { plateSuction } from './sideEdge.js';
import { solveWing } from './solve.js';
import type { PanelCounts, StripSection, WingModel } from './types.js';

const degree = Math.PI / 180;

function certain<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(`${outcome.where}: ${outcome.reason}`);
  return outcome.value;
}

type Row = Pick<Check, 'id' | 'quantity' | 'expected' | 'unit' | 'tolerance' | 'why' | 'calls' | 'compute'> &
  Partial<Pick<Check, 'provenance' | 'source' | 'miss'>>;

const latticeSource =
  'linear lifting-surface theory, converged vortex lattice of 40 x 16 panels (independent computation)';

const row = (fields: Row): Check => ({
  topic: 'wing',
  provenance: 'recomputed from the published formula',
  source: latticeSource,
  ...fields,
});

const rectangular = (aspectRatio: number): LiftingSurface => trapezoidalWing({ span: 1, aspectRatio });
const modelOf = (surface: LiftingSurface, panels?: PanelCounts): WingModel =>
  certain(solveWing({ surfaces: [surface], bodies: [], parasites: [] }, panels ? { panels } : {}));

const meshWhy = 'mesh of about 150 unknowns against the converged value';

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
      provenance: 'published',
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
  '(0.5977) than thin-airfoil theory (0.6090); here the plane limit is exact, and the difference is of that size';

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

const glauert = 'Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XI, converged series';

const classicalRows: Check[] = [
  ...(
    [
      [4, 4.0284],
      [8, 4.8377],
    ] as const
  ).map(([aspectRatio, expected]) =>
    row({
      id: `lifting-line-${aspectRatio}`,
      quantity: `lift-curve slope by lifting line, AR ${aspectRatio} rectangular`,
      expected,
      unit: '1/rad',
      tolerance: 0.0001,
      why: 'last printed digit',
      source: glauert,
      calls: 'liftingLine',
      compute: () => liftingLine({ aspectRatio }).liftSlope,
    }),
  ),
  row({
    id: 'lifting-line-delta-rectangle',
    quantity: 'induced-drag excess by lifting line, AR 6 rectangular',
    expected: 0.04829,
    unit: '1',
    tolerance: 1e-5,
    why: 'last printed digit',
    source: glauert,
    calls: 'liftingLine',
    compute: () => liftingLine({ aspectRatio: 6 }).delta,
  }),
  row({
    id: 'lifting-line-delta-taper',
    quantity: 'induced-drag excess by lifting line, AR 8, taper 0.5',
    expected: 0.01719,
    unit: '1',
    tolerance: 1e-5,
    why: 'last printed digit',
    source: glauert,
    calls: 'liftingLine',
    compute: () => liftingLine({ aspectRatio: 8, chordRatio: taperedChord(0.5) }).delta,
  }),
  row({
    id: 'helmbold-8',
    quantity: 'lift-curve slope by the formula of Helmbold, AR 8',
    expected: 4.9058,
    unit: '1/rad',
    tolerance: 0.0001,
    why: 'same formula',
    source: 'Helmbold, Jahrbuch der deutschen Luftfahrtforschung, 1942',
    calls: 'helmboldSlope',
    compute: () => helmboldSlope(8),
  }),
  row({
    id: 'datcom-slope',
    quantity: 'lift-curve slope by DATCOM, AR 4, half-chord sweep 30 deg',
    expected: 3.5734,
    unit: '1/rad',
    tolerance: 0.0001,
    why: 'same formula',
    source: 'USAF Stability and Control DATCOM, 1978, section 4.1.3.2',
    calls: 'datcomSlope',
    compute: () => datcomSlope({ aspectRatio: 4, sweep: 30 * degree }),
  }),
  row({
    id: 'datcom-downwash',
    quantity: 'downwash gradient by DATCOM, AR 10, taper 0.5, height 0.05 b, distance 0.4 b',
    expected: 0.2865,
    unit: '1',
    tolerance: 0.0001,
    why: 'same formula',
    source: 'USAF Stability and Control DATCOM, 1978, section 4.4.1 (formula from memory)',
    calls: 'datcomDownwash',
    compute: () => datcomDownwash({ aspectRatio: 10, taper: 0.5, height: 0.05, distance: 0.4 }),
  }),
  ...(
    [
      [0.05, 0.3435],
      [0.1, 0.5158],
      [0.5, 0.9065],
    ] as const
  ).map(([height, expected]) =>
    row({
      id: `ground-${height}`,
      quantity: `induced drag / free, elliptic load at h/b = ${height}`,
      expected,
      unit: '1',
      tolerance: 0.0001,
      why: 'numerical integral of the exact expression',
      source: 'Prandtl, NACA TN 182, 1924: elliptic load and its image',
      calls: 'groundEffect',
      compute: () => groundEffect(height),
    }),
  ),
];

const downwashRows: Check[] = (
  [
    [8, 0.2, 0.441],
    [8, 0.35, 0.346],
    [8, 0.5, 0.314],
    [8, 1, 0.286],
    [6, 0.5, 0.406],
  ] as const
).map(([aspectRatio, distance, expected]) =>
  row({
    id: `downwash-${aspectRatio}-${distance}`,
    quantity: `downwash gradient on the wake centre line, AR ${aspectRatio}, ${distance} b behind the quarter chord`,
    expected,
    unit: '1',
    tolerance: distance < 0.3 ? 0.007 : 0.005,
    why:
      distance < 0.3
        ? 'close behind, spreading the bound vortices over the chord adds 0.006 to one bound line, as quoted (one panel gives 0.4404)'
        : 'mesh; the core that smooths wakes takes 0.002 off',
    source: 'flat-wake integration of a lattice loading (independent computation)',
    calls: 'downwashGradient',
    compute: () =>
      certain(downwashGradient([rectangular(aspectRatio)], [{ x: 0.25 / aspectRatio + distance, z: 0 }]))[0],
  }),
);

const plateSection: StripSection = {
  dragCoefficient: () => 0.015,
  maximumLift: () => 0.75,
  minimumLift: () => -0.75,
  momentCoefficient: 0,
};
const plate = (): WingModel => modelOf({ ...trapezoidalWing({ span: 0.2, aspectRatio: 2 }), suction: plateSuction });
const plateForces = (alpha: number) =>
  wingForces(
    plate(),
    { alpha, airspeed: 20.4, kinematicViscosity: 1.46e-5, momentReference: { x: 0, z: 0 } },
    { section: plateSection },
  );

const plateSource =
  'Pelletier and Mueller, J. Aircraft 37(5), 2000, flat plate AR 2, Re 1.4e5, rough transcription of the polar';
const plateRows: Check[] = (
  [
    [3, 0.15, 0.02],
    [6, 0.3, 0.03],
    [8, 0.4, 0.06],
    [10, 0.5, 0.08],
    [15, 0.7, 0.18],
  ] as const
).flatMap(([alpha, lift, drag]) => [
  row({
    id: `plate-lift-${alpha}`,
    quantity: `lift coefficient of a flat plate of AR 2 at ${alpha} deg (side-edge constant fitted to these five)`,
    expected: lift,
    unit: '1',
    tolerance: 0.05,
    why: 'reading of the transcription, +-0.05',
    provenance: 'published',
    source: plateSource,
    calls: 'wingForces',
    compute: () => plateForces(alpha * degree).liftCoefficient,
  }),
  row({
    id: `plate-drag-${alpha}`,
    quantity: `drag coefficient of the same plate at ${alpha} deg (zero-lift drag 0.015 given)`,
    expected: drag,
    unit: '1',
    tolerance: 0.02,
    why: 'reading of the transcription and the fitted suction of plates, 0.4 +- 0.3',
    provenance: 'published',
    source: plateSource,
    calls: 'wingForces',
    compute: () => {
      const forces = plateForces(alpha * degree);
      return forces.inducedDragCoefficient + forces.profileDragCoefficient;
    },
  }),
]);

const suctionRows: Check[] = (
  [
    [0.5, 0.393],
    [1, 0.781],
    [2, 1.499],
    [3, 2.093],
  ] as const
).map(([aspectRatio, expected]) =>
  row({
    id: `suction-${aspectRatio}`,
    quantity: `full leading-edge suction constant, rectangular AR ${aspectRatio}`,
    expected,
    unit: '1',
    tolerance: 0.005,
    why: meshWhy,
    source: 'Polhamus, NASA TN D-3767, 1966, with linear lifting-surface constants',
    calls: 'suctionConstant',
    compute: () => {
      const wing = certain(summariseWing(rectangular(aspectRatio)));
      return suctionConstant(wing.liftSlope, 1 / (Math.PI * wing.aspectRatio * wing.spanEfficiency));
    },
  }),
);

const nearFieldRows: Check[] = ([2, 6, 12] as const).map((aspectRatio) =>
  row({
    id: `near-far-${aspectRatio}`,
    quantity: `induced drag from surface pressure and leading-edge suction / from the wake, AR ${aspectRatio}`,
    expected: 1,
    unit: '1',
    tolerance: 0.01,
    why: 'two independent ways; the suction comes from two panels of each strip',
    source: 'conservation of momentum',
    calls: 'summariseWing',
    compute: () => certain(summariseWing(rectangular(aspectRatio))).nearOverFar,
  }),
);

/** External checks of wing. */
export const wingChecks: readonly Check[] = [
  ...bertinRows,
  ...rectangularRows,
  ...sweptRows,
  ...controlRows,
  ...classicalRows,
  ...downwashRows,
  ...suctionRows,
  ...nearFieldRows,
  ...plateRows,
];
