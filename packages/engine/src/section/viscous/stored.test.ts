import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  nacaSection,
  sectionDragCoefficient,
  sectionDragSpread,
  sectionLift,
  sectionMaximumLiftCoefficient,
  sectionModel,
  sectionMoment,
  steppedPlateSection,
} from '../index.js';
import type { SectionPolar } from './polar.js';
import { isComputable, isUsable, POLAR_SETTINGS, polarKey, storedTable, untilFirstStall } from './stored.js';
import { computePolars } from './sweep.js';

const geometryOf = (digits: string) => {
  const made = nacaSection(digits);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};
const degree = Math.PI / 180;
const estimate = sectionModel(geometryOf('3410'));

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

describe('polarKey', () => {
  it('is the same for the same content and another for another section or setting', () => {
    const keys = [
      polarKey(geometryOf('3410')),
      polarKey(geometryOf('3411')),
      polarKey(geometryOf('3410'), { ...POLAR_SETTINGS, critical: 5 }),
      polarKey(geometryOf('3410'), { ...POLAR_SETTINGS, trips: [0.1, Number.NaN] }),
      polarKey(geometryOf('3410'), { ...POLAR_SETTINGS, trips: [Number.NaN, 0.1] }),
      polarKey(geometryOf('3410'), { ...POLAR_SETTINGS, reynolds: [1e5, 2e5] }),
    ];
    expect(new Set(keys).size).toBe(keys.length);
    expect(polarKey(geometryOf('3410'))).toBe(keys[0]);
    for (const key of keys) expect(key).toMatch(/^[0-9a-f]{16}$/);
  });
});

