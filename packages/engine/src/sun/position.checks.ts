import type { Check } from '../check.js';
import { sunPosition } from './position.js';
import { sunriseSunset } from './rise-set.js';
import { spencerDay } from './spencer.js';

const degree = Math.PI / 180;
const algorithm = 'Reda and Andreas, NREL/TP-560-34302, revised 2008';

interface Case {
  readonly id: string;
  readonly name: string;
  readonly at: Parameters<typeof sunPosition>[0];
  readonly trueZenith: number;
  readonly apparentZenith: number;
  readonly azimuth: number;
  readonly equationOfTime: number;
  readonly distance: number;
  readonly provenance: Check['provenance'];
  readonly source: string;
}

const utc = (year: number, month: number, day: number, hour = 0, minute = 0, second = 0): number =>
  Date.UTC(year, month - 1, day, hour, minute, second) / 1000;

const place = (latitude: number, longitude: number, altitude: number, millibar: number, celsius: number) => ({
  latitude: latitude * degree,
  longitude: longitude * degree,
  altitude,
  pressure: millibar * 100,
  temperature: celsius + 273.15,
});

const recomputed = {
  provenance: 'recomputed from the published formula',
  source: `${algorithm}, algorithm run for this place`,
} as const;

const cases: readonly Case[] = [
  {
    id: 'golden-2003',
    name: '2003-10-17 19:30:30 UTC, 39.742476 N 105.1786 W',
    at: { time: utc(2003, 10, 17, 19, 30, 30), ...place(39.742476, -105.1786, 1830.14, 820, 11) },
    trueZenith: 90 - 39.872046,
    apparentZenith: 50.11162,
    azimuth: 194.340241,
    equationOfTime: 14.64151,
    distance: 0.9965422974,
    provenance: 'published',
    source: `${algorithm}, worked example`,
  },
  {
    id: 'london-2024',
    name: '2024-06-20 12:00 UTC, 51.5 N 0.1 W',
    at: { time: utc(2024, 6, 20, 12), ...place(51.5, -0.1, 20, 1013.25, 15) },
    trueZenith: 28.06629,
    apparentZenith: 28.05741,
    azimuth: 178.97339,
    equationOfTime: -1.7022,
    distance: 1.0161706,
    ...recomputed,
  },
  {
    id: 'zurich-2024',
    name: '2024-06-21 04:30 UTC, 47.38 N 8.54 E',
    at: { time: utc(2024, 6, 21, 4, 30), ...place(47.38, 8.54, 450, 960, 15) },
    trueZenith: 82.0736,
    apparentZenith: 81.97003,
    azimuth: 63.78589,
    equationOfTime: -1.851,
    distance: 1.0162155,
    ...recomputed,
  },
  {
    id: 'sydney-2024',
    name: '2024-12-21 02:00 UTC, 33.87 S 151.21 E',
    at: { time: utc(2024, 12, 21, 2), ...place(-33.87, 151.21, 30, 1013.25, 22) },
    trueZenith: 10.53665,
    apparentZenith: 10.53364,
    azimuth: 351.4958,
    equationOfTime: 1.9191,
    distance: 0.9837491,
    ...recomputed,
  },
];

const positions: readonly Check[] = cases.flatMap((c) => {
  const common = { topic: 'sun', provenance: c.provenance, source: c.source, calls: 'sunPosition' };
  const angle = (quantity: string, key: 'trueZenith' | 'apparentZenith' | 'azimuth', why: string): Check => ({
    ...common,
    id: `sun-${key === 'trueZenith' ? 'true-zenith' : key === 'apparentZenith' ? 'apparent-zenith' : 'azimuth'}-${c.id}`,
    quantity: `${quantity}, ${c.name}`,
    expected: c[key],
    unit: 'deg',
    tolerance: key === 'azimuth' ? 0.002 : 0.0005,
    why,
    compute: () => sunPosition(c.at)[key] / degree,
  });
  return [
    angle('true zenith angle', 'trueZenith', 'shortened series: 0.0006 at most'),
    angle('apparent zenith angle', 'apparentZenith', 'shortened series: 0.0006 at most; same refraction formula'),
    angle('azimuth', 'azimuth', 'position wanted to 0.002'),
    {
      ...common,
      id: `sun-equation-of-time-${c.id}`,
      quantity: `equation of time, ${c.name}`,
      expected: c.equationOfTime,
      unit: 'min',
      tolerance: 0.002,
      why: '0.0005 deg of right ascension is 0.002 min',
      compute: () => sunPosition(c.at).equationOfTime / 60,
    },
    {
      ...common,
      id: `sun-distance-${c.id}`,
      quantity: `distance, ${c.name}`,
      expected: c.distance,
      unit: 'AU',
      tolerance: 1e-5,
      why: 'changes the irradiance by 0.002 %',
      compute: () => sunPosition(c.at).distance,
    },
  ];
});

