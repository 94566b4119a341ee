import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  brentRoot,
  cross,
  dot,
  evaluateMonotoneCubic,
  gaussLegendre,
  interpolateLinear,
  lowDiscrepancyPoint,
  minimise,
  monotoneCubic,
  monotoneCubicSlope,
  mostDimensions,
  normalise,
  normalQuantile,
} from './index.js';

describe('brentRoot', () => {
  it('finds the real root of x^3 - 2x - 5 (Newton 1669, classic test equation): 2.0945514815423265', () => {
    expect(brentRoot((x) => x ** 3 - 2 * x - 5, 2, 3)).toBeCloseTo(2.0945514815423265, 12);
  });
  it('says that there is no bracket', () => {
    expect(brentRoot((x) => x * x + 1, -1, 1)).toBeUndefined();
    expect(brentRoot(() => Number.NaN, -1, 1)).toBeUndefined();
  });
  it('returns a root at an end', () => {
    expect(brentRoot((x) => x, 0, 1)).toBe(0);
  });
  it('stays inside the bracket for any monotone function', () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), (shift) => {
        const root = brentRoot((x) => Math.tanh(x - shift), -10, 10);
        expect(root).toBeCloseTo(shift, 9);
      }),
    );
  });
});

describe('minimise', () => {
  it('finds the minimum of a parabola and of a shifted cosine', () => {
    expect(minimise((x) => (x - 1.3) ** 2 + 4, -10, 10).argument).toBeCloseTo(1.3, 6);
    expect(minimise((x) => Math.cos(x), 2, 5).argument).toBeCloseTo(Math.PI, 5);
  });
  it('ends at the border when the function falls towards it', () => {
    expect(minimise((x) => x, 1, 2).argument).toBeCloseTo(1, 4);
  });
});

describe('interpolation', () => {
  it('returns the data at the points and stays between neighbours', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 8 }), (ys) => {
        const xs = ys.map((_, i) => i * 1.5);
        const cubic = monotoneCubic(xs, ys);
        for (let i = 0; i + 1 < xs.length; i++) {
          expect(evaluateMonotoneCubic(cubic, xs[i])).toBeCloseTo(ys[i], 9);
          for (const t of [0.2, 0.5, 0.9]) {
            const y = evaluateMonotoneCubic(cubic, xs[i] + t * 1.5);
            expect(y).toBeGreaterThanOrEqual(Math.min(ys[i], ys[i + 1]) - 1e-9);
            expect(y).toBeLessThanOrEqual(Math.max(ys[i], ys[i + 1]) + 1e-9);
          }
        }
      }),
    );
  });
  it('gives the slope of its own curve', () => {
    const cubic = monotoneCubic([0, 1, 2, 4], [0, 1, 4, 16]);
    const h = 1e-6;
    for (const x of [0.3, 1.2, 3.1]) {
      const numeric = (evaluateMonotoneCubic(cubic, x + h) - evaluateMonotoneCubic(cubic, x - h)) / (2 * h);
      expect(monotoneCubicSlope(cubic, x)).toBeCloseTo(numeric, 6);
    }
  });
  it('is constant beyond the ends, cubic and linear', () => {
    const cubic = monotoneCubic([0, 1], [2, 3]);
    expect(evaluateMonotoneCubic(cubic, -1)).toBe(2);
    expect(evaluateMonotoneCubic(cubic, 9)).toBe(3);
    expect(interpolateLinear([0, 1], [2, 3], 9)).toBe(3);
    expect(interpolateLinear([0, 2], [2, 3], 1)).toBe(2.5);
  });
  it('refuses abscissae that do not increase', () => {
    expect(() => monotoneCubic([0, 0], [1, 2])).toThrow(RangeError);
  });
});

describe('gaussLegendre', () => {
  it('has the tabulated five-point rule (Abramowitz & Stegun table 25.4)', () => {
    const { nodes, weights } = gaussLegendre(5);
    expect(nodes[4]).toBeCloseTo(0.906179845938664, 13);
    expect(weights[4]).toBeCloseTo(0.236926885056189, 13);
    expect(weights[2]).toBeCloseTo(0.568888888888889, 13);
  });
  it('integrates polynomials of degree 2n - 1 exactly', () => {
    const { nodes, weights } = gaussLegendre(6);
    let sum = 0;
    for (let i = 0; i < 6; i++) sum += weights[i] * (nodes[i] ** 10 + nodes[i] ** 11);
    expect(sum).toBeCloseTo(2 / 11, 13);
  });
});

describe('sampling', () => {
  it('has the tabulated normal quantiles', () => {
    expect(normalQuantile(0.5)).toBeCloseTo(0, 9);
    expect(normalQuantile(0.95)).toBeCloseTo(1.6448536269514722, 7);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 7);
    expect(normalQuantile(0.001)).toBeCloseTo(-3.090232306167813, 7);
    expect(() => normalQuantile(1)).toThrow(RangeError);
  });
  it('fills every dimension evenly', () => {
    const point = new Float64Array(12);
    const sums = new Float64Array(12);
    const squares = new Float64Array(12);
    for (let i = 0; i < 1024; i++) {
      lowDiscrepancyPoint(i, 1024, 12, point);
      for (let k = 0; k < 12; k++) {
        sums[k] += point[k];
        squares[k] += point[k] ** 2;
      }
    }
    for (let k = 0; k < 12; k++) {
      expect(Math.abs(sums[k] / 1024 - 1 / 2)).toBeLessThan(0.004);
      expect(Math.abs(squares[k] / 1024 - 1 / 3)).toBeLessThan(0.004);
    }
  });
  it.each([
    [128, 17, 0.22],
    [1024, 17, 0.08],
    [128, 24, 0.36],
  ])(
    '%i points in %i dimensions: each coordinate takes every step once, pairs hardly correlate',
    (count, dimensions, most) => {
      const points = Array.from({ length: count }, (_, i) => {
        const point = new Float64Array(dimensions);
        lowDiscrepancyPoint(i, count, dimensions, point);
        return point;
      });
      for (let k = 0; k < dimensions; k++) {
        expect(new Set(points.map((point) => Math.floor(point[k] * count))).size).toBe(count);
        for (let j = 0; j < k; j++) {
          // Uniform coordinates: variance 1/12.
          const product = points.reduce((sum, point) => sum + (point[k] - 0.5) * (point[j] - 0.5), 0);
          expect(Math.abs((12 * product) / count), `${k} ${j}`).toBeLessThan(most);
        }
      }
    },
  );
  it('refuses more dimensions than it has', () => {
    expect(() => lowDiscrepancyPoint(0, 8, mostDimensions + 1, new Float64Array(mostDimensions + 1))).toThrow(
      RangeError,
    );
  });
});

describe('vectors', () => {
  it('cross product is perpendicular to both', () => {
    const c = cross([1, 2, 3], [-2, 0.5, 4]);
    expect(dot(c, [1, 2, 3])).toBeCloseTo(0, 12);
    expect(dot(c, [-2, 0.5, 4])).toBeCloseTo(0, 12);
  });
  it('the zero vector has no direction', () => {
    expect(() => normalise([0, 0, 0])).toThrow(RangeError);
  });
});
