import fc from 'fast-check';
import { LuDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { factorLu, solveLu } from './linear.js';

/** Park and Miller's minimal standard generator: repeatable numbers between -0.5 and 0.5. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647 - 0.5;
  };
}

function randomMatrix(n: number, next: () => number): Float64Array {
  return Float64Array.from({ length: n * n }, next);
}

function product(a: Float64Array, n: number, x: Float64Array, columns: number): Float64Array {
  const b = new Float64Array(n * columns);
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++)
      for (let c = 0; c < columns; c++) b[i * columns + c] += a[i * n + k] * x[k * columns + c];
  return b;
}

function solved(a: Float64Array, n: number, b: Float64Array, columns = 1): Float64Array {
  const lu = factorLu(a.slice(), n);
  if (!lu.ok) throw new Error(lu.reason);
  return solveLu(lu.value, b, columns);
}

describe('factorLu and solveLu', () => {
  it('solve a system by hand', () => {
    // 2 x + y = 5, x + 3 y = 10
    expect([...solved(new Float64Array([2, 1, 1, 3]), 2, new Float64Array([5, 10]))]).toEqual([1, 3]);
  });

  it('need the pivot where the first coefficient is zero', () => {
    expect([...solved(new Float64Array([0, 2, 4, 0]), 2, new Float64Array([6, 8]))]).toEqual([2, 3]);
  });

  it('invert the Hilbert matrix of order 5, whose inverse holds whole numbers', () => {
    const hilbert = Float64Array.from({ length: 25 }, (_, k) => 1 / (Math.floor(k / 5) + (k % 5) + 1));
    const unit = Float64Array.from({ length: 25 }, (_, k) => (k % 6 === 0 ? 1 : 0));
    const inverse = solved(hilbert, 5, unit, 5);
    // First row 25, -300, 1050, -1400, 630.
    [25, -300, 1050, -1400, 630].forEach((value, k) => {
      expect(inverse[k]).toBeCloseTo(value, 6);
    });
  });

  it('agree with another library for sizes around the panel width', () => {
    const next = generator(7);
    for (const n of [1, 2, 7, 8, 9, 16, 17, 33, 61]) {
      const a = randomMatrix(n, next);
      const b = Float64Array.from({ length: n }, next);
      const matrix = new Matrix(Array.from({ length: n }, (_, i) => [...a.subarray(i * n, (i + 1) * n)]));
      const reference = new LuDecomposition(matrix).solve(Matrix.columnVector([...b])).to1DArray();
      solved(a, n, b).forEach((value, i) => {
        expect(Math.abs(value - reference[i])).toBeLessThan(1e-8 * (1 + Math.abs(reference[i])));
      });
    }
  });

  it('give back the right-hand sides, one or many', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 5 }),
        fc.integer({ min: 1, max: 1e6 }),
        (n, columns, seed) => {
          const next = generator(seed);
          const a = randomMatrix(n, next);
          for (let i = 0; i < n; i++) a[i * n + i] += 3;
          const b = Float64Array.from({ length: n * columns }, next);
          const back = product(a, n, solved(a, n, b, columns), columns);
          return back.every((value, i) => Math.abs(value - b[i]) < 1e-10);
        },
      ),
    );
  });

  it('refuse singular matrices and numbers that are not finite', () => {
    expect(factorLu(new Float64Array([1, 2, 2, 4]), 2)).toMatchObject({ ok: false, code: 'singular-matrix' });
    expect(factorLu(new Float64Array(9), 3).ok).toBe(false);
    expect(factorLu(new Float64Array([1, 0, Number.NaN, 1]), 2).ok).toBe(false);
  });

  it('throw on arrays of the wrong size', () => {
    expect(() => factorLu(new Float64Array(5), 2)).toThrow(RangeError);
    const lu = factorLu(new Float64Array([1]), 1);
    if (lu.ok) expect(() => solveLu(lu.value, new Float64Array(2))).toThrow(RangeError);
  });
});
