import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evenDiodes } from './cell-string.js';
import { backContactBreakdown, backContactCell } from './reference.js';
import { sharedMaximum, sharedOpenCircuitVoltage } from './shared-maximum.js';
import {
  type ParallelStrings,
  parallelCurrentAtVoltage,
  type SeriesString,
  seriesString,
  stringOpenCircuitVoltage,
} from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';

const cell = { ...backContactCell, breakdown: backContactBreakdown };
const temperature = 298.15;

/** Cells in these lights, in substrings of so many behind a bypass diode. */
function stringOf(lights: readonly number[], cellsPerDiode = 0, seriesResistance = 0): SeriesString {
  const group = (irradiance: number) => ({ count: 1, irradiance, temperature });
  if (cellsPerDiode === 0) return seriesString({ cell, groups: lights.map(group), seriesResistance });
  const substrings = evenDiodes(lights.length, cellsPerDiode).map(({ from, to, forwardVoltage }) => ({
    groups: lights.slice(from, to).map(group),
    bypass: { forwardVoltage },
  }));
  return seriesString({ cell, substrings, seriesResistance });
}

const even = (count: number, irradiance: number, leads = 0): SeriesString =>
  stringOf(
    Array.from({ length: count }, () => irradiance),
    0,
    leads,
  );

/** Highest power of the summed curves over a fine scan of the voltage. */
function scanned(sets: readonly ParallelStrings[], steps = 800): number {
  const open = Math.max(...sets.flatMap(({ strings }) => strings.map(stringOpenCircuitVoltage)));
  let most = 0;
  for (let k = 1; k < steps; k++) {
    const voltage = (open * k) / steps;
    most = Math.max(most, voltage * sets.reduce((sum, set) => sum + parallelCurrentAtVoltage(set, voltage), 0));
  }
  return most;
}

