import type { DayPlan } from '../day-plan.js';
import { type DateValue, zoneOffsetAt } from '../notations.js';
import type { Valued } from '../schema/field.js';
import { type Assumption, type Log, orChoice, orDefault, usual, withSpread } from './assumptions.js';
import { statedLoads } from './flight.js';
import type { CompleteLoad } from './types.js';

export type Sky = 'clear' | 'thin' | 'broken' | 'overcast';
export type Surroundings = 'mountain' | 'rural' | 'coast' | 'urban' | 'industrial' | 'desert';

/** A day plan in which nothing is left out. */
export interface CompletePlan {
  readonly name: string;
  readonly placeName?: string;
  /** North positive [rad] */
  readonly latitude: number;
  /** East positive [rad] */
  readonly longitude: number;
  /** Ground above sea level [m] */
  readonly altitude: Valued;
  readonly date: DateValue;
  readonly days: number;
  /** Local clock minus UTC on the first day at noon [s] */
  readonly utcOffset: number;
  /** Local midnight that starts the first day, since 1970-01-01T00:00Z [s] */
  readonly midnight: number;
  readonly skies: readonly Sky[];
  /** Own share of the clear-sky light; holds in place of the skies */
  readonly clearness?: Valued;
  readonly surroundings: Surroundings;
  /** Own Linke turbidity; otherwise that of the surroundings in the month */
  readonly turbidity?: Valued;
  readonly albedo: Valued;
  /** At the ground, afternoon and end of the night [K] */
  readonly temperature: Valued;
  readonly nightTemperature: Valued;
  readonly humidity: Valued;
  /** At the place [Pa]; absent: standard for the altitude */
  readonly pressure?: Valued;
  readonly wind: { readonly speed: Valued; readonly from?: Valued; readonly gusts?: Valued };
  /** Local clock [s since midnight of the first day], or as soon as the sun is up */
  readonly launch: number | 'sunrise';
  /** Local clock [s since midnight of the last day] */
  readonly landing?: number;
  readonly chargeAtLaunch: Valued;
  /** Above the ground [m] */
  readonly height: Valued;
  readonly airspeed?: Valued;
  readonly bank?: Valued;
  /** Replace the loads of the design of the same name, or come on top */
  readonly loads: readonly CompleteLoad[];
}

/** Share of light returned, from memory: standard tables of short-wave albedo. */
const ALBEDO = {
  grass: [0.22, 0.04],
  water: [0.08, 0.04],
  sand: [0.35, 0.08],
  snow: [0.75, 0.1],
  concrete: [0.3, 0.06],
  forest: [0.15, 0.04],
  soil: [0.17, 0.05],
} as const;

/**
 * Afternoon air temperature usual for latitude and day of the year [K]; a rough zonal climate, from memory, ± 6 K.
 * latitude - [rad]; dayOfYear - 1 to 366
 */
export function usualTemperature(latitude: number, dayOfYear: number): number {
  const degrees = Math.abs((latitude * 180) / Math.PI);
  const yearly = 302 - 0.0055 * degrees * degrees;
  const swing = 0.24 * degrees;
  // The warmest day comes about a month after midsummer.
  const season = Math.cos((2 * Math.PI * (dayOfYear - 205)) / 365.25) * (latitude < 0 ? -1 : 1);
  return yearly + swing * season;
}

const dayOfYear = (date: DateValue): number =>
  (Date.UTC(date.year, date.month - 1, date.day) - Date.UTC(date.year, 0, 1)) / 86_400_000 + 1;

function clock(log: Log, plan: DayPlan): { utcOffset: number; midnight: number } {
  const { date } = plan;
  const midnightUTC = Date.UTC(date.year, date.month - 1, date.day) / 1000;
  if (plan.timeZone !== undefined) {
    const utcOffset = zoneOffsetAt(plan.timeZone, midnightUTC + 43_200);
    return { utcOffset, midnight: midnightUTC - utcOffset };
  }
  const hours = Math.round((plan.place.at.longitude * 12) / Math.PI);
  log.push({
    path: 'time zone',
    what: 'choice',
    kind: 'choice',
    value: `UTC${hours < 0 ? '-' : '+'}${Math.abs(hours)}`,
    why: 'from the longitude; state the clock of the place where it differs, as in summer time',
  });
  return { utcOffset: hours * 3600, midnight: midnightUTC - hours * 3600 };
}

