import type { CompletePlan, Sky } from '@noonwing/design';
import {
  type ArrayPlan,
  arrayMaxima,
  type CellWarmth,
  cellMismatchFactors,
  cellTemperatures,
  hasSharedVoltage,
  type Load,
  mismatchFactors,
  nothingLost,
  type UnequalLight,
  usualCellTemperature,
} from '@noonwing/engine/day';
import { cellGeometry, cellLightTrack } from '@noonwing/engine/light';
import {
  chooseHeadings,
  circleHeadings,
  clearSkyTrack,
  cloudyTrack,
  effectiveLight,
  type HeadingChoice,
  type LightGeometry,
  type LightLedger,
  lightGeometry,
  linkeTurbidity,
  namedSkies,
  type PlaceKind,
  type SkyTermsTrack,
  type SkyTrack,
  type SunTrack,
  skyTermsTrack,
  sunriseSunset,
  sunTrack,
} from '@noonwing/engine/sun';

const day = 86400;
const degree = Math.PI / 180;

/** Steps of the days computed, and where the sun stands in the middle of each. */
export interface DayGrid {
  /** Ends of the steps [s, Unix]. */
  readonly times: Float64Array;
  /** Middles of the steps. */
  readonly sun: SunTrack;
  /** Local clock at the middles [h, 0 to 24 on the first day and on]. */
  readonly hours: Float64Array;
  /** Sine of the greatest elevation of the sun on the day of each step. */
  readonly greatestSine: Float64Array;
  /** Steps in one day. */
  readonly stepsPerDay: number;
  readonly midnight: number;
  readonly dayEnd: number;
}

/** The parts of a day plan that set the sun and the clock. */
export interface GridPlan {
  readonly latitude: number;
  readonly longitude: number;
  readonly altitude: number;
  readonly midnight: number;
  readonly days: number;
}

/** What the sun and the clock of a plan depend on. */
export const gridPlanOf = (plan: CompletePlan): GridPlan => ({
  latitude: plan.latitude,
  longitude: plan.longitude,
  altitude: plan.altitude.value,
  midnight: plan.midnight,
  days: plan.days,
});

/**
 * Grid of steps over the planned days and the one after, so that the night and the next morning are seen.
 * @param step - [s], divides a day
 */
export function dayGrid(plan: GridPlan, step: number): DayGrid {
  const stepsPerDay = Math.round(day / step);
  const steps = (Math.round(plan.days) + 1) * stepsPerDay;
  const times = Float64Array.from({ length: steps + 1 }, (_, i) => plan.midnight + i * step);
  const middles = Float64Array.from({ length: steps }, (_, i) => plan.midnight + (i + 0.5) * step);
  const sun = sunTrack({
    times: middles,
    latitude: plan.latitude,
    longitude: plan.longitude,
    altitude: plan.altitude,
  });
  const hours = middles.map((time) => (time - plan.midnight) / 3600);
  const greatestSine = new Float64Array(steps);
  for (let from = 0; from < steps; from += stepsPerDay) {
    const most = sun.up.subarray(from, from + stepsPerDay).reduce((a, b) => Math.max(a, b), 0);
    greatestSine.fill(most, from, from + stepsPerDay);
  }
  return {
    times,
    sun,
    hours,
    greatestSine,
    stepsPerDay,
    midnight: plan.midnight,
    dayEnd: plan.midnight + day,
  };
}

/** When the flight begins [s, Unix]: the planned launch, or sunrise; where the sun does not rise, nine in the morning. */
export function launchTime(plan: Pick<CompletePlan, 'launch' | 'midnight' | 'latitude' | 'longitude'>): number {
  if (plan.launch !== 'sunrise') return plan.midnight + plan.launch;
  const light = sunriseSunset({ dayStart: plan.midnight, latitude: plan.latitude, longitude: plan.longitude });
  if ('sunrise' in light) return light.sunrise;
  return plan.midnight + (light.kind === 'never sets' ? 0 : 9 * 3600);
}

