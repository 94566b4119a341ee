import { parseQuantity, QUANTITY_KINDS } from '@noonwing/quantities';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOnDay, clockText, dateText, isoText } from './clock.js';
import { jsonBand, jsonQuantity, jsonSeries } from './json.js';
import { bandText, durationBand, durationText, percent } from './numbers.js';
import { tableLines, wrapped } from './table.js';

const hour = 3600;

describe('numbers', () => {
  it('writes a band with the digits that its width deserves', () => {
    expect(bandText({ value: 17.72, low: 15.1, high: 21.7 }, 'power')).toBe('17.7 W (15.1 to 21.7 W)');
    expect(bandText({ value: 53.1, low: 30, high: 75 }, 'power')).toBe('53 W (30 to 75 W)');
    expect(bandText({ value: 2, low: 2, high: 2 }, 'ratio')).toBe('2.00');
    expect(bandText({ value: 0.05, low: 0.049, high: 0.052 }, 'ratio', { unit: '%', mostDecimals: 0 })).toBe('5 %');
  });
  it('has both ends about the value, as read back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 5000, noNaN: true }),
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        (value, spread) => {
          const text = bandText({ value, low: value * (1 - spread), high: value * (1 + spread) }, 'power', {
            unit: 'W',
          });
          const [middle, low, high] = [...text.matchAll(/[\d.]+/g)].map(Number);
          expect(low).toBeLessThanOrEqual(middle!);
          expect(high).toBeGreaterThanOrEqual(middle!);
          // A tenth of the half-width is what two digits of it keep; three digits of the value where that is coarser.
          expect(Math.abs(middle! - value)).toBeLessThanOrEqual(Math.max(0.06 * spread * value, 0.0051 * value));
        },
      ),
    );
  });
  it('writes durations in hours and minutes', () => {
    expect(durationText(8.95 * hour)).toBe('8 h 57 min');
    expect(durationText(2100)).toBe('35 min');
    expect(durationText(3599)).toBe('1 h');
    expect(durationBand({ value: 9 * hour, low: 7.7 * hour, high: 9.8 * hour })).toBe('9.0 h (7.7 to 9.8 h)');
    expect(durationBand({ value: 1800, low: 0, high: 3000 })).toBe('30 min (0 to 50 min)');
    expect(percent(0.873)).toBe('87 %');
  });
});

describe('data', () => {
  it('reads back to the same value in every kind', () => {
    const kinds = QUANTITY_KINDS.filter((kind) => kind !== 'instant');
    fc.assert(
      fc.property(fc.constantFrom(...kinds), fc.integer({ min: 1, max: 9999 }), (kind, value) => {
        const { value: number, unit } = jsonQuantity(value, kind);
        const read = parseQuantity(`${number} ${unit === '1' ? '' : unit}`.trim(), kind);
        expect(read).toMatchObject({ ok: true });
        if (read.ok) expect(read.value).toBeCloseTo(value, 6);
      }),
    );
  });
  it('gives ratios the unit 1, temperatures degrees Celsius with spreads in the same size', () => {
    expect(jsonQuantity(0.5, 'ratio', 0.1)).toEqual({ value: 0.5, unit: '1', uncertainty: 0.1 });
    expect(jsonQuantity(298.15, 'temperature', 2)).toEqual({ value: 25, unit: 'degC', uncertainty: 2 });
    expect(jsonBand({ value: hour, low: 0, high: 2 * hour }, 'time')).toEqual({
      value: 3600,
      unit: 's',
      low: 0,
      high: 7200,
    });
    expect(jsonSeries([0, Math.PI], 'angle')).toEqual({ unit: 'deg', values: [0, 180] });
  });
  it('refuses what is not finite', () => {
    expect(() => jsonQuantity(Number.NaN, 'power')).toThrow(RangeError);
    expect(() => jsonQuantity(Number.POSITIVE_INFINITY, 'power')).toThrow(RangeError);
  });
});

describe('tables and text', () => {
  it('aligns numbers right and words left', () => {
    expect(
      tableLines({
        head: ['item', 'W'],
        rows: [
          ['a', '9.5'],
          ['bb', '10.0'],
          ['c', 'empty'],
        ],
      }),
    ).toEqual(['  item      W', '  a       9.5', '  bb     10.0', '  c     empty']);
    expect(tableLines({ rows: [] })).toEqual([]);
  });
  it('wraps without losing a word', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1, maxLength: 40 }), (words) => {
        const lines = wrapped(words.join(' '), 30);
        expect(lines.join(' ').trim().split(/\s+/)).toEqual(words);
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(30);
      }),
    );
  });
});

describe('clock', () => {
  const midnight = Date.UTC(2026, 5, 21) / 1000 - 2 * hour;
  it('shows the clock of the place, and the day where it is another', () => {
    expect(clockText(midnight + 9.5 * hour, 2 * hour)).toBe('09:30');
    expect(clockOnDay(midnight + 9.5 * hour, 2 * hour, midnight)).toBe('09:30');
    expect(clockOnDay(midnight + 26 * hour, 2 * hour, midnight)).toBe('02:00 on 22 June');
    expect(isoText(midnight + 9.5 * hour, 2 * hour)).toBe('2026-06-21T09:30+02:00');
    expect(dateText({ year: 2026, month: 6, day: 21 })).toBe('Sunday 21 June 2026');
  });
  it('names the same instant whatever the clock', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4_000_000 }), fc.integer({ min: -48, max: 56 }), (minutes, quarters) => {
        expect(Date.parse(isoText(minutes * 60, quarters * 900)) / 1000).toBe(minutes * 60);
      }),
    );
  });
});
