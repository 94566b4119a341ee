import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseWeather } from './weather.js';

const degree = Math.PI / 180;

/** Elevation of the sun at Amsterdam, without refraction [rad]. */
const sunElevation = (instant: number) => {
  const place = new Observer(52.3, 4.77, 0);
  const equator = Equator(Body.Sun, new Date(instant), place, true, true);
  return Horizon(new Date(instant), place, equator.ra, equator.dec).altitude * degree;
};

const heads = (
  location = 'LOCATION,Amsterdam,-,NLD,IWEC Data,062400,52.30,4.77,1.0,-2.0',
  periods = 'DATA PERIODS,1,1,Data,Sunday,1/1,12/31',
) => [
  location,
  'DESIGN CONDITIONS,0',
  'TYPICAL/EXTREME PERIODS,0',
  'GROUND TEMPERATURES,0',
  'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0',
  'COMMENTS 1,invented but for the row named in the test',
  'COMMENTS 2,',
  periods,
];

/** One row; fields by their number in the format's description. */
const row = (stamp: string, fields: Readonly<Record<number, string>> = {}) => {
  const usual: Record<number, string> = {
    7: '14.0',
    8: '10.0',
    9: '77',
    10: '102000',
    13: '320',
    14: '0',
    15: '0',
    16: '0',
    21: '250',
    22: '3.6',
    23: '6',
    24: '4',
  };
  const cells = Array.from({ length: 30 }, (_, at) => fields[at + 6] ?? usual[at + 6] ?? '0');
  return `${stamp},${cells.join(',')}`;
};

const read = (rows: readonly string[], head = heads()) => {
  const outcome = parseWeather([...head, ...rows].join('\n'));
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome;
};

