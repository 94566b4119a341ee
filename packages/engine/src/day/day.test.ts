import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { energyPack, noPack } from '../battery/index.js';
import {
  airFactorAt,
  type BusPlan,
  dayFigures,
  defaultAirFactor,
  enduranceOnBattery,
  loadPowerAt,
  longestWindow,
  runCharge,
  totalDuration,
  windowsAboveZero,
} from './index.js';

const hour = 3600;
/** Away from zero, where a sample would lie on the border itself. */
const nonZero = fc.double({ min: -5, max: 5, noNaN: true }).map((value) => (Math.abs(value) < 1e-6 ? 1 : value));
const steps = 48 * 12;
const times = Float64Array.from({ length: steps + 1 }, (_, i) => i * 300);
/** Half-sine sun from 6 to 18 h of each day, in W per step. */
const sun = (peak: number) =>
  Float64Array.from({ length: steps }, (_, i) =>
    Math.max(0, peak * Math.sin((Math.PI * ((((i + 0.5) / 12) % 24) - 6)) / 12)),
  );
const plan = (offered: Float64Array, need: number, from = 6 * 12): BusPlan => ({
  times,
  need: new Float64Array(steps).fill(need),
  income: (i) => offered[i]!,
  from,
  to: steps,
});

describe('windows', () => {
  it('finds linear crossings', () => {
    expect(windowsAboveZero([0, 1, 2, 3], [-1, 1, 1, -3])).toEqual([{ start: 0.5, end: 2.25 }]);
  });
  it('touches the ends when the quantity stays above zero, and is empty when below', () => {
    expect(windowsAboveZero([0, 1], [2, 1])).toEqual([{ start: 0, end: 1 }]);
    expect(windowsAboveZero([0, 1], [-2, -1])).toEqual([]);
    expect(longestWindow([])).toBeUndefined();
  });
  it('the parts above and below zero add up to the whole', () => {
    fc.assert(
      fc.property(fc.array(nonZero, { minLength: 2, maxLength: 30 }), (values) => {
        const at = values.map((_, i) => i);
        const above = totalDuration(windowsAboveZero(at, values));
        const below = totalDuration(
          windowsAboveZero(
            at,
            values.map((value) => -value),
          ),
        );
        expect(above + below).toBeCloseTo(values.length - 1, 9);
      }),
    );
  });
});

describe('need', () => {
  it('the air factor is 1.03 at night and 1.15 at the highest sun', () => {
    expect(airFactorAt(defaultAirFactor, -0.2, 0.9)).toBe(1.03);
    expect(airFactorAt(defaultAirFactor, 0.9, 0.9)).toBeCloseTo(1.15, 12);
    expect(airFactorAt(defaultAirFactor, 0.4, 0)).toBe(1.03);
  });
  it('loads run by hour, also past midnight', () => {
    const loads = [
      { name: 'receiver', power: 1 },
      { name: 'lights', power: 2, hours: { from: 21, to: 5 } },
    ];
    expect(loadPowerAt(loads, 12)).toBe(1);
    expect(loadPowerAt(loads, 23)).toBe(3);
    expect(loadPowerAt(loads, 28)).toBe(3);
  });
});

describe('charge through the day', () => {
  const pack = energyPack({ energy: 700 * hour, chargeEfficiency: 0.95, dischargeEfficiency: 0.95 });
  const start = { stateOfCharge: 0.5, temperature: 298 };

  it('balances power in every step and energy over the whole', () => {
    const offered = sun(200);
    const course = runCharge(pack, start, plan(offered, 40));
    let stored = 0;
    for (let i = 72; i < steps; i++) {
      expect(course.income[i]! + course.curtailed[i]!).toBeCloseTo(offered[i]!, 9);
      stored += (course.income[i]! - 40 - course.batteryLoss[i]!) * 300;
    }
    const change = (course.stateOfCharge[steps]! - 0.5) * 700 * hour;
    expect(stored).toBeCloseTo(change, 3);
  });
  it('without sun the endurance is energy over need', () => {
    const course = runCharge(pack, { ...start, stateOfCharge: 1 }, plan(new Float64Array(steps), 70, 0));
    expect(course.emptyAt! / hour).toBeCloseTo(9.5, 2);
    expect(enduranceOnBattery(pack, { ...start, stateOfCharge: 1 }, 70) / hour).toBeCloseTo(9.5, 2);
  });
  it('with no battery the flight ends when income falls below need', () => {
    const course = runCharge(noPack, start, plan(sun(100), 50, 12 * 12));
    expect(course.emptyAt! / hour).toBeCloseTo(16, 0);
    const night = runCharge(noPack, start, plan(new Float64Array(steps), 50, 0));
    expect(night.emptyAt).toBe(0);
  });
  it('figures of a half-sine day: window by arcsine, hours left at dawn by energy', () => {
    const offered = sun(200);
    const need = new Float64Array(steps).fill(40);
    const course = runCharge(pack, start, plan(offered, 40));
    const figures = dayFigures(pack, 298, course, { times, offered, need, launch: 6 * hour, dayEnd: 24 * hour });
    const opens = 6 + (12 / Math.PI) * Math.asin(0.2);
    expect(figures.longest!.start / hour).toBeCloseTo(opens, 1);
    expect(figures.longest!.end / hour).toBeCloseTo(24 - opens, 1);
    expect(figures.bestRatio).toBeCloseTo(5, 2);
    expect(figures.endurance).toBeUndefined();
    expect(figures.fullBeforeDusk).toBeGreaterThan(0);
    // From full at dusk: 700 Wh less the night at 40 W / 0.95.
    expect(figures.lowestCharge).toBeGreaterThan(0.05);
    expect(figures.leftAtDawn! / hour).toBeCloseTo((figures.lowestCharge * 700 * 0.95) / 40, 0);
  });
  it('a day without any window is a result, not an error', () => {
    const offered = sun(20);
    const need = new Float64Array(steps).fill(40);
    const course = runCharge(pack, start, plan(offered, 40));
    const figures = dayFigures(pack, 298, course, { times, offered, need, launch: 6 * hour, dayEnd: 24 * hour });
    expect(figures.longest).toBeUndefined();
    expect(figures.fullBeforeDusk).toBe(0);
    expect(figures.leftAtDawn).toBeUndefined();
    expect(figures.endurance).toBeGreaterThan(0);
  });
});