/** Seconds after local midnight from hours, minutes, seconds. */
const clock = (hours: number, minutes: number, seconds = 0): number => hours * 3600 + minutes * 60 + seconds;

interface DayRow {
  readonly id: string;
  readonly name: string;
  readonly day: number;
  readonly latitude: number;
  readonly longitude: number;
  /** Of the local clock from UTC [h] */
  readonly zone: number;
  readonly sunrise: number;
  readonly sunset: number;
  readonly tolerance: number;
  readonly why: string;
  readonly source: string;
}

const wholeSeconds = {
  tolerance: 2,
  why: 'printed to 1 s; the source leaves out the parallax of the sun (0.8 s here)',
  source: `${algorithm}, sunrise and sunset table`,
};
const wholeMinutes = {
  tolerance: 45,
  why: 'printed to whole minutes (30 s), other refraction at the horizon',
  source: 'U.S. Naval Observatory, tables of sunrise and sunset for 2015',
};
const colorado = { latitude: 39, longitude: -105, zone: -7 };

const days: readonly DayRow[] = [
  {
    id: 'south-1996',
    name: '35 S 0 E, 1996-07-05',
    day: utc(1996, 7, 5),
    latitude: -35,
    longitude: 0,
    zone: 0,
    sunrise: clock(7, 8, 15),
    sunset: clock(17, 1, 4),
    ...wholeSeconds,
  },
  {
    id: 'south-2004',
    name: '35 S 0 E, 2004-12-04',
    day: utc(2004, 12, 4),
    latitude: -35,
    longitude: 0,
    zone: 0,
    sunrise: clock(4, 38, 57),
    sunset: clock(19, 2, 2),
    ...wholeSeconds,
  },
  {
    id: 'north-1994',
    name: '35 N 0 E, 1994-01-02',
    day: utc(1994, 1, 2),
    latitude: 35,
    longitude: 0,
    zone: 0,
    sunrise: clock(7, 8, 12),
    sunset: clock(16, 59, 55),
    ...wholeSeconds,
  },
  {
    id: 'colorado-january',
    name: '39 N 105 W, 2015-01-02',
    day: utc(2015, 1, 2),
    ...colorado,
    sunrise: clock(7, 19),
    sunset: clock(16, 49),
    ...wholeMinutes,
  },
  {
    id: 'colorado-april',
    name: '39 N 105 W, 2015-04-02',
    day: utc(2015, 4, 2),
    ...colorado,
    sunrise: clock(5, 43),
    sunset: clock(18, 24),
    ...wholeMinutes,
  },
  {
    id: 'colorado-august',
    name: '39 N 105 W, 2015-08-02',
    day: utc(2015, 8, 2),
    ...colorado,
    sunrise: clock(5, 1),
    sunset: clock(19, 10),
    ...wholeMinutes,
  },
  {
    id: 'colorado-december',
    name: '39 N 105 W, 2015-12-02',
    day: utc(2015, 12, 2),
    ...colorado,
    sunrise: clock(7, 1),
    sunset: clock(16, 38),
    ...wholeMinutes,
  },
];

/** Seconds after local midnight of a rise, set or transit. */
function event(
  row: Pick<DayRow, 'day' | 'latitude' | 'longitude' | 'zone'>,
  which: 'sunrise' | 'sunset' | 'transit',
): number {
  const dayStart = row.day - row.zone * 3600;
  const daylight = sunriseSunset({ dayStart, latitude: row.latitude * degree, longitude: row.longitude * degree });
  return daylight.kind === 'rises and sets' ? daylight[which] - dayStart : Number.POSITIVE_INFINITY;
}

