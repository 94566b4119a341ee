import { describe, expect, it } from 'vitest';
import type { VerdictView } from '../../core/view.js';
import { dayData, hourWords, stageSpan } from './day-data.js';

const steps = 24 * 60;
const times = Float64Array.from({ length: steps + 1 }, (_, i) => i / 60);
const middles = Float64Array.from({ length: steps }, (_, i) => (i + 0.5) / 60);
const course = (of: (hour: number) => number) => Float64Array.from(middles, of);

const view = {
  plan: { date: { year: 2026, month: 6, day: 21 }, name: 'plan', placeName: 'delta', utcOffset: 7200 },
  launch: 8.5,
  hasBattery: true,
  times,
  middles,
  need: course(() => 18),
  levelPower: { value: 18, low: 16, high: 20 },
  sun: {
    daylight: [{ start: 6.5, end: 21.5 }],
    elevation: course((hour) => 0.1 * hour),
    azimuth: course(() => Math.PI),
  },
  skies: [
    {
      name: 'clear',
      confidenceText: 'about 9 in 10',
      windows: [
        { start: 9.5, end: 18.5 },
        { start: 33.5, end: 42.5 },
      ],
      start: { value: 9.5, low: 9.2, high: 9.8 },
      end: { value: 18.5, low: 18, high: 19 },
      income: course((hour) => (hour < 7 ? -0.1 : 2 * hour)),
      globalHorizontal: course(() => 500),
      charge: Float64Array.from(times, () => 0.8),
    },
  ],
} as unknown as VerdictView;

describe('the day as the band shows it', () => {
  it('runs from shortly before sunrise to shortly after sunset', () => {
    expect(stageSpan(view)).toEqual({ start: 5.75, end: 22.25 });
    expect(stageSpan({ ...view, sun: { ...view.sun, daylight: [] } })).toEqual({ start: 0, end: 24 });
  });

  it('has no more points than a screen can show, first and last included', () => {
    const { hours, need, skies } = dayData(view);
    expect(hours.length).toBeLessThanOrEqual(242);
    expect(hours[0]).toBeCloseTo(5.75, 1);
    expect(hours.at(-1)).toBeCloseTo(22.25, 1);
    expect(skies[0]!.income.length).toBe(hours.length);
    expect(need).toHaveLength(hours.length);
  });

  it('keeps the windows of this day with how sure their ends are, and draws no income below nothing', () => {
    const { skies, needSpan, launch, sunrise, zone } = dayData(view);
    expect(skies[0]!.windows).toEqual([{ start: 9.5, end: 18.5, startSpan: [9.2, 9.8], endSpan: [18, 19] }]);
    expect(Math.min(...skies[0]!.income)).toBe(0);
    expect({ needSpan, launch, sunrise, zone }).toEqual({
      needSpan: [16, 20],
      launch: 8.5,
      sunrise: 6.5,
      zone: 'UTC+02:00',
    });
  });

  it('says of an hour what comes in and what is needed, and nothing outside the hours computed', () => {
    expect(hourWords(view, 0, 12)).toMatchObject({ income: course((hour) => 2 * hour)[720], need: 18, charge: 0.8 });
    expect(hourWords(view, 0, 30)).toMatchObject({ income: undefined, need: undefined, charge: undefined });
    // A sky that is no longer there is the first one.
    expect(hourWords(view, 5, 12).income).toBe(hourWords(view, 0, 12).income);
  });
});
