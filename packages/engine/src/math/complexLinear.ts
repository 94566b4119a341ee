import { type Outcome, problem, success } from '../result.js';

/** Square or rectangular complex matrix, row-major, real and imaginary parts apart. */
export interface ComplexMatrix {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Zeros. */
export const complexZeros = (values: number): ComplexMatrix => ({
  re: new Float64Array(values),
  im: new Float64Array(values),
});

export const copyComplex = (matrix: ComplexMatrix): ComplexMatrix => ({
  re: matrix.re.slice(),
  im: matrix.im.slice(),
});

/** LU factors of a complex matrix with partial pivoting; `order[i]` is the row that became row i. */
export interface ComplexLu {
  readonly size: number;
  readonly factors: ComplexMatrix;
  readonly order: Int32Array;
}

function swapRows({ re, im }: ComplexMatrix, n: number, p: number, q: number): void {
  for (const part of [re, im])
    for (let j = 0; j < n; j++) {
      const kept = part[p * n + j];
      part[p * n + j] = part[q * n + j];
      part[q * n + j] = kept;
    }
}

/** Row i less a multiple of row k, from column `first` on. */
function eliminate({ re, im }: ComplexMatrix, n: number, i: number, k: number, first: number): void {
  const mRe = re[i * n + k];
  const mIm = im[i * n + k];
  for (let r = i * n + first, u = k * n + first; r < (i + 1) * n; r++, u++) {
    re[r] -= mRe * re[u] - mIm * im[u];
    im[r] -= mRe * im[u] + mIm * re[u];
  }
}

function pivotRow({ re, im }: ComplexMatrix, n: number, k: number): number {
  let found = k;
  let largest = 0;
  for (let i = k; i < n; i++) {
    const size = re[i * n + k] ** 2 + im[i * n + k] ** 2;
    if (size > largest) {
      largest = size;
      found = i;
    }
  }
  return found;
}

/**
 * Factors a dense complex matrix by LU with partial pivoting.
 * matrix - row-major, size x size; overwritten by the factors
 * Returns the factors, or a problem where it is singular to working precision. A tiny pivot is kept where `keepSingular` is set (for inverse iteration).
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 3.4.
 */
export function factorComplexLu(matrix: ComplexMatrix, size: number, keepSingular = false): Outcome<ComplexLu> {
  const { re, im } = matrix;
  if (re.length !== size * size || im.length !== size * size)
    throw new RangeError('factorComplexLu: the matrix must hold size x size values');
  const n = size;
  const order = Int32Array.from({ length: n }, (_, i) => i);
  let largest = 0;
  for (let i = 0; i < re.length; i++) largest = Math.max(largest, Math.abs(re[i]), Math.abs(im[i]));
  const smallest = largest * n * 1e-16;
  for (let k = 0; k < n; k++) {
    const row = pivotRow(matrix, n, k);
    if (row !== k) {
      swapRows(matrix, n, row, k);
      [order[row], order[k]] = [order[k], order[row]];
    }
    let square = re[k * n + k] ** 2 + im[k * n + k] ** 2;
    if (!(square > smallest * smallest)) {
      if (!keepSingular || !(largest < Infinity))
        return problem({
          code: 'singular-matrix',
          reason: 'the equations have no unique solution',
          where: 'linear equations',
          remedy: 'look for two parts in the same place or a part without extent',
        });
      re[k * n + k] = smallest > 0 ? smallest : 1e-300;
      im[k * n + k] = 0;
      square = re[k * n + k] ** 2;
    }
    const [inverseRe, inverseIm] = [re[k * n + k] / square, -im[k * n + k] / square];
    for (let i = k + 1; i < n; i++) {
      const at = i * n + k;
      const real = re[at];
      const imaginary = im[at];
      if (real === 0 && imaginary === 0) continue;
      re[at] = real * inverseRe - imaginary * inverseIm;
      im[at] = real * inverseIm + imaginary * inverseRe;
      eliminate(matrix, n, i, k, k + 1);
    }
  }
  return success({ size, factors: matrix, order });
}

/**
 * Solves A X = B with complex factors.
 * rightHandSides - B, row-major, size x columns
 * Returns X in the same layout.
 */
export function solveComplexLu(lu: ComplexLu, rightHandSides: ComplexMatrix, columns = 1): ComplexMatrix {
  const { size: n, factors, order } = lu;
  const x = complexZeros(n * columns);
  for (let i = 0; i < n; i++) {
    const from = order[i] * columns;
    x.re.set(rightHandSides.re.subarray(from, from + columns), i * columns);
    x.im.set(rightHandSides.im.subarray(from, from + columns), i * columns);
  }
  const subtract = (i: number, k: number) => {
    const mRe = factors.re[i * n + k];
    const mIm = factors.im[i * n + k];
    if (mRe === 0 && mIm === 0) return;
    for (let c = 0, t = i * columns, s = k * columns; c < columns; c++, t++, s++) {
      x.re[t] -= mRe * x.re[s] - mIm * x.im[s];
      x.im[t] -= mRe * x.im[s] + mIm * x.re[s];
    }
  };
  for (let i = 1; i < n; i++) for (let k = 0; k < i; k++) subtract(i, k);
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) subtract(i, k);
    const [dRe, dIm] = [factors.re[i * n + i], factors.im[i * n + i]];
    const square = dRe * dRe + dIm * dIm;
    for (let t = i * columns; t < (i + 1) * columns; t++) {
      const real = x.re[t];
      x.re[t] = (real * dRe + x.im[t] * dIm) / square;
      x.im[t] = (x.im[t] * dRe - real * dIm) / square;
    }
  }
  return x;
}
