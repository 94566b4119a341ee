import type { FileOutcome, WarningList } from './outcome.js';
import { readAs, refused, warningList } from './outcome.js';
import { fileText } from './text.js';

/** One interval of a weather file. What the file marks as missing is absent; missing or negative beam and diffuse light count as 0. */
export interface WeatherInterval {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  /** Middle of the interval, in local standard time since the beginning of 1 January of a year of 365 days [s]. */
  readonly middle: number;
  /** Air temperature [K]. */
  readonly temperature?: number;
  /** [K] */
  readonly dewPoint?: number;
  /** 0 to 1 [-] */
  readonly relativeHumidity?: number;
  /** At the station [Pa]. */
  readonly pressure?: number;
  /** Heat radiation of the sky on a level surface [W/m2]. */
  readonly skyRadiation?: number;
  /** Mean over the interval, on a level surface [W/m2]. */
  readonly globalHorizontal?: number;
  /** Mean over the interval, facing the sun [W/m2]. */
  readonly directNormal: number;
  /** Mean over the interval, on a level surface [W/m2]. */
  readonly diffuseHorizontal: number;
  /** Where the wind comes from, clockwise from north [rad]. */
  readonly windDirection?: number;
  /** [m/s] */
  readonly windSpeed?: number;
  /** Part of the sky that is covered, 0 to 1 [-]. */
  readonly totalCover?: number;
  /** Part of the sky that is hidden, 0 to 1 [-]. */
  readonly opaqueCover?: number;
  /** [-] */
  readonly aerosolOpticalDepth?: number;
  /** Of the ground, 0 to 1 [-]. */
  readonly albedo?: number;
}

export interface WeatherStation {
  readonly city: string;
  readonly country: string;
  /** Whose data these are, as the file says. */
  readonly source: string;
  /** North positive [rad]. */
  readonly latitude: number;
  /** East positive [rad]. */
  readonly longitude: number;
  /** Local standard time ahead of UTC [s]. */
  readonly zone: number;
  /** Above sea level [m]. */
  readonly elevation: number;
}

export interface WeatherYear {
  readonly station: WeatherStation;
  /** Length of each interval [s]. */
  readonly interval: number;
  readonly intervals: readonly WeatherInterval[];
}

const degree = Math.PI / 180;
const zeroCelsius = 273.15;
const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
const daysIn = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Fields up to the sky cover; what follows may be missing. */
const fewestFields = 24;

const finite = (text: string | undefined): number | undefined => {
  const plain = (text ?? '').trim();
  const value = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(plain) ? Number(plain) : Number.NaN;
  return Number.isFinite(value) ? value : undefined;
};

function readStation(line: string | undefined): WeatherStation | undefined {
  const fields = (line ?? '').split(',').map((field) => field.trim());
  if (fields[0]?.toUpperCase() !== 'LOCATION') return undefined;
  const [latitude, longitude, zone, elevation] = [6, 7, 8, 9].map((at) => finite(fields[at]));
  if (latitude === undefined || longitude === undefined || zone === undefined) return undefined;
  if (Math.abs(latitude) > 90 || Math.abs(longitude) > 180 || Math.abs(zone) > 14) return undefined;
  return {
    city: fields[1] ?? '',
    country: fields[3] ?? '',
    source: fields[4] ?? '',
    latitude: latitude * degree,
    longitude: longitude * degree,
    zone: zone * 3600,
    elevation: elevation ?? 0,
  };
}

/** Aerosol optical depth: real files write it plain (0.2440), the format's description in thousandths. */
function opticalDepth(value: number | undefined): number | undefined {
  if (value === undefined || value < 0 || value === 0.999 || value >= 999) return undefined;
  return value < 3 ? value : value / 1000;
}

