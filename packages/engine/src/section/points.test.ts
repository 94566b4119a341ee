import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaSection } from './naca.js';
import { sectionFromPoints } from './points.js';

const base = (() => {
  const outcome = nacaSection('4412', { points: 60 });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
})();
const { outlineX: xs, outlineY: ys } = base;
const nose = xs.length >> 1;

const from = (x: readonly number[], y: readonly number[]) => {
  const outcome = sectionFromPoints({ name: 'own', x, y });
  if (!outcome.ok) throw new Error(`${outcome.where}: ${outcome.reason}`);
  return outcome;
};

describe('sectionFromPoints', () => {
  it.each([
    ['as published', xs, ys],
    ['clockwise', [...xs].reverse(), [...ys].reverse()],
    ['in per cent', xs.map((x) => 100 * x), ys.map((y) => 100 * y)],
    ['in millimetres', xs.map((x) => 230 * x), ys.map((y) => 230 * y)],
  ])('gives the section that the points outline, %s', (_, x, y) => {
    const { value, warnings } = from(x, y);
    expect(warnings).toEqual([]);
    expect(value.name).toBe('own');
    expect(value.area).toBeCloseTo(base.area, 5);
    expect(value.maximumThickness).toBeCloseTo(base.maximumThickness, 4);
    expect(Math.abs(value.maximumCamber - base.maximumCamber)).toBeLessThan(3e-4);
  });

  it('takes a bevelled plate of seven points', () => {
    const plate = from([1, 0.9, 0.08, 0, 0.08, 0.9, 1], [0.001, 0.01, 0.01, 0, -0.01, -0.01, -0.001]).value;
    expect(plate.maximumThickness).toBeCloseTo(0.02, 6);
    expect(plate.maximumCamber).toBeCloseTo(0, 9);
  });

  it('takes its own outline again without change', () => {
    const once = from(
      xs.map((x) => 80 * x),
      ys.map((y) => 80 * y),
    ).value;
    const again = from(once.outlineX, once.outlineY).value;
    expect(again).toEqual(once);
  });

  it('closes surfaces that cross by a little at the trailing edge, with a warning', () => {
    const last = ys.length - 1;
    const crossed = ys.map((y, i) => (i === 0 ? -0.002 : i === last ? 0.002 : y));
    expect(from(xs, crossed).warnings.map((one) => one.code)).toEqual(['section.points.trailing-edge']);
  });

  it.each([
    ['few', 'few points', xs.slice(0, 6), ys.slice(0, 6), '6 points'],
    [
      'area',
      'one surface',
      [...xs.slice(0, nose), ...xs.slice(0, nose).reverse()],
      [...ys.slice(0, nose), ...ys.slice(0, nose).reverse()],
      'no area',
    ],
    ['shape', 'swapped columns', ys, xs, 'do not outline'],
    ['shape', 'a line', xs, xs.map(() => 0), 'do not outline'],
    ['shape', 'one station', xs.map(() => 0.5), ys, 'do not outline'],
    ['finite', 'a hole', xs, ys.map((y, i) => (i === 7 ? Number.NaN : y)), 'no finite number'],
    ['crossed', 'surfaces that cross', xs, ys.map((y, i) => (xs[i] > 0.4 && xs[i] < 0.8 ? -y : y)), 'cross at'],
  ])('refuses (%s) %s', (code, _, x, y, reason) => {
    const outcome = sectionFromPoints({ name: 'own', x, y });
    expect(outcome).toMatchObject({
      ok: false,
      code: `section.points.${code}`,
      reason: expect.stringContaining(reason),
    });
    if (!outcome.ok) for (const part of [outcome.where, outcome.remedy]) expect(part).not.toBe('');
  });

  it('names the point that is no number; unequal lists are an error of the program', () => {
    const outcome = sectionFromPoints({ name: 'own', x: xs.with(3, Number.POSITIVE_INFINITY), y: ys });
    expect(outcome).toMatchObject({ ok: false, where: 'point 4' });
    expect(() => sectionFromPoints({ name: 'own', x: xs, y: ys.slice(1) })).toThrow(RangeError);
  });

  it('never throws and never gives a number that is not finite, whatever the points', () => {
    const value = fc.oneof(fc.double({ min: -2, max: 2, noNaN: true }), fc.integer({ min: -3, max: 3 }), fc.double());
    const noisy = fc
      .array(fc.double({ min: -0.02, max: 0.02, noNaN: true }), { minLength: xs.length, maxLength: xs.length })
      .map((noise) => xs.map((x, i) => [x + noise[i], ys[i] + noise[noise.length - 1 - i]] as const));
    const wild = fc.array(fc.tuple(value, value), { maxLength: 40 });
    fc.assert(
      fc.property(fc.oneof(wild, noisy), (points) => {
        const outcome = sectionFromPoints({ name: 'own', x: points.map(([x]) => x), y: points.map(([, y]) => y) });
        if (!outcome.ok) return outcome.reason !== '';
        const { area, maximumThickness, maximumCamber, leadingEdgeRadius, thinAirfoil } = outcome.value;
        const numbers = [area, maximumThickness, maximumCamber, leadingEdgeRadius, ...Object.values(thinAirfoil)];
        for (const number of numbers) expect(Number.isFinite(number)).toBe(true);
        return true;
      }),
      { numRuns: 500 },
    );
  });
});
