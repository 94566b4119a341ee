import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { currentAtDiodeVoltage, currentAtVoltage, openCircuitVoltage } from './cell.js';
import { maximumPowerPoint, maximumPowerPoints, powerPointBatch } from './maximum.js';
import { backContactCell } from './reference.js';
import { cellAt, cellBatchAt } from './translate.js';

const curves = fc.record({
  photocurrent: fc.double({ min: -14, max: 3, noNaN: true }).map(Math.exp),
  saturationCurrent: fc.double({ min: -28, max: -5, noNaN: true }).map(Math.exp),
  seriesResistance: fc.double({ min: 0, max: 2, noNaN: true }),
  shuntResistance: fc.double({ min: -1, max: 12, noNaN: true }).map(Math.exp),
  modifiedIdeality: fc.double({ min: 0.015, max: 4, noNaN: true }),
});

describe('maximumPowerPoint', () => {
  it('is not beaten by any other point of the curve', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const best = maximumPowerPoint(curve);
        const open = openCircuitVoltage(curve);
        // In faint light the current is a difference of diode currents near I0, and carries their last digits.
        const roundOff = 1e-12 * best.power + 4e-16 * curve.saturationCurrent * open;
        for (let k = 1; k < 200; k++) {
          const x = (open * k) / 200;
          const current = currentAtDiodeVoltage(curve, x);
          expect(current * (x - current * curve.seriesResistance)).toBeLessThanOrEqual(best.power + roundOff);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('lies on the curve', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const { voltage, current, power } = maximumPowerPoint(curve);
        expect(currentAtVoltage(curve, voltage) / current).toBeCloseTo(1, 7);
        expect(power).toBe(voltage * current);
      }),
    );
  });

  it('goes to half of open circuit and half of short circuit where the shunt rules', () => {
    const { voltage, current } = maximumPowerPoint({
      photocurrent: 1e-4,
      saturationCurrent: 1e-12,
      seriesResistance: 0,
      shuntResistance: 100,
      modifiedIdeality: 0.026,
    });
    expect(current).toBeCloseTo(5e-5, 9);
    expect(voltage).toBeCloseTo(5e-3, 7);
  });

  it('gives nothing without light', () => {
    for (const photocurrent of [0, -1]) {
      expect(maximumPowerPoint({ ...backContactCell, photocurrent })).toEqual({ voltage: 0, current: 0, power: 0 });
    }
  });
});

describe('maximumPowerPoints', () => {
  const irradiance = Float64Array.from({ length: 300 }, (_, k) => (k % 60) * 20);
  const temperature = Float64Array.from({ length: 300 }, (_, k) => 250 + (k % 97));

  it('gives the same as one by one, dark entries included', () => {
    const batch = cellBatchAt(backContactCell, { irradiance, temperature });
    const points = maximumPowerPoints(batch);
    for (let k = 0; k < irradiance.length; k++) {
      const curve = cellAt(backContactCell, { irradiance: irradiance[k]!, temperature: temperature[k]! });
      const point = maximumPowerPoint(curve);
      expect(points.power[k]).toBeCloseTo(point.power, 12);
      expect(points.voltage[k]).toBeCloseTo(point.voltage, 10);
      expect(points.current[k]).toBeCloseTo(point.current, 9);
    }
  });

  it('writes into the arrays that it is given', () => {
    const batch = cellBatchAt(backContactCell, { irradiance, temperature });
    const into = powerPointBatch(irradiance.length);
    expect(maximumPowerPoints(batch, into)).toBe(into);
    expect(into.power[59]).toBeGreaterThan(3);
  });
});