const riseAndSet: readonly Check[] = days.flatMap((row) =>
  (['sunrise', 'sunset'] as const).map((which) => ({
    id: `sun-${which}-${row.id}`,
    topic: 'sun',
    quantity: `${which} after local midnight, ${row.name}`,
    expected: row[which],
    unit: 's',
    tolerance: row.tolerance,
    why: row.why,
    provenance: 'published' as const,
    source: row.source,
    calls: 'sunriseSunset',
    compute: () => event(row, which),
  })),
);

const golden = { day: utc(2003, 10, 17), latitude: 39.742476, longitude: -105.1786, zone: -7 };

const workedExample: readonly Check[] = [
  {
    id: 'sun-transit-golden-2003',
    topic: 'sun',
    quantity: 'transit after local midnight, 39.742476 N 105.1786 W, 2003-10-17',
    expected: clock(11, 46, 4.96),
    unit: 's',
    tolerance: 0.2,
    why: '0.0005 deg of hour angle is 0.1 s',
    provenance: 'recomputed from the published formula',
    source: `${algorithm}, appendix A.2`,
    calls: 'sunriseSunset',
    compute: () => event(golden, 'transit'),
  },
  {
    id: 'sun-sunset-golden-2003',
    topic: 'sun',
    quantity: 'sunset after local midnight, 39.742476 N 105.1786 W, 2003-10-17',
    expected: clock(17, 18, 51),
    unit: 's',
    tolerance: 5,
    // The example prints 17:20:19, the sunset of 16 October local time, the only one within its UTC day.
    why: 'position at that instant; the printed 17:20:19 belongs to the evening before',
    provenance: 'recomputed from the published formula',
    source: `${algorithm}, position algorithm solved for -0.83337 deg`,
    calls: 'sunriseSunset',
    compute: () => event(golden, 'sunset'),
  },
];

const spencer: readonly Check[] = (
  [
    [1, 1.03505, -2.92, -23.059],
    [80, 1.0079, -7.874, -0.066],
    [172, 0.967443, -1.344, 23.452],
    [300, 1.012837, 16.163, -12.522],
  ] as const
).flatMap(([day, factor, minutes, declination]) => {
  const common = {
    topic: 'sun',
    why: 'rounded in the last digit',
    provenance: 'recomputed from the published formula' as const,
    source: 'Spencer, Search 2, 1971',
    calls: 'spencerDay',
  };
  return [
    {
      ...common,
      id: `spencer-distance-${day}`,
      quantity: `distance factor, day ${day}`,
      expected: factor,
      unit: '-',
      tolerance: 1e-6,
      compute: () => spencerDay(day).distanceFactor,
    },
    {
      ...common,
      id: `spencer-equation-of-time-${day}`,
      quantity: `equation of time, day ${day}`,
      expected: minutes,
      unit: 'min',
      tolerance: 6e-4,
      compute: () => spencerDay(day).equationOfTime / 60,
    },
    {
      ...common,
      id: `spencer-declination-${day}`,
      quantity: `declination, day ${day}`,
      expected: declination,
      unit: 'deg',
      tolerance: 6e-4,
      compute: () => spencerDay(day).declination / degree,
    },
  ];
});

const amsterdam: readonly Check[] = (
  [
    [5, 0, 0.2122],
    [5, 30, 0.28511],
    [6, 0, 0.35852],
  ] as const
).map(([hour, minute, expected]) => ({
  id: `sun-height-amsterdam-${hour}${minute === 0 ? '00' : minute}`,
  topic: 'sun',
  quantity: `sine of the true elevation, 52.30 N 4.77 E, 1996-06-17 0${hour}:${minute === 0 ? '00' : minute} UTC`,
  expected,
  unit: '-',
  tolerance: 1e-5,
  why: 'rounded in the fifth decimal; 0.0003 deg',
  ...recomputed,
  calls: 'sunPosition',
  compute: () =>
    Math.cos(sunPosition({ time: utc(1996, 6, 17, hour, minute), ...place(52.3, 4.77, 0, 1013.25, 15) }).trueZenith),
}));

/** External checks of the sun's position. */
export const positionChecks: readonly Check[] = [
  ...positions,
  ...riseAndSet,
  ...workedExample,
  ...amsterdam,
  ...spencer,
];