/** Haze of the month by kind of place: the table knows four kinds, others lean on the nearest of them. */
export function turbidityOf(plan: Pick<CompletePlan, 'turbidity' | 'surroundings' | 'date' | 'latitude'>): {
  readonly value: number;
  readonly sigma: number;
  readonly note: string;
} {
  if (plan.turbidity !== undefined) {
    return { value: plan.turbidity.value, sigma: plan.turbidity.sigma ?? 0.5, note: 'stated' };
  }
  const kinds: Readonly<Record<CompletePlan['surroundings'], { place: PlaceKind; added: number }>> = {
    mountain: { place: 'mountains', added: 0 },
    rural: { place: 'rural', added: 0 },
    // Sea salt and moist air: between country and town (judgement).
    coast: { place: 'rural', added: 0.3 },
    urban: { place: 'city', added: 0 },
    industrial: { place: 'industrial', added: 0 },
    // Dust: Tozeur at the edge of the Sahara has a mean of 5.39.
    desert: { place: 'industrial', added: 0.4 },
  };
  const { place, added } = kinds[plan.surroundings];
  const found = linkeTurbidity({ month: plan.date.month, place, latitude: plan.latitude });
  return { value: found.value + added, sigma: found.standardUncertainty, note: found.note };
}

/** A sky that a verdict is given for. */
export interface SkyCase {
  readonly name: string;
  readonly clearSkyIndex: number;
  /** From one such day to another: the chance of the weather, kept apart from the confidence in the aircraft. */
  readonly indexSigma: number;
}

/** Skies of a plan; an own clearness takes the place of the named ones. */
export function skyCases(plan: Pick<CompletePlan, 'skies' | 'clearness'>): readonly SkyCase[] {
  if (plan.clearness !== undefined) {
    const { value, sigma } = plan.clearness;
    return [{ name: `${(100 * value).toFixed(0)} % of clear light`, clearSkyIndex: value, indexSigma: sigma ?? 0.1 }];
  }
  const named: Readonly<Record<Sky, SkyCase>> = {
    clear: { name: 'clear', clearSkyIndex: 1, indexSigma: 0 },
    thin: skyCase('thin cloud'),
    broken: skyCase('broken cloud'),
    // Mean transmission under a closed sheet, Kasten and Czeplak 1980 at 8 of 8.
    overcast: { name: 'overcast', clearSkyIndex: 0.25, indexSigma: 0.1 },
  };
  return plan.skies.map((sky) => named[sky]);
}

const skyCase = (name: 'thin cloud' | 'broken cloud'): SkyCase => ({
  name,
  clearSkyIndex: namedSkies[name].clearSkyIndex,
  indexSigma: namedSkies[name].standardUncertainty,
});

/** How the light falls on the array along the grid, for any sky. */
export interface LightSetup {
  readonly geometry: LightGeometry;
  readonly headings: HeadingChoice;
  /** The same for every cell, where cells are placed one by one. */
  readonly cells?: LightGeometry;
  readonly attitude: { readonly bank: number; readonly pitch: number };
}

/** Sky under which the number of headings is chosen, so that the light geometry is the same for every sky: sun strong, ground bright. */
const headingSky = { turbidity: 3, albedo: 0.2 };

/**
 * Geometry of the light on an array that flies circles at a bank (level where the bank is nearly zero: all headings alike).
 */
export function lightSetup(grid: DayGrid, array: ArrayPlan, attitude: { bank: number; pitch: number }): LightSetup {
  const facets = array.facets.map(({ normal }) => normal);
  const { incidence } = array;
  const clear = clearSkyOf(grid, { turbidity: headingSky.turbidity, altitude: 0 });
  const terms = skyTermsTrack(grid.sun, clear, { model: 'perez', albedo: headingSky.albedo });
  const headings = chooseHeadings({ sun: grid.sun, terms, facets, ...attitude, incidence });
  const scene = { sun: grid.sun, pattern: { ...attitude, headings: circleHeadings(headings.count) }, incidence };
  const groups = array.facets.map(({ cells }) => cells ?? []);
  if (array.cells === undefined || groups.some((group) => group.length === 0)) {
    return { geometry: lightGeometry({ ...scene, facets }), headings, attitude };
  }
  const made = cellGeometry({ ...scene, cells: array.cells, shade: array.shade }, groups);
  return { geometry: made.groups, cells: made.cells, headings, attitude };
}

/** A clear sky along a grid; `known` is another sky along the same grid, whose air mass is taken over. */
export const clearSkyOf = (
  grid: DayGrid,
  sky: { readonly turbidity: number; readonly altitude: number },
  known?: SkyTrack,
): SkyTrack => clearSkyTrack(grid.sun, { turbidity: Math.max(1, sky.turbidity), altitude: sky.altitude }, known);

/** A sky along a grid with the terms that light models ask for. */
export interface SkyCourse {
  readonly sky: SkyTrack;
  readonly terms: SkyTermsTrack;
}

