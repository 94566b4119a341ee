import type { Check } from '../check.js';
import { row } from './checkRow.js';
import { chordwiseDivergence, chordwiseSection, flapHinge } from './chordwise.js';
import { flightChecks } from './flight.checks.js';
import { followRoot } from './flutter.js';
import { foreAftChecks } from './foreAft.checks.js';
import { latticeChecks } from './lattice.checks.js';
import { slenderPlateFlutter, widePlateFlutter } from './plateFlutter.js';
import { golandWing, stripWingFlutter } from './stripWing.js';
import { theodorsenFunction } from './theodorsen.js';
import { sectionDivergence, sectionFlutter, sectionModel, steadySectionFlutter } from './typicalSection.js';
import { sweptDivergenceRatio, uniformAmplification, uniformDivergence, uniformReversal } from './uniformWing.js';

const hodges =
  'D. H. Hodges, G. A. Pierce, Introduction to Structural Dynamics and Aeroelasticity, 2nd ed. 2011 (independent computation)';
const independent = 'independent computation of the same equations';
const section = { axis: -0.2, balance: -0.1, massRatio: 20, gyrationSquared: 0.24, frequencyRatio: 0.4 };
const nan = Number.NaN;

const divergenceRows: Check[] = [
  row({
    id: 'aeroelastic-divergence-clamped-ends',
    quantity: 'divergence pressure of a wing across a tunnel',
    expected: 7781.86,
    unit: 'Pa',
    tolerance: 0.08,
    why: 'closed form: 1e-5 of the value',
    provenance: 'published',
    source: 'Hodges and Pierce, 1st ed., chapter 3 problem 7: span 0.9144 m, chord 0.1524 m, GJ 22.9677 N m2',
    calls: 'uniformDivergence',
    compute: () =>
      uniformDivergence({
        torsionStiffness: 22.9677,
        semispan: 0.9144,
        chord: 0.1524,
        arm: 0.0381,
        liftSlope: 6,
        bothEnds: true,
      }) ?? nan,
  }),
  row({
    id: 'aeroelastic-divergence-goland',
    quantity: 'divergence speed of the Goland wing at 1.225 kg/m3, strip theory',
    expected: 252.3,
    unit: 'm/s',
    tolerance: 0.5,
    why: '0.2 %: rounding of published properties',
    source: 'M. Goland, J. Applied Mechanics 12, 1945 (properties); closed form of strip theory',
    calls: 'uniformDivergence',
    compute: () => {
      const { torsionStiffness, semispan, chord, axis } = golandWing;
      const wing = { torsionStiffness, semispan, chord, arm: (axis - 0.25) * chord, liftSlope: 2 * Math.PI };
      return Math.sqrt((2 * (uniformDivergence(wing) ?? nan)) / 1.225);
    },
  }),
  row({
    id: 'aeroelastic-divergence-cantilever',
    quantity:
      'divergence speed of a cantilever of 8 m, chord 2.8 m, GJ 12e6 N m2, arm 1.2 m, lift slope 3.1, at 1.226 kg/m3',
    expected: 269.2,
    unit: 'm/s',
    tolerance: 0.05,
    why: 'last printed digit',
    provenance: 'from memory',
    source: 'T. H. G. Megson, Aircraft Structures for Engineering Students, worked example on wing divergence',
    calls: 'uniformDivergence',
    compute: () => {
      const wing = { torsionStiffness: 12e6, semispan: 8, chord: 2.8, arm: 1.2, liftSlope: 3.1 };
      return Math.sqrt((2 * (uniformDivergence(wing) ?? nan)) / 1.226);
    },
  }),
  ...[
    [0.1, 1.09126, 0.13747],
    [0.25, 1.27324, 0.41421],
    [0.5, 1.81683, 1.25217],
    [0.75, 3.44135, 3.78705],
    [0.9, 8.30688, 11.41915],
  ].flatMap(([share, lift, twist]) => [
    row({
      id: `aeroelastic-amplification-lift-${share}`,
      quantity: `lift of a flexible wing over the rigid one at ${share} of divergence pressure`,
      expected: lift,
      unit: '-',
      tolerance: 1e-4 * lift,
      why: 'closed form',
      source: `${hodges}, eq. 4.45 to 4.57`,
      calls: 'uniformAmplification',
      compute: () => uniformAmplification(share).lift,
    }),
    row({
      id: `aeroelastic-amplification-twist-${share}`,
      quantity: `tip twist over root incidence at ${share} of divergence pressure`,
      expected: twist,
      unit: '-',
      tolerance: 1e-4 * twist,
      why: 'closed form',
      source: `${hodges}, eq. 4.45 to 4.57`,
      calls: 'uniformAmplification',
      compute: () => uniformAmplification(share).tipTwist,
    }),
  ]),
  ...[
    [-45, 0.40586],
    [-30, 0.40694],
    [-20, 0.46396],
    [-10, 0.6055],
    [-5, 0.74593],
    [0, 1],
    [2, 1.16761],
    [4, 1.41189],
    [6, 1.8075],
  ].map(([degrees, expected]) =>
    row({
      id: `aeroelastic-swept-divergence-${degrees}`,
      quantity: `divergence pressure at ${degrees} degrees of sweep over the unswept, EI/GJ 2, arm 0.05 of the length`,
      expected,
      unit: '-',
      tolerance: 0.005 * expected,
      why: '0.5 %: steps of the integration on both sides',
      source: 'F. W. Diederich, B. Budiansky, NACA TN 1680, 1948 (equations from memory), solved exactly elsewhere',
      calls: 'sweptDivergenceRatio',
      compute: () => sweptDivergenceRatio((degrees * Math.PI) / 180, 2, 0.05) ?? nan,
    }),
  ),
  row({
    id: 'aeroelastic-reversal-roll',
    quantity: 'roll reversal over divergence pressure, full-span elevon of 0.25 chord, arm 0.10 chord',
    expected: 0.58188,
    unit: '-',
    tolerance: 6e-4,
    why: '1e-3 of the value: closed form',
    source: independent,
    calls: 'uniformReversal',
    compute: () => uniformReversal(0.25, 0.1).roll ?? nan,
  }),
  row({
    id: 'aeroelastic-reversal-lift',
    quantity: 'lift reversal over divergence pressure, full-span elevon of 0.25 chord, arm 0.10 chord',
    expected: 0.63754,
    unit: '-',
    tolerance: 6e-4,
    why: '1e-3 of the value: closed form',
    source: independent,
    calls: 'uniformReversal',
    compute: () => uniformReversal(0.25, 0.1).lift ?? nan,
  }),
];