const HUMIDITY = usual('ratio', 0.5, 0.2, 'not stated');
const WIND = usual('speed', 3, 1.5, 'light wind, not stated');

/** Share of the light that the ground returns: as stated, or of its kind. */
function albedoOf(log: Log, plan: DayPlan): Valued {
  if (plan.albedo !== undefined) return plan.albedo;
  const [value, sigma] = ALBEDO[orChoice(log, 'ground', plan.ground, 'grass', 'not stated')];
  return { value, sigma, source: plan.ground === undefined ? 'assumed' : 'library' };
}

function weather(log: Log, plan: DayPlan) {
  const climate = usualTemperature(plan.place.at.latitude, dayOfYear(plan.date));
  const afternoon = usual('temperature', climate, 6, 'rough climate of the latitude and day');
  const given = orDefault(log, 'temperature', plan.temperature, afternoon);
  const temperature = withSpread(log, 'temperature', 'temperature', given, { fixed: 2 }, 'forecasts miss by about 2 K');
  const night = usual('temperature', temperature.value - 9, 3, 'usual swing of a fair day');
  const { speed, from, gusts } = plan.wind ?? {};
  return {
    albedo: albedoOf(log, plan),
    temperature,
    nightTemperature: orDefault(log, 'night temperature', plan.nightTemperature, night),
    humidity: orDefault(log, 'humidity', plan.humidity, HUMIDITY),
    ...(plan.pressure === undefined ? {} : { pressure: plan.pressure }),
    wind: {
      speed: orDefault(log, 'wind', speed, WIND),
      ...(from === undefined ? {} : { from }),
      ...(gusts === undefined ? {} : { gusts }),
    },
  };
}

const skiesOf = (sky: DayPlan['sky']): readonly Sky[] =>
  sky === undefined || sky === 'all' ? ['clear', 'thin', 'broken'] : [sky];

function flown(log: Log, plan: DayPlan) {
  return {
    launch: plan.launch ?? launchDefault(log),
    ...(plan.landing === undefined ? {} : { landing: plan.landing }),
    chargeAtLaunch: orDefault(log, 'charge at launch', plan.chargeAtLaunch, {
      kind: 'ratio',
      value: 0.95,
      sigma: 0.04,
      why: 'charged the evening before',
    }),
    height: orDefault(log, 'height', plan.height, { kind: 'length', value: 80, sigma: 20, why: 'not stated' }),
    ...(plan.airspeed === undefined ? {} : { airspeed: plan.airspeed }),
    ...(plan.bank === undefined ? {} : { bank: plan.bank }),
  };
}

/** Nine in the morning: at sunrise the sun does not carry yet, and a small battery would be spent waiting for it. */
function launchDefault(log: Log): number {
  log.push({ path: 'launch', what: 'choice', kind: 'choice', value: '09:00', why: 'no launch time stated' });
  return 9 * 3600;
}

/** Fills in whatever a day plan leaves open; the list names everything that was assumed. */
export function completePlan(plan: DayPlan): {
  readonly plan: CompletePlan;
  readonly assumptions: readonly Assumption[];
} {
  const log: Log = [];
  const { place } = plan;
  const surroundings =
    plan.turbidity === undefined
      ? orChoice(log, 'surroundings', plan.surroundings, 'rural', 'not stated')
      : (plan.surroundings ?? 'rural');
  const complete: CompletePlan = {
    name: plan.name ?? 'day',
    ...(place.name === undefined ? {} : { placeName: place.name }),
    latitude: place.at.latitude,
    longitude: place.at.longitude,
    altitude: orDefault(log, 'place.altitude', place.altitude, {
      kind: 'length',
      value: 0,
      sigma: 200,
      why: 'not stated; taken at sea level',
    }),
    date: plan.date,
    days: plan.days?.value ?? 1,
    ...clock(log, plan),
    skies: skiesOf(plan.sky),
    ...(plan.clearness === undefined ? {} : { clearness: plan.clearness }),
    surroundings,
    ...(plan.turbidity === undefined
      ? {}
      : {
          turbidity: withSpread(
            log,
            'turbidity',
            'ratio',
            plan.turbidity,
            { fixed: 0.5 },
            'turbidity varies from day to day',
          ),
        }),
    ...weather(log, plan),
    ...flown(log, plan),
    loads: statedLoads(log, plan.loads),
  };
  return { plan: complete, assumptions: log };
}
