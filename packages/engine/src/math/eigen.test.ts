import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factorCholesky, solveCholesky } from './cholesky.js';
import { lowestEigenpairs, multiplyBlock, symmetricEigen } from './eigen.js';

/** Stiffness of a chain of equal springs, held at both ends, or free. */
function chain(n: number, free = false): Float64Array {
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    k[i * n + i] = free && (i === 0 || i === n - 1) ? 1 : 2;
    if (i > 0) k[i * n + i - 1] = k[(i - 1) * n + i] = -1;
  }
  return k;
}
const identity = (n: number) => Float64Array.from({ length: n * n }, (_, i) => (i % (n + 1) === 0 ? 1 : 0));

describe('Cholesky factors', () => {
  it('solve what they factored, for any number of columns', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 3 }), (n, columns) => {
        const k = chain(n);
        const factors = factorCholesky(k, n);
        if (!factors.ok) throw new Error(factors.reason);
        const wanted = Float64Array.from({ length: n * columns }, (_, i) => Math.sin(3 * i + 1));
        const found = solveCholesky(factors.value, multiplyBlock(k, n, wanted, columns), columns);
        found.forEach((value, i) => void expect(value).toBeCloseTo(wanted[i], 9));
      }),
    );
  });

  it('refuse a matrix with a free motion', () => {
    expect(factorCholesky(chain(5, true), 5)).toMatchObject({ ok: false, code: 'not-positive-definite' });
  });
});

describe('eigenvalues', () => {
  it('of a spring chain are 2 - 2 cos(k pi / (n + 1))', () => {
    const n = 30;
    const all = symmetricEigen(chain(n), n);
    const few = lowestEigenpairs(chain(n), identity(n), n, 6, 0.01);
    if (!few.ok) throw new Error(few.reason);
    for (let k = 1; k <= n; k++) expect(all.values[k - 1]).toBeCloseTo(2 - 2 * Math.cos((k * Math.PI) / (n + 1)), 12);
    for (let k = 1; k <= 6; k++) expect(few.value.values[k - 1]).toBeCloseTo(all.values[k - 1], 10);
  });

  it('of a free chain begin with zero, and the vectors are orthonormal', () => {
    const n = 40;
    const few = lowestEigenpairs(chain(n, true), identity(n), n, 5, 0.01);
    if (!few.ok) throw new Error(few.reason);
    expect(few.value.values[0]).toBeCloseTo(0, 10);
    expect(few.value.values[1]).toBeCloseTo(2 - 2 * Math.cos(Math.PI / n), 10);
    const v = few.value.vectors;
    for (let a = 0; a < 5; a++) {
      for (let b = 0; b <= a; b++) {
        let sum = 0;
        for (let i = 0; i < n; i++) sum += v[a * n + i] * v[b * n + i];
        expect(sum).toBeCloseTo(a === b ? 1 : 0, 8);
      }
    }
  });

  it('that are equal come out as many times as they occur', () => {
    const n = 12;
    const k = new Float64Array(n * n);
    for (let i = 0; i < n; i++) k[i * n + i] = 1 + Math.floor(i / 3);
    const few = lowestEigenpairs(k, identity(n), n, 5, 0.5);
    if (!few.ok) throw new Error(few.reason);
    expect([...few.value.values].map((value) => +value.toFixed(8))).toEqual([1, 1, 1, 2, 2]);
  });
});
