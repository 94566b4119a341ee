import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceBeam } from './beam.js';
import {
  type Growth,
  grownItems,
  itemInertia,
  type MassItem,
  type MassSum,
  noGrowth,
  parallelAxis,
  sumMass,
  usualGrowth,
} from './mass.js';

const coordinate = fc.double({ min: -2, max: 2, noNaN: true });
const grams = fc.double({ min: 0.001, max: 2, noNaN: true });

const item: fc.Arbitrary<MassItem> = fc.record({
  name: fc.constant('item'),
  mass: grams,
  x: coordinate,
  y: coordinate,
  z: coordinate,
  provenance: fc.constantFrom('assumed', 'weighed'),
  shape: fc.constantFrom(
    { kind: 'point' },
    { kind: 'box', length: 0.3, width: 0.1, height: 0.05 },
    { kind: 'rod', axis: 'y', length: 1.2 },
  ),
  massUncertainty: fc.constant(0.002),
  positionUncertainty: fc.constant({ x: 0.003, y: 0.001, z: 0.002 }),
});
const items = fc.array(item, { minLength: 1, maxLength: 8 });

describe('sumMass', () => {
  it('does not depend on the order, and moves with the datum', () => {
    fc.assert(
      fc.property(items, coordinate, (list, shift) => {
        const sum = sumMass(list);
        const turned = sumMass([...list].reverse());
        const moved = sumMass(list.map((one) => ({ ...one, x: one.x + shift })));
        expect(turned.x).toBeCloseTo(sum.x, 10);
        expect(moved.x).toBeCloseTo(sum.x + shift, 10);
        for (const key of ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const) {
          expect(turned.inertia[key]).toBeCloseTo(sum.inertia[key], 10);
          expect(moved.inertia[key]).toBeCloseTo(sum.inertia[key], 9);
        }
      }),
    );
  });

  it('obeys the triangle inequality of principal axes and mirrors in y', () => {
    fc.assert(
      fc.property(items, (list) => {
        const { inertia, y } = sumMass(list);
        expect(inertia.xx + inertia.yy).toBeGreaterThanOrEqual(inertia.zz - 1e-9);
        expect(inertia.yy + inertia.zz).toBeGreaterThanOrEqual(inertia.xx - 1e-9);
        const mirrored = sumMass(list.map((one) => ({ ...one, y: -one.y })));
        expect(mirrored.y).toBeCloseTo(-y, 10);
        expect(mirrored.inertia.xy).toBeCloseTo(-inertia.xy, 9);
        expect(mirrored.inertia.xz).toBeCloseTo(inertia.xz, 9);
      }),
    );
  });

  it('summing a group first gives the same whole (parallel axes)', () => {
    fc.assert(
      fc.property(items, items, (a, b) => {
        const group = sumMass(a);
        const asItem: MassItem = {
          ...group,
          name: 'group',
          provenance: 'weighed',
          shape: { kind: 'inertia', inertia: group.inertia },
        };
        const nested = sumMass([asItem, ...b]);
        const flat = sumMass([...a, ...b]);
        expect(nested.mass).toBeCloseTo(flat.mass, 10);
        expect(nested.z).toBeCloseTo(flat.z, 10);
        for (const key of ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const) {
          expect(nested.inertia[key]).toBeCloseTo(flat.inertia[key], 9);
        }
      }),
    );
  });

  it('a box is the limit of many points', () => {
    const n = 12;
    const points: MassItem[] = [];
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        for (let k = 0; k < n; k++) {
          points.push({
            name: 'p',
            provenance: 'weighed',
            mass: 1 / n ** 3,
            x: 0.4 * ((i + 0.5) / n),
            y: 0.2 * ((j + 0.5) / n),
            z: 0.1 * ((k + 0.5) / n),
          });
        }
      }
    }
    const box = itemInertia(1, { kind: 'box', length: 0.4, width: 0.2, height: 0.1 });
    const { inertia } = sumMass(points);
    // n points across an edge miss 1/n^2 of its second moment.
    for (const key of ['xx', 'yy', 'zz'] as const) expect(inertia[key] / box[key]).toBeCloseTo(1 - 1 / n ** 2, 9);
  });

  it('refuses no mass and numbers that are not finite', () => {
    expect(() => sumMass([])).toThrow(RangeError);
    const bad: MassItem = { name: 'bad', mass: 1, x: Number.NaN, y: 0, z: 0, provenance: 'weighed' };
    expect(() => sumMass([bad])).toThrow(RangeError);
  });
});

