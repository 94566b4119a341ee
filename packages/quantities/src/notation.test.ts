import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDate, formatTimeOfDay, parseDate, parseInstant, parseTimeOfDay, parseZoneOffset } from './date.js';
import { editDistance, nearest } from './nearest.js';
import { formatPackLayout, parsePackLayout, parsePropellerSize } from './trade.js';

describe('dates and times', () => {
  it('reads dates of the calendar and no others', () => {
    expect(parseDate('2028-02-29')).toEqual({ ok: true, year: 2028, month: 2, day: 29 });
    expect(parseDate('2026-02-29').ok).toBe(false);
    expect(parseDate('2026-13-01').ok).toBe(false);
    expect(parseDate('0026-06-21').ok).toBe(false);
  });

  it('offers the readings of other orders', () => {
    expect(parseDate('21.6.2026')).toMatchObject({ ok: false, hint: 'write "2026-06-21"' });
    expect(parseDate('6/21/2026')).toMatchObject({ ok: false, hint: 'write "2026-06-21"' });
    const either = parseDate('3/4/2026');
    expect(either.ok ? '' : either.hint).toMatch(/2026-04-03.*2026-03-04/);
  });

  it('reads every day it writes', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('1901-01-01'), max: new Date('2199-12-31'), noInvalidDate: true }),
        (when) => {
          const date = { year: when.getUTCFullYear(), month: when.getUTCMonth() + 1, day: when.getUTCDate() };
          expect(parseDate(formatDate(date))).toEqual({ ok: true, ...date });
        },
      ),
    );
  });

  it.each([
    ['09:50', 35400],
    ['9:05', 32700],
    ['24:00', 86400],
    ['00:00:30', 30],
  ])('%s is %d s after midnight', (text, seconds) => {
    expect(parseTimeOfDay(text)).toEqual({ ok: true, seconds });
  });

  it.each(['25:00', '9:60', '950', '24:01', ''])('refuses the time "%s"', (text) =>
    expect(parseTimeOfDay(text).ok).toBe(false),
  );

  it('writes times to the minute', () => {
    expect(formatTimeOfDay(35400)).toBe('09:50');
    expect(formatTimeOfDay(35431)).toBe('09:51');
  });

  it.each([
    ['UTC', 0],
    ['Z', 0],
    ['+02:00', 7200],
    ['UTC+2', 7200],
    ['-5 h', -18000],
    ['+05:30', 19800],
    ['−0330', -12600],
  ])('offset %s', (text, seconds) => expect(parseZoneOffset(text)).toEqual({ ok: true, seconds }));

  it.each(['+15:00', 'CEST', '2', ''])('refuses the offset "%s"', (text) =>
    expect(parseZoneOffset(text).ok).toBe(false),
  );

  it('needs to know the clock of an instant', () => {
    expect(parseInstant('2026-06-21 12:00 +02:00')).toEqual({ ok: true, seconds: Date.UTC(2026, 5, 21, 10) / 1000 });
    const bare = parseInstant('2026-06-21T12:00');
    expect(bare.ok ? '' : bare.hint).toContain('which clock');
  });
});

describe('notations of the trade', () => {
  it.each([
    ['10x6 in', 0.254, 0.1524],
    ['10 × 4.7 in', 0.254, 0.11938],
    ['254x152 mm', 0.254, 0.152],
    ['10 in x 6 in', 0.254, 0.1524],
    ['10x4,7 in', 0.254, 0.11938],
  ])('propeller %s', (text, diameter, pitch) => {
    const size = parsePropellerSize(text);
    expect(size.ok && size.diameter).toBeCloseTo(diameter, 9);
    expect(size.ok && size.pitch).toBeCloseTo(pitch, 9);
  });

  it.each(['10x6', '10 in', '10 in x 6 mm', '-10x6 in', 'x', '10x6 kg', '900x6 in'])(
    'refuses the propeller "%s"',
    (text) => expect(parsePropellerSize(text).ok).toBe(false),
  );

  it.each([
    ['4S2P', 4, 2],
    ['3s', 3, 1],
    ['6S 1P', 6, 1],
  ])('pack %s', (text, series, parallel) => expect(parsePackLayout(text)).toEqual({ ok: true, series, parallel }));

  it.each(['0S1P', '4P', '4S0P', '', '4S2', '2P4S'])('refuses the pack "%s"', (text) =>
    expect(parsePackLayout(text).ok).toBe(false),
  );

  it('reads the pack it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 1, max: 999 }), (series, parallel) => {
        expect(parsePackLayout(formatPackLayout({ series, parallel }))).toEqual({ ok: true, series, parallel });
      }),
    );
  });
});

describe('nearest word', () => {
  it('counts a swap of neighbours once (Damerau 1964)', () => {
    expect(editDistance('chrod', 'chord')).toBe(1);
    expect(editDistance('', 'abc')).toBe(3);
    expect(editDistance('kitten', 'sitting')).toBe(3);
  });

  it('is symmetric, zero only for the same word, and no longer than the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });

  it('finds what was meant and gives up on what is far', () => {
    expect(nearest('layuot', ['layout', 'mass', 'capacity'])).toBe('layout');
    expect(nearest('MM', ['mm', 'm'])).toBe('mm');
    expect(nearest('xylophone', ['mm', 'm'])).toBeUndefined();
    expect(nearest('a', [])).toBeUndefined();
  });
});
