import { complexEigenvalues } from './complexEigen.js';

/** Sizes of the subspace at which its eigenvalues are looked at: done where the largest one no longer changes. */
const looks = [10, 16, 24, 32];

/** Change between two looks that counts as none: Ritz values converge fast once they do. */
const settled = 1e-9;

/**
 * Largest positive real eigenvalue of a linear map, by Arnoldi's method with full orthogonalisation; undefined where it has none
 * among those that stand out.
 *
 * apply - the map of a vector of n values
 * steps - size of the subspace; 40 suits maps whose eigenvalues fall off fast, as flexibilities do
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 10.5 (numbering from memory).
 */
export function largestRealEigenvalue(
  apply: (vector: Float64Array) => Float64Array,
  n: number,
  steps = 40,
): number | undefined {
  const most = Math.min(steps, n);
  const h = new Float64Array((most + 1) * most);
  // A start without any symmetry, so that no eigenvector is left out.
  const basis = [normalise(Float64Array.from({ length: n }, (_, i) => 1 + 0.37 * Math.sin(1.7 * i + 0.3)))];
  let found: number | undefined;
  for (let k = 0; k < most; k++) {
    const next = apply(basis[k]);
    for (let pass = 0; pass < 2; pass++)
      for (let i = 0; i <= k; i++) {
        const vector = basis[i];
        let along = 0;
        for (let j = 0; j < n; j++) along += vector[j] * next[j];
        for (let j = 0; j < n; j++) next[j] -= along * vector[j];
        h[i * most + k] += along;
      }
    const size = k + 1;
    let square = 0;
    for (let j = 0; j < n; j++) square += next[j] * next[j];
    const length = Math.sqrt(square);
    if (!(length > 1e-13 * Math.abs(h[k * most + k])) || size === most) return largestReal(h, most, size);
    if (looks.includes(size)) {
      const before = found;
      found = largestReal(h, most, size);
      if (found !== undefined && before !== undefined && Math.abs(found - before) <= settled * found) return found;
    }
    h[(k + 1) * most + k] = length;
    basis.push(normalise(next));
  }
  return undefined;
}

/** Largest positive real eigenvalue of the leading part of a matrix whose rows are `stride` long. */
function largestReal(h: Float64Array, stride: number, size: number): number | undefined {
  const matrix = { re: new Float64Array(size * size), im: new Float64Array(size * size) };
  for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) matrix.re[i * size + j] = h[i * stride + j];
  const values = complexEigenvalues(matrix, size);
  const scale = Math.max(...values.map(({ re, im }) => Math.hypot(re, im)));
  const real = values.filter(({ re, im }) => re > 1e-6 * scale && Math.abs(im) < 1e-6 * re).map(({ re }) => re);
  return real.length > 0 ? Math.max(...real) : undefined;
}

function normalise(vector: Float64Array): Float64Array {
  const length = Math.hypot(...vector);
  return vector.map((value) => value / length);
}