/** Uncertainty by central differences of the sum itself, an independent way to the same first-order result. */
function numericUncertainty(list: readonly MassItem[], pick: (sum: MassSum) => number, growth: Growth): number {
  const h = 1e-5;
  let variance = 0;
  const change = (edit: (sign: number) => readonly MassItem[], by: Growth[] = [growth, growth]) =>
    (pick(sumMass(edit(1), by[0])) - pick(sumMass(edit(-1), by[1]))) / (2 * h);
  list.forEach((one, i) => {
    const edited = (fields: (sign: number) => Partial<MassItem>) =>
      change((sign) => list.map((other, k) => (k === i ? { ...other, ...fields(sign) } : other)));
    variance += (edited((sign) => ({ mass: one.mass + sign * h })) * (one.massUncertainty ?? 0)) ** 2;
    for (const axis of ['x', 'y', 'z'] as const) {
      const u = one.positionUncertainty?.[axis] ?? 0;
      variance += (edited((sign) => ({ [axis]: one[axis] + sign * h })) * u) ** 2;
    }
  });
  const shifted = [1, -1].map((sign) => ({ ...growth, factor: growth.factor + sign * h }));
  variance += (change(() => list, shifted) * growth.standardUncertainty) ** 2;
  return Math.sqrt(variance);
}

describe('uncertainty of the mass sum', () => {
  it('agrees with differences of the sum, with and without growth', () => {
    fc.assert(
      fc.property(items, fc.constantFrom(noGrowth, usualGrowth), (list, growth) => {
        const sum = sumMass(list, growth);
        const { uncertainty } = sum;
        const near = (u: number, pick: (s: MassSum) => number) =>
          expect(u).toBeCloseTo(numericUncertainty(list, pick, growth), 5);
        near(uncertainty.mass, (s) => s.mass);
        near(uncertainty.x, (s) => s.x);
        near(uncertainty.z, (s) => s.z);
        near(uncertainty.yy, (s) => s.inertia.yy);
        near(uncertainty.zz, (s) => s.inertia.zz);
      }),
      { numRuns: 60 },
    );
  });

  it('growth of 10 +- 8 % is common to what is not weighed', () => {
    const base = { x: 0, y: 0, z: 0 };
    const list: MassItem[] = [
      { name: 'wing', mass: 0.4, ...base, provenance: 'assumed' },
      { name: 'tail', mass: 0.1, ...base, x: 1, provenance: 'assumed' },
      { name: 'battery', mass: 0.3, ...base, provenance: 'weighed' },
    ];
    const sum = sumMass(list, usualGrowth);
    expect(sum.mass).toBeCloseTo(0.3 + 0.5 * 1.1, 12);
    expect(sum.uncertainty.mass).toBeCloseTo(0.5 * 0.08, 12);
    expect(sum.assumedMass).toBeCloseTo(0.55, 12);
    expect(grownItems(list, noGrowth)).toBe(list);
  });

  it('own inertia given as numbers grows with its mass', () => {
    const inertia = { xx: 1, yy: 2, zz: 2.5, xy: 0, xz: 0.1, yz: 0 };
    const wing: MassItem = {
      name: 'wing',
      mass: 1,
      x: 0,
      y: 0,
      z: 0,
      provenance: 'assumed',
      shape: { kind: 'inertia', inertia },
    };
    expect(sumMass([wing], usualGrowth).inertia.xz).toBeCloseTo(0.11, 12);
  });
});

describe('parallelAxis', () => {
  it('changes nothing at no distance', () => {
    const inertia = itemInertia(2, { kind: 'rod', axis: 'z', length: 1 });
    expect(inertia.zz).toBe(0);
    expect(parallelAxis(inertia, 2, { x: 0, y: 0, z: 0 })).toEqual(inertia);
  });
});

describe('balanceBeam', () => {
  it('runs from nose to tail, and its moments cancel', () => {
    fc.assert(
      fc.property(items, (list) => {
        const beam = balanceBeam(list);
        expect(beam.loads.reduce((sum, load) => sum + load.moment, 0)).toBeCloseTo(0, 9);
        for (let i = 1; i < beam.loads.length; i++) expect(beam.loads[i].x).toBeGreaterThanOrEqual(beam.loads[i - 1].x);
        const tail = beam.loads.reduce((sum, load) => sum + Math.max(0, load.moment), 0);
        expect(beam.noseMoment).toBeCloseTo(tail, 9);
        expect(beam.balancePoint).toBeCloseTo(sumMass(list).x, 12);
      }),
    );
    expect(() => balanceBeam([])).toThrow(RangeError);
  });
});
