import type { Check } from '../check.js';
import { type ComplexMatrix, complexZeros } from '../math/complexLinear.js';
import { interpolateLinear } from '../math/index.js';
import { trapezoidalWing } from '../shape/index.js';
import { influenceMatrices } from '../wing/influence.js';
import { buildLattice, type Lattice } from '../wing/lattice.js';
import { latticeForces, type PanelMotions } from './forces.js';
import { oscillatingInfluence } from './oscillatingInfluence.js';
import { searsFunction, theodorsenFunction } from './theodorsen.js';

/** Heave up, pitch nose up about mid-chord of a wing of unit chord: on the panels of the symmetric half. */
export function rigidMotions(lattice: Lattice, axis = 0.5): PanelMotions {
  const n = lattice.mirroredPanels;
  const motions = {
    count: 2,
    atForce: new Float64Array(2 * n),
    atControl: new Float64Array(2 * n),
    slope: new Float64Array(2 * n),
  };
  for (let i = 0; i < n; i++) {
    const bound = (lattice.ends[6 * i] + lattice.ends[6 * i + 3]) / 2;
    motions.atForce.set([1, axis - bound], 2 * i);
    motions.atControl.set([1, axis - lattice.points[3 * i]], 2 * i);
    motions.slope.set([0, -1], 2 * i);
  }
  return motions;
}

/** Rows of the innermost strip alone, so that the forces are those of a section. */
function ofRootStrip(lattice: Lattice, motions: PanelMotions): PanelMotions {
  const last = 2 * lattice.firstPanel[1];
  return { ...motions, atForce: motions.atForce.map((value, i) => (i < last ? value : 0)) };
}

/** Forces of a very long wing of unit chord on its root section, per span, over dynamic pressure; reduced frequency by the semichord. */
export function rootSectionForces(k: number, { aspectRatio = 400, chordwise = 10, spanwise = 8 } = {}): ComplexMatrix {
  const wing = trapezoidalWing({ span: aspectRatio, aspectRatio });
  const lattice = buildLattice([wing], { panels: { chordwise, spanwise } });
  const { symmetric } = oscillatingInfluence(lattice, Float64Array.of(2 * k), false);
  const motions = rigidMotions(lattice);
  const forces = latticeForces(lattice, symmetric, 0, motions, ofRootStrip(lattice, motions));
  if (!forces.ok) throw new Error(forces.reason);
  const width = lattice.strips.width[0];
  return { re: forces.value.re.map((value) => value / width), im: forces.value.im.map((value) => value / width) };
}

/** Lift of the root section of a very long wing in a sinusoidal gust over its quasi-steady lift, phase at mid-chord. */
export function rootSectionGust(k: number): { readonly re: number; readonly im: number } {
  const wing = trapezoidalWing({ span: 400, aspectRatio: 400 });
  const lattice = buildLattice([wing], { panels: { chordwise: 10, spanwise: 8 } });
  const { symmetric } = oscillatingInfluence(lattice, Float64Array.of(2 * k), false);
  const heave = ofRootStrip(lattice, rigidMotions(lattice));
  const n = lattice.mirroredPanels;
  // Incidence exp(-i kappa x) as one real and one imaginary cause; the imaginary part of the cause enters through a second column.
  const causes = {
    count: 2,
    atForce: new Float64Array(2 * n),
    atControl: new Float64Array(2 * n),
    slope: new Float64Array(2 * n),
  };
  for (let i = 0; i < n; i++) {
    const x = lattice.points[3 * i] - 0.5;
    causes.slope.set([-Math.cos(2 * k * x), Math.sin(2 * k * x)], 2 * i);
  }
  const forces = latticeForces(lattice, symmetric, 0, causes, heave);
  if (!forces.ok) throw new Error(forces.reason);
  const scale = 2 * Math.PI * lattice.strips.width[0];
  const { re, im } = forces.value;
  return { re: (re[0] - im[1]) / scale, im: (im[0] + re[1]) / scale };
}

/** Heave and pitch forces of a section of unit chord about mid-chord by Theodorsen, over dynamic pressure and per span. */
function theodorsenForces(k: number): ComplexMatrix {
  const c = theodorsenFunction(k);
  const kappa = 2 * k;
  const result = complexZeros(4);
  const wash = [
    { re: 0, im: -kappa },
    { re: 1, im: kappa / 4 },
  ];
  wash.forEach(({ re, im }, j) => {
    const circulatory = { re: 2 * Math.PI * (c.re * re - c.im * im), im: 2 * Math.PI * (c.re * im + c.im * re) };
    result.re[j] = circulatory.re + (j === 0 ? (Math.PI / 2) * kappa * kappa : 0);
    result.im[j] = circulatory.im + (j === 1 ? (Math.PI / 2) * kappa : 0);
    result.re[2 + j] = circulatory.re / 4 + (j === 1 ? ((Math.PI / 2) * kappa * kappa) / 32 : 0);
    result.im[2 + j] = circulatory.im / 4 - (j === 1 ? (Math.PI / 8) * kappa : 0);
  });
  return result;
}

