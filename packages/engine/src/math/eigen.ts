import { type Outcome, problem, success } from '../result.js';
import { factorCholesky, solveCholesky } from './cholesky.js';

/** Eigenvalues in increasing order and their vectors, one per row (row-major count x size). */
export interface EigenPairs {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
  readonly size: number;
}

/** One plane rotation of Jacobi's method on rows and columns p and q. */
function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q];
  const theta = (a[q * n + q] - a[p * n + p]) / (2 * apq);
  const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < n; k++) {
    const [kp, kq] = [a[k * n + p], a[k * n + q]];
    a[k * n + p] = c * kp - s * kq;
    a[k * n + q] = s * kp + c * kq;
  }
  for (let k = 0; k < n; k++) {
    const [pk, qk] = [a[p * n + k], a[q * n + k]];
    a[p * n + k] = c * pk - s * qk;
    a[q * n + k] = s * pk + c * qk;
    const [vp, vq] = [v[p * n + k], v[q * n + k]];
    v[p * n + k] = c * vp - s * vq;
    v[q * n + k] = s * vp + c * vq;
  }
}

const offDiagonal = (a: Float64Array, n: number): number => {
  let sum = 0;
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) sum += a[i * n + j] * a[i * n + j];
  return sum;
};

/**
 * All eigenvalues and vectors of a small symmetric matrix, by cyclic plane rotations.
 *
 * @param matrix - row-major size x size, symmetric; not changed. Meant for sizes up to about 60
 * Source: C. G. J. Jacobi 1846; Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 8.5 (numbering from memory).
 */
export function symmetricEigen(matrix: Float64Array, size: number): EigenPairs {
  const a = matrix.slice();
  const v = new Float64Array(size * size);
  for (let i = 0; i < size; i++) v[i * size + i] = 1;
  let scale = 0;
  for (const value of a) scale += value * value;
  for (let sweep = 0; sweep < 40 && offDiagonal(a, size) > 1e-28 * scale; sweep++) {
    for (let p = 0; p < size; p++) {
      for (let q = p + 1; q < size; q++) {
        if (Math.abs(a[p * size + q]) > 1e-18 * Math.sqrt(scale)) rotate(a, v, size, p, q);
      }
    }
  }
  const order = Array.from({ length: size }, (_, i) => i).sort((i, j) => a[i * size + i] - a[j * size + j]);
  const vectors = new Float64Array(size * size);
  order.forEach((from, to) => void vectors.set(v.subarray(from * size, (from + 1) * size), to * size));
  return { values: Float64Array.from(order, (i) => a[i * size + i]), vectors, size };
}

/** Symmetric matrix times a block of columns (row-major size x columns), skipping zeros. */
export function multiplyBlock(matrix: Float64Array, size: number, block: Float64Array, columns: number): Float64Array {
  const result = new Float64Array(size * columns);
  for (let i = 0; i < size; i++) {
    const target = i * columns;
    for (let k = 0; k < size; k++) {
      const value = matrix[i * size + k];
      if (value === 0) continue;
      const source = k * columns;
      for (let c = 0; c < columns; c++) result[target + c] += value * block[source + c];
    }
  }
  return result;
}

/** X' Y of two blocks of columns. */
function product(x: Float64Array, y: Float64Array, size: number, columns: number): Float64Array {
  const result = new Float64Array(columns * columns);
  for (let i = 0; i < size; i++) {
    for (let a = 0; a < columns; a++) {
      const value = x[i * columns + a];
      for (let b = 0; b < columns; b++) result[a * columns + b] += value * y[i * columns + b];
    }
  }
  return result;
}

/** X times a small square matrix given by the rows of its transpose. */
function combine(x: Float64Array, rows: Float64Array, size: number, columns: number): Float64Array {
  const result = new Float64Array(size * columns);
  for (let i = 0; i < size; i++) {
    for (let a = 0; a < columns; a++) {
      let sum = 0;
      for (let b = 0; b < columns; b++) sum += x[i * columns + b] * rows[a * columns + b];
      result[i * columns + a] = sum;
    }
  }
  return result;
}

/** Rows that make columns orthonormal in the sense of their Gram matrix; a column that adds nothing new becomes zero. */
function inverseRootRows(gram: Float64Array, columns: number): Float64Array {
  const scale = Float64Array.from(
    { length: columns },
    (_, a) => 1 / Math.sqrt(Math.max(gram[a * columns + a], 1e-300)),
  );
  const scaled = new Float64Array(columns * columns);
  for (let a = 0; a < columns; a++) {
    for (let b = 0; b < columns; b++) {
      const mean = (gram[a * columns + b] + gram[b * columns + a]) / 2;
      scaled[a * columns + b] = scale[a] * scale[b] * mean;
    }
  }
  const { values, vectors } = symmetricEigen(scaled, columns);
  const rows = new Float64Array(columns * columns);
  for (let a = 0; a < columns; a++) {
    const factor = values[a] > 1e-13 * values[columns - 1] ? 1 / Math.sqrt(values[a]) : 0;
    for (let b = 0; b < columns; b++) rows[a * columns + b] = factor * scale[b] * vectors[a * columns + b];
  }
  return rows;
}

