import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionModel } from './estimate.js';
import { sectionDragCoefficient, sectionLift, sectionMoment } from './model.js';
import { nacaSection } from './naca.js';
import { tabulate } from './table.js';
import { tableDragSlopes, tableLiftSlopes, tableMomentSlopes } from './tableLookup.js';

const made = nacaSection('4409');
if (!made.ok) throw new Error(made.reason);
const section = sectionModel(made.value);
const table = tabulate(section, { reynoldsFrom: 3e4, reynoldsTo: 9.6e5, rows: 6 });
const reynolds = fc.double({ min: 2e4, max: 1.5e6, noNaN: true });
const h = 1e-6;

describe('a polar table read with its derivatives', () => {
  it('derivatives of drag are those of what is read', () => {
    fc.assert(
      fc.property(fc.double({ min: -1.4, max: 2.4, noNaN: true }), reynolds, (cl, re) => {
        const { value, byArgument, byLogReynolds } = tableDragSlopes(table, cl, re);
        const drag = (dcl: number, dlog: number) => sectionDragCoefficient(table, cl + dcl, re * Math.exp(dlog));
        expect(value).toBeCloseTo(drag(0, 0), 12);
        expect((drag(h, 0) - drag(-h, 0)) / (2 * h)).toBeCloseTo(byArgument, 3);
        expect((drag(0, h) - drag(0, -h)) / (2 * h)).toBeCloseTo(byLogReynolds, 4);
      }),
    );
  });

  it('derivatives of lift and moment are those of what is read', () => {
    fc.assert(
      fc.property(fc.double({ min: -3.1, max: 3.1, noNaN: true }), reynolds, (angle, re) => {
        for (const [slopes, read] of [
          [tableLiftSlopes(table, angle, re), sectionLift],
          [tableMomentSlopes(table, angle, re), sectionMoment],
        ] as const) {
          expect(slopes.value).toBeCloseTo(read(table, angle, re), 12);
          const by = (read(table, angle + h, re) - read(table, angle - h, re)) / (2 * h);
          // Curvature in the grid of half a degree reaches 600/rad^2 at the end of stall: 6e-4 within h.
          expect(Math.abs(by - slopes.byArgument)).toBeLessThan(3e-3);
        }
      }),
    );
  });

  it('lift has the slope of its section where the flow is attached', () => {
    // Of the estimate, to which no table was fitted: the grid of half a degree costs less than half a per cent of the slope.
    const exact = (sectionLift(section, 0.03 + h, 2.4e5) - sectionLift(section, 0.03 - h, 2.4e5)) / (2 * h);
    expect(tableLiftSlopes(table, 0.03, 2.4e5).byArgument / exact).toBeCloseTo(1, 2);
  });

  it('goes round the circle without a step or kink', () => {
    for (const re of [3e4, 1e5, 7e5]) {
      const [below, above] = [tableLiftSlopes(table, -Math.PI, re), tableLiftSlopes(table, Math.PI, re)];
      expect(below.value).toBeCloseTo(above.value, 12);
      // In reverse flow no force is left across the stream, and it grows through zero as on a plate.
      expect(below.value).toBeCloseTo(0, 12);
      expect(below.byArgument).toBeCloseTo(above.byArgument, 12);
      expect(below.byArgument).toBeGreaterThan(0);
    }
  });

  it('between Reynolds numbers a factor of two apart it is nearer to the section than straight lines are', () => {
    const drag = (cl: number, re: number) => sectionDragCoefficient(section, cl, re);
    let [curved, straight] = [0, 0];
    for (let re = 4e4; re < 9e5; re *= 1.1)
      for (const cl of [0, 0.2, 0.4, 0.6, 0.8, 1]) {
        const below = 3e4 * 2 ** Math.floor(Math.log2(re / 3e4));
        const line = drag(cl, below) * (drag(cl, 2 * below) / drag(cl, below)) ** Math.log2(re / below);
        curved = Math.max(curved, Math.abs(sectionDragCoefficient(table, cl, re) / drag(cl, re) - 1));
        straight = Math.max(straight, Math.abs(line / drag(cl, re) - 1));
      }
    // 0.12 against 0.16, where the bubble grows fastest.
    expect(curved).toBeLessThan(0.8 * straight);
  });
});
