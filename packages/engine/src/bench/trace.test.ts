import { describe, expect, it } from 'vitest';
import { cellString, evenDiodes, stringCurrentAtVoltage, stringOpenCircuitVoltage } from '../array/index.js';
import { setup } from './testing/simulated-bench.js';
import { traceFigures } from './trace.js';

const unit = setup.units[0]!;
const at = { irradiance: 900, temperature: 315 };

/** Trace of 60 points of a string whose first cell gives so much of the current, with so much more in series. */
function traced(share: number, added = 0) {
  const string = cellString(
    { cell: unit.cell, diodes: evenDiodes(16, 4), seriesResistance: unit.seriesResistance + added },
    Array.from({ length: 16 }, (_, k) => ({ ...at, irradiance: at.irradiance * (k === 0 ? share : 1) })),
  );
  const open = stringOpenCircuitVoltage(string);
  const voltage = Array.from({ length: 60 }, (_, k) => (open * k) / 59);
  return { voltage, current: voltage.map((volts) => Math.max(stringCurrentAtVoltage(string, volts), 0)) };
}

describe('figures of a trace', () => {
  it('of a sound string are its own, without a finding', () => {
    const figures = traceFigures(traced(1), unit, at);
    expect(figures.shortCircuitCurrent).toBeCloseTo(5.69, 1);
    expect(figures.plateaus.length).toBe(1);
    expect(Math.abs(figures.addedResistance!)).toBeLessThan(0.01);
    expect(figures.warnings).toEqual([]);
  });

  it('show a cell that gives half as a second step', () => {
    const figures = traceFigures(traced(0.5), unit, at);
    expect(figures.plateaus.length).toBe(2);
    expect(figures.plateaus[1]! / figures.plateaus[0]!).toBeCloseTo(0.5, 1);
    expect(figures.warnings.map(({ code }) => code)).toEqual(['trace-steps']);
  });

  it('find a bad joint by the slope at open circuit', () => {
    const figures = traceFigures(traced(1, 0.2), unit, at);
    expect(figures.addedResistance).toBeCloseTo(0.2, 1);
    expect(figures.warnings.map(({ code }) => code)).toEqual(['trace-resistance']);
  });

  it('do not invent a slope where there are no points', () => {
    const figures = traceFigures({ voltage: [0, 2, 4, 6], current: [5, 5, 4.9, 4.8] }, unit, at);
    expect(figures.addedResistance).toBeUndefined();
    expect(figures.openCircuitVoltage).toBeGreaterThanOrEqual(6);
    expect(Number.isFinite(figures.openCircuitVoltage)).toBe(true);
  });
});