/** Start block: the mass diagonal, unit columns at the softest unknowns, and patterns that are alike to no mode. */
function startBlock(k: Float64Array, m: Float64Array, size: number, columns: number): Float64Array {
  const block = new Float64Array(size * columns);
  for (let i = 0; i < size; i++) block[i * columns] = m[i * size + i];
  for (let c = 1; c < columns; c++) {
    for (let i = 0; i < size; i++) block[i * columns + c] = m[i * size + i] * Math.cos((1.7 + 0.37 * c) * c * i + c);
  }
  const soft = Array.from({ length: size }, (_, i) => i).sort(
    (a, b) => m[b * size + b] / k[b * size + b] - m[a * size + a] / k[a * size + a],
  );
  for (let c = 1; c < columns; c += 2) block[soft[(c * 7) % size] * columns + c] += m[0] + k[0] * 1e-12;
  return block;
}

/**
 * Lowest eigenvalues of K x = lambda M x by subspace iteration; K and M symmetric, K positive semidefinite.
 *
 * @param shift - positive number added to every eigenvalue while solving, of the order of the lowest one sought; makes a
 *   free body solvable
 * @returns `count` pairs, M-orthonormal, increasing; a problem where K + shift M is not positive definite
 * Source: K.-J. Bathe, E. L. Wilson, Solution methods for eigenvalue problems in structural mechanics, Int. J. Numer.
 * Methods Eng. 6, 1973.
 */
export function lowestEigenpairs(
  stiffness: Float64Array,
  mass: Float64Array,
  size: number,
  count: number,
  shift: number,
): Outcome<EigenPairs> {
  const shifted = stiffness.slice();
  for (let i = 0; i < shifted.length; i++) shifted[i] += shift * mass[i];
  const factors = factorCholesky(shifted, size);
  if (!factors.ok) return factors;
  const columns = Math.min(size, Math.max(2 * count, count + 8));
  let block = startBlock(stiffness, mass, size, columns);
  let values = new Float64Array(columns);
  for (let iteration = 0; iteration < 60; iteration++) {
    const solved = solveCholesky(factors.value, block, columns);
    // Rayleigh quotients of the inverse: with z = inverse(K + s M) y, z' y and z' M z are the projected matrices.
    const massTimes = multiplyBlock(mass, size, solved, columns);
    const root = inverseRootRows(product(solved, massTimes, size, columns), columns);
    const basis = combine(solved, root, size, columns);
    const forces = combine(block, root, size, columns);
    const small = symmetricEigen(symmetrised(product(basis, forces, size, columns), columns), columns);
    const change = largestChange(small.values, values, count);
    values = small.values.slice();
    block = combine(combine(massTimes, root, size, columns), small.vectors, size, columns);
    if (change < 1e-11 || iteration === 59) {
      const shapes = combine(basis, small.vectors, size, columns);
      return success(pickPairs(shapes, values, { size, columns, count, shift }));
    }
  }
  return problem({
    code: 'eigenvalues',
    reason: 'the lowest vibrations were not found',
    where: 'eigenvalues',
    remedy: 'ask for fewer of them',
  });
}

/** Mean with the transpose; directions that vanished (zero rows) are put last instead of first. */
function symmetrised(a: Float64Array, n: number): Float64Array {
  const result = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) result[i * n + j] = (a[i * n + j] + a[j * n + i]) / 2;
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, result[i * n + i]);
  for (let i = 0; i < n; i++) if (result[i * n + i] === 0) result[i * n + i] = 1e6 * largest;
  return result;
}

function largestChange(now: Float64Array, before: Float64Array, count: number): number {
  let change = 0;
  for (let i = 0; i < count; i++) change = Math.max(change, Math.abs(now[i] - before[i]) / Math.max(now[i], 1e-300));
  return change;
}

function pickPairs(
  shapes: Float64Array,
  values: Float64Array,
  { size, columns, count, shift }: { size: number; columns: number; count: number; shift: number },
): EigenPairs {
  const kept = Math.min(count, columns);
  const vectors = new Float64Array(kept * size);
  for (let a = 0; a < kept; a++) for (let i = 0; i < size; i++) vectors[a * size + i] = shapes[i * columns + a];
  return { values: Float64Array.from({ length: kept }, (_, a) => values[a] - shift), vectors, size };
}
