import { factorCholesky, solveCholesky } from '../math/cholesky.js';
import { lowestEigenpairs } from '../math/eigen.js';
import { gaussLegendre } from '../math/index.js';
import { type BeamProperties, beamElement } from './beam.js';

/** A beam held at x = 0, by elements of equal length. */
export interface Cantilever {
  /** [m] */
  readonly length: number;
  readonly elements: number;
  /** At a distance from the root [m]. */
  readonly at: (x: number) => BeamProperties;
}

/** Displacement and slope at the nodes, root left out: w1, slope1, w2, slope2 ... */
export interface CantileverShape {
  readonly displacement: Float64Array;
  readonly tipDeflection: number;
  readonly tipSlope: number;
  /** Bending moment at the root, from the loads [N m]. */
  readonly rootMoment: number;
}

/** Points on (from, to) by x = L sin(t): a load that ends like an ellipse is smooth in t. */
function loadPoints(from: number, to: number, length: number): readonly { x: number; weight: number }[] {
  const rule = gaussLegendre(12);
  const [a, b] = [Math.asin(Math.min(1, from / length)), Math.asin(Math.min(1, to / length))];
  return rule.nodes.reduce<{ x: number; weight: number }[]>((points, node, i) => {
    const t = (a + b) / 2 + (node * (b - a)) / 2;
    points.push({ x: length * Math.sin(t), weight: (rule.weights[i] * (b - a) * length * Math.cos(t)) / 2 });
    return points;
  }, []);
}

/** Work of a unit force at a share of an element on its four unknowns (cubic). */
const cubic = (s: number, l: number): readonly [number, number, number, number] => [
  1 - 3 * s * s + 2 * s ** 3,
  l * (s - 2 * s * s + s ** 3),
  3 * s * s - 2 * s ** 3,
  l * (s ** 3 - s * s),
];

function assembled({ length, elements, at }: Cantilever, of: 'bending' | 'mass'): Float64Array {
  const n = 2 * elements;
  const l = length / elements;
  const matrix = new Float64Array(n * n);
  for (let e = 0; e < elements; e++) {
    const part = beamElement(l, at((e + 0.5) * l))[of];
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        const [row, column] = [2 * e - 2 + i, 2 * e - 2 + j];
        if (row >= 0 && column >= 0) matrix[row * n + column] += part[4 * i + j];
      }
    }
  }
  return matrix;
}

/**
 * Deflection of a cantilever under a distributed load and a force and couple at its tip. Exact at the nodes for a uniform beam.
 *
 * @param load - by distance from the root [N/m]
 * @param tip - force [N] and couple [N m] at the tip
 */
export function bendCantilever(
  beam: Cantilever,
  load: (x: number) => number,
  tip: { readonly force?: number; readonly couple?: number } = {},
): CantileverShape {
  const n = 2 * beam.elements;
  const l = beam.length / beam.elements;
  const forces = new Float64Array(n);
  forces[n - 2] = tip.force ?? 0;
  forces[n - 1] = tip.couple ?? 0;
  let rootMoment = (tip.force ?? 0) * beam.length + (tip.couple ?? 0);
  for (let e = 0; e < beam.elements; e++) {
    for (const { x, weight } of loadPoints(e * l, (e + 1) * l, beam.length)) {
      const amount = weight * load(x);
      rootMoment += amount * x;
      cubic(x / l - e, l).forEach((share, i) => {
        const row = 2 * e - 2 + i;
        if (row >= 0) forces[row] += share * amount;
      });
    }
  }
  const factors = factorCholesky(assembled(beam, 'bending'), n);
  if (!factors.ok) throw new RangeError('a cantilever needs bending stiffness along its whole length');
  const displacement = solveCholesky(factors.value, forces);
  return { displacement, tipDeflection: displacement[n - 2], tipSlope: displacement[n - 1], rootMoment };
}

/** Lowest natural frequencies of a cantilever [rad/s]. */
export function cantileverFrequencies(beam: Cantilever, count: number): readonly number[] {
  const n = 2 * beam.elements;
  const [stiffness, mass] = [assembled(beam, 'bending'), assembled(beam, 'mass')];
  const { bending, linearMass } = beam.at(beam.length / 2);
  const pairs = lowestEigenpairs(stiffness, mass, n, Math.min(n, count), bending / (linearMass * beam.length ** 4));
  if (!pairs.ok) throw new RangeError('a cantilever needs mass and bending stiffness along its whole length');
  return Array.from(pairs.value.values, Math.sqrt);
}