const frequencies = [0.05, 0.2, 0.5, 1];

const sectionRow = (k: number, entry: number, name: string): Check => {
  const expected = theodorsenForces(k);
  const size = Math.hypot(expected.re[entry], expected.im[entry]);
  return {
    id: `aeroelastic-lattice-${name.replaceAll(' ', '-')}-${k}`,
    topic: 'aeroelastic',
    quantity: `${name} of the oscillating lattice at aspect ratio 400, k = ${k}: distance from Theodorsen / size`,
    expected: 0,
    unit: '-',
    tolerance: 0.02,
    why: '2 % wanted of the oscillating lattice; 10 panels along the chord',
    provenance: 'published',
    source: 'T. Theodorsen, NACA TR 496, 1935',
    calls: 'latticeForces',
    compute: () => {
      const computed = rootSectionForces(k);
      return Math.hypot(computed.re[entry] - expected.re[entry], computed.im[entry] - expected.im[entry]) / size;
    },
  };
};

/** Reduced frequencies at which the lag of the lattice is taken for its response to a step. */
const stepFrequencies = [0.01, 0.03, 0.06, 0.1, 0.16, 0.25, 0.4, 0.6, 0.9, 1.3];

/**
 * Circulatory lift of the root section of a very long wing after a sudden change of incidence, over its final value, from the oscillating lattice:
 * with F the real part of the lag of its lift, 1/2 + 2/pi integral of (F - 1/2) sin(k s) / k. Beyond the last frequency F goes to 1/2 with 1/k^2.
 *
 * travelled - distances since the change in semichords
 * Source: I. E. Garrick, NACA TR 629, 1938 (the relation between the two functions; from memory)
 */
export function stepLift(travelled: readonly number[]): number[] {
  const wing = trapezoidalWing({ span: 400, aspectRatio: 400 });
  const lattice = buildLattice([wing], { panels: { chordwise: 10, spanwise: 8 } });
  const waves = Float64Array.from(stepFrequencies, (k) => 2 * k);
  const { symmetric } = oscillatingInfluence(lattice, waves, false);
  const motions = rigidMotions(lattice);
  const root = ofRootStrip(lattice, motions);
  const lags = stepFrequencies.map((k, index) => {
    const forces = latticeForces(lattice, symmetric, index, motions, root);
    if (!forces.ok) throw new Error(forces.reason);
    // Lift by heave = -2 pi i kappa C + pi kappa^2 / 2.
    return -forces.value.im[0] / lattice.strips.width[0] / (4 * Math.PI * k);
  });
  const ks = [0, ...stepFrequencies];
  const realParts = [1, ...lags];
  const last = ks.at(-1)!;
  const lag = (k: number) =>
    k > last ? 0.5 + (realParts.at(-1)! - 0.5) * (last / k) ** 2 : interpolateLinear(ks, realParts, k);
  return travelled.map((s) => {
    const [step, end] = [0.002, 40];
    let sum = 0;
    for (let k = step / 2; k < end; k += step) sum += (step * (lag(k) - 0.5) * Math.sin(k * s)) / k;
    return 0.5 + (2 / Math.PI) * sum;
  });
}

const stepRow = (travelled: number): Check => ({
  id: `aeroelastic-lattice-step-${travelled}`,
  topic: 'aeroelastic',
  quantity: `circulatory lift ${travelled} semichords after a sudden change of incidence over its final value, from the oscillating lattice`,
  expected: 1 - 0.165 * Math.exp(-0.0455 * travelled) - 0.335 * Math.exp(-0.3 * travelled),
  unit: '-',
  tolerance: 0.02,
  why: '2 %: the approximation by two lags is off by up to 1 %, the lattice by the steps of its frequencies',
  provenance: 'published',
  source: "R. T. Jones, NACA TR 681, 1940: approximation of Wagner's function",
  calls: 'latticeForces',
  compute: () => stepLift([travelled])[0],
});

/**
 * Apparent mass of a rectangular plate that heaves across itself, over pi density / 4 x shorter side squared x longer side: growth of the
 * in-phase force with the square of the frequency.
 */
