import type { Check } from '../check.js';
import { trapezoidalWing } from '../shape/index.js';
import { certain, degree, meshWhy, modelOf, rectangular, row } from './checkRow.js';
import {
  datcomDownwash,
  datcomSlope,
  groundEffect,
  helmboldSlope,
  liftingLine,
  suctionConstant,
  taperedChord,
} from './classical.js';
import { downwashGradient } from './downwash.js';
import { wingForces } from './forces.js';
import { summariseWing } from './planformSummary.js';
import { plateSuction } from './sideEdge.js';
import type { StripSection, WingModel } from './types.js';

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
    provenance: 'from memory',
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
    tolerance: distance < 0.3 ? 0.007 : 0.004,
    why:
      distance < 0.3
        ? 'close behind, spreading the bound vortices over the chord adds 0.006 to one bound line, as quoted (one panel gives 0.4404)'
        : 'mesh; the core that smooths wakes takes 0.001 off',
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

/** Checks of the closed theories, downwash, suction, the two ways to induced drag, and plates. */
export const theoryChecks: readonly Check[] = [
  ...classicalRows,
  ...downwashRows,
  ...suctionRows,
  ...nearFieldRows,
  ...plateRows,
];
