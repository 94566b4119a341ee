import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nacaSection } from '../index.js';
import { builtOutline } from './asBuilt.js';

const made = nacaSection('3410', { trailingEdge: 'closed' });
if (!made.ok) throw new Error(made.reason);
const design = { x: [...made.value.outlineX], y: [...made.value.outlineY] };
const nose = design.x.indexOf(Math.min(...design.x));

/** Measured points of the design plus a deviation; odd points a little above, even ones a little below. */
const measured = (deviation: (x: number, isUpper: boolean) => number, scatter: number) => ({
  x: design.x,
  y: design.y.map((y, i) => y + deviation(Math.max(0, design.x[i]!), i <= nose) + (i % 2 === 0 ? scatter : -scatter)),
});

describe('builtOutline', () => {
  it('is the design where the model was built to it', () => {
    const built = builtOutline(
      design,
      measured(() => 0, 0),
    );
    expect(Math.max(...built.y.map((y, i) => Math.abs(y - design.y[i]!)))).toBeLessThan(1e-6);
    expect(built.x).toEqual(design.x);
    expect(Math.max(...built.scatter)).toBeLessThan(1e-6);
  });

  it('finds what a model differs by under points that scatter by 0.02 % of the chord', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.003, max: 0.003, noNaN: true }),
        fc.double({ min: 0, max: 0.002, noNaN: true }),
        (camber, thickness) => {
          const deviation = (x: number, isUpper: boolean) =>
            4 * camber * Math.sqrt(x) * (1 - Math.sqrt(x)) + (isUpper ? 0.5 : -0.5) * thickness * x;
          const built = builtOutline(design, measured(deviation, 2e-4));
          built.x.forEach((x, i) => {
            expect(Math.abs(built.y[i]! - design.y[i]! - deviation(Math.max(0, x), i <= nose))).toBeLessThan(2e-4);
          });
          expect(built.tailGap).toBeCloseTo(thickness, 3);
          expect(built.scatter[0]).toBeLessThan(2.2e-4);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('takes the fewest terms that do: few for a simple deviation', () => {
    const simple = builtOutline(
      design,
      measured((x) => 0.002 * Math.sqrt(x) * (1 - x), 1e-4),
    );
    expect(Math.max(...simple.terms)).toBeLessThan(6);
  });

  it('refuses a surface with too few points to decide', () => {
    const keep = <T>(list: readonly T[]) => list.filter((_, i) => i % 6 === 0);
    expect(() => builtOutline(design, { x: keep(design.x), y: keep(design.y) })).toThrow(/twenty measured points/);
  });
});