/** Fields that are absent are left out, so that no interval holds `undefined`. */
function present<T extends object>(fields: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

/**
 * Time of an interval's middle since 1 January, local standard time [s], or undefined where the date is none.
 * Light is summed over the interval before the stamp, so the sun of its middle belongs to it.
 */
function middleOf(fields: readonly string[], perHour: number): number | undefined {
  const [month, day, hour, minute] = [1, 2, 3, 4].map((at) => finite(fields[at]));
  if (month === undefined || day === undefined || hour === undefined) return undefined;
  const isDate = daysIn[month - 1] !== undefined && Number.isInteger(day) && day >= 1 && day <= daysIn[month - 1]!;
  if (!isDate || !Number.isInteger(hour) || hour < 1 || hour > 24) return undefined;
  // With one interval an hour, files write minute 0 or 60 for the same thing.
  const end = perHour === 1 ? hour : hour - 1 + (minute ?? 60) / 60;
  return ((daysBefore[month - 1]! + day - 1) * 24 + end - 0.5 / perHour) * 3600;
}

function readInterval(fields: readonly string[], perHour: number): WeatherInterval | undefined {
  const middle = fields.length < fewestFields ? undefined : middleOf(fields, perHour);
  if (middle === undefined) return undefined;
  /** Value of a field, counted from 1 as in the format's description; a value at or above the code means missing. */
  const field = (number: number, missing: number, least: number, scale = 1, offset = 0): number | undefined => {
    const value = finite(fields[number - 1]);
    return value === undefined || value >= missing || value < least ? undefined : value * scale + offset;
  };
  /** Energy per area of the interval [Wh/m2] as mean power per area. */
  const light = (number: number) => field(number, 9999, Number.NEGATIVE_INFINITY, perHour);
  const global = light(14);
  return {
    year: finite(fields[0]) ?? 0,
    month: finite(fields[1])!,
    day: finite(fields[2])!,
    middle,
    directNormal: Math.max(0, light(15) ?? 0),
    diffuseHorizontal: Math.max(0, light(16) ?? 0),
    ...present({
      temperature: field(7, 99.9, -90, 1, zeroCelsius),
      dewPoint: field(8, 99.9, -90, 1, zeroCelsius),
      relativeHumidity: field(9, 999, 0, 0.01),
      pressure: field(10, 999_999, 10_000),
      skyRadiation: field(13, 9999, 0, perHour),
      globalHorizontal: global === undefined ? undefined : Math.max(0, global),
      windDirection: field(21, 999, 0, degree),
      windSpeed: field(22, 999, 0),
      totalCover: field(23, 99, 0, 0.1),
      opaqueCover: field(24, 99, 0, 0.1),
      aerosolOpticalDepth: opticalDepth(finite(fields[29])),
      albedo: field(33, 1.01, 0),
    }),
  };
}

/** Intervals in an hour by the line DATA PERIODS; 1 where it says nothing. */
function intervalsPerHour(headLines: readonly string[]): number {
  const line = headLines.find((one) => /^data periods/i.test(one.trim()));
  const stated = finite(line?.split(',')[2]);
  return stated !== undefined && [1, 2, 3, 4, 6, 12, 60].includes(stated) ? stated : 1;
}

function readIntervals(lines: readonly string[], perHour: number, warnings: WarningList): WeatherInterval[] {
  const intervals: WeatherInterval[] = [];
  lines.forEach((line, at) => {
    if (line.trim() === '') return;
    const interval = readInterval(line.split(','), perHour);
    if (interval) intervals.push(interval);
    else warnings.add('unreadable row', 'The row has no date or too few fields; it was passed over.', `line ${at + 9}`);
  });
  return intervals;
}

/**
 * Reads a weather file in the EPW text format: eight head lines, then one row of up to 35 fields for each interval.
 * input - the file's bytes or text
 * Values at or above the format's code for missing are absent. The middle of each interval is given, because the light of a row
 * is that of the hour before its stamp.
 * Source: Crawley, Hand, Lawrie, "Improving the weather information available to simulation programs", 1999 (format), and the
 * format's public description of fields and codes for missing values.
 */
export function parseWeather(input: string | Uint8Array): FileOutcome<WeatherYear> {
  const decoded = fileText(input);
  if (!decoded.ok) return decoded;
  const warnings = warningList(decoded.warnings);
  const lines = decoded.value.split('\n');
  const station = readStation(lines[0]);
  if (station === undefined) {
    return refused({
      code: 'no station',
      reason: 'The first line is not LOCATION with latitude, longitude and time zone.',
      where: 'line 1',
      remedy: 'Choose a weather file in the EPW format.',
    });
  }
  const perHour = intervalsPerHour(lines.slice(0, 8));
  const intervals = readIntervals(lines.slice(8), perHour, warnings);
  if (intervals.length === 0) {
    return refused({
      code: 'no rows',
      reason: 'The file has no row of weather that can be read.',
      where: 'line 9',
      remedy: 'Fetch the file anew: it may have been cut off.',
    });
  }
  const whole = 8760 * perHour;
  if (intervals.length !== whole && intervals.length !== 8784 * perHour) {
    warnings.add('not a year', `The file has ${intervals.length} rows; a year has ${whole}.`);
  }
  return readAs({ station, interval: 3600 / perHour, intervals }, warnings.all());
}
