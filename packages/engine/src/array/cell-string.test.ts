import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openCircuitVoltage, shortCircuitCurrent } from './cell.js';
import { binnedCells, cellString, conditionedCurve, evenDiodes, mostCellsPerDiode } from './cell-string.js';
import { cellBalance, hotSpots } from './hot-spot.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactBreakdown, backContactCell } from './reference.js';
import { seriesString } from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';
import { stringCourse, stringMemory } from './string-memory.js';
import { type CellParameters, cellAt } from './translate.js';

const cell: CellParameters = { ...backContactCell, breakdown: backContactBreakdown };
const temperature = 298.15;
const sun = (irradiance: number) => ({ irradiance, temperature });

/** Normal numbers that repeat, by the polar form of two uniform ones. */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe('string of single cells', () => {
  it('is the string of groups where lights are equal', () => {
    const single = cellString({ cell, diodes: evenDiodes(12, 4), seriesResistance: 0.03 }, Array(12).fill(sun(900)));
    const grouped = seriesString({ cell, groups: [{ count: 12, ...sun(900) }], seriesResistance: 0.03 });
    expect(stringMaximumPowerPoint(single).power).toBeCloseTo(stringMaximumPowerPoint(grouped).power, 9);
    expect(single.substrings.map(({ groups }) => groups[0]!.count)).toEqual([4, 4, 4]);
  });

  it('leaves cells free that no diode spans, and refuses diodes that do not fit', () => {
    const wiring = { cell, diodes: [{ from: 2, to: 5, forwardVoltage: 0.4 }], seriesResistance: 0 };
    const string = cellString(wiring, Array(8).fill(sun(1000)));
    expect(string.substrings.map(({ bypass }) => bypass?.forwardVoltage)).toEqual([undefined, 0.4, undefined]);
    expect(() => cellString(wiring, Array(4).fill(sun(1000)))).toThrow(RangeError);
  });

  it('says that eight of the back-contact cells are the most that a diode guards', () => {
    // 11 x 0.58 V exceed the breakdown at 5.5 V: one diode over twelve does nothing.
    expect(mostCellsPerDiode(cell, 298.15)).toBe(8);
    expect(mostCellsPerDiode(backContactCell, 298.15)).toBeUndefined();
  });
});

describe('damage and bins', () => {
  it('takes current with lost area and leaves the open-circuit voltage', () => {
    const cracked = conditionedCurve(cell, { lostArea: 0.3 });
    expect(shortCircuitCurrent(cracked)).toBeCloseTo(0.7 * shortCircuitCurrent(cell), 6);
    expect(openCircuitVoltage(cracked)).toBeCloseTo(openCircuitVoltage(cell), 6);
  });

  it('takes power with lost contact, about the heat in the added resistance', () => {
    const torn = conditionedCurve(cell, { contactResistance: 0.002 });
    const lost = maximumPowerPoint(cell).power - maximumPowerPoint(torn).power;
    expect(lost).toBeCloseTo(0.002 * 5.9 ** 2, 2);
  });

  it('moves the open-circuit voltage by the factor of the bin', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.95, max: 1.05, noNaN: true }), (voltageFactor) => {
        const bin = conditionedCurve(cell, { voltageFactor });
        expect(openCircuitVoltage(bin)).toBeCloseTo(voltageFactor * openCircuitVoltage(cell), 4);
      }),
    );
  });

  it('loses with the square of the spread', () => {
    const lossAt = (spread: number): number => {
      const factors = binnedCells(400, { current: spread, voltage: 0 }, normals(7));
      const string = cellString(
        { cell, seriesResistance: 0 },
        factors.map((one) => ({ ...sun(1000), ...one })),
      );
      const alone = factors.reduce(
        (sum, one) => sum + maximumPowerPoint(conditionedCurve(cellAt(cell, sun(1000)), one)).power,
        0,
      );
      return 1 - stringMaximumPowerPoint(string).power / alone;
    };
    const ratio = lossAt(0.01) / lossAt(0.005);
    expect(ratio).toBeGreaterThan(3);
    expect(ratio).toBeLessThan(5.5);
  });
});

describe('hot spots and the balance of a cell', () => {
  it('warns where a string without diodes is shorted', () => {
    const dim = cellString({ cell, seriesResistance: 0 }, [sun(200), ...Array(11).fill(sun(1000))]);
    const report = hotSpots(dim, 0.0153);
    expect(report.shorted.power).toBeGreaterThan(33);
    expect(report.warnings.map(({ code }) => code)).toContain('hot-spot');
    const guarded = cellString({ cell, diodes: evenDiodes(12, 3), seriesResistance: 0 }, [
      sun(200),
      ...Array(11).fill(sun(1000)),
    ]);
    expect(hotSpots(guarded, 0.0153).shorted.power).toBeLessThan(5);
    expect(hotSpots(cellString({ cell, seriesResistance: 0 }, []), 0.0153).shorted.power).toBe(0);
  });

  it('lets light leave as current, heat or reflection, and as nothing else', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 9, noNaN: true }), (current) => {
        const face = { irradiance: 1000, area: 0.0153, absorptance: 0.92 };
        const balance = cellBalance(cell, current, face);
        expect(balance.reflected + balance.electric + balance.heat).toBeCloseTo(balance.light, 9);
        expect(balance.heat).toBeGreaterThan(0);
      }),
    );
  });
});

describe('memory of string maxima', () => {
  const wiring = { cell, diodes: evenDiodes(16, 8), seriesResistance: 0.05 };

  it('stays within 0.3 % of the string computed anew, shade and bins included', () => {
    const memory = stringMemory(wiring, 16);
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 1200, noNaN: true }),
        fc.double({ min: 270, max: 335, noNaN: true }),
        fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 16, maxLength: 16 }),
        (level, warmth, shares) => {
          const light = Float64Array.from(shares, (share) => level * share);
          const exact = stringMaximumPowerPoint(
            cellString(
              wiring,
              Array.from(light, (irradiance) => ({ irradiance, temperature: warmth })),
            ),
          );
          expect(memory.maximum(light, warmth).power / exact.power).toBeCloseTo(1, 2.2);
        },
      ),
      { numRuns: 300 },
    );
    expect(memory.shown().error).toBeLessThan(0.003);
  });

  it('computes a pattern once', () => {
    const memory = stringMemory(wiring, 16);
    const irradiance = new Float64Array(16 * 50).fill(800);
    const course = stringCourse(memory, { irradiance, temperature: new Float64Array(50).fill(310) });
    expect(memory.shown()).toMatchObject({ lookups: 50, patterns: 1 });
    expect(course.power[49]).toBe(course.power[0]);
    expect(memory.maximum(new Float64Array(16), 300).power).toBe(0);
  });
});
