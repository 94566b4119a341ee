import fastCheck from 'fast-check';
import { expect, it } from 'vitest';
import { cursorAt, cursorStep, cursorText, pointedAt } from './cursor.js';
import { powerAgainstAirspeed, tableCsv, theDay } from './index.js';
import { dayOfYearText, hourText, latitudeText, numberText, shareText, withUnit } from './number.js';
import { domainOf, interpolated, positionOn, scaleOf, valueOn } from './scale.js';
import { day, power } from './testing/fixtures.js';

it('reads every curve at an hour, with words', () => {
  const readings = cursorAt(theDay(day), 13.75);
  expect(readings.map(({ text }) => text)).toEqual([
    expect.stringMatching(/^sunlight on the level 9\d\d W\/m2$/),
    expect.stringMatching(/^income, clear 7\d\.\d W$/),
    expect.stringMatching(/^income, thin cloud 6\d\.\d W$/),
    expect.stringMatching(/^income, broken \d\d\.\d W$/),
    'need 43.1 W',
  ]);
});

it('reads between points linearly and nothing beyond the ends', () => {
  const drawing = theDay({
    ...day,
    hours: [8, 10],
    skies: [{ id: 'a', name: 'a', income: [10, 30], windows: [] }],
    need: [20, 40],
  });
  const [income] = cursorAt(drawing, 9.5).filter(({ id }) => id === 'a');
  expect(income?.value).toBeCloseTo(25, 12);
  expect(cursorAt(drawing, 7.9)).toEqual([]);
  expect(cursorAt(drawing, Number.NaN)).toEqual([]);
  expect(cursorAt(drawing, 9, 'no such scale')).toEqual([]);
});

it('parts and total of level power agree at the cursor', () => {
  const readings = cursorAt(powerAgainstAirspeed(power), 8.35);
  const total = readings.find(({ id }) => id === 'level power')!.value;
  const parts = readings.filter(({ id }) => id.startsWith('part ')).reduce((sum, { value }) => sum + value, 0);
  expect(parts).toBeCloseTo(total, 9);
});

it('a point of the drawing gives the hour there', () => {
  const drawing = theDay(day, { width: 900 });
  const x = drawing.scales.find(({ id }) => id === 'x')!;
  const y = drawing.scales.find(({ id }) => id === 'y')!;
  const pointed = pointedAt(drawing, { x: positionOn(x, 12), y: positionOn(y, 20) });
  expect(pointed?.scale).toBe('x');
  expect(pointed?.x).toBeCloseTo(12, 9);
  expect(pointedAt(drawing, { x: 1, y: 1 })).toBeUndefined();
});

it('keys move by plain steps and stay inside', () => {
  const hours = scaleOf({ id: 'x', kind: 'hour', label: 'hour', unit: '', domain: [4, 22], range: [0, 100] }).plain;
  expect(cursorStep(hours, 11.25, 1)).toBeCloseTo(11 + 20 / 60, 9);
  expect(cursorStep(hours, 22, 5)).toBe(22);
  expect(cursorText(hours, 11.25)).toBe('11:15');
  const speeds = scaleOf({ id: 'x', label: 'airspeed', unit: 'm/s', domain: [6, 14], range: [0, 100] }).plain;
  expect(cursorStep(speeds, 8.4, -1)).toBeCloseTo(8.3, 9);
  expect(cursorText(speeds, 8.4)).toBe('8.4 m/s');
});

it('a scale and its inverse', () => {
  const finite = fastCheck.double({ min: -1e6, max: 1e6, noNaN: true });
  const property = fastCheck.property(finite, finite, finite, (a, b, value) => {
    const domain = domainOf([a, b]);
    expect(domain[1]).toBeGreaterThan(domain[0]);
    const { plain } = scaleOf({ id: 'x', label: '', unit: '', domain, range: [10, 500] });
    const back = valueOn(plain, positionOn(plain, value));
    expect(Math.abs(back - value)).toBeLessThan(1e-6 * (1 + Math.abs(value) + Math.abs(a) + Math.abs(b)));
  });
  fastCheck.assert(property);
});

it('a domain always has a width', () => {
  expect(domainOf([])).toEqual([0, 1]);
  expect(domainOf([Number.NaN, undefined, 1e300])).toEqual([0, 1]);
  expect(domainOf([0])).toEqual([0, 1]);
  expect(domainOf([5, 5])).toEqual([4.5, 5.5]);
  expect(domainOf([3, 7], true)).toEqual([0, 7]);
});

it('interpolation at and between points', () => {
  const points = [
    [0, 0],
    [2, 4],
    [3, 4],
  ] as const;
  expect([0, 1, 2, 2.5, 3].map((x) => interpolated(points, x))).toEqual([0, 2, 4, 4, 4]);
  expect(interpolated(points, -0.1)).toBeUndefined();
  expect(interpolated([], 1)).toBeUndefined();
});

it('numbers, hours, dates, shares in words', () => {
  expect([0, 43.1, 0.0345678, 1234.6, -2].map((n) => numberText(n))).toEqual(['0', '43.1', '0.035', '1235', '-2']);
  expect(numberText(-0.001, 1)).toBe('0.0');
  expect(withUnit(Number.NaN, { unit: 'W' })).toBe('not known');
  expect([9.75, 0, 26.5, -0.5, 23.9999].map(hourText)).toEqual([
    '09:45',
    '00:00',
    '02:30 +1 d',
    '23:30 -1 d',
    '00:00 +1 d',
  ]);
  expect([1, 59, 60, 172, 365, 366].map(dayOfYearText)).toEqual([
    '1 Jan',
    '28 Feb',
    '1 Mar',
    '21 Jun',
    '31 Dec',
    '1 Jan',
  ]);
  expect([40.7, -33.9, 0].map(latitudeText)).toEqual(['40.7° N', '33.9° S', '0°']);
  expect([0, 0.0004, 0.052, 0.413].map(shareText)).toEqual(['0 %', 'below 0.1 %', '5.2 %', '41 %']);
});

it('CSV: units in the heads, quotes doubled, no formula from a name', () => {
  const columns = [
    { key: 'a', label: 'item', unit: '' },
    { key: 'b', label: 'mass', unit: 'g' },
  ];
  const rows = [{ a: 'motor, "big"', b: 62 }, { a: '=1+1' }];
  expect(tableCsv({ columns, rows })).toBe('item,mass [g]\r\n"motor, ""big""",62\r\n\'=1+1,\r\n');
});
