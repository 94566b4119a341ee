import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaFiveDigitMeanLine, nacaFourDigitMeanLine, nacaHalfThickness, nacaSection, surfacePoints } from './naca.js';

const have = (designation: string, trailingEdge: 'open' | 'closed' = 'open') => {
  const outcome = nacaSection(designation, { trailingEdge });
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
};

describe('NACA half thickness (Report 460)', () => {
  const rows: readonly (readonly [number, number])[] = [
    [0.025, 2.6147],
    [0.05, 3.5547],
    [0.1, 4.6828],
    [0.2, 5.7375],
    [0.3, 6.0017],
    [0.5, 5.294],
    [0.7, 3.6639],
    [0.95, 0.8066],
    [1, 0.126],
  ];
  it.each(rows)('12 % at station %f is %f %%', (x, percent) => {
    expect(100 * nacaHalfThickness(x, 0.12)).toBeCloseTo(percent, 4);
  });
  it('closes at the trailing edge where asked', () => {
    expect(nacaHalfThickness(1, 0.12, 'closed')).toBeCloseTo(0, 15);
  });
});

describe('mean lines', () => {
  it('2412: both surfaces at 70 % chord', () => {
    const p = surfacePoints(0.7, nacaHalfThickness(0.7, 0.12), nacaFourDigitMeanLine(0.02, 0.4));
    expect(p.xu).toBeCloseTo(0.701221, 6);
    expect(p.yu).toBeCloseTo(0.051619, 6);
    expect(p.xl).toBeCloseTo(0.698779, 6);
    expect(p.yl).toBeCloseTo(-0.021619, 6);
  });
  it.each([
    [0.05, 0.011548],
    [0.2025, 0.017612],
    [0.5, 0.011042],
  ])('23012 camber at %f', (x, expected) => {
    expect(nacaFiveDigitMeanLine('30', 0.3)?.(x).ordinate).toBeCloseTo(expected, 6);
  });
  it('the slope is the derivative of the ordinate', () => {
    const lines = [
      nacaFourDigitMeanLine(0.04, 0.4),
      nacaFiveDigitMeanLine('30', 0.3)!,
      nacaFiveDigitMeanLine('41', 0.3)!,
    ];
    fc.assert(
      fc.property(fc.constantFrom(...lines), fc.double({ min: 0.01, max: 0.99, noNaN: true }), (line, x) => {
        const numeric = (line(x + 1e-6).ordinate - line(x - 1e-6).ordinate) / 2e-6;
        expect(Math.abs(line(x).slope - numeric)).toBeLessThan(1e-5);
      }),
    );
  });
});

describe('nacaSection', () => {
  it.each([
    ['22112', -0.0013],
    ['23112', 0.0011],
    ['24112', 0.0001],
    ['25112', 0.0001],
  ])('reflexed %s has quarter-chord moment %f', (designation, moment) => {
    expect(have(designation).thinAirfoil.moment).toBeCloseTo(moment, 4);
  });
  it('area grows in proportion to thickness', () => {
    expect(have('0006').area / have('0018').area).toBeCloseTo(1 / 3, 4);
    expect(have('0012', 'closed').area).toBeCloseTo(0.680883 * 0.12, 4);
  });
  it('a symmetric section is symmetric', () => {
    const section = have('0010');
    for (const value of section.camber) expect(Math.abs(value)).toBeLessThan(1e-12);
    expect(Math.abs(section.thinAirfoil.zeroLiftAngle)).toBe(0);
  });
  it('any valid designation gives its own thickness and camber', () => {
    const digit = (from: number, to: number) => fc.integer({ min: from, max: to });
    fc.assert(
      fc.property(digit(0, 6), digit(2, 7), digit(5, 20), (camber, position, thickness) => {
        const section = have(`${camber}${position}${String(thickness).padStart(2, '0')}`);
        // Thickness is laid off square to the mean line; measured across the chord it is a little more.
        expect(section.maximumThickness / (thickness / 100)).toBeGreaterThan(0.998);
        expect(section.maximumThickness / (thickness / 100)).toBeLessThan(1.05);
        expect(section.maximumCamber).toBeCloseTo(camber / 100, 4);
      }),
      { numRuns: 30 },
    );
  });
  it.each(['', '12', '20121', '27012', '2012', '0000', '99999', 'abcd'])('refuses %j with a reason', (designation) => {
    const outcome = nacaSection(designation);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.remedy).toContain('2412');
  });
});