describe('parseWeather', () => {
  it('reads the place', () => {
    const { station } = read([row('1996,6,17,7,60')]).value;
    expect(station).toMatchObject({
      city: 'Amsterdam',
      country: 'NLD',
      source: 'IWEC Data',
      zone: 3600,
      elevation: -2,
    });
    expect(station.latitude / degree).toBeCloseTo(52.3, 12);
    expect(station.longitude / degree).toBeCloseTo(4.77, 12);
  });

  it('reads a row and gives the middle of its hour, at which the sun stands as its light says', () => {
    // Row of 17 June 1996, hour 7, as published in the IWEC file of Amsterdam: global 164, beam 203, diffuse 107 Wh/m2.
    const light = { 11: '378', 12: '1323', 14: '164', 15: '203', 16: '107' };
    const [interval] = read([row('1996,6,17,7,60', light)]).value.intervals;
    expect(interval).toMatchObject({
      year: 1996,
      month: 6,
      day: 17,
      globalHorizontal: 164,
      directNormal: 203,
      diffuseHorizontal: 107,
      temperature: 287.15,
      dewPoint: 283.15,
      relativeHumidity: 0.77,
      pressure: 102_000,
      windSpeed: 3.6,
    });
    expect(interval!.windDirection! / degree).toBeCloseTo(250, 12);
    expect(interval!.totalCover).toBeCloseTo(0.6, 12);
    const day = 31 + 28 + 31 + 30 + 31 + 16;
    expect(interval!.middle).toBe((day * 24 + 6.5) * 3600);
    // The row's own extraterrestrial values give the sine of the sun's elevation; an independent solar position (astronomy-engine)
    // must agree at the middle of the hour. Tolerance: half a unit of 378; half an hour off would be 0.07.
    const instant = Date.UTC(1996, 5, 17) + ((interval!.middle % 86_400) - 3600) * 1000;
    expect(Math.sin(sunElevation(instant))).toBeCloseTo(378 / 1323, 2);
  });

  it('takes minute 0 and minute 60 for the same hour', () => {
    const { intervals } = read([row('1996,1,1,1,0'), row('1996,1,1,1,60'), row('1996,12,31,24,60')]).value;
    expect(intervals.map((one) => one.middle)).toEqual([1800, 1800, (8760 - 0.5) * 3600]);
  });

  it('turns energy to power where the file has several intervals an hour', () => {
    const head = heads(undefined, 'DATA PERIODS,1,4,Data,Sunday,1/1,12/31');
    const outcome = read([row('1996,6,17,7,15', { 14: '50', 15: '60', 16: '20' }), row('1996,6,17,7,60')], head);
    expect(outcome.value.interval).toBe(900);
    expect(outcome.value.intervals[0]).toMatchObject({
      globalHorizontal: 200,
      directNormal: 240,
      diffuseHorizontal: 80,
    });
    const [first, second] = outcome.value.intervals;
    expect(second!.middle - first!.middle).toBe(2700);
    expect(second!.middle % 3600).toBe(3600 - 450);
  });

  it('leaves out what is missing: at or above the code; beam and diffuse light count as 0', () => {
    const missing = {
      7: '99.9',
      8: '99.9',
      9: '999',
      10: '999999',
      13: '9999',
      14: '9999',
      15: '9999',
      16: '-0.00',
      21: '999',
      22: '999',
      23: '99',
      24: '99',
      30: '.999',
      33: '999',
    };
    const [interval] = read([row('1996,6,17,7,60', missing)]).value.intervals;
    expect(Object.keys(interval!).sort()).toEqual([
      'day',
      'diffuseHorizontal',
      'directNormal',
      'middle',
      'month',
      'year',
    ]);
    expect(interval).toMatchObject({ directNormal: 0, diffuseHorizontal: 0 });
    const above = read([row('1996,6,17,7,60', { 9: '1000', 14: '99999', 15: '-3' })]).value.intervals[0];
    expect(above).toMatchObject({ directNormal: 0 });
    expect(above).not.toHaveProperty('relativeHumidity');
    expect(above).not.toHaveProperty('globalHorizontal');
  });

  it('reads aerosol optical depth plain and in thousandths', () => {
    const depth = (text: string) => read([row('1996,6,17,7,60', { 30: text })]).value.intervals[0]!.aerosolOpticalDepth;
    expect(depth('0.2440')).toBe(0.244);
    expect(depth('244')).toBe(0.244);
    expect(depth('999')).toBeUndefined();
  });

  it('passes over rows that are none and says so', () => {
    const rows = [
      row('1996,6,17,7,60'),
      'rubbish',
      row('1996,13,1,1,60'),
      row('1996,2,30,1,60'),
      row('1996,1,1,25,60'),
      '1996,1,1,1,60,x',
    ];
    const outcome = read(rows);
    expect(outcome.value.intervals).toHaveLength(1);
    const unreadable = outcome.warnings.find((warning) => warning.code === 'unreadable row');
    expect(unreadable).toMatchObject({ where: 'line 10', message: expect.stringContaining('5 such places') });
    expect(outcome.warnings.map((warning) => warning.code)).toContain('not a year');
  });

  it('accepts a whole year, also with a leap day, without warning', () => {
    const days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    const year = (february: number) =>
      days.flatMap((count, month) =>
        Array.from({ length: month === 1 ? february : count }, (_, day) => day).flatMap((day) =>
          Array.from({ length: 24 }, (_, hour) => row(`2003,${month + 1},${day + 1},${hour + 1},0`)),
        ),
      );
    expect(read(year(28)).warnings).toEqual([]);
    expect(read(year(29)).warnings).toEqual([]);
    const middles = read(year(28)).value.intervals.map((one) => one.middle);
    expect(middles.every((middle, at) => middle === (at + 0.5) * 3600)).toBe(true);
  });

  it.each([
    ['an empty file', ''],
    ['another format', 'a,b\n1,2'],
    ['a place that is none', heads('LOCATION,x,-,y,z,0,152.30,4.77,1.0,-2.0').join('\n')],
    ['heads only', heads().join('\n')],
  ])('refuses %s with reason and remedy', (_, text) => {
    const outcome = parseWeather(text);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.remedy).not.toBe('');
  });

  it('never throws and never gives a number that is not finite', () => {
    const field = fastCheck.oneof(
      fastCheck.constantFrom('', '-', 'NaN', 'Infinity', '1e400', '0x10', '999'),
      fastCheck.integer().map(String),
    );
    const line = fastCheck.array(field, { maxLength: 40 }).map((fields) => fields.join(','));
    fastCheck.assert(
      fastCheck.property(
        fastCheck.array(line, { maxLength: 5 }),
        fastCheck.array(field, { minLength: 30, maxLength: 30 }),
        (lines, fields) => {
          const outcome = parseWeather([...heads(), ...lines, `1996,6,17,7,60,${fields.join(',')}`].join('\n'));
          if (!outcome.ok) throw new Error(outcome.reason);
          for (const interval of outcome.value.intervals)
            expect(Object.values(interval).every(Number.isFinite)).toBe(true);
        },
      ),
    );
  });
});