export function plateApparentMass(aspectRatio: number, panels: { chordwise: number; spanwise: number }): number {
  const chord = Math.max(1, 1 / aspectRatio);
  const span = aspectRatio * chord;
  const lattice = buildLattice([trapezoidalWing({ span, aspectRatio })], { panels });
  const [low, high] = [(0.15 * panels.chordwise) / chord, (0.3 * panels.chordwise) / chord];
  const { symmetric } = oscillatingInfluence(lattice, Float64Array.of(low, high), false);
  const force = (wave: number) => {
    const forces = latticeForces(lattice, symmetric, wave, rigidMotions(lattice, chord / 2));
    if (!forces.ok) throw new Error(forces.reason);
    return forces.value.re[0];
  };
  // Of half the plate over dynamic pressure, which is of the whole plate over density x airspeed squared.
  const mass = (force(1) - force(0)) / (high * high - low * low);
  return mass / ((Math.PI / 4) * Math.min(chord, span) ** 2 * Math.max(chord, span));
}

const plateRow = (aspectRatio: number, chordwise: number, spanwise: number, expected: number): Check => ({
  id: `aeroelastic-apparent-mass-${aspectRatio}`,
  topic: 'aeroelastic',
  quantity: `apparent mass of a rectangular plate of aspect ratio ${aspectRatio} from the oscillating lattice, over that of the circle on its shorter side`,
  expected,
  unit: '-',
  tolerance: 0.02 * expected,
  why: `2 %: ${chordwise} x ${spanwise} panels`,
  provenance: 'from memory',
  source: 'W. K. Meyerhoff, J. Ship Research 14, 1970',
  calls: 'latticeForces',
  compute: () => plateApparentMass(aspectRatio, { chordwise, spanwise }),
});

/** Greatest difference from the steady lattice over its greatest value: of the matrix at zero frequency, and of one at a wave number. */
function offSteady(waveNumber: number): number {
  const wing = trapezoidalWing({ span: 3, aspectRatio: 5, taper: 0.6, sweep: 0.3, dihedral: 0.1 });
  const lattice = buildLattice([wing], { panels: { chordwise: 4, spanwise: 6 } });
  const { symmetric: steady } = influenceMatrices(lattice, false);
  const { symmetric } = oscillatingInfluence(lattice, Float64Array.of(Math.max(waveNumber, 1e-6)), false);
  const { re, im } = waveNumber === 0 ? { re: symmetric.steady, im: [] } : symmetric.oscillating[0];
  const most = Math.max(...steady.map(Math.abs));
  return Math.max(...re.map((value, i) => Math.hypot(value - steady[i], im[i] ?? 0))) / most;
}

const zeroRow = (waveNumber: number, tolerance: number, why: string): Check => ({
  id: `aeroelastic-lattice-steady-${waveNumber}`,
  topic: 'aeroelastic',
  quantity: `oscillating lattice at wave number ${waveNumber} 1/m: greatest difference of its matrix from the steady lattice, over the greatest value`,
  expected: 0,
  unit: '-',
  tolerance,
  why,
  provenance: 'recomputed from the published formula',
  source: 'limit of zero frequency: E. Albano, W. P. Rodden, AIAA Journal 7(2), 1969',
  calls: 'oscillatingInfluence',
  compute: () => offSteady(waveNumber),
});

/** The oscillating lattice against plane unsteady theory. */
export const latticeChecks: readonly Check[] = [
  zeroRow(0, 1e-14, 'the same matrix, summed in another order'),
  zeroRow(1e-6, 1e-5, 'tends to it with the frequency and its logarithm'),
  plateRow(1, 10, 8, 0.579),
  plateRow(2, 12, 12, 0.757),
  plateRow(0.125, 24, 6, 0.934),
  ...[1, 4, 10].map(stepRow),
  ...frequencies.flatMap((k) => [
    sectionRow(k, 0, 'lift by heave'),
    sectionRow(k, 1, 'lift by pitch'),
    sectionRow(k, 2, 'moment by heave'),
    sectionRow(k, 3, 'moment by pitch'),
  ]),
  ...frequencies.map((k): Check => {
    const { re, im } = searsFunction(k);
    return {
      id: `aeroelastic-lattice-gust-${k}`,
      topic: 'aeroelastic',
      quantity: `lift in a sinusoidal gust of the oscillating lattice, k = ${k}: distance from Sears / size`,
      expected: 0,
      unit: '-',
      tolerance: 0.02,
      why: '2 % wanted of the oscillating lattice; 10 panels along the chord',
      provenance: 'published',
      source: 'W. R. Sears, J. Aeronautical Sciences 8(3), 1941',
      calls: 'latticeForces',
      compute: () => {
        const computed = rootSectionGust(k);
        return Math.hypot(computed.re - re, computed.im - im) / Math.hypot(re, im);
      },
    };
  }),
];
