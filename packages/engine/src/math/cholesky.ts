import { type Outcome, problem, success } from '../result.js';

/**
 * Cholesky factor L of a symmetric positive definite matrix, A = L L', row-major in full storage.
 * `first[i]` is the first column of row i that is not zero: nothing to its left is ever touched, so that a matrix whose
 * entries lie near the diagonal is factored in time proportional to its profile.
 */
export interface CholeskyFactors {
  readonly size: number;
  readonly factor: Float64Array;
  readonly first: Int32Array;
}

function profileOf(matrix: Float64Array, n: number): Int32Array {
  const first = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    let j = 0;
    while (j < i && matrix[i * n + j] === 0) j++;
    first[i] = j;
  }
  return first;
}

/**
 * Factors a symmetric positive definite matrix.
 *
 * @param matrix - row-major, size x size; only the lower triangle is read; not changed
 * @returns factors; a problem where the matrix is not positive definite to working precision
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 4.2 (numbering from memory).
 */
export function factorCholesky(matrix: Float64Array, size: number): Outcome<CholeskyFactors> {
  if (matrix.length !== size * size) throw new RangeError('factorCholesky: the matrix must hold size x size values');
  const n = size;
  const first = profileOf(matrix, n);
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = first[i]; j < i; j++) {
      const other = j * n;
      let sum = matrix[row + j];
      for (let k = Math.max(first[i], first[j]); k < j; k++) sum -= l[row + k] * l[other + k];
      l[row + j] = sum / l[other + j];
    }
    let pivot = matrix[row + i];
    for (let k = first[i]; k < i; k++) pivot -= l[row + k] * l[row + k];
    if (!(pivot > 1e-14 * Math.abs(matrix[row + i])) || !Number.isFinite(pivot)) {
      return problem({
        code: 'not-positive-definite',
        reason: 'the stiffness has a motion that nothing resists',
        where: `unknown ${i}`,
        remedy: 'look for a part without stiffness or one that is attached to nothing',
      });
    }
    l[row + i] = Math.sqrt(pivot);
  }
  return success({ size, factor: l, first });
}

/** Solves L y = b in place, one column of `columns`. */
function forward({ size: n, factor: l, first }: CholeskyFactors, x: Float64Array, columns: number): void {
  for (let i = 0; i < n; i++) {
    const target = i * columns;
    for (let k = first[i]; k < i; k++) {
      const value = l[i * n + k];
      if (value === 0) continue;
      const source = k * columns;
      for (let c = 0; c < columns; c++) x[target + c] -= value * x[source + c];
    }
    const inverse = 1 / l[i * n + i];
    for (let c = 0; c < columns; c++) x[target + c] *= inverse;
  }
}

/** Solves L' x = y in place. */
function backward({ size: n, factor: l, first }: CholeskyFactors, x: Float64Array, columns: number): void {
  for (let i = n - 1; i >= 0; i--) {
    const source = i * columns;
    const inverse = 1 / l[i * n + i];
    for (let c = 0; c < columns; c++) x[source + c] *= inverse;
    for (let k = first[i]; k < i; k++) {
      const value = l[i * n + k];
      if (value === 0) continue;
      const target = k * columns;
      for (let c = 0; c < columns; c++) x[target + c] -= value * x[source + c];
    }
  }
}

/**
 * Solves A X = B.
 * @param rightHandSides - row-major, size x columns
 * @returns X in the same layout
 */
export function solveCholesky(factors: CholeskyFactors, rightHandSides: Float64Array, columns = 1): Float64Array {
  if (rightHandSides.length !== factors.size * columns) {
    throw new RangeError('solveCholesky: right-hand sides must be size x columns');
  }
  const x = rightHandSides.slice();
  forward(factors, x, columns);
  backward(factors, x, columns);
  return x;
}
