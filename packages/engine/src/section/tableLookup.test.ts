import { describe, expect, it } from 'vitest';
import { sectionModel } from './estimate.js';
import { sectionDragCoefficient, sectionLift } from './model.js';
import { nacaSection } from './naca.js';
import { tabulate } from './table.js';

const made = nacaSection('4409');
if (!made.ok) throw new Error(made.reason);
const section = sectionModel(made.value);
const table = tabulate(section, { reynoldsFrom: 3e4, reynoldsTo: 9.6e5, rows: 6 });
const h = 1e-6;

describe('a polar table read smoothly', () => {
  const liftSlope = (of: typeof section | typeof table, angle: number, re: number) =>
    (sectionLift(of, angle + h, re) - sectionLift(of, angle - h, re)) / (2 * h);

  it('lift has the slope of its section where the flow is attached', () => {
    // Of the estimate, to which no table was fitted: the grid of half a degree costs less than half a per cent of the slope.
    expect(liftSlope(table, 0.03, 2.4e5) / liftSlope(section, 0.03, 2.4e5)).toBeCloseTo(1, 2);
  });

  it('goes round the circle without a step or kink', () => {
    for (const re of [3e4, 1e5, 7e5]) {
      const [below, above] = [sectionLift(table, -Math.PI, re), sectionLift(table, Math.PI, re)];
      expect(below).toBeCloseTo(above, 12);
      // In reverse flow no force is left across the stream, and it grows through zero as on a plate.
      expect(below).toBeCloseTo(0, 12);
      const after = (sectionLift(table, -Math.PI + h, re) - below) / h;
      const before = (above - sectionLift(table, Math.PI - h, re)) / h;
      expect(after).toBeCloseTo(before, 3);
      expect(after).toBeGreaterThan(0);
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
