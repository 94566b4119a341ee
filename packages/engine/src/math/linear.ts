import { type Outcome, problem, success } from '../result.js';

/**
 * Dense LU factors of a square matrix with partial pivoting: P A = L U, stored in one row-major array.
 * `order[i]` is the row of A that became row i.
 */
export interface LuFactors {
  readonly size: number;
  readonly factors: Float64Array;
  readonly order: Int32Array;
}

/** Columns that are factored together before the rest of the matrix is updated: a panel of this width stays in cache. */
const panelWidth = 8;

function swapRows(a: Float64Array, n: number, first: number, second: number): void {
  const p = first * n;
  const q = second * n;
  for (let j = 0; j < n; j++) {
    const kept = a[p + j];
    a[p + j] = a[q + j];
    a[q + j] = kept;
  }
}

/** Factors columns from..to of the rows below `from`. Returns false where a column has no usable pivot. */
function factorPanel(
  a: Float64Array,
  n: number,
  { from, to, order, smallest }: { from: number; to: number; order: Int32Array; smallest: number },
): boolean {
  for (let k = from; k < to; k++) {
    let pivotRow = k;
    let largest = Math.abs(a[k * n + k]);
    for (let i = k + 1; i < n; i++) {
      const magnitude = Math.abs(a[i * n + k]);
      if (magnitude > largest) {
        largest = magnitude;
        pivotRow = i;
      }
    }
    if (!(largest > smallest)) return false;
    if (pivotRow !== k) {
      swapRows(a, n, k, pivotRow);
      const kept = order[k];
      order[k] = order[pivotRow];
      order[pivotRow] = kept;
    }
    const inverse = 1 / a[k * n + k];
    const pivot = k * n;
    for (let i = k + 1; i < n; i++) {
      const row = i * n;
      const multiplier = a[row + k] * inverse;
      a[row + k] = multiplier;
      if (multiplier !== 0) for (let j = k + 1; j < to; j++) a[row + j] -= multiplier * a[pivot + j];
    }
  }
  return true;
}

/** Rows of U to the right of the panel: forward substitution with the panel's unit lower triangle. */
function solvePanelRows(a: Float64Array, n: number, from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const row = i * n;
    for (let k = from; k < i; k++) {
      const multiplier = a[row + k];
      const above = k * n;
      for (let j = to; j < n; j++) a[row + j] -= multiplier * a[above + j];
    }
  }
}

/** Row of the trailing block less multiples of rows of U. */
function updateRow(a: Float64Array, n: number, row: number, from: number, to: number, first: number): void {
  for (let k = from; k < to; k++) {
    const multiplier = a[row * n + k];
    for (let j = first, r = row * n + first, u = k * n + first; j < n; j++, r++, u++) a[r] -= multiplier * a[u];
  }
}

/** Two rows of the trailing block, four pivots at a time: eight products for each four loads of U. */
function updateRowPair(a: Float64Array, n: number, row: number, pivot: number, first: number): void {
  const l = row * n + pivot;
  const m = l + n;
  const [p0, p1, p2, p3] = [a[l], a[l + 1], a[l + 2], a[l + 3]];
  const [q0, q1, q2, q3] = [a[m], a[m + 1], a[m + 2], a[m + 3]];
  const u0 = pivot * n;
  const u1 = u0 + n;
  const u2 = u1 + n;
  const u3 = u2 + n;
  const r0 = row * n;
  const r1 = r0 + n;
  for (let j = first; j < n; j++) {
    const x0 = a[u0 + j];
    const x1 = a[u1 + j];
    const x2 = a[u2 + j];
    const x3 = a[u3 + j];
    a[r0 + j] -= p0 * x0 + p1 * x1 + p2 * x2 + p3 * x3;
    a[r1 + j] -= q0 * x0 + q1 * x1 + q2 * x2 + q3 * x3;
  }
}