const camberOfReflex = (x: number) => 0.3 * ((1 - 2 * x) * (0.75 - x) - x * (1 - x));

/** Moment at zero lift of a reflexed section held at its quarter chord. */
function reflexMoment(loading: number): number {
  const turned = chordwiseSection(loading, 0.25, { incidence: 1 });
  const cambered = chordwiseSection(loading, 0.25, { camberSlope: camberOfReflex });
  return cambered.moment - (cambered.lift / turned.lift) * turned.moment;
}

const chordwiseRows: Check[] = [
  row({
    id: 'aeroelastic-inverted-flag',
    quantity: 'divergence of a plate held at its trailing edge: density U^2 c^3 / D',
    expected: 1.846,
    unit: '-',
    tolerance: 0.009,
    why: '0.5 %',
    source: 'J. E. Sader et al., J. Fluid Mechanics 793, 2016 (about 1.85); independent computation',
    calls: 'chordwiseDivergence',
    compute: () => 2 * (chordwiseDivergence(1) ?? nan),
  }),
  ...[
    [1, 0.7401],
    [5, 0.4059],
  ].map(([loading, expected]) =>
    row({
      id: `aeroelastic-chordwise-lift-${loading}`,
      quantity: `lift slope over the rigid one, held at the leading edge, q c^3 / D = ${loading}`,
      expected,
      unit: '-',
      tolerance: 0.01 * expected,
      why: '1 %',
      source: independent,
      calls: 'chordwiseSection',
      compute: () =>
        chordwiseSection(loading, 0, { incidence: 1 }).lift / chordwiseSection(0, 0, { incidence: 1 }).lift,
    }),
  ),
  ...[
    [0, 0.02945],
    [1, 0.02363],
    [5, 0.00451],
  ].map(([loading, expected]) =>
    row({
      id: `aeroelastic-reflex-${loading}`,
      quantity: `moment at zero lift of a reflexed plate held at its quarter chord, q c^3 / D = ${loading}`,
      expected,
      unit: '-',
      tolerance: 0.02 * expected,
      why: '2 %',
      source: independent,
      calls: 'chordwiseSection',
      compute: () => reflexMoment(loading),
    }),
  ),
  row({
    id: 'aeroelastic-flap-hinge-incidence',
    quantity: 'hinge moment by incidence, flap of 0.25 chord',
    expected: -0.5653,
    unit: '1/rad',
    tolerance: 0.0028,
    why: '0.5 %',
    source: 'thin-airfoil theory, H. Glauert, ARC R&M 1095, 1927 (independent computation)',
    calls: 'flapHinge',
    compute: () => flapHinge(0.25).byIncidence,
  }),
  row({
    id: 'aeroelastic-flap-hinge-deflection',
    quantity: 'hinge moment by deflection, flap of 0.25 chord',
    expected: -0.9436,
    unit: '1/rad',
    tolerance: 0.0047,
    why: '0.5 %',
    source: 'thin-airfoil theory, H. Glauert, ARC R&M 1095, 1927 (independent computation)',
    calls: 'flapHinge',
    compute: () => flapHinge(0.25).byDeflection,
  }),
];

