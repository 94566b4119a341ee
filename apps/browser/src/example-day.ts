import type { Band, DayResult, SkyResult } from './answer.js';

const band = (value: number, low: number, high: number): Band => ({ value, low, high });

const step = 0.5;
const steps = 48;
const middles = Float64Array.from({ length: steps }, (_, i) => (i + 0.5) * step);

/** Half a sine between six and twenty o'clock. */
const incomeOf = (most: number): Float64Array =>
  middles.map((hour) => (hour > 6 && hour < 20 ? most * Math.sin((Math.PI * (hour - 6)) / 14) : 0));

/** A sky for tests, of round numbers. */
export const exampleSky = (changes: Partial<SkyResult> = {}): SkyResult => ({
  name: 'clear',
  confidence: 'in every case computed',
  windows: [{ start: 9.5, end: 18.5 }],
  start: band(9.5, 9.25, 9.75),
  end: band(18.5, 18, 19),
  carried: band(9, 8.5, 9.5),
  endurance: band(13.5, 13, 14),
  emptyAt: 22,
  fullAt: 11,
  lowestCharge: band(0.06, 0.05, 0.1),
  lowestChargeAt: 22,
  fullBeforeDusk: band(7.5, 6, 8),
  bestRatio: band(2, 1.6, 2.4),
  bestRatioAt: 13,
  bestIncome: 40,
  bestNeed: 20,
  income: incomeOf(40),
  charge: Float64Array.from({ length: steps + 1 }, (_, i) => Math.max(0.06, 1 - 0.02 * i)),
  ...changes,
});

/** An answer for tests: carried under the first two skies, not under the third. */
export function exampleDay(changes: Partial<DayResult> = {}): DayResult {
  const { start: _, end: __, ...open } = exampleSky();
  return {
    aircraft: 'Example',
    placeText: '40.700 N 0.900 E',
    date: '2026-06-21',
    clock: 'UTC+02:00',
    launch: 8.5,
    horizon: 15.5,
    hasBattery: true,
    facts: [],
    problems: [],
    warnings: [],
    measured: [],
    times: Float64Array.from({ length: steps + 1 }, (_, i) => i * step),
    need: new Float64Array(steps).fill(20),
    daylight: [{ start: 6, end: 20 }],
    skies: [
      exampleSky(),
      exampleSky({
        name: 'thin cloud',
        windows: [{ start: 10, end: 18 }],
        start: band(10, 9.5, 10.5),
        end: band(18, 17, 19),
        income: incomeOf(32),
      }),
      { ...open, name: 'broken cloud', windows: [], bestIncome: 18.2, emptyAt: 12, income: incomeOf(18.2) },
    ],
    contributions: [],
    assumptions: [],
    samples: 128,
    stepError: 0,
    ...changes,
  };
}
