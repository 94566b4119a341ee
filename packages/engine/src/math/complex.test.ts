import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { largestRealEigenvalue } from './arnoldi.js';
import { complexEigenvalues } from './complexEigen.js';
import { complexZeros, copyComplex, factorComplexLu, solveComplexLu } from './complexLinear.js';
import { besselFunctions, exponentialIntegral2, sphericalBessel, trigonometricIntegrals } from './special.js';

describe('special functions', () => {
  it('have the values of the tables', () => {
    // Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, tables 5.1, 5.3, 9.1.
    const one = trigonometricIntegrals(1);
    expect(one.sine).toBeCloseTo(0.9460830704, 9);
    expect(one.cosine).toBeCloseTo(0.3374039229, 9);
    const ten = trigonometricIntegrals(10);
    expect(ten.sine).toBeCloseTo(1.6583475942, 9);
    expect(ten.cosine).toBeCloseTo(-0.045456433, 9);
    const bessel = besselFunctions(1);
    expect(bessel.j0).toBeCloseTo(0.7651976866, 9);
    expect(bessel.j1).toBeCloseTo(0.4400505857, 9);
    expect(bessel.y0).toBeCloseTo(0.0882569642, 9);
    expect(bessel.y1).toBeCloseTo(-0.7812128213, 9);
  });

  it('are continuous where the method changes, and keep the Wronskian of Bessel functions', () => {
    const [below, above] = [trigonometricIntegrals(2 - 1e-9), trigonometricIntegrals(2)];
    expect(below.sine).toBeCloseTo(above.sine, 8);
    expect(below.cosine).toBeCloseTo(above.cosine, 8);
    for (const x of [0.01, 0.7, 5, 11.99, 12.01, 60]) {
      const { j0, j1, y0, y1 } = besselFunctions(x);
      expect(j1 * y0 - j0 * y1).toBeCloseTo(2 / (Math.PI * x), 8);
    }
    expect(exponentialIntegral2(0)).toEqual({ re: 1, im: 0 });
    expect(() => besselFunctions(0)).toThrow(RangeError);
    expect(() => trigonometricIntegrals(-1)).toThrow(RangeError);
  });

  it('of spherical Bessel kind: series and recurrence meet, order 0 is sin x / x', () => {
    const [a, b] = [new Float64Array(5), new Float64Array(5)];
    sphericalBessel(3.5, a);
    sphericalBessel(3.5 + 1e-9, b);
    a.forEach((value, n) => void expect(value).toBeCloseTo(b[n], 8));
    sphericalBessel(-1.2, a);
    expect(a[0]).toBeCloseTo(Math.sin(1.2) / 1.2, 12);
  });
});

const matrixOf = (size: number) =>
  fc
    .array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2 * size * size, maxLength: 2 * size * size })
    .map((values) => {
      const matrix = complexZeros(size * size);
      for (let i = 0; i < size * size; i++) {
        matrix.re[i] = values[i];
        matrix.im[i] = values[size * size + i];
      }
      return matrix;
    });

describe('complex matrices', () => {
  it('are solved: A x = b, for any A that is not near singular', () => {
    fc.assert(
      fc.property(matrixOf(5), (drawn) => {
        for (let i = 0; i < 5; i++) drawn.re[6 * i] += 6;
        const lu = factorComplexLu(copyComplex(drawn), 5);
        if (!lu.ok) throw new Error(lu.reason);
        const b = { re: Float64Array.of(1, -2, 3, 0, 1), im: Float64Array.of(0, 1, 0, -1, 2) };
        const x = solveComplexLu(lu.value, b);
        for (let i = 0; i < 5; i++) {
          let [re, im] = [0, 0];
          for (let j = 0; j < 5; j++) {
            re += drawn.re[5 * i + j] * x.re[j] - drawn.im[5 * i + j] * x.im[j];
            im += drawn.re[5 * i + j] * x.im[j] + drawn.im[5 * i + j] * x.re[j];
          }
          expect(re).toBeCloseTo(b.re[i], 10);
          expect(im).toBeCloseTo(b.im[i], 10);
        }
      }),
    );
    expect(factorComplexLu(complexZeros(4), 2).ok).toBe(false);
  });

  it('have eigenvalues whose sum is the trace, and whose sum of squares is that of the square', () => {
    fc.assert(
      fc.property(matrixOf(6), (drawn) => {
        const values = complexEigenvalues(copyComplex(drawn), 6);
        let [trace, traceIm, square] = [0, 0, 0];
        for (let i = 0; i < 6; i++) {
          trace += drawn.re[7 * i];
          traceIm += drawn.im[7 * i];
          for (let j = 0; j < 6; j++)
            square += drawn.re[6 * i + j] * drawn.re[6 * j + i] - drawn.im[6 * i + j] * drawn.im[6 * j + i];
        }
        expect(values.reduce((sum, { re }) => sum + re, 0)).toBeCloseTo(trace, 9);
        expect(values.reduce((sum, { im }) => sum + im, 0)).toBeCloseTo(traceIm, 9);
        expect(values.reduce((sum, { re, im }) => sum + re * re - im * im, 0)).toBeCloseTo(square, 8);
      }),
    );
  });

  it('give the roots of a polynomial through its companion: 1, 2, 3', () => {
    const matrix = { re: Float64Array.of(6, -11, 6, 1, 0, 0, 0, 1, 0), im: new Float64Array(9) };
    const roots = complexEigenvalues(matrix, 3).sort((a, b) => a.re - b.re);
    roots.forEach(({ re, im }, i) => {
      expect(re).toBeCloseTo(i + 1, 9);
      expect(im).toBeCloseTo(0, 9);
    });
  });
});

describe('largest real eigenvalue', () => {
  it('is found among larger complex and negative ones, and is undefined where there is none', () => {
    const n = 60;
    // A rotation of size 5, a -9, a 3, and many small ones.
    const apply = (x: Float64Array) => {
      const y = x.map((value, i) => value / (i + 1));
      y[0] = -5 * x[1];
      y[1] = 5 * x[0];
      y[2] = -9 * x[2];
      y[3] = 3 * x[3];
      return y;
    };
    expect(largestRealEigenvalue(apply, n)).toBeCloseTo(3, 8);
    expect(largestRealEigenvalue((x) => x.map((value, i) => -value / (i + 1)), n)).toBeUndefined();
  });

  it('is found by Arnoldi among larger ones of the other sign, and where two lie close together', () => {
    const n = 60;
    const diagonal = (values: (i: number) => number) => (x: Float64Array) => x.map((value, i) => values(i) * value);
    expect(
      largestRealEigenvalue(
        diagonal((i) => (i < 3 ? -9 + i : 2 / (i - 2) ** 2)),
        n,
      ),
    ).toBeCloseTo(2, 7);
    expect(
      largestRealEigenvalue(
        diagonal((i) => (i === 0 ? 1.001 : 1 / i ** 2)),
        n,
      ),
    ).toBeCloseTo(1.001, 7);
  });
});
