import { describe, expect, it } from 'vitest';
import type { SkyView, VerdictView } from '../../core/view.js';
import { clockText, dateText, directionText, durationText, zoneText } from './clock.js';
import {
  carriedText,
  edgesText,
  enduranceText,
  limitText,
  lowestChargeText,
  payoffText,
  stepAt,
  summaryText,
  wattsText,
} from './words.js';

describe('clock', () => {
  it('writes hours of the first day and of others', () => {
    expect(clockText(9.5249)).toBe('09:31');
    expect(clockText(0)).toBe('00:00');
    expect(clockText(24)).toBe('24:00');
    expect(clockText(28.2)).toBe('04:12 next day');
    expect(clockText(50)).toBe('02:00 on day 3');
    expect(clockText(-0.5)).toBe('23:30 the day before');
    // Rounding never gives a sixtieth minute.
    expect(clockText(9.9999)).toBe('10:00');
  });

  it('writes durations, dates, zones and directions', () => {
    expect([0.2, 1, 8.95, 24].map(durationText)).toEqual(['12 min', '1 h', '8 h 57 min', '24 h']);
    expect([7200, -12600, 0].map(zoneText)).toEqual(['UTC+02:00', 'UTC−03:30', 'UTC+00:00']);
    expect(dateText({ year: 2026, month: 6, day: 21 })).toBe('21 June 2026');
    expect([0, Math.PI / 2, Math.PI, -Math.PI / 2, 6.2].map(directionText)).toEqual(['N', 'E', 'S', 'W', 'N']);
  });
});

const band = (value: number, low = value, high = value) => ({ value, low, high });

/** A sky under which sunlight carries from 09:30 to 18:30 and the battery lasts until 22:00. */
const clear: SkyView = {
  name: 'clear',
  confidence: 1,
  confidenceText: 'about 9 in 10',
  windows: [{ start: 9.5, end: 18.5 }],
  start: band(9.5, 9.25, 9.75),
  end: band(18.5, 18, 19),
  carried: band(9),
  endurance: band(13.5, 13, 14),
  lasts: 0,
  emptyAt: 22,
  lowestCharge: band(0.06, 0.05, 0.1),
  lowestChargeAt: 22,
  fullBeforeDusk: band(4),
  solarRatio: 1.2,
  bestRatio: band(2),
  bestRatioAt: 13,
  income: Float64Array.of(0, 18.2, 0),
  taken: new Float64Array(3),
  curtailed: new Float64Array(3),
  batteryLoss: new Float64Array(3),
  terminalVoltage: new Float64Array(3),
  charge: new Float64Array(4),
  globalHorizontal: new Float64Array(3),
  directNormal: new Float64Array(3),
  diffuseHorizontal: new Float64Array(3),
  light: new Float64Array(3),
  cellTemperature: new Float64Array(3),
};

const { start: _start, end: _end, ...withoutWindow } = clear;
const broken: SkyView = { ...withoutWindow, name: 'broken cloud', windows: [], carried: band(0) };

const day = {
  aircraft: 'Example',
  canFly: true,
  hasBattery: true,
  horizon: 15.5,
  times: Float64Array.of(8, 12, 14, 22),
  need: Float64Array.of(20, 20, 20),
  skies: [clear, broken],
  findings: [] as VerdictView['findings'],
} as unknown as VerdictView;

describe('words of the verdict', () => {
  it('say from when to when, and how sure the ends are', () => {
    expect(carriedText(clear)).toBe('carried 09:30 to 18:30');
    expect(edgesText(clear)).toBe('start to within 15 min either way, end 30 min');
    const twice = { ...clear, windows: [...clear.windows, { start: 20, end: 21 }] };
    expect(carriedText(twice)).toContain('the longest of 2');
    // A stretch of the next day is none of this one.
    const nextDay = { ...clear, windows: [...clear.windows, { start: 33.5, end: 42.5 }] };
    expect(carriedText(nextDay)).toBe('carried 09:30 to 18:30');
  });

  it('say nothing of ends without uncertainty', () => {
    expect(edgesText({ ...clear, start: band(9), end: band(9) })).toBe('');
  });

  it('say that and why it is not carried', () => {
    expect(carriedText(broken)).toBe('not carried');
    expect(limitText(broken, day)).toBe(
      'the light: at best, 13:00, the cells give 18.2 W and level flight takes 20.0 W',
    );
    expect(limitText({ ...broken, income: new Float64Array(3) }, day)).toBe(
      'the light: the cells give nothing on this day',
    );
  });

  it('say what ends the flight', () => {
    expect(enduranceText(clear, day)).toBe('13 h 30 min (13 h to 14 h) after launch, until 22:00');
    expect(limitText(clear, day)).toMatch(/^the battery: empty 3 h 30 min after .* a larger one would fill too/);
    expect(lowestChargeText(clear)).toBe('6 % (5 % to 10 %) where the battery gives out');
    const { emptyAt: _, ...lasting } = clear;
    expect(enduranceText(lasting, day)).toContain(
      'still flying at the end of the days computed, 15 h 30 min after launch; at the low end empty after 13 h',
    );
    expect(enduranceText({ ...clear, endurance: band(13.5, 13, 15.5) }, day)).toContain(
      '(13 h to more than the days computed)',
    );
    expect(lowestChargeText(lasting)).toBe('6 % (5 % to 10 %) at 22:00');
    expect(limitText(lasting, day)).toContain('2.0 times');
    expect(limitText(clear, { ...day, hasBattery: false })).toContain('no battery');
    expect(limitText({ ...clear, emptyAt: 9 }, day)).toContain('before the sun has carried');
  });

  it('sum up for a reader that hears the page, what cannot be first', () => {
    expect(summaryText(day)).toBe('Example. clear sky: carried 09:30 to 18:30; broken cloud: not carried.');
    const finding = { severity: 'problem', code: 'x', text: 'it cannot trim', where: '', remedy: '' } as const;
    expect(summaryText({ ...day, skies: [], findings: [finding] })).toBe('No verdict for Example: it cannot trim.');
    expect(summaryText({ ...day, canFly: false, findings: [finding] })).toMatch(
      /^Example\. It cannot fly as described: it cannot trim\./,
    );
  });

  it('say what a change brings', () => {
    expect(payoffText({ carried: 1620, endurance: -3888, solarRatio: 0.14 })).toBe(
      'carried 27 min longer, flies 1 h 5 min less, income over need +0.14',
    );
    expect(payoffText({ carried: 0, endurance: 4, solarRatio: -0.02 })).toBe(
      'hours carried as before, endurance as before, income over need −0.02',
    );
  });

  it('write watts with as many digits as matter', () => {
    expect([0, 17.71, 228.4].map(wattsText)).toEqual(['0.0 W', '17.7 W', '228 W']);
  });

  it('find the step of an hour, also outside the course', () => {
    expect([0, 8, 11.9, 12, 13, 14, 21, 30].map((hour) => stepAt(day.times, hour))).toEqual([0, 0, 0, 1, 1, 2, 2, 2]);
    expect(stepAt(new Float64Array(0), 9)).toBe(0);
  });
});
