import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { voltageAtCurrent } from './cell.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactBreakdown, backContactCell, frontContactBreakdown } from './reference.js';
import {
  cellCount,
  forwardStringDerivatives,
  groupStates,
  groupsOf,
  type LightGroup,
  type LightString,
  parallelCurrentAtVoltage,
  seriesString,
  stringCurrentAtVoltage,
  stringOpenCircuitVoltage,
  stringShortCircuitCurrent,
  stringVoltageAtCurrent,
} from './string.js';
import { parallelMaxima, stringMaxima, stringMaximumPowerPoint } from './string-maximum.js';
import { cellAt } from './translate.js';

const temperature = 298.15;
const breaking = { ...backContactCell, breakdown: backContactBreakdown };
const bypass = { forwardVoltage: 0.4 };

const lights = fc.record({
  count: fc.integer({ min: 1, max: 8 }),
  irradiance: fc.double({ min: 5, max: 1200, noNaN: true }),
  temperature: fc.double({ min: 270, max: 345, noNaN: true }),
});

/** Strings of several groups, with or without breakdown data and bypass. */
const strings = fc
  .record({
    groups: fc.array(lights, { minLength: 1, maxLength: 5 }),
    breakdown: fc.constantFrom(undefined, backContactBreakdown, frontContactBreakdown),
    bypassed: fc.boolean(),
    seriesResistance: fc.double({ min: 0, max: 0.3, noNaN: true }),
  })
  .map(({ groups, breakdown, bypassed, seriesResistance }): LightString => {
    const cell = breakdown === undefined ? backContactCell : { ...backContactCell, breakdown };
    return bypassed
      ? { cell, substrings: groups.map((group) => ({ groups: [group], bypass })), seriesResistance }
      : { cell, groups, seriesResistance };
  });

describe('series string', () => {
  it('adds the voltages of its cells at one current', () => {
    const groups: LightGroup[] = [
      { count: 3, irradiance: 900, temperature },
      { count: 2, irradiance: 700, temperature: 320 },
    ];
    const string = seriesString({ cell: backContactCell, groups, seriesResistance: 0.1 });
    const [bright, dim] = groups.map((group) => cellAt(backContactCell, group));
    const sum = 3 * voltageAtCurrent(bright!, 4) + 2 * voltageAtCurrent(dim!, 4) - 0.4;
    expect(stringVoltageAtCurrent(string, 4)).toBeCloseTo(sum, 12);
    expect(cellCount(string)).toBe(5);
  });

  it('returns from current to voltage to current', () => {
    fc.assert(
      fc.property(strings, fc.double({ min: 0, max: 1, noNaN: true }), (spec, s) => {
        const string = seriesString(spec);
        const voltage = s * stringOpenCircuitVoltage(string);
        const current = stringCurrentAtVoltage(string, voltage);
        const slack = 1e-8 * Math.abs(stringVoltageAtCurrent(string, current * 1.001 + 1e-6) - voltage);
        expect(Math.abs(stringVoltageAtCurrent(string, current) - voltage)).toBeLessThan(1e-6 + slack);
      }),
    );
  });

  it('takes current above its open-circuit voltage', () => {
    const string = seriesString({ cell: backContactCell, groups: [{ count: 10, irradiance: 500, temperature }] });
    expect(stringCurrentAtVoltage(string, stringOpenCircuitVoltage(string))).toBeCloseTo(0, 8);
    expect(stringCurrentAtVoltage(string, 7.5)).toBeLessThan(-1);
  });

  it('is limited by its weakest cell and that cell alone when there is no breakdown', () => {
    const string = seriesString({
      cell: { ...backContactCell, shuntResistance: 1e6 },
      groups: [
        { count: 11, irradiance: 1000, temperature },
        { count: 1, irradiance: 300, temperature },
      ],
    });
    expect(stringShortCircuitCurrent(string)).toBeCloseTo(0.3 * backContactCell.photocurrent, 4);
  });

  it('has derivatives that agree with finite differences', () => {
    const string = seriesString({
      cell: backContactCell,
      groups: [
        { count: 4, irradiance: 900, temperature },
        { count: 3, irradiance: 800, temperature: 310 },
      ],
      seriesResistance: 0.05,
    });
    const at = (current: number) => forwardStringDerivatives(groupsOf(string), string, current);
    const h = 1e-4;
    for (const current of [0.5, 3, 4.6]) {
      const { voltage, slope, curvature } = at(current);
      expect(voltage).toBeCloseTo(stringVoltageAtCurrent(string, current), 12);
      expect((at(current + h).voltage - at(current - h).voltage) / (2 * h) / slope).toBeCloseTo(1, 6);
      expect((at(current + h).slope - at(current - h).slope) / (2 * h) / curvature).toBeCloseTo(1, 5);
    }
  });

  it('answers an empty string with zeros', () => {
    const string = seriesString({ cell: backContactCell, groups: [] });
    expect(stringMaximumPowerPoint(string)).toEqual({ voltage: 0, current: 0, power: 0 });
    expect(stringMaxima(string)).toEqual([]);
  });
});