const rootShape = { re: Float64Array.of(1, 0.5), im: new Float64Array(2) };

const sectionRows: Check[] = [
  ...[
    [0.05, 0.909009, -0.130644],
    [0.1, 0.831924, -0.172302],
    [0.2, 0.72758, -0.188624],
    [0.3, 0.664971, -0.179319],
    [0.4, 0.624976, -0.164983],
    [0.5, 0.597936, -0.15071],
    [0.8, 0.554147, -0.116502],
    [1, 0.539435, -0.100273],
    [2, 0.512955, -0.057691],
  ].flatMap(([k, real, imaginary]) =>
    (['re', 'im'] as const).map((part) =>
      row({
        id: `aeroelastic-theodorsen-${part}-${k}`,
        quantity: `${part === 're' ? 'real' : 'imaginary'} part of Theodorsen's function at k = ${k}`,
        expected: part === 're' ? real : imaginary,
        unit: '-',
        tolerance: 1e-5,
        why: 'digits of the table',
        source: 'T. Theodorsen, NACA TR 496, 1935 (independent computation)',
        calls: 'theodorsenFunction',
        compute: () => theodorsenFunction(k)[part],
      }),
    ),
  ),
  ...(
    [
      ['steady speed', 1.84257, () => steadySectionFlutter(section)?.speed],
      ['steady frequency', 0.55677, () => steadySectionFlutter(section)?.frequency],
      ['Theodorsen speed', 2.18391, () => sectionFlutter(section)?.speed],
      ['Theodorsen frequency', 0.64898, () => sectionFlutter(section)?.frequency],
      ['Jones speed', 2.1705, () => sectionFlutter(section, 'jones')?.speed],
      ['Jones frequency', 0.6443, () => sectionFlutter(section, 'jones')?.frequency],
    ] as const
  ).map(([name, expected, compute]) =>
    row({
      id: `aeroelastic-section-${name.replaceAll(' ', '-')}`,
      quantity: `flutter of a typical section, ${name} (semichords and pitch frequencies)`,
      expected,
      unit: '-',
      tolerance: 1e-3 * expected,
      why: '1e-3 of the value',
      source: `${hodges}, figures 5.3, 5.4, 5.19, 5.20`,
      calls: name.startsWith('steady') ? 'steadySectionFlutter' : 'sectionFlutter',
      compute: () => compute() ?? nan,
    }),
  ),
  row({
    id: 'aeroelastic-section-divergence',
    quantity: 'divergence of a typical section (semichords and pitch frequencies)',
    expected: 2.828427,
    unit: '-',
    tolerance: 1e-6,
    why: 'closed form',
    source: hodges,
    calls: 'sectionDivergence',
    compute: () => sectionDivergence(section) ?? nan,
  }),
  row({
    id: 'aeroelastic-section-growth',
    quantity: 'growth of the p-k root at speed 2.0 (pitch frequencies)',
    expected: -0.05064,
    unit: '-',
    tolerance: 5e-5,
    why: '1e-3 of the value',
    source: 'p-k method of H. J. Hassig, J. Aircraft 8(11), 1971 (independent computation)',
    calls: 'followRoot',
    compute: () => followRoot(sectionModel(section), 2, { p: { re: -0.05, im: 0.72 }, shape: rootShape })?.p.re ?? nan,
  }),
];