function updateTrailing(a: Float64Array, n: number, from: number, to: number): void {
  const lastPivot = from + 4 * Math.floor((to - from) / 4);
  let row = to;
  for (; row + 1 < n; row += 2) {
    for (let pivot = from; pivot < lastPivot; pivot += 4) updateRowPair(a, n, row, pivot, to);
    updateRow(a, n, row, lastPivot, to, to);
    updateRow(a, n, row + 1, lastPivot, to, to);
  }
  if (row < n) updateRow(a, n, row, from, to, to);
}

/**
 * Factors a dense square matrix by blocked LU with partial pivoting.
 *
 * matrix - row-major coefficients, size x size; overwritten by the factors (hand in a copy to keep it)
 * size - number of rows [1]
 * Returns the factors, or a problem where the matrix is singular to working precision or holds a value that is not finite.
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, algorithm 3.4.1 in the block form of section 3.2.11 (numbering from memory).
 */
export function factorLu(matrix: Float64Array, size: number): Outcome<LuFactors> {
  if (matrix.length !== size * size) throw new RangeError('factorLu: the matrix must hold size x size values');
  const order = new Int32Array(size);
  let largest = 0;
  let finite = true;
  for (let i = 0; i < size; i++) order[i] = i;
  for (let i = 0; i < matrix.length; i++) {
    const magnitude = Math.abs(matrix[i]);
    if (magnitude > largest) largest = magnitude;
    if (!(magnitude < Infinity)) finite = false;
  }
  const smallest = largest * size * 1e-16;
  let regular = finite;
  for (let from = 0; regular && from < size; from += panelWidth) {
    const to = Math.min(size, from + panelWidth);
    regular = factorPanel(matrix, size, { from, to, order, smallest });
    if (regular && to < size) {
      solvePanelRows(matrix, size, from, to);
      updateTrailing(matrix, size, from, to);
    }
  }
  if (!regular)
    return problem({
      code: 'singular-matrix',
      reason: finite ? 'the equations have no unique solution' : 'the equations hold a value that is not finite',
      where: 'linear equations',
      remedy: 'look for two parts in the same place or a part without extent',
    });
  return success({ size, factors: matrix, order });
}

function subtractRows(
  x: Float64Array,
  columns: number,
  { target, source, multiplier }: { target: number; source: number; multiplier: number },
): void {
  if (multiplier === 0) return;
  const t = target * columns;
  const s = source * columns;
  for (let c = 0; c < columns; c++) x[t + c] -= multiplier * x[s + c];
}

/** One right-hand side: plain dot products over contiguous rows of the factors. */
function substituteSingle(a: Float64Array, n: number, x: Float64Array): void {
  for (let i = 1; i < n; i++) {
    const row = i * n;
    let sum = x[i];
    for (let k = 0; k < i; k++) sum -= a[row + k] * x[k];
    x[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    const row = i * n;
    let sum = x[i];
    for (let k = i + 1; k < n; k++) sum -= a[row + k] * x[k];
    x[i] = sum / a[row + i];
  }
}

/**
 * Solves A X = B with factors of A.
 *
 * lu - factors from factorLu
 * rightHandSides - B, row-major, size x columns (one row per equation)
 * columns - number of right-hand sides [1]
 * Returns X in the same layout.
 */
export function solveLu(lu: LuFactors, rightHandSides: Float64Array, columns = 1): Float64Array {
  const { size: n, factors: a, order } = lu;
  if (rightHandSides.length !== n * columns) throw new RangeError('solveLu: right-hand sides must be size x columns');
  const x = new Float64Array(n * columns);
  for (let i = 0; i < n; i++) x.set(rightHandSides.subarray(order[i] * columns, (order[i] + 1) * columns), i * columns);
  if (columns === 1) {
    substituteSingle(a, n, x);
    return x;
  }
  for (let i = 1; i < n; i++)
    for (let k = 0; k < i; k++) subtractRows(x, columns, { target: i, source: k, multiplier: a[i * n + k] });
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) subtractRows(x, columns, { target: i, source: k, multiplier: a[i * n + k] });
    const inverse = 1 / a[i * n + i];
    for (let c = 0; c < columns; c++) x[i * columns + c] *= inverse;
  }
  return x;
}
