import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionModel } from '../estimate.js';
import { sectionDragAtLift, sectionLift, sectionMaximumLift } from '../model.js';
import { flatPlateSection } from '../plates.js';
import { modelAtLift, modelPolar } from './modelPolar.js';
import { polarDragAtLift, risingBranch } from './polar.js';

const made = flatPlateSection({ thickness: 0.015 });
if (!made.ok) throw new Error(made.reason);
const plate = sectionModel(made.value);

describe('polar out of a model', () => {
  it('has the greatest lift of the model, not that of a solver that does not apply', () => {
    const top = risingBranch(modelPolar(plate, 2e5)).at(-1)!;
    const most = sectionMaximumLift(plate, 2e5).value;
    expect(top.lift).toBeGreaterThan(0.85 * most);
    // The plate law beyond stall rises again with the normal force.
    expect(top.lift).toBeLessThan(1.25 * most);
  });

  it('has the drag of the model at a lift, on its rising branch', () => {
    const polar = modelPolar(plate, 2e5);
    for (const lift of [-0.2, 0, 0.3]) {
      const drag = sectionDragAtLift(plate, lift, 2e5).value;
      expect(Math.abs(polarDragAtLift(polar, lift)! / drag - 1)).toBeLessThan(0.02);
    }
  });

  it('finds the incidence of a lift wherever it says that there is one, and no other', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 4e4, max: 4e5, noNaN: true }),
        (lift, re) => {
          const found = modelAtLift(plate, lift, re);
          const most = sectionMaximumLift(plate, re).value;
          if (found === undefined) return Math.abs(lift) > 0.8 * most;
          return Math.abs(sectionLift(plate, found.alpha, re) - lift) < 1e-9 && found.drag.low < found.drag.value;
        },
      ),
    );
  });

  it('is symmetric about zero lift for a symmetric plate', () => {
    const up = modelAtLift(plate, 0.3, 1e5)!;
    const down = modelAtLift(plate, -0.3, 1e5)!;
    expect(up.alpha).toBeCloseTo(-down.alpha, 9);
    expect(up.drag.value).toBeCloseTo(down.drag.value, 9);
  });
});
