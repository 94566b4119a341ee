import { type CompleteAircraft, type CompletePlan, type SectionSources, usualTemperature } from '@noonwing/design';
import type { Problem } from '@noonwing/engine';
import { noDeviation } from './deviations.js';
import { gridRun, skyRuns } from './grid-run.js';
import { flightNeed } from './need.js';
import { prepare } from './prepare.js';
import { type Slices, whole } from './slices.js';
import { createStages, type Stages } from './stages.js';

const daySeconds = 86400;

/** Solar ratio over two axes: rows follow the first axis. */
export interface Sweep {
  readonly sky: string;
  /** Midnights of the dates by the clock of the plan [s, Unix]. */
  readonly dates: Float64Array;
  /** Hours of the day, or latitudes [rad]. */
  readonly across: Float64Array;
  /** Income over need, index date x across + position: at the hour, or averaged over daylight. */
  readonly ratio: Float64Array;
  /** Time that sunlight carries [s], by date and latitude; absent over the hours of a day. */
  readonly carried?: Float64Array;
}

export interface SweepRequest {
  readonly aircraft: CompleteAircraft;
  readonly plan: CompletePlan;
  readonly files: SectionSources;
  readonly stages: Stages;
  /** Which sky of the plan; the first when absent. */
  readonly sky?: number;
  /** Dates through the year, default 25. */
  readonly dates?: number;
  readonly onProgress?: (share: number) => void;
}

/** Half an hour between the instants of a sweep: fine enough for a map. */
const step = 1800;

/**
 * When through the year: solar ratio by date and hour at the place of the plan.
 * The flight is solved once; air and cells warm and cool with the usual climate of the latitude.
 */
export const dateHourSweep = (request: SweepRequest): Sweep | Problem =>
  whole(dateHourSlices(request), request.onProgress);

/** The same in slices, day by day. */
export function* dateHourSlices(request: Omit<SweepRequest, 'onProgress'>): Slices<Sweep | Problem> {
  const { plan, sky = 0, dates: count = 25 } = request;
  const runDay = dayRunner(request);
  if ('ok' in runDay) return runDay;
  const dates = datesOfYear(plan, count);
  const hours = Float64Array.from({ length: daySeconds / step }, (_, i) => ((i + 0.5) * step) / 3600);
  const ratio = new Float64Array(dates.length * hours.length);
  for (const [d, midnight] of dates.entries()) {
    const run = runDay.on(planOn(plan, midnight, plan.latitude), sky);
    for (let h = 0; h < hours.length; h++) {
      const need = run.need[h]!;
      ratio[d * hours.length + h] = need > 0 ? Math.max(0, run.offered[h]!) / need : 0;
    }
    yield (d + 1) / dates.length;
  }
  return { sky: runDay.skyName(sky), dates, across: hours, ratio };
}

/** Where through the year: mean solar ratio over daylight, and the time carried, by date and latitude. */
export const dateLatitudeSweep = (request: SweepRequest, latitudes?: Float64Array): Sweep | Problem =>
  whole(dateLatitudeSlices(request, latitudes), request.onProgress);

/** The same in slices, day by day and latitude by latitude. */
export function* dateLatitudeSlices(
  request: Omit<SweepRequest, 'onProgress'>,
  latitudes?: Float64Array,
): Slices<Sweep | Problem> {
  const { plan, sky = 0, dates: count = 25 } = request;
  const runDay = dayRunner(request);
  if ('ok' in runDay) return runDay;
  const dates = datesOfYear(plan, count);
  const degree = Math.PI / 180;
  const across = latitudes ?? Float64Array.from({ length: 27 }, (_, i) => (-65 + 5 * i) * degree);
  const ratio = new Float64Array(dates.length * across.length);
  const carried = new Float64Array(dates.length * across.length);
  for (const [d, midnight] of dates.entries()) {
    for (const [a, latitude] of across.entries()) {
      const { figures } = runDay.on(planOn(plan, midnight, latitude), sky);
      ratio[d * across.length + a] = figures.solarRatio;
      carried[d * across.length + a] = figures.carried;
      yield (d + (a + 1) / across.length) / dates.length;
    }
  }
  return { sky: runDay.skyName(sky), dates, across, ratio, carried };
}

/** Midnights spread evenly over the year of the plan. */
function datesOfYear(plan: CompletePlan, count: number): Float64Array {
  const start = Date.UTC(plan.date.year, 0, 1) / 1000 - plan.utcOffset;
  return Float64Array.from(
    { length: count },
    (_, i) => start + Math.round((365 * i) / Math.max(1, count - 1)) * daySeconds,
  );
}

/** The plan on another date and latitude: clock, haze and temperature follow; the flight is of one day. */
function planOn(plan: CompletePlan, midnight: number, latitude: number): CompletePlan {
  const noon = new Date((midnight + plan.utcOffset + daySeconds / 2) * 1000);
  const date = { year: noon.getUTCFullYear(), month: noon.getUTCMonth() + 1, day: noon.getUTCDate() };
  const shift = usualTemperature(latitude, dayOfYear(date)) - usualTemperature(plan.latitude, dayOfYear(plan.date));
  const warmer = (of: CompletePlan['temperature']) => ({ ...of, value: of.value + shift });
  return {
    ...plan,
    date,
    midnight,
    latitude,
    days: 0,
    launch: 0,
    temperature: warmer(plan.temperature),
    nightTemperature: warmer(plan.nightTemperature),
  };
}

const dayOfYear = (date: CompletePlan['date']): number =>
  (Date.UTC(date.year, date.month - 1, date.day) - Date.UTC(date.year, 0, 1)) / 86_400_000 + 1;

/** Runs one day at a time with the flight of the plan itself. */
function dayRunner({ aircraft, plan, files, stages }: Omit<SweepRequest, 'onProgress'>) {
  const base = prepare(aircraft, plan, files, stages);
  const flight = flightNeed(base.model, base.conditions, base.known, base.calibration, noDeviation);
  if (!flight.ok) return flight;
  // Days of a sweep are seen once: they must not push the remembered stages of the plan itself out of memory.
  const own = createStages(2);
  return {
    skyName: (sky: number) => base.skies[sky]?.name ?? '',
    on(day: CompletePlan, sky: number) {
      const prepared = { ...prepare(aircraft, day, files, stages), model: base.model };
      const only = { ...prepared, skies: prepared.skies.slice(sky, sky + 1) };
      return skyRuns(only, gridRun(only, flight.value, step, own), flight.value, noDeviation)[0]!;
    },
  };
}
