import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sheetStiffnessKept, stiffnessKept } from './softening.js';

const polystyrene = { softensAt: 373, softeningExponent: 4 };
const polypropylene = { softensAt: 400, softeningExponent: 1 };
const temperatures = fc.double({ min: 250, max: 420, noNaN: true });

describe('stiffness of a warm foam', () => {
  it('is a tenth where it is said to be, and whole at room temperature and where nothing softens', () => {
    for (const foam of [polystyrene, polypropylene]) {
      expect(stiffnessKept(foam, foam.softensAt).kept).toBeCloseTo(0.1, 12);
      expect(stiffnessKept(foam, 296).kept).toBe(1);
    }
    expect(stiffnessKept({}, 380)).toEqual({ kept: 1, low: 1, high: 1 });
  });

  it('falls late in polystyrene and steadily in polypropylene', () => {
    expect(stiffnessKept(polystyrene, 333).kept).toBeGreaterThan(0.85);
    expect(stiffnessKept(polystyrene, 348).kept).toBeCloseTo(0.62, 2);
    expect(stiffnessKept(polypropylene, 333).kept).toBeCloseTo(0.44, 2);
  });

  it('never rises with temperature and stays within its band', () => {
    fc.assert(
      fc.property(temperatures, fc.double({ min: 0, max: 30, noNaN: true }), (from, by) => {
        const [cool, warm] = [stiffnessKept(polystyrene, from), stiffnessKept(polystyrene, from + by)];
        expect(warm.kept).toBeLessThanOrEqual(cool.kept);
        expect(warm.low).toBeLessThanOrEqual(Math.max(warm.kept, 0.02));
        expect(warm.high).toBeGreaterThanOrEqual(warm.kept);
      }),
    );
  });

  it('of a sheet is the mean of its faces, whichever is the warm one', () => {
    const sheet = sheetStiffnessKept(polystyrene, 345, 300);
    expect(sheet).toEqual(sheetStiffnessKept(polystyrene, 300, 345));
    expect(sheet.kept).toBeCloseTo(
      (stiffnessKept(polystyrene, 345).kept + stiffnessKept(polystyrene, 300).kept) / 2,
      12,
    );
  });

  it('refuses a temperature that is no number', () => {
    expect(() => stiffnessKept(polystyrene, Number.NaN)).toThrow(RangeError);
  });
});
