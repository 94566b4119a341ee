import { type DateValue, type PlaceValue, zoneOffsetAt } from '@noonwing/design';
import {
  absoluteAirMass,
  airMassKastenYoung,
  clearSkyIneichen,
  extraterrestrialIrradiance,
  standardPressureAt,
  sunPosition,
} from '@noonwing/engine/sun';
import {
  type FileOutcome,
  findColumn,
  parseTable,
  parseWeather,
  readColumn,
  type Table,
  type WeatherYear,
} from '@noonwing/files';
import { formatPlace, parseInstant } from '@noonwing/quantities';
import type { ValueEdit } from './commands.js';

/** What weather data set in a day plan: edits for one 'set values' command, and what was left out. */
export interface WeatherDay {
  readonly edits: readonly ValueEdit[];
  /** Sentences: what was taken from where, and what is rough. */
  readonly notes: readonly string[];
  /** Data through the day for a picture: local hours [h], global light [W/m2], clear-sky light [W/m2], temperature [K]. */
  readonly course: {
    readonly hours: Float64Array;
    readonly global: Float64Array;
    readonly clear: Float64Array;
    readonly temperature: Float64Array;
  };
}

export type WeatherAnswer =
  | { readonly ok: true; readonly day: WeatherDay }
  | { readonly ok: false; readonly reason: string; readonly remedy: string };

const hour = 3600;

interface Site extends PlaceValue {
  readonly altitude: number;
}

/** Clear-sky light on level ground [W/m2]. */
function clearLight(site: Site, time: number, turbidity: number): number {
  const sun = sunPosition({ latitude: site.latitude, longitude: site.longitude, altitude: site.altitude, time });
  if (sun.apparentZenith >= Math.PI / 2) return 0;
  return clearSkyIneichen({
    apparentZenith: sun.apparentZenith,
    turbidity,
    altitude: site.altitude,
    extraterrestrial: extraterrestrialIrradiance(sun.distance),
    absoluteAirMass: absoluteAirMass(airMassKastenYoung(sun.apparentZenith), standardPressureAt(site.altitude)),
  }).globalHorizontal;
}

