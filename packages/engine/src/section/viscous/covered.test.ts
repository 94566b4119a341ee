import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  nacaSection,
  type SectionPolarTable,
  sectionDragCoefficient,
  sectionDragSpread,
  sectionModel,
} from '../index.js';
import { coveredTable, refinedTable, stepDrag, stepReynolds, tripLikelihood } from './covered.js';
import { preparedOutline, solveAtLift } from './covering.js';
import type { SectionPolar } from './polar.js';
import { storedTable } from './stored.js';

const made = nacaSection('3410');
if (!made.ok) throw new Error(made.reason);
const geometry = made.value;
const estimate = sectionModel(geometry);
const degree = Math.PI / 180;

/** A made-up polar: straight lift from -6 to 10 degrees, drag a parabola about lift 0.4. */
const straight = (reynolds: number, least: number): SectionPolar => ({
  reynolds,
  holes: [],
  points: Array.from({ length: 17 }, (_, k) => {
    const alpha = (k - 6) * degree;
    const lift = 6 * (alpha + 3 * degree);
    const drag = least * (1 + (lift - 0.4) ** 2);
    return { alpha, lift, drag, moment: -0.07, upperTransition: 0.5, lowerTransition: 0.9 };
  }),
});
const bare = [straight(1e5, 0.02), straight(2e5, 0.012), straight(4e5, 0.008)];
const tripped = [straight(1e5, 0.02), straight(2e5, 0.018), straight(4e5, 0.014)];

describe('Reynolds number of a step', () => {
  // Source: exact Blasius profile at sea level, step Reynolds number 600 (A. Braslow, E. Knox, NACA TN 4363, 1958): heights that give it.
  it.each([
    [8, 0.04, 1.13e-3],
    [10, 0.05, 0.956e-3],
    [12, 0.03, 0.764e-3],
    [15, 0.05, 0.68e-3],
  ])('at %d m/s, %d m behind the edge of a plate, is 600', (speed, x, height) => {
    // A plate has no suction side: the speed outside its layer is that of flight. 3 %: the profile, and viscosity of the day.
    const reynolds = speed / 1.46e-5 / 1.3;
    expect(Math.abs(stepReynolds({ from: x, edge: height }, reynolds) / 600 - 1)).toBeLessThan(0.03);
  });

  it('makes a trip the likelier the higher and the faster; flush cells never trip', () => {
    expect(tripLikelihood({ from: 0.1, edge: 0 }, 1e6)).toBe(0);
    const share = fc.double({ min: 1e-4, max: 0.01, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 2e4, max: 1e6, noNaN: true }), (a, b, reynolds) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)].map((edge) =>
          tripLikelihood({ from: 0.1, edge }, reynolds),
        );
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(1);
        expect(high! - low!).toBeGreaterThanOrEqual(0);
        expect(tripLikelihood({ from: 0.1, edge: a }, 2 * reynolds)).toBeGreaterThanOrEqual(
          tripLikelihood({ from: 0.1, edge: a }, reynolds),
        );
      }),
    );
  });
});

describe('own drag of a step that trips', () => {
  it('is near what the boundary layer makes of a step that stands in it', () => {
    const prepared = preparedOutline(geometry.outlineX, geometry.outlineY);
    if (!prepared.ok) throw new Error(prepared.reason);
    for (const [reynolds, from, edge] of [
      [1e5, 0.25, 0.004],
      [2e5, 0.1, 0.002],
      [4e5, 0.1, 0.004],
    ] as const) {
      const input = { reynolds, critical: 9, trips: [from, Number.NaN] as const };
      const trip = solveAtLift(prepared.value, 0.6, input);
      const step = solveAtLift(prepared.value, 0.6, { ...input, tripHeights: [edge, 0], tripDrags: [0.4, 0] });
      if (!trip.ok || !step.ok) throw new Error('not converged');
      // A third: one speed outside the layer stands for all sections and lifts.
      expect(Math.abs(stepDrag({ from, edge }, reynolds) / (step.value.drag - trip.value.drag) - 1)).toBeLessThan(0.33);
    }
  });

  it('grows with the step and vanishes with it', () => {
    expect(stepDrag({ from: 0.1, edge: 0 }, 2e5)).toBe(0);
    const edges = [1e-6, 0.001, 0.003, 0.01, 0.02].map((edge) => stepDrag({ from: 0.1, edge }, 2e5));
    expect(edges).toEqual([...edges].sort((a, b) => a - b));
    // Far out of the layer each further height stands in the outer speed.
    expect((edges[4]! - edges[3]!) / 0.01).toBeCloseTo(0.4 * 1.3 ** 3.2, 6);
  });
});

