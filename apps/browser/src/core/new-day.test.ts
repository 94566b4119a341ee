import { describe, expect, it } from 'vitest';
import { nextMidsummer, offeredDates } from './new-day.js';

const november = { year: 2026, month: 11, day: 26 };

describe('the day of a new aircraft', () => {
  it('is the next midsummer of its hemisphere where today is far from it', () => {
    expect(offeredDates('40.7 N 0.9 E', november)).toEqual({
      today: november,
      midsummer: { year: 2027, month: 6, day: 21 },
      first: 'midsummer',
    });
    expect(offeredDates('33.9 S 18.4 E', november)).toMatchObject({
      midsummer: { year: 2026, month: 12, day: 21 },
      first: 'today',
    });
    expect(offeredDates('33.9 S 18.4 E', { year: 2027, month: 6, day: 1 }).first).toBe('midsummer');
  });

  it('is today about midsummer, before and after, and in the tropics', () => {
    expect(offeredDates('40.7 N 0.9 E', { year: 2026, month: 7, day: 20 }).first).toBe('today');
    expect(offeredDates('40.7 N 0.9 E', { year: 2026, month: 5, day: 1 }).first).toBe('today');
    expect(offeredDates('3 N 100 E', november).first).toBe('today');
  });

  it('counts midsummer itself as the next one, and takes an unreadable place for a northern one', () => {
    const solstice = { year: 2026, month: 6, day: 21 };
    expect(nextMidsummer(0.7, solstice)).toEqual(solstice);
    expect(offeredDates('somewhere', november).midsummer.month).toBe(6);
  });
});