const flutterRows: Check[] = [
  row({
    id: 'aeroelastic-goland-flutter-speed',
    quantity: 'flutter speed of the Goland wing at 1.225 kg/m3, strip theory',
    expected: 136.95,
    unit: 'm/s',
    tolerance: 0.68,
    why: '0.5 %',
    source: 'M. Goland, J. Applied Mechanics 12, 1945 (about 137 m/s); independent computation with assumed modes',
    calls: 'stripWingFlutter',
    compute: () => stripWingFlutter(golandWing, 1.225)?.airspeed ?? nan,
  }),
  row({
    id: 'aeroelastic-goland-flutter-frequency',
    quantity: 'flutter frequency of the Goland wing',
    expected: 70.02,
    unit: 'rad/s',
    tolerance: 0.35,
    why: '0.5 %',
    source: 'M. Goland, J. Applied Mechanics 12, 1945 (70.7 rad/s from memory); independent computation',
    calls: 'stripWingFlutter',
    compute: () => stripWingFlutter(golandWing, 1.225)?.frequency ?? nan,
  }),
  ...[
    [0.2, 5.592],
    [0.5, 9.323],
  ].map(([share, expected]) =>
    row({
      id: `aeroelastic-slender-plate-${share}`,
      quantity: `flutter speed of a slender plate with an air share of ${share}`,
      expected,
      unit: '-',
      tolerance: 0.005 * expected,
      why: '0.5 %',
      source: 'R. W. Gregory, M. P. Paidoussis, Proc. Royal Society A 293, 1966 (independent computation)',
      calls: 'slenderPlateFlutter',
      compute: () => slenderPlateFlutter(share)?.speed ?? nan,
    }),
  ),
  row({
    id: 'aeroelastic-wide-plate-speed',
    quantity: 'flutter speed of a wide plate held at its leading edge, mass ratio 0.6',
    expected: 4.965,
    unit: '-',
    tolerance: 0.05,
    why: '1 %',
    source: 'problem of C. Eloy et al., J. Fluids and Structures 23, 2007 (independent computation)',
    calls: 'widePlateFlutter',
    compute: () => widePlateFlutter(0.6)?.speed ?? nan,
  }),
  row({
    id: 'aeroelastic-wide-plate-frequency',
    quantity: 'flutter frequency of a wide plate held at its leading edge, mass ratio 0.6',
    expected: 18.26,
    unit: '-',
    tolerance: 0.18,
    why: '1 %',
    source: 'problem of C. Eloy et al., J. Fluids and Structures 23, 2007 (independent computation)',
    calls: 'widePlateFlutter',
    compute: () => widePlateFlutter(0.6)?.frequency ?? nan,
  }),
];

/** Comparisons of aeroelastic results with values from outside. */
export const aeroelasticChecks: readonly Check[] = [
  ...divergenceRows,
  ...chordwiseRows,
  ...sectionRows,
  ...flutterRows,
  ...latticeChecks,
  ...flightChecks,
  ...foreAftChecks,
];
