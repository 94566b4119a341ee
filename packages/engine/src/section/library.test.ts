import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { librarySection, zeroMomentMeanLine } from './library.js';
import { libraryList, libraryName } from './libraryNames.js';
import { nacaHalfThickness, nacaSection } from './naca.js';
import { nacaModifiedHalfThickness } from './nacaModified.js';

const made = (name: string) => {
  const outcome = librarySection(name);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe('librarySection', () => {
  it('makes every section that the list names, and gives it that name', () => {
    for (const { write } of libraryList) {
      const section = libraryName(write) === undefined ? nacaSection(write) : librarySection(write);
      if (!section.ok) throw new Error(`${write}: ${section.reason}`);
      expect(section.value.name).toBe(write);
      expect(section.value.maximumThickness).toBeGreaterThan(0.015);
    }
  });

  it('gives mapped sections the thickness and camber that were asked for', () => {
    fc.assert(
      fc.property(fc.integer({ min: 8, max: 18 }), fc.integer({ min: 0, max: 6 }), (thickness, camber) => {
        for (const words of [
          `Joukowsky ${thickness} % camber ${camber} %`,
          `Karman-Trefftz ${thickness}% camber ${camber}% tail 12 deg`,
        ]) {
          const { maximumThickness, maximumCamber } = made(words);
          expect(maximumThickness).toBeCloseTo(thickness / 100, 4);
          expect(maximumCamber).toBeCloseTo(camber / 100, 4);
        }
      }),
      { numRuns: 8 },
    );
  });

  it('has an ellipse with the area of one, and the same fore and aft', () => {
    const { area, maximumThicknessStation, maximumThickness } = made('ellipse 12 %');
    expect(area).toBeCloseTo((Math.PI / 4) * 0.12, 4);
    expect(maximumThicknessStation).toBeCloseTo(0.5, 3);
    expect(maximumThickness).toBeCloseTo(0.12, 6);
  });

  it('has flats where it says so: points between two corners lie on a line', () => {
    const { outlineX, outlineY, maximumThickness, name } = made('flat cells 3');
    expect(name).toBe('flat cells 3');
    expect(maximumThickness).toBeGreaterThan(0.098);
    const nose = outlineX.indexOf(Math.min(...outlineX));
    for (const from of [0.155, 0.405, 0.655]) {
      const on = outlineX
        .map((_, i) => i)
        .filter((i) => i < nose && outlineX[i]! > from + 0.01 && outlineX[i]! < from + 0.24);
      const slopes = on.slice(1).map((i) => (outlineY[i]! - outlineY[on[0]!]!) / (outlineX[i]! - outlineX[on[0]!]!));
      expect(slopes.length).toBeGreaterThan(2);
      for (const slope of slopes) expect(slope).toBeCloseTo(slopes[0]!, 9);
    }
  });

  it('refuses what is none, with the reason', () => {
    for (const wrong of [
      'Joukowsky',
      'ellipse 60 %',
      'circular arc 2 % camber 30 %',
      'Karman-Trefftz 4 % tail 20 deg',
      'flat cells 9',
      'NACA 0012-99',
      '2412',
      'wing',
    ])
      expect(librarySection(wrong).ok, wrong).toBe(false);
  });
});

describe('zeroMomentMeanLine', () => {
  it('has no moment in thin-airfoil theory, and the camber that was asked for', () => {
    const { thinAirfoil, maximumCamber } = made('zero moment 10 % camber 2 %');
    expect(Math.abs(thinAirfoil.moment)).toBeLessThan(1e-4);
    expect(maximumCamber).toBeCloseTo(0.02, 4);
    const line = zeroMomentMeanLine(0.02);
    for (const x of [0.1, 0.4, 0.8])
      expect(line(x).slope).toBeCloseTo((line(x + 1e-6).ordinate - line(x - 1e-6).ordinate) / 2e-6, 8);
  });
});

describe('nacaModifiedHalfThickness', () => {
  it('has the coefficients published for nose 6 and place 3, which is nearly the unmodified law', () => {
    // NACA Report 492, 1934, coefficients for 20 % thickness (from memory).
    const front = (x: number) => 0.296904 * Math.sqrt(x) - 0.096082 * x - 0.54331 * x ** 2 + 0.559395 * x ** 3;
    const rear = (r: number) => 0.002 + 0.234 * r - 0.068571 * r ** 2 - 0.093878 * r ** 3;
    for (const x of [0.0125, 0.05, 0.1, 0.2, 0.29])
      expect(nacaModifiedHalfThickness(x, 0.2, 6, 3)).toBeCloseTo(front(x), 4);
    for (const x of [0.31, 0.5, 0.7, 0.9, 1])
      expect(nacaModifiedHalfThickness(x, 0.2, 6, 3)).toBeCloseTo(rear(1 - x), 5);
    for (const x of [0.0125, 0.05, 0.1, 0.3, 0.5, 0.7, 0.9])
      expect(Math.abs(nacaModifiedHalfThickness(x, 0.12, 6, 3) - nacaHalfThickness(x, 0.12))).toBeLessThan(1.5e-3);
  });

  it('is greatest where it is told to be, with a smooth join there and a blunt edge of a hundredth of its thickness', () => {
    for (const place of [2, 3, 4, 5, 6])
      for (const nose of [0, 3, 6, 8]) {
        const half = (x: number) => nacaModifiedHalfThickness(x, 0.1, nose, place);
        const m = place / 10;
        expect(half(m)).toBeCloseTo(0.05, 9);
        expect((half(m + 1e-5) - half(m - 1e-5)) / 2e-5).toBeCloseTo(0, 4);
        const bend = (x: number) => (half(x + 1e-4) - 2 * half(x) + half(x - 1e-4)) / 1e-8;
        expect(bend(m - 2e-4)).toBeCloseTo(bend(m + 2e-4), 1);
        expect(half(1)).toBeCloseTo(0.001, 9);
      }
  });
});