/** Terms of a clear sky under cloud. */
export function skyTermsOf(
  grid: DayGrid,
  clear: SkyTrack,
  sky: { readonly clearSkyIndex: number; readonly albedo: number },
): SkyCourse {
  const under = sky.clearSkyIndex === 1 ? clear : cloudyTrack(clear, grid.sun, sky.clearSkyIndex);
  return { sky: under, terms: skyTermsTrack(grid.sun, under, { model: 'perez', albedo: sky.albedo }) };
}

/** Light on the cells, their temperature, and what unequal light costs, for one sky along the grid. */
export interface LightCourse {
  readonly sky: SkyTrack;
  readonly ledger: LightLedger;
  /** Of the air at flight height [K]. */
  readonly ambient: Float64Array;
  readonly temperature: Float64Array;
  readonly unequal: UnequalLight;
}

/** Half an hour between the instants at which unequal light is evaluated heading by heading. */
const mismatchStep = 1800;

/** What the day's air is to the cells: how they warm up in its mean, and its swing from night to afternoon [K]. */
export interface DayAir {
  readonly warmth: CellWarmth;
  readonly swing: number;
}

/**
 * Air of an hour above the mean of its day [K]: a cosine with its maximum three hours after noon, its minimum about sunrise
 * (common practice).
 */
export const airOffset = (hour: number, swing: number): number =>
  0.5 * swing * Math.cos((2 * Math.PI * (hour - 15)) / 24);

/**
 * Light and temperature of the cells under one sky.
 * @param ledger - from `lightLedger` of the same geometry and sky
 * @param unequal - from `unequalLight` of the same light
 */
export function lightCourse(
  grid: DayGrid,
  array: ArrayPlan,
  { sky }: SkyCourse,
  ledger: LightLedger,
  unequal: UnequalLight,
  { warmth, swing }: DayAir,
): LightCourse {
  const temperature = cellTemperatures(warmth, ledger.effective);
  const offset = grid.hours.map((hour) => airOffset(hour, swing));
  for (let i = 0; i < temperature.length; i++) temperature[i]! += offset[Math.floor(i / array.facets.length)]!;
  return { sky, ledger, ambient: offset.map((kelvin) => warmth.airTemperature + kelvin), temperature, unequal };
}

/** What unequal light in the strings leaves of their power, evaluated every half hour. */
export function unequalLight(
  grid: DayGrid,
  array: ArrayPlan,
  { geometry, cells, attitude }: LightSetup,
  { terms }: SkyCourse,
  ledger: LightLedger,
): UnequalLight {
  const temperature = ledger.effective.map(usualCellTemperature);
  const instants = grid.sun.time.length;
  const step = grid.times[1]! - grid.times[0]!;
  const stride = Math.max(1, Math.round(mismatchStep / step));
  const until = grid.stepsPerDay;
  if (cells !== undefined && array.cells !== undefined) {
    const at = Array.from({ length: Math.ceil(until / stride) }, (_, i) => i * stride).filter(
      (i) => grid.sun.up[i]! > 0,
    );
    const scene = {
      sun: thinned(grid.sun, at),
      cells: array.cells,
      shade: array.shade,
      pattern: { ...attitude, headings: geometry.headings },
      incidence: array.incidence,
    };
    const track = cellLightTrack(scene, thinned(terms, at));
    return cellMismatchFactors(array, track, at, ledger.effective, temperature, { instants, until });
  }
  if (!hasSharedVoltage(array) && array.strings.every(({ groups }) => groups.length < 2)) {
    return nothingLost(array.strings.length * instants);
  }
  return mismatchFactors(array, effectiveLight(geometry, terms), ledger.effective, temperature, {
    headings: geometry.headingCount,
    stride,
    until,
  });
}

/** Some instants of a track. */
export const thinned = <T extends object>(track: T, at: readonly number[]): T =>
  Object.fromEntries(
    Object.entries(track).map(([key, values]) => [key, Float64Array.from(at, (i) => (values as Float64Array)[i]!)]),
  ) as T;

/** What the strings can give along the grid under a light course. */
export const maximaOf = (array: ArrayPlan, course: LightCourse) =>
  arrayMaxima(array, course.ledger.effective, course.temperature, course.unequal);

/** Loads by hour along the grid. */
export type DayLoads = readonly Load[];

export const degreesOf = (radians: number): number => radians / degree;