interface Sample {
  /** Middle of the interval [s, Unix]. */
  readonly time: number;
  /** Local hour of the day [h]. */
  readonly hour: number;
  readonly global?: number | undefined;
  readonly temperature?: number | undefined;
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const celsius = (kelvin: number): string => `${Math.round((kelvin - 273.15) * 10) / 10} degC`;

/** Clearness: light of the day over that of a clear sky, both summed over the same samples with the sun up. */
function clearnessOf(samples: readonly Sample[], clear: readonly number[]) {
  let [measured, possible] = [0, 0];
  for (const [i, { global }] of samples.entries()) {
    if (global === undefined || clear[i]! <= 20) continue;
    measured += global;
    possible += clear[i]!;
  }
  return possible > 0 ? measured / possible : undefined;
}

function weatherDay(
  site: Site,
  samples: readonly Sample[],
  turbidity: number,
  notes: string[],
  more: ValueEdit[],
): WeatherDay {
  const clear = samples.map(({ time }) => clearLight(site, time, turbidity));
  const clearness = clearnessOf(samples, clear);
  const edits: ValueEdit[] = [...more];
  if (clearness === undefined) notes.push('No light was found for daytime, so the sky stays as it is.');
  else {
    // Sensors and clear-sky models of this kind agree to about 5 % (judgement).
    edits.push({ path: 'clearness', text: `${percent(Math.min(1.3, clearness))} ± 5 %` });
    notes.push(
      `Over the day ${percent(clearness)} of the light of a clear sky (Linke turbidity ${turbidity.toFixed(1)}).`,
    );
  }
  const temperatures = samples.flatMap(({ temperature }) => (temperature === undefined ? [] : [temperature]));
  if (temperatures.length > 0) {
    edits.push({ path: 'temperature', text: `${celsius(Math.max(...temperatures))} ± 1 K` });
    edits.push({ path: 'night temperature', text: `${celsius(Math.min(...temperatures))} ± 1 K` });
  }
  return {
    edits,
    notes,
    course: {
      hours: Float64Array.from(samples, (sample) => sample.hour),
      global: Float64Array.from(samples, ({ global }) => global ?? 0),
      clear: Float64Array.from(clear),
      temperature: Float64Array.from(samples, ({ temperature }) => temperature ?? 0),
    },
  };
}

const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

const meanOf = (values: readonly (number | undefined)[]): number | undefined => {
  const known = values.flatMap((value) => (value === undefined ? [] : [value]));
  return known.length === 0 ? undefined : known.reduce((sum, value) => sum + value, 0) / known.length;
};

/** The day of a weather year, and the place of its station. 29 February is taken as the 28th. */
export function dayOfWeatherYear(year: WeatherYear, date: DateValue, turbidity = 3): WeatherAnswer {
  const dayNumber = daysBefore[date.month - 1]! + Math.min(date.day, date.month === 2 ? 28 : 31) - 1;
  const start = dayNumber * 86_400;
  const { station } = year;
  const site = { latitude: station.latitude, longitude: station.longitude, altitude: station.elevation };
  const newYear = Date.UTC(date.year, 0, 1) / 1000 - station.zone;
  // In a leap year the calendar runs a day ahead of the file after February.
  const leap = date.month > 2 && new Date(Date.UTC(date.year, 1, 29)).getUTCMonth() === 1 ? 86_400 : 0;
  const intervals = year.intervals.filter(({ middle }) => middle >= start && middle < start + 86_400);
  if (intervals.length === 0) {
    return { ok: false, reason: 'the file holds nothing for this day', remedy: 'choose another date or file' };
  }
  const samples = intervals.map((interval): Sample => {
    const time = newYear + leap + interval.middle;
    const sun = sunPosition({ ...site, time });
    const global =
      interval.globalHorizontal ?? interval.diffuseHorizontal + interval.directNormal * Math.max(0, sun.direction[2]);
    return { time, hour: (interval.middle - start) / hour, global, temperature: interval.temperature };
  });
  const edits: ValueEdit[] = [];
  const wind = meanOf(
    intervals
      .filter(({ directNormal, diffuseHorizontal }) => directNormal + diffuseHorizontal > 0)
      .map(({ windSpeed }) => windSpeed),
  );
  const humidity = meanOf(intervals.map(({ relativeHumidity }) => relativeHumidity));
  if (humidity !== undefined) edits.push({ path: 'humidity', text: percent(Math.min(1, humidity)) });
  const notes = [
    `From the station ${station.city}, ${station.country}, at ${formatPlace(site)}, ${Math.round(station.elevation)} m.`,
    'A weather year is put together from typical months: it is no forecast for this date.',
  ];
  if (wind !== undefined)
    notes.push(`Mean wind of the day ${wind.toFixed(1)} m/s; the plan's own wind is left as it is.`);
  return { ok: true, day: weatherDay(site, samples, turbidity, notes, edits) };
}

/** Reads a weather file and takes one day out of it. */
export function importWeather(text: string, date: DateValue, turbidity?: number): WeatherAnswer {
  const read = parseWeather(text);
  if (!read.ok) return { ok: false, reason: read.reason, remedy: read.remedy };
  return dayOfWeatherYear(read.value, date, turbidity);
}

/** Edits that put the plan at the station of a weather file. */
export function placeOfWeather(
  text: string,
): WeatherAnswer | { readonly ok: true; readonly edits: readonly ValueEdit[] } {
  const read: FileOutcome<WeatherYear> = parseWeather(text);
  if (!read.ok) return { ok: false, reason: read.reason, remedy: read.remedy };
  const { station } = read.value;
  return {
    ok: true,
    edits: [
      { path: 'place.at', text: formatPlace(station, 3) },
      { path: 'place.name', text: station.city || 'weather station' },
      { path: 'place.altitude', text: `${Math.round(station.elevation)} m` },
    ],
  };
}

const timeNames = ['time', 'date', 'datetime', 'date time', 'timestamp', 'instant', 'Zeit', 'fecha'];
const lightNames = [
  'ghi',
  'global',
  'irradiance',
  'global horizontal',
  'global horizontal irradiance',
  'radiation',
  'light',
  'G',
];
const temperatureNames = ['temperature', 'air temperature', 't', 'temp', 'ambient temperature'];

const refuse = (reason: string, remedy: string) => ({ ok: false, reason, remedy }) as const;

/** Numbers of a column in SI; its unit from the head, else the usual one. */
function columnSI(table: Table, names: readonly string[], kind: 'areal power' | 'temperature', usual: string) {
  const index = findColumn(table, names);
  if (index < 0) return undefined;
  const read = readColumn(table, index, kind, usual);
  return read.ok ? read.value : undefined;
}

/** '2026-06-21T10:00Z', '2026-06-21 10:00' or '10:00' as [s, Unix]; without offset by the clock of the plan. */
function instantOf(text: string, plan: { readonly midnight: number; readonly utcOffset: number }): number | undefined {
  const plain = text.trim();
  const clock = /^(\d{1,2}):(\d{2})(?::(\d{2}))?$/.exec(plain);
  if (clock !== null) return plan.midnight + Number(clock[1]) * hour + Number(clock[2]) * 60 + Number(clock[3] ?? 0);
  const exact = parseInstant(plain.replace(' ', 'T'));
  if (exact.ok) return exact.seconds;
  const local = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{1,2}):(\d{2})(?::(\d{2}))?$/.exec(plain);
  if (local === null) return undefined;
  const [year, month, day, h, m, s] = local.slice(1).map((part) => Number(part ?? 0));
  return Date.UTC(year!, month! - 1, day!, h!, m!, s || 0) / 1000 - plan.utcOffset;
}

