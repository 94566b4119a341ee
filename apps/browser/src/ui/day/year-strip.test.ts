import { describe, expect, it } from 'vitest';
import type { SweepView } from '../../core/view.js';
import { bestStretch, dateFigures, dayOfYear, daysInMonth, figureOn, monthFigures, movedDate } from './year-strip.js';

/** Three dates, hours 10 to 14; on the middle one the ratio is above 1 for two hours and a half. */
const sweep: SweepView = {
  kind: 'date and hour',
  sky: 'clear',
  days: Float64Array.of(1, 183, 365),
  across: Float64Array.of(10, 11, 12, 13, 14),
  solarRatio: Float64Array.of(0, 0.2, 0.4, 0.2, 0, 0, 1, 2, 1.5, 0.5, 0, 0.2, 0.4, 0.2, 0),
};

describe('the year by dates', () => {
  const figures = dateFigures(sweep);

  it('counts the time above 1, crossings between the hours included', () => {
    expect(figures.map(({ day }) => day)).toEqual([1, 183, 365]);
    expect(figures[0]).toMatchObject({ carried: 0, best: 0.4 });
    expect(figures[1]!.carried).toBeCloseTo(2.5, 9);
    expect(figures[1]!.best).toBe(2);
  });

  it('is straight between dates and holds its ends', () => {
    expect(figureOn(figures, 92)!.carried).toBeCloseTo(1.25, 9);
    expect(figureOn(figures, 183)!.carried).toBeCloseTo(2.5, 9);
    expect(figureOn(figures, 400)).toEqual(figures[2]);
    expect(figureOn([], 10)).toBeUndefined();
  });

  it('has twelve months, the middle of the year the best', () => {
    const months = monthFigures(figures, 2026);
    expect(months).toHaveLength(12);
    const best = months.reduce((a, b) => (b.carried > a.carried ? b : a));
    expect([6, 7]).toContain(best.month);
  });

  it('names the best stretch, also over the turn of the year, and none where nothing is carried', () => {
    const made = (carried: readonly number[]) =>
      carried.map((value, i) => ({ day: 1 + 30 * i, carried: value, best: value }));
    expect(bestStretch(made([0, 0, 5, 8, 8, 7.5, 1]))).toEqual({ from: 91, to: 151 });
    expect(bestStretch(made([8, 7.5, 1, 0, 0, 0, 0, 0, 1, 7.4, 7.6]))).toEqual({ from: 271, to: 31 });
    expect(bestStretch(made([0, 0, 0]))).toBeUndefined();
  });
});

describe('dates', () => {
  it('counts days of the year and of months', () => {
    expect(dayOfYear({ year: 2026, month: 1, day: 1 })).toBe(1);
    expect(dayOfYear({ year: 2026, month: 12, day: 31 })).toBe(365);
    expect(dayOfYear({ year: 2028, month: 3, day: 1 })).toBe(61);
    expect(daysInMonth(2028, 2)).toBe(29);
    expect(daysInMonth(2026, 2)).toBe(28);
  });

  it('moves by days over months and years, and by months to the last day that there is', () => {
    expect(movedDate({ year: 2026, month: 12, day: 31 }, { days: 1 })).toEqual({ year: 2027, month: 1, day: 1 });
    expect(movedDate({ year: 2026, month: 1, day: 31 }, { months: 1 })).toEqual({ year: 2026, month: 2, day: 28 });
    expect(movedDate({ year: 2026, month: 1, day: 15 }, { months: -1 })).toEqual({ year: 2025, month: 12, day: 15 });
  });
});