describe('coveredTable', () => {
  const [free, forced] = [bare, tripped].map((polars) => storedTable(estimate, polars)!);
  const covered = (edge: number) => coveredTable(free!, forced!, { from: 0.1, edge })!;

  it('is the bare section under flush cells, the tripped one behind a high edge, and between them otherwise', () => {
    for (const reynolds of [1e5, 2e5, 3e5]) {
      const drag = (table: SectionPolarTable) => sectionDragCoefficient(table, 0.5, reynolds);
      expect(drag(covered(0).table)).toBeCloseTo(drag(free!.table), 9);
      // What trips has a drag of its own beside that of the turbulent layer.
      const withOwn = (edge: number) => drag(forced!.table) + stepDrag({ from: 0.1, edge }, reynolds);
      expect(drag(covered(0.02).table) / withOwn(0.02)).toBeCloseTo(1, 2);
      expect(drag(covered(0.0025).table)).toBeGreaterThanOrEqual(drag(free!.table) * (1 - 1e-12));
      expect(drag(covered(0.0025).table)).toBeLessThanOrEqual(withOwn(0.0025) * (1 + 1e-12));
    }
  });

  it('is the less certain where nobody knows whether the edge trips', () => {
    const spread = (edge: number) => sectionDragSpread(covered(edge).table, 0.5, 2e5);
    const doubtful = 0.0021;
    const likelihood = tripLikelihood({ from: 0.1, edge: doubtful }, 2e5);
    expect(likelihood).toBeGreaterThan(0.2);
    expect(likelihood).toBeLessThan(0.8);
    expect(spread(doubtful)).toBeGreaterThan(spread(0) + 0.05);
    expect(spread(doubtful)).toBeGreaterThan(spread(0.02) + 0.05);
  });

  it('says what covering costs: half as much again at 200 000 if the edge trips, by the polars above, and its own drag', () => {
    const { expected, tripped: ifTripped, likelihood } = covered(0.003).cost(0.4, 2e5);
    // Bare it has 0.012 at this lift; 1e-3, as the table interpolates the logarithm of the sum.
    const own = stepDrag({ from: 0.1, edge: 0.003 }, 2e5) / 0.012;
    expect(ifTripped).toBeCloseTo(0.5 + own, 3);
    expect(expected).toBeCloseTo((0.5 + own) * likelihood, 3);
  });

  it('follows the likelihood between the polars, once they are refined', () => {
    const cells = { from: 0.1, edge: 0.0021 };
    const fine = coveredTable(refinedTable(free!), refinedTable(forced!), cells)!;
    for (const reynolds of [1.2e5, 1.5e5, 1.7e5, 2.6e5, 3.2e5]) {
      const { expected, tripped: ifTripped, likelihood } = fine.cost(0.4, reynolds);
      // 2 % of the drag: it rises by half as much again over these Reynolds numbers.
      expect(Math.abs(expected - likelihood * ifTripped)).toBeLessThan(0.02);
    }
    expect(sectionDragCoefficient(refinedTable(free!).table, 0.5, 2e5)).toBeCloseTo(
      sectionDragCoefficient(free!.table, 0.5, 2e5),
      9,
    );
  });

  it('keeps a row of the first estimate in either state as that of the bare section', () => {
    const broken = storedTable(estimate, [tripped[0]!, { ...tripped[1]!, points: [] }, tripped[2]!])!;
    const found = coveredTable(free!, broken, { from: 0.1, edge: 0.02 })!;
    expect(found.estimated).toEqual([2e5]);
    expect(sectionDragCoefficient(found.table, 0.5, 2e5)).toBeCloseTo(sectionDragCoefficient(free!.table, 0.5, 2e5), 9);
  });

  it('is none where the two were computed at other Reynolds numbers', () => {
    const fewer = storedTable(estimate, tripped.slice(1))!;
    expect(coveredTable(free!, fewer, { from: 0.1, edge: 0.002 })).toBeUndefined();
  });
});