describe('stringMaximumPowerPoint', () => {
  it('is not beaten by a fine sweep, whatever shade, bypass and breakdown', () => {
    fc.assert(
      fc.property(strings, (spec) => {
        const string = seriesString(spec);
        const best = stringMaximumPowerPoint(string);
        for (let k = 1; k <= 400; k++) {
          const current = (8 * k) / 400;
          const power = current * stringVoltageAtCurrent(string, current);
          // The search stops dividing at 0.2 % of the current.
          expect(power).toBeLessThanOrEqual(best.power * 1.002 + 1e-9);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('never exceeds the cells each at its own maximum, and reaches it where all are alike', () => {
    fc.assert(
      fc.property(strings, (spec) => {
        const string = seriesString(spec);
        const apart = groupsOf(string).reduce((sum, g) => sum + g.count * maximumPowerPoint(g.curve).power, 0);
        expect(stringMaximumPowerPoint(string).power).toBeLessThanOrEqual(apart * (1 + 1e-10));
      }),
    );
    const alike = seriesString({ cell: breaking, groups: [{ count: 12, irradiance: 1000, temperature }] });
    expect(stringMaximumPowerPoint(alike).power).toBeCloseTo(12 * 3.422, 9);
  });

  it('agrees with itself when a group is split in two, and with the list of all maxima', () => {
    fc.assert(
      fc.property(strings, (spec) => {
        const string = seriesString(spec);
        const listed = stringMaxima(string)[0]?.power ?? 0;
        expect(stringMaximumPowerPoint(string).power).toBeGreaterThanOrEqual(listed * 0.998);
      }),
      { numRuns: 60 },
    );
    const whole = seriesString({ cell: breaking, groups: [{ count: 6, irradiance: 800, temperature }] });
    const halves = seriesString({
      cell: breaking,
      groups: [
        { count: 3, irradiance: 800, temperature },
        { count: 3, irradiance: 800, temperature },
      ],
    });
    expect(stringMaximumPowerPoint(halves)).toEqual(stringMaximumPowerPoint(whole));
  });

  it('counts the wiring: I^2 R less than without, to first order', () => {
    const groups = [
      { count: 6, irradiance: 900, temperature },
      { count: 6, irradiance: 880, temperature },
    ];
    const bare = stringMaximumPowerPoint(seriesString({ cell: breaking, groups }));
    const wired = stringMaximumPowerPoint(seriesString({ cell: breaking, groups, seriesResistance: 0.01 }));
    expect(bare.power - wired.power).toBeCloseTo(0.01 * bare.current ** 2, 2);
  });

  it('gives nothing where a dark cell blocks the string, and the rest where it is bypassed', () => {
    const dark = { count: 1, irradiance: 0, temperature };
    const lit = { count: 5, irradiance: 1000, temperature };
    const blocked = seriesString({ cell: backContactCell, groups: [dark, lit] });
    expect(stringMaximumPowerPoint(blocked).power).toBeLessThan(1e-6);
    const bridged = seriesString({
      cell: backContactCell,
      substrings: [{ groups: [dark], bypass }, { groups: [lit] }],
    });
    const { power, current } = stringMaximumPowerPoint(bridged);
    expect(power).toBeCloseTo(5 * 3.422 - 0.4 * current, 1);
  });

  it('gives nothing in the dark', () => {
    const string = seriesString({
      cell: breaking,
      groups: [
        { count: 4, irradiance: 0, temperature },
        { count: 4, irradiance: 0, temperature: 300 },
      ],
    });
    expect(stringMaximumPowerPoint(string).power).toBe(0);
  });
});

describe('groupStates', () => {
  it('accounts for the whole string: cells, clamps and wiring add up to its voltage', () => {
    const string = seriesString({
      cell: breaking,
      groups: [
        { count: 1, irradiance: 200, temperature },
        { count: 11, irradiance: 1000, temperature },
      ],
    });
    const current = stringCurrentAtVoltage(string, 3);
    const sum = groupStates(string, current).reduce((total, state) => total + state.count * state.voltage, 0);
    expect(sum).toBeCloseTo(3, 6);
  });

  it('shows who is bypassed and holds its voltage at the clamp', () => {
    const string = seriesString({
      cell: breaking,
      substrings: [
        {
          groups: [
            { count: 1, irradiance: 100, temperature },
            { count: 2, irradiance: 1000, temperature },
          ],
          bypass,
        },
        { groups: [{ count: 3, irradiance: 1000, temperature }], bypass },
      ],
    });
    const states = groupStates(string, 5.5);
    expect(states.map((state) => state.bypassed)).toEqual([true, true, false]);
    expect(states[0]!.voltage + 2 * states[1]!.voltage).toBeCloseTo(-0.4, 5);
  });
});

describe('strings in parallel', () => {
  const string = (irradiance: number) =>
    seriesString({ cell: breaking, groups: [{ count: 12, irradiance, temperature }] });

  it('add their currents', () => {
    const strings = [string(1000), string(500)];
    const sum = strings.reduce((total, each) => total + stringCurrentAtVoltage(each, 6), 0);
    expect(parallelCurrentAtVoltage({ strings }, 6)).toBeCloseTo(sum, 10);
  });

  it('feed a dark string unless a diode blocks it', () => {
    const strings = [string(1000), string(0)];
    const free = parallelCurrentAtVoltage({ strings }, 7.9);
    const blocked = parallelCurrentAtVoltage({ strings, blockingVoltage: 0 }, 7.9);
    expect(free).toBeLessThan(blocked);
    expect(blocked).toBeCloseTo(stringCurrentAtVoltage(strings[0]!, 7.9), 10);
  });

  it('give twice one string when alike', () => {
    const one = stringMaximumPowerPoint(string(800)).power;
    expect(parallelMaxima({ strings: [string(800), string(800)] })[0]!.power).toBeCloseTo(2 * one, 6);
  });
});
