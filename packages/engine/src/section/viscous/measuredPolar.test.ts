import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareMeasured, type MeasuredPoint, measuredRuns, polarBetween, withMeasured } from './measuredPolar.js';
import type { SectionPolar } from './polar.js';

const DEGREE = Math.PI / 180;

/** Straight lift to 10 degrees, then a fall; drag falls with the root of the Reynolds number. */
const computed = (reynolds: number): SectionPolar => ({
  reynolds,
  holes: [],
  points: Array.from({ length: 21 }, (_, k) => {
    const alpha = (k - 6) * DEGREE;
    const lift = alpha <= 10 * DEGREE ? 6 * alpha + 0.2 : 6 * 10 * DEGREE + 0.2 - 2 * (alpha - 10 * DEGREE);
    const drag = (0.01 + 0.01 * lift * lift) * Math.sqrt(1e5 / reynolds);
    return { alpha, lift, drag, moment: -0.05, upperTransition: 0.5, lowerTransition: 0.9 };
  }),
});
const polars = [6e4, 1.2e5, 2.4e5, 4.8e5].map(computed);
const at = (polar: SectionPolar, alpha: number) =>
  polar.points.reduce((a, b) => (Math.abs(b.alpha - alpha) < Math.abs(a.alpha - alpha) ? b : a));

const point = (reynolds: number, degrees: number, lift: number, drag: number): MeasuredPoint => ({
  reynolds,
  incidence: degrees * DEGREE,
  lift,
  drag,
});

describe('measuredRuns', () => {
  it('gathers a Reynolds number, averages repeats and sets the way back from stall aside', () => {
    const [run, other] = measuredRuns([
      point(2e5, 0, 0.2, 0.01),
      point(2.02e5, 0.05, 0.24, 0.014),
      point(2e5, 4, 0.6, 0.012),
      point(2e5, 12, 1.1, 0.03),
      point(2e5, 9, 0.7, 0.09),
      point(4e5, 0, 0.2, 0.009),
    ]);
    expect(run.points.map(({ lift }) => lift)).toEqual([0.22, 0.6, 1.1]);
    expect(run.points[0].drag).toBeCloseTo(0.012, 12);
    expect(run.returning.map(({ lift }) => lift)).toEqual([0.7]);
    expect(other.reynolds).toBe(4e5);
  });

  it('sorts a run that goes up and down more than once', () => {
    const [run] = measuredRuns([4, 0, 2, 8, 6].map((degrees) => point(2e5, degrees, degrees / 10, 0.01)));
    expect(run.points.map(({ lift }) => lift)).toEqual([0, 0.2, 0.4, 0.6, 0.8]);
    expect(run.returning).toEqual([]);
  });
});

describe('withMeasured', () => {
  it('gives the measured values where there are any, and leaves what is far away alone', () => {
    const points = [2, 4, 6].map((degrees) => point(2.4e5, degrees, 0.1 * degrees + 0.3, 0.02 + 0.001 * degrees));
    const laid = withMeasured(polars, measuredRuns(points));
    for (const { incidence, lift, drag } of points) {
      expect(at(laid[2], incidence!).lift).toBeCloseTo(lift, 10);
      expect(at(laid[2], incidence!).drag).toBeCloseTo(drag!, 10);
    }
    for (const alpha of [-2 * DEGREE, 10 * DEGREE]) {
      expect(at(laid[2], alpha).lift).toBeCloseTo(at(polars[2], alpha).lift, 12);
      expect(at(laid[2], alpha).drag).toBeCloseTo(at(polars[2], alpha).drag, 12);
    }
    expect(laid[0]).toEqual(polars[0]);
    // A factor of two away nothing is left of it.
    expect(at(laid[1], 4 * DEGREE).lift).toBeCloseTo(at(polars[1], 4 * DEGREE).lift, 12);
  });

  it('carries the difference, not the value, to Reynolds numbers between two runs', () => {
    const points = [1.2e5, 4.8e5].flatMap((reynolds) =>
      [0, 3, 6].map((degrees) => {
        const base = at(computed(reynolds), degrees * DEGREE);
        return point(reynolds, degrees, base.lift - 0.05, 1.2 * base.drag);
      }),
    );
    const laid = withMeasured(polars, measuredRuns(points));
    expect(at(laid[2], 3 * DEGREE).drag).toBeCloseTo(1.2 * at(polars[2], 3 * DEGREE).drag, 10);
    expect(at(laid[2], 3 * DEGREE).lift).toBeCloseTo(at(polars[2], 3 * DEGREE).lift - 0.05, 10);
  });

  it('takes drag without incidence by its lift, and stall beyond the computed range as measured', () => {
    const drags = [0.3, 0.5, 0.7].map((lift): MeasuredPoint => ({ reynolds: 2.4e5, lift, drag: 0.03 }));
    const byLift = withMeasured(polars, measuredRuns(drags));
    // The computed lift is 0.5 at 0.05 rad.
    expect(at(byLift[2], 0.05).drag).toBeCloseTo(0.03, 10);
    const stall = [13, 15, 18].map((degrees) => point(2.4e5, degrees, 1.3, 0.05));
    const beyond = withMeasured(polars, measuredRuns(stall))[2];
    expect(at(beyond, 18 * DEGREE).lift).toBeCloseTo(1.3, 10);
  });

  it('never goes beyond what was computed and what was measured', () => {
    const measured = fc.record({
      degrees: fc.integer({ min: -4, max: 9 }),
      ratio: fc.double({ min: 0.5, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(measured, { minLength: 2, maxLength: 12 }), (list) => {
        const points = list.map(({ degrees, ratio }) => {
          const base = at(polars[2], degrees * DEGREE);
          return point(2.4e5, degrees, base.lift, ratio * base.drag);
        });
        const ratios = list.map(({ ratio }) => ratio);
        for (const { alpha, drag } of withMeasured(polars, measuredRuns(points))[2].points) {
          const ratio = drag / Math.exp(Math.log(at(polars[2], alpha).drag));
          expect(ratio).toBeLessThanOrEqual(Math.max(1, ...ratios) + 1e-9);
          expect(ratio).toBeGreaterThanOrEqual(Math.min(1, ...ratios) - 1e-9);
        }
      }),
    );
  });

  it('leaves polars alone where there is too little to go by', () => {
    expect(withMeasured(polars, measuredRuns([point(2.4e5, 2, 0.4, 0.02)]))).toEqual(polars);
    expect(withMeasured([], measuredRuns([point(2.4e5, 2, 0.4, 0.02)]))).toEqual([]);
  });
});

describe('compareMeasured', () => {
  it('says by how much measured drag is off at equal lift, and compares greatest lift only behind it', () => {
    const polar = polarBetween(polars, 2.4e5);
    const points = [0, 2, 4, 6].map((degrees) => {
      const base = at(polar, degrees * DEGREE);
      return point(2.4e5, degrees, base.lift, (degrees === 6 ? 1.5 : 1.1) * base.drag);
    });
    const [run] = measuredRuns(points);
    const found = compareMeasured(polar, run);
    expect(found.medianRatio).toBeCloseTo(1.1, 6);
    expect(found.worst?.ratio).toBeCloseTo(1.5, 6);
    expect(found.maximumLift).toBeUndefined();
    const [stalled] = measuredRuns([...points, point(2.4e5, 11, 1.2, 0.05), point(2.4e5, 13, 1.1, 0.08)]);
    expect(compareMeasured(polar, stalled).maximumLift?.measured).toBe(1.2);
  });
});
