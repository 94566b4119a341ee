import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  currentAtDiodeVoltage,
  currentAtVoltage,
  currentSlopeAtDiodeVoltage,
  type DiodeCurve,
  diodeVoltageAtCurrent,
  openCircuitVoltage,
  shortCircuitCurrent,
  voltageAtCurrent,
} from './cell.js';
import { finiteExp } from './constants.js';
import { lambertCurrentAtVoltage, lambertVoltageAtCurrent, lambertWOfExp } from './lambert.js';
import { backContactBreakdown, backContactCell, frontContactBreakdown } from './reference.js';

/** Curves from a leaky thin-film cell to a long module, dim to bright. */
const curves = fc.record({
  photocurrent: fc.double({ min: 1e-3, max: 20, noNaN: true }),
  saturationCurrent: fc.double({ min: -28, max: -8, noNaN: true }).map(Math.exp),
  seriesResistance: fc.double({ min: 1e-4, max: 1, noNaN: true }),
  shuntResistance: fc.double({ min: 0, max: 9, noNaN: true }).map(Math.exp),
  modifiedIdeality: fc.double({ min: 0.02, max: 3, noNaN: true }),
});

describe('single-diode curve', () => {
  it('agrees with Lambert W, which takes another route, over the power quadrant', () => {
    fc.assert(
      fc.property(curves, fc.double({ min: 0, max: 1, noNaN: true }), (curve, s) => {
        const voltage = s * openCircuitVoltage(curve);
        const scale = Math.max(curve.photocurrent, voltage / curve.shuntResistance);
        expect(Math.abs(currentAtVoltage(curve, voltage) - lambertCurrentAtVoltage(curve, voltage))).toBeLessThan(
          1e-8 * scale + (1e-11 * curve.modifiedIdeality) / curve.seriesResistance,
        );
        const current = s * curve.photocurrent;
        const back = voltageAtCurrent(curve, current);
        const range = curve.photocurrent * curve.shuntResistance;
        expect(Math.abs(back - lambertVoltageAtCurrent(curve, current))).toBeLessThan(
          1e-12 * range + 1e-9 * (Math.abs(back) + curve.modifiedIdeality),
        );
      }),
    );
  });

  it('returns from voltage to current to voltage, forward and reverse, with and without breakdown', () => {
    const voltages = fc.double({ min: -14.5, max: 0.72, noNaN: true });
    fc.assert(
      fc.property(voltages, fc.boolean(), (voltage, breaks) => {
        const curve = breaks ? { ...backContactCell, breakdown: frontContactBreakdown } : backContactCell;
        const current = currentAtVoltage(curve, voltage);
        expect(voltageAtCurrent(curve, current)).toBeCloseTo(voltage, 8);
      }),
    );
  });

  it('falls with the voltage and stays finite far outside any use', () => {
    const curve = { ...backContactCell, breakdown: backContactBreakdown };
    let before = Number.POSITIVE_INFINITY;
    for (const voltage of [-1e6, -5.6, -5.5, -5, -1, 0, 0.3, 0.6, 0.69, 0.8, 5, 1e4]) {
      const current = currentAtVoltage(curve, voltage);
      expect(Number.isFinite(current)).toBe(true);
      expect(current).toBeLessThanOrEqual(before);
      before = current;
    }
  });

  it('has the slope of its own finite differences, at breakdown too', () => {
    const curve = { ...backContactCell, breakdown: backContactBreakdown };
    for (const x of [-5.4, -5, -2, -0.1, 0.2, 0.5, 0.65, 0.7]) {
      const h = 1e-6;
      const difference = (currentAtDiodeVoltage(curve, x + h) - currentAtDiodeVoltage(curve, x - h)) / (2 * h);
      expect(currentSlopeAtDiodeVoltage(curve, x) / difference).toBeCloseTo(1, 5);
    }
  });

  it('never passes the breakdown voltage, whatever current is forced', () => {
    const curve = { ...backContactCell, breakdown: backContactBreakdown };
    for (const current of [6.3, 7, 10, 100, 1e4]) {
      const x = diodeVoltageAtCurrent(curve, current);
      expect(x).toBeGreaterThan(backContactBreakdown.voltage);
      expect(currentAtDiodeVoltage(curve, x) / current).toBeCloseTo(1, 6);
    }
  });

  it('without breakdown data lets excess current pass the shunt only', () => {
    const voltage = voltageAtCurrent(backContactCell, backContactCell.photocurrent + 1);
    expect(voltage).toBeCloseTo(
      -backContactCell.shuntResistance - (backContactCell.photocurrent + 1) * backContactCell.seriesResistance,
      3,
    );
  });

  it('has no open-circuit voltage without light', () => {
    expect(openCircuitVoltage({ ...backContactCell, photocurrent: 0 })).toBe(0);
    expect(shortCircuitCurrent({ ...backContactCell, photocurrent: 0 })).toBeCloseTo(0, 12);
  });

  it('reads voltage as diode voltage without series resistance', () => {
    const curve: DiodeCurve = { ...backContactCell, seriesResistance: 0 };
    expect(currentAtVoltage(curve, 0.6)).toBe(currentAtDiodeVoltage(curve, 0.6));
  });
});

describe('lambertWOfExp', () => {
  it('solves w + ln w = x from tiny to huge arguments', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 1e6, noNaN: true }), (x) => {
        const w = lambertWOfExp(x);
        expect(Math.abs(w + Math.log(w) - x)).toBeLessThan(1e-13 * Math.max(1, Math.abs(x)));
      }),
    );
  });

  it('gives the omega constant at W(1) (Corless et al. 1996) and exp(x) far below', () => {
    expect(lambertWOfExp(0)).toBeCloseTo(0.5671432904097838, 14);
    expect(lambertWOfExp(-100)).toBeCloseTo(Math.exp(-100), 55);
    expect(lambertWOfExp(-1e9)).toBeGreaterThan(0);
  });
});

describe('finiteExp', () => {
  it('is exp in range and finite beyond', () => {
    expect(finiteExp(1)).toBe(Math.E);
    expect(Number.isFinite(finiteExp(1e9))).toBe(true);
  });
});
