import { complexEigenvalues } from '../math/complexEigen.js';
import { gaussLegendre } from '../math/index.js';
import { factorLu, solveLu } from '../math/linear.js';
import { chordwiseForces } from './plateFlutter.js';

interface Shape {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
  readonly curvature: (x: number) => number;
}

/** Polynomials of the overhangs on both sides of a line at which a section of unit chord is held. */
function overhangShapes(held: number, each: number): Shape[] {
  const side = (from: number, length: number, direction: number): Shape[] =>
    length < 1e-9
      ? []
      : Array.from({ length: each }, (_, i) => {
          const n = i + 2;
          const t = (x: number) => Math.max(0, (direction * (x - from)) / length);
          return {
            value: (x: number) => t(x) ** n,
            slope: (x: number) => (n * direction * t(x) ** (n - 1)) / length,
            curvature: (x: number) => (t(x) > 0 ? (n * (n - 1) * t(x) ** (n - 2)) / length ** 2 : 0),
          };
        });
  return [...side(held, held, -1), ...side(held, 1 - held, 1)];
}

function bendingEnergy(shapes: readonly Shape[], held: number): Float64Array {
  const count = shapes.length;
  const rule = gaussLegendre(12);
  const result = new Float64Array(count * count);
  for (const [from, to] of [
    [0, held],
    [held, 1],
  ])
    for (let g = 0; g < 12; g++) {
      const x = from + ((to - from) * (rule.nodes[g] + 1)) / 2;
      const weight = ((to - from) * rule.weights[g]) / 2;
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++)
          result[i * count + j] += weight * shapes[i].curvature(x) * shapes[j].curvature(x);
    }
  return result;
}

const rigidShapes = [
  { value: () => 1, slope: () => 0 },
  // One radian nose up about the leading edge; the trailing edge goes down.
  { value: (x: number) => -x, slope: () => -1 },
];

/** Steady forces of a section that bends along its chord: shapes first, then lift and moment about the leading edge, then loads. */
function steadySection(held: number, camber: (x: number) => number, each: number) {
  const shapes = overhangShapes(held, each);
  const fixed = { value: () => 0, slope: camber };
  const all = [...shapes, ...rigidShapes, fixed];
  const size = all.length;
  const air = chordwiseForces(all, 0).re;
  return { count: shapes.length, size, air, bending: bendingEnergy(shapes, held) };
}

/** What a section held along one line and flexible along its chord gives. */
export interface ChordwiseSection {
  readonly lift: number;
  /** About the quarter chord, nose up. */
  readonly moment: number;
}

/**
 * Lift and moment of a thin section that is held at one place and bends along its chord in its own pressure (plane flow, steady).
 * loading - dynamic pressure x chord^3 / plate stiffness D per width
 * held - where, chord fraction; incidence [rad]; camberSlope - dz/dx of its camber line at a chord fraction, none where absent
 * Source: thin-airfoil pressure (Glauert 1926) with beam bending, derived (ours).
 */
export function chordwiseSection(
  loading: number,
  held: number,
  {
    incidence = 0,
    camberSlope = () => 0,
  }: { readonly incidence?: number; readonly camberSlope?: (x: number) => number },
): ChordwiseSection {
  const { count, size, air, bending } = steadySection(held, camberSlope, 6);
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  const [heave, pitch, camber] = [count, count + 1, count + 2];
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) matrix[i * count + j] = bending[i * count + j] - loading * air[i * size + j];
    right[i] = loading * (incidence * air[i * size + pitch] + air[i * size + camber]);
  }
  const lu = factorLu(matrix, count);
  if (!lu.ok) throw new RangeError('the section diverges at just this loading');
  const bent = solveLu(lu.value, right);
  const force = (row: number) => {
    let sum = incidence * air[row * size + pitch] + air[row * size + camber];
    for (let j = 0; j < count; j++) sum += air[row * size + j] * bent[j];
    return sum;
  };
  const lift = force(heave);
  return { lift, moment: force(pitch) + lift / 4 };
}

/**
 * Loading at which the overhang ahead of the held line diverges; undefined where there is none (held at the leading edge).
 * Source: J. E. Sader et al., Journal of Fluid Mechanics 793, 2016 (held at the trailing edge).
 */
export function chordwiseDivergence(held: number): number | undefined {
  if (held < 1e-6) return undefined;
  const { count, size, air, bending } = steadySection(held, () => 0, 6);
  const lu = factorLu(bending, count);
  if (!lu.ok) return undefined;
  const right = new Float64Array(count * count);
  for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) right[i * count + j] = air[i * size + j];
  const matrix = { re: solveLu(lu.value, right, count), im: new Float64Array(count * count) };
  const rates = complexEigenvalues(matrix, count)
    .filter(({ re, im }) => re > 0 && Math.abs(im) < 1e-6 * re)
    .map(({ re }) => 1 / re);
  return rates.length > 0 ? Math.min(...rates) : undefined;
}

/** Hinge moments of a sealed flap, per radian and flap chord squared, trailing edge down positive. */
export interface FlapHinge {
  readonly byIncidence: number;
  readonly byDeflection: number;
}

/**
 * Hinge-moment coefficients of a sealed flap in thin-airfoil theory, on the square of the flap's chord.
 * chordFraction - of the flap
 * Source: H. Glauert, ARC R&M 1095, 1927 (pressure of a bent plate; the integral is taken by quadrature).
 */
export function flapHinge(chordFraction: number): FlapHinge {
  const hinge = 1 - chordFraction;
  const edge = Math.acos(2 * hinge - 1);
  const steps = 4000;
  let [byIncidence, byDeflection] = [0, 0];
  for (let i = 0; i < steps; i++) {
    const theta = ((i + 0.5) * edge) / steps;
    const arm = (1 + Math.cos(theta)) / 2 - hinge;
    const weight = (arm * Math.sin(theta) * edge) / (2 * steps);
    const logarithm = Math.log(Math.abs(Math.sin((theta + edge) / 2) / Math.sin((theta - edge) / 2)));
    byIncidence -= 4 * weight * Math.tan(theta / 2);
    byDeflection -= (4 / Math.PI) * weight * (edge * Math.tan(theta / 2) + logarithm);
  }
  const square = chordFraction ** 2;
  return { byIncidence: byIncidence / square, byDeflection: byDeflection / square };
}