/**
 * Measured light of a day from a table with a time and a light column (and perhaps temperature).
 * plan - where and when, as completed; times without offset are by its clock
 */
export function importIrradiance(
  text: string,
  plan: Site & { readonly midnight: number; readonly utcOffset: number },
  turbidity = 3,
): WeatherAnswer {
  const read = parseTable(text);
  if (!read.ok) return refuse(read.reason, read.remedy);
  const table = read.value;
  const timeColumn = Math.max(0, findColumn(table, timeNames));
  const light = columnSI(table, lightNames, 'areal power', 'W/m2');
  if (light === undefined) {
    const names = table.columns.map(({ text: head }) => head).join(', ');
    return refuse(`there is no column of light among: ${names}`, 'name it "irradiance (W/m2)"');
  }
  const temperature = columnSI(table, temperatureNames, 'temperature', 'degC');
  let [outside, unread] = [0, 0];
  const samples: Sample[] = [];
  for (const [i, row] of table.rows.entries()) {
    const time = instantOf(row.cells[timeColumn]!, plan);
    const hours = time === undefined ? Number.NaN : (time - plan.midnight) / hour;
    if (time === undefined || light[i] === undefined) unread += 1;
    else if (hours < 0 || hours >= 24) outside += 1;
    else samples.push({ time, hour: hours, global: Math.max(0, light[i]), temperature: temperature?.[i] });
  }
  if (samples.length === 0) {
    return outside > 0
      ? refuse('no row lies on the day of the plan', 'set the date of the plan to that of the measurement')
      : refuse('no row has a time and a value of light', 'write times as 2026-06-21T10:00+02:00 or 10:00');
  }
  const notes = [`${samples.length} rows of the day were taken.`];
  if (outside > 0) notes.push(`${outside} rows of other days were passed over.`);
  if (unread > 0) notes.push(`${unread} rows without time or light were passed over.`);
  samples.sort((a, b) => a.time - b.time);
  return { ok: true, day: weatherDay(plan, samples, turbidity, notes, []) };
}

/** Offset of a named zone on a date at noon [s]; undefined where the browser does not know the zone. */
export function zoneOffsetOn(zone: string, date: DateValue): number | undefined {
  try {
    return zoneOffsetAt({ zone }, Date.UTC(date.year, date.month - 1, date.day, 12) / 1000);
  } catch {
    return undefined;
  }
}

/** 'Europe/Madrid, UTC+2 on this date'; an unknown zone says so. */
export function zoneText(zone: string, date: DateValue): string {
  const offset = zoneOffsetOn(zone, date);
  if (offset === undefined) return `${zone} is not known here: write the offset, such as +02:00`;
  const minutes = Math.round(Math.abs(offset) / 60);
  const rest = minutes % 60 === 0 ? '' : `:${String(minutes % 60).padStart(2, '0')}`;
  return `${zone}, UTC${offset < 0 ? '-' : '+'}${Math.floor(minutes / 60)}${rest} on this date`;
}
