import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closeDesign, closureNumber, greatestClosure, overnightConstants } from './closure.js';

describe('analytical closure of a whole aircraft', () => {
  it('masses add up, and a design closes exactly where M0 K^2 allows it and the cells fit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 4, max: 25, noNaN: true }),
        (span, aspectRatio) => {
          const design = closeDesign(span, aspectRatio);
          const number = closureNumber(span, aspectRatio);
          if (!design.ok) {
            expect(design.code === 'cells-do-not-fit' || number > greatestClosure).toBe(true);
            return;
          }
          const { mass, airframeMass, batteryMass, cellMass, converterMass, driveMass } = design.value;
          const sum = airframeMass + batteryMass + cellMass + converterMass + driveMass + overnightConstants.fixedMass;
          expect(sum).toBeCloseTo(mass, 6);
          expect(number).toBeLessThanOrEqual(greatestClosure);
          expect(design.value.coverage).toBeLessThanOrEqual(1);
        },
      ),
    );
  });
  it('takes the lighter of the two masses that would close', () => {
    const design = closeDesign(3.2, 13);
    if (!design.ok) throw new Error(design.reason);
    const heavier = closeDesign(3.2, 13, { ...overnightConstants, fixedMass: 0.21 });
    if (!heavier.ok) throw new Error(heavier.reason);
    // On the heavier branch a payload would make the aircraft lighter.
    expect(heavier.value.mass).toBeGreaterThan(design.value.mass);
  });
  it('says why and what would help where nothing closes or the cells do not fit', () => {
    const short = closeDesign(3.2, 13, { ...overnightConstants, dayLength: 11 * 3600 });
    expect(short.ok).toBe(false);
    if (!short.ok) expect(short.reason).toMatch(/0\.148/);
    const crowded = closeDesign(3.2, 13, { ...overnightConstants, usableShare: 0.5 });
    expect(crowded.ok).toBe(false);
    if (!crowded.ok) expect(crowded.code).toBe('cells-do-not-fit');
  });
  it('refuses a span or an aspect ratio that is not positive', () => {
    expect(() => closeDesign(0, 13)).toThrow(RangeError);
    expect(() => closureNumber(3, Number.NaN)).toThrow(RangeError);
  });
});
