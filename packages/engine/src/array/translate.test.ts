import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openCircuitVoltage, shortCircuitCurrent } from './cell.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactBreakdown, backContactCell } from './reference.js';
import {
  cellAt,
  idealityFactor,
  impliedTemperatureCoefficients,
  saturationCurrentAt,
  singleCell,
} from './translate.js';

const reference = { irradiance: 1000, temperature: 298.15 };

describe('cellAt', () => {
  it('leaves the cell alone at its reference condition', () => {
    const curve = cellAt(backContactCell, reference);
    expect(curve.photocurrent).toBe(backContactCell.photocurrent);
    expect(curve.saturationCurrent).toBeCloseTo(backContactCell.saturationCurrent, 24);
    expect(curve.shuntResistance).toBe(backContactCell.shuntResistance);
    expect(curve.modifiedIdeality).toBe(backContactCell.modifiedIdeality);
  });

  it('gives current in proportion to light, and less voltage when hotter', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1500, noNaN: true }),
        fc.double({ min: 230, max: 370, noNaN: true }),
        (irradiance, temperature) => {
          const once = cellAt(backContactCell, { irradiance, temperature });
          const twice = cellAt(backContactCell, { irradiance: 2 * irradiance, temperature });
          expect(twice.photocurrent / once.photocurrent).toBeCloseTo(2, 12);
          const hotter = cellAt(backContactCell, { irradiance, temperature: temperature + 5 });
          expect(openCircuitVoltage(hotter)).toBeLessThan(openCircuitVoltage(once));
          expect(maximumPowerPoint(hotter).power).toBeLessThan(maximumPowerPoint(once).power);
        },
      ),
    );
  });

  it('stays finite in the dark and below it, and passes breakdown data on', () => {
    for (const irradiance of [0, -5]) {
      const curve = cellAt({ ...backContactCell, breakdown: backContactBreakdown }, { irradiance, temperature: 280 });
      expect(curve.photocurrent).toBe(0);
      expect(Number.isFinite(curve.shuntResistance)).toBe(true);
      expect(curve.breakdown).toBe(backContactBreakdown);
    }
  });
});

describe('temperature coefficients and ideality', () => {
  it('returns the current coefficient that went in, to the share that reaches the terminals', () => {
    expect(impliedTemperatureCoefficients(backContactCell).current).toBeCloseTo(0.003135, 5);
    expect(impliedTemperatureCoefficients(backContactCell).power).toBeCloseTo(-0.0038, 4);
  });

  it('reads the ideality that was used', () => {
    expect(idealityFactor(backContactCell)).toBeCloseTo(1.05, 10);
  });

  it('doubles the saturation current of silicon about every 5 K (textbook rule of 4 to 6 K near 25 C)', () => {
    const ratio = saturationCurrentAt(backContactCell, 303.15) / saturationCurrentAt(backContactCell, 298.15);
    expect(ratio).toBeGreaterThan(1.9);
    expect(ratio).toBeLessThan(2.4);
  });
});

describe('singleCell', () => {
  it('times the count is the module', () => {
    const module = {
      ...backContactCell,
      seriesResistance: 0.3,
      shuntResistance: 400,
      modifiedIdeality: 1.6,
      cellsInSeries: 60,
      area: 1.5,
    };
    const cell = singleCell(module);
    expect(60 * maximumPowerPoint(cell).power).toBeCloseTo(maximumPowerPoint(module).power, 9);
    expect(shortCircuitCurrent(cell)).toBeCloseTo(shortCircuitCurrent(module), 12);
    expect(cell.area).toBe(0.025);
  });
});
