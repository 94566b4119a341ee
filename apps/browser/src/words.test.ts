import { describe, expect, it } from 'vitest';
import { clockText, durationText, offsetText } from './clock.js';
import { exampleDay, exampleSky } from './example-day.js';
import {
  carriedText,
  changeText,
  edgesText,
  enduranceText,
  limitText,
  lowestChargeText,
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

  it('writes durations and offsets', () => {
    expect([0.2, 1, 8.95, 24].map(durationText)).toEqual(['12 min', '1 h', '8 h 57 min', '24 h']);
    expect([7200, -12600, 0].map(offsetText)).toEqual(['+02:00', '-03:30', '+00:00']);
  });
});

describe('words of the verdict', () => {
  const day = exampleDay();
  const clear = day.skies[0];
  const broken = day.skies[2];

  it('say from when to when, and how sure the ends are', () => {
    expect(carriedText(clear!)).toBe('carried 09:30 to 18:30');
    expect(edgesText(clear!)).toBe('start ± 15 min, end ± 30 min');
    expect(carriedText({ ...clear!, windows: [...clear!.windows, { start: 20, end: 21 }] })).toContain(
      'the longest of 2',
    );
  });

  it('say nothing of ends without uncertainty', () => {
    const exact = { value: 9, low: 9, high: 9 };
    expect(edgesText({ ...clear!, start: exact, end: exact })).toBe('');
  });

  it('say that and why it is not carried', () => {
    expect(carriedText(broken!)).toBe('not carried');
    expect(limitText(broken!, day)).toBe(
      'the light: at best, 13:00, the cells give 18.2 W and level flight takes 20.0 W',
    );
    expect(limitText({ ...broken!, bestIncome: 0 }, day)).toBe('the light: the cells give nothing on this day');
  });

  it('say what ends the flight', () => {
    expect(enduranceText(clear!, day)).toBe('13 h 30 min (13 h to 14 h) after launch, until 22:00');
    expect(limitText(clear!, day)).toMatch(/^the battery: empty 3 h 30 min after .* a larger one would fill too/);
    expect(lowestChargeText(clear!)).toBe('6 % (5 % to 10 %) where the battery gives out');
    const { emptyAt: _, ...lasting } = clear!;
    expect(enduranceText(lasting, day)).toContain(
      'still flying at the end of the days computed, 15 h 30 min after launch; at the low end empty after 13 h',
    );
    expect(enduranceText({ ...clear, endurance: { value: 13.5, low: 13, high: 15.5 } }, day)).toContain(
      '(13 h to more than the days computed)',
    );
    expect(lowestChargeText(lasting)).toBe('6 % (5 % to 10 %) at 22:00');
    expect(limitText(lasting, day)).toContain('2.0 times');
    expect(limitText(clear!, { ...day, hasBattery: false })).toContain('no battery');
    expect(limitText(exampleSky({ emptyAt: 9 }), day)).toContain('before the sun has carried');
  });

  it('sum up for a reader that hears the page', () => {
    expect(summaryText(day)).toBe(
      'Example, 2026-06-21. clear sky: carried 09:30 to 18:30; thin cloud: carried 10:00 to 18:00; broken cloud: not carried.',
    );
    expect(summaryText({ ...day, skies: [], problems: [{ text: 'it cannot trim', where: '', remedy: '' }] })).toBe(
      'No verdict for Example: it cannot trim.',
    );
  });

  it('say what a change brings', () => {
    expect(changeText({ carried: 0.45, endurance: -1.08, solarRatio: 0.14 })).toBe(
      'carried +27 min, endurance −1 h 5 min, income over need +0.14',
    );
    expect(changeText({ carried: 0, endurance: 0.001, solarRatio: -0.02 })).toBe(
      'carried unchanged, endurance unchanged, income over need −0.02',
    );
  });

  it('write watts with as many digits as matter', () => {
    expect([0, 17.71, 228.4].map(wattsText)).toEqual(['0.0 W', '17.7 W', '228 W']);
  });
});