describe('storedTable', () => {
  const polars = [straight(5e4, 0.03), straight(1e5, 0.02), straight(2e5, 0.014)];

  it('gives back the polars at their Reynolds numbers', () => {
    const stored = storedTable(estimate, polars);
    expect(stored?.estimated).toEqual([]);
    for (const lift of [-0.1, 0.3, 0.7, 1.1]) {
      // Lift columns are 0.025 apart and straight between: 1e-3 of the drag.
      const expected = 0.02 * (1 + (lift - 0.4) ** 2);
      expect(sectionDragCoefficient(stored!.table, lift, 1e5) / expected).toBeCloseTo(1, 2);
    }
    expect(sectionLift(stored!.table, 4 * degree, 1e5)).toBeCloseTo(6 * 7 * degree, 3);
    expect(sectionMaximumLiftCoefficient(stored!.table, 1e5)).toBeCloseTo(6 * 13 * degree, 6);
  });

  it('fills a row that did not converge with the first estimate and its spread, and names it', () => {
    const broken = { ...polars[0]!, points: polars[0]!.points.slice(12) };
    const stored = storedTable(estimate, [broken, polars[1]!, polars[2]!]);
    expect(stored?.estimated).toEqual([5e4]);
    expect(sectionDragCoefficient(stored!.table, 0.4, 5e4)).toBeCloseTo(sectionDragCoefficient(estimate, 0.4, 5e4), 6);
    expect(sectionDragSpread(stored!.table, 0.4, 5e4)).toBeCloseTo(sectionDragSpread(estimate, 0.4, 5e4), 6);
    const whole = storedTable(estimate, polars)!.table;
    expect(sectionDragCoefficient(stored!.table, 0.4, 2e5)).toBe(sectionDragCoefficient(whole, 0.4, 2e5));
  });

  it('lays the attached line of a symmetric section through zero, though its lift curve is bent', () => {
    const symmetric = sectionModel(geometryOf('0008'));
    // Lift as with laminar separation at the tail: half the slope within 2 degrees, 6 per radian beyond.
    const bent = (alpha: number) => 6 * alpha - Math.sign(alpha) * 3 * Math.min(Math.abs(alpha), 2 * degree);
    const polar = (reynolds: number): SectionPolar => ({
      reynolds,
      holes: [],
      points: Array.from({ length: 21 }, (_, k) => {
        const alpha = (k - 10) * degree;
        const shared = { drag: 0.02, moment: 0, upperTransition: 0.5, lowerTransition: 0.5 };
        return { alpha, lift: bent(alpha), ...shared };
      }),
    });
    const { table } = storedTable(symmetric, [polar(5e4), polar(1e5)])!;
    for (const zero of table.zeroLiftAngles) expect(zero).toBeCloseTo(0, 9);
    for (const slope of table.liftSlopes) {
      expect(slope).toBeGreaterThan(4);
      expect(slope).toBeLessThan(6);
    }
  });

  it('keeps the factor and the spread that cells add to the estimate', () => {
    const covered = sectionModel(geometryOf('3410'), { cells: { from: 0.1, to: 0.9 } });
    const [bare, with_] = [storedTable(estimate, polars)!.table, storedTable(covered, polars)!.table];
    const ratio = sectionDragCoefficient(with_, 0.5, 1e5) / sectionDragCoefficient(bare, 0.5, 1e5);
    expect(ratio).toBeCloseTo(covered.dragFactor, 9);
    expect(sectionDragSpread(with_, 0.5, 1e5)).toBeGreaterThan(sectionDragSpread(bare, 0.5, 1e5));
  });

  it('is finite, with drag above zero, at any incidence and Reynolds number', () => {
    const { table } = storedTable(estimate, polars)!;
    fc.assert(
      fc.property(
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        fc.double({ min: 1e3, max: 1e7, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (alpha, reynolds, lift) => {
          expect(Number.isFinite(sectionLift(table, alpha, reynolds))).toBe(true);
          expect(sectionDragCoefficient(table, lift, reynolds)).toBeGreaterThan(0);
        },
      ),
    );
  });

  it('has no jump in lift or moment over the whole circle, where -180 and 180 degrees are one', () => {
    const { table } = storedTable(estimate, polars)!;
    const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
    const reynolds = fc.double({ min: 2e4, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(angle, reynolds, (alpha, re) => {
        // Lift changes by 6 per radian attached and no faster than 12 where it passes into separated flow.
        for (const part of [sectionLift, sectionMoment])
          expect(Math.abs(part(table, alpha + 1e-3, re) - part(table, alpha, re))).toBeLessThan(12e-3);
      }),
      { numRuns: 400 },
    );
    for (const re of [5e4, 1e5, 2e5])
      expect(sectionLift(table, Math.PI - 1e-9, re)).toBeCloseTo(sectionLift(table, -Math.PI + 1e-9, re), 6);
  });

  it('is none where fewer than two polars are usable', () => {
    expect(storedTable(estimate, [polars[0]!])).toBeUndefined();
    expect(storedTable(estimate, [])).toBeUndefined();
  });
});

describe('untilFirstStall', () => {
  it('ends a polar at its first greatest lift where lift falls and comes back higher', () => {
    const whole = straight(6e4, 0.03);
    const dipped = { ...whole, points: whole.points.map((p, k) => ({ ...p, lift: k > 13 ? p.lift - 0.5 : p.lift })) };
    const again = { ...dipped, points: [...dipped.points, { ...dipped.points[16]!, alpha: 11 * degree, lift: 1.5 }] };
    expect(untilFirstStall(again).points).toHaveLength(14);
    expect(isUsable(untilFirstStall(again))).toBe(true);
    expect(untilFirstStall(whole)).toBe(whole);
  });
});

describe('computePolars', () => {
  it('is the sweep at each Reynolds number, and is not asked of plates', () => {
    const settings = { ...POLAR_SETTINGS, reynolds: [2e5], step: 30 * degree, nodes: 80 };
    const [polar] = computePolars(geometryOf('3410'), settings);
    expect(polar?.reynolds).toBe(2e5);
    // One incidence of 2 degrees; thin-airfoil lift 0.55, most of which the boundary layer leaves.
    expect(polar?.points.map((point) => point.alpha)).toEqual([2 * degree]);
    expect(polar!.points[0]!.lift).toBeGreaterThan(0.4);
    expect(polar!.points[0]!.lift).toBeLessThan(0.65);
    const plate = steppedPlateSection({ front: 0.03, rear: 0.015, step: 0.4 });
    expect(plate.ok && isComputable(plate.value)).toBe(false);
    expect(isComputable(geometryOf('0003'))).toBe(false);
    for (const digits of ['3410', '0007']) expect(isComputable(geometryOf(digits))).toBe(true);
  });
});