describe('strings that share a converter', () => {
  it('alike give twice one', () => {
    const one = even(12, 700, 0.05);
    const { maximum, given } = sharedMaximum([{ strings: [one] }, { strings: [one] }]);
    const { power, voltage } = stringMaximumPowerPoint(one);
    expect(maximum.power).toBeCloseTo(2 * power, 9);
    expect(maximum.voltage).toBeCloseTo(voltage, 9);
    expect(given[0]).toBeCloseTo(power, 9);
  });

  it('in unlike light stand at one voltage: 0.04 % less than each by itself for halves of a wing at 1000 and 500 W/m2', () => {
    // Computed for 12 cells each of the reference cell: 61.320 W at 6.93 V, 61.346 W by themselves (wing-to-wing study).
    const { maximum, own } = sharedMaximum([{ strings: [even(12, 1000), even(12, 500)] }]);
    expect(maximum.power).toBeCloseTo(61.32, 2);
    expect(maximum.voltage).toBeCloseTo(6.93, 2);
    expect(own[0]).toBeCloseTo(61.346, 2);
  });

  it('of unlike length lose what the shorter holds the longer back by', () => {
    const sets = [{ strings: [even(16, 900)] }, { strings: [even(12, 900)] }];
    const { maximum, own } = sharedMaximum(sets);
    expect(maximum.power / scanned(sets)).toBeCloseTo(1, 4);
    // The longer one is held to about the voltage of the shorter: 12 of its 16 cells count.
    expect(maximum.power).toBeLessThan(own[1]! * (1 + 16 / 12) * 0.9);
    expect(maximum.power).toBeGreaterThan(own[1]! * 1.9);
  });

  it('without blocking diodes pull each other down; behind them they lose their voltage alone', () => {
    const [long, short] = [even(16, 900), even(8, 900)];
    const bare = [{ strings: [long] }, { strings: [short] }];
    const guarded = [{ strings: [long] }, { strings: [short], blockingVoltage: 0.4 }];
    expect(sharedOpenCircuitVoltage(bare)).toBeLessThan(stringOpenCircuitVoltage(long));
    expect(sharedOpenCircuitVoltage(bare)).toBeGreaterThan(stringOpenCircuitVoltage(short));
    expect(sharedOpenCircuitVoltage([guarded[1]!])).toBeCloseTo(stringOpenCircuitVoltage(short) - 0.4, 9);
    // Behind its diode the short one is out above its open circuit: the long one gives all it has.
    expect(sharedMaximum(guarded).maximum.power).toBeGreaterThan(stringMaximumPowerPoint(long).power * 0.999);
    expect(sharedMaximum(guarded).maximum.power).toBeCloseTo(scanned(guarded), 2);
    expect(sharedMaximum(bare).maximum.power).toBeCloseTo(scanned(bare), 2);
    // Without it that voltage would drive more through the short one than the long one gives.
    const { voltage } = stringMaximumPowerPoint(long);
    expect(parallelCurrentAtVoltage(guarded[1]!, voltage)).toBe(0);
    expect(parallelCurrentAtVoltage(bare[1]!, voltage)).toBeLessThan(-stringMaximumPowerPoint(long).current);
  });

  it('behind a blocking diode of 0.4 V lose about its share of the voltage', () => {
    const string = even(12, 1000);
    const bare = stringMaximumPowerPoint(string);
    const { maximum } = sharedMaximum([{ strings: [string], blockingVoltage: 0.4 }]);
    expect(maximum.power).toBeLessThan(bare.power);
    expect(maximum.power).toBeGreaterThanOrEqual(bare.power - 0.4 * bare.current);
    expect(maximum.power).toBeCloseTo(bare.power - 0.4 * bare.current, 1);
  });

  it('feed a dark one without a blocking diode, and not behind one', () => {
    const dark = even(12, 0);
    const alone = stringMaximumPowerPoint(even(12, 800)).power;
    const bare = sharedMaximum([{ strings: [even(12, 800)] }, { strings: [dark] }]);
    expect(bare.maximum.power).toBeLessThan(alone);
    expect(bare.given[1]).toBeLessThan(0);
    const guarded = sharedMaximum([{ strings: [even(12, 800)] }, { strings: [dark], blockingVoltage: 0.3 }]);
    expect(guarded.maximum.power).toBeCloseTo(alone, 6);
    expect(guarded.given[1]).toBe(0);
  });

  it('give nothing in the dark', () => {
    const found = sharedMaximum([{ strings: [even(8, 0), even(8, 0)] }, { strings: [] }]);
    expect(found).toEqual({ maximum: { voltage: 0, current: 0, power: 0 }, given: [0, 0], own: [0, 0] });
    expect(sharedMaximum([]).maximum.power).toBe(0);
    expect(sharedOpenCircuitVoltage([])).toBe(0);
  });

  it('never give more than the sum of their own maxima, nor less than a scan finds, and their parts add up', () => {
    const lights = fc.array(fc.double({ min: 1, max: 1100, noNaN: true }), { minLength: 4, maxLength: 9 });
    const drop = fc.constantFrom(undefined, 0, 0.4);
    fc.assert(
      fc.property(fc.array(lights, { minLength: 2, maxLength: 3 }), fc.constantFrom(0, 3), drop, (all, diodes, v) => {
        const sets = all.map((own): ParallelStrings => {
          const strings = [stringOf(own, diodes, 0.02)];
          return v === undefined ? { strings } : { strings, blockingVoltage: v };
        });
        const { maximum, given, own } = sharedMaximum(sets);
        const most = own.reduce((sum, power) => sum + power, 0);
        expect(maximum.power).toBeLessThanOrEqual(most * (1 + 1e-9));
        expect(maximum.power).toBeGreaterThan(scanned(sets, 200) * (1 - 2e-3));
        expect(given.reduce((sum, power) => sum + power, 0)).toBeCloseTo(maximum.power, 9);
        expect(maximum.voltage * maximum.current).toBeCloseTo(maximum.power, 9);
      }),
      { numRuns: 20 },
    );
  });
});
