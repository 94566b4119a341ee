import type { CompletePlan, Sky } from '@noonwing/design';
import type { Air } from '@noonwing/engine/air';
import { type ArrayPlan, arrayMaxima, cellTemperatures, type Load, mismatchFactors } from '@noonwing/engine/day';
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
  lightLedger,
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
  /** Air temperature at flight height less its mean [K]. */
  readonly ambientOffset: Float64Array;
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
  readonly temperatureSwing: number;
}

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
  // Air temperature follows a cosine with its maximum three hours after noon, its minimum about sunrise (common practice).
  const ambientOffset = hours.map((hour) => 0.5 * plan.temperatureSwing * Math.cos((2 * Math.PI * (hour - 15)) / 24));
  return {
    times,
    sun,
    hours,
    greatestSine,
    ambientOffset,
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
}

/**
 * Geometry of the light on an array that flies circles at a bank (level where the bank is nearly zero: all headings alike).
 */
export function lightSetup(
  grid: DayGrid,
  array: ArrayPlan,
  attitude: { bank: number; pitch: number },
  turbidity: number,
  altitude: number,
  albedo: number,
): LightSetup {
  const facets = array.facets.map(({ normal }) => normal);
  const { incidence } = array;
  const clear = clearSkyOf(grid, { turbidity, altitude });
  const terms = skyTermsTrack(grid.sun, clear, { model: 'perez', albedo });
  const headings = chooseHeadings({ sun: grid.sun, terms, facets, ...attitude, incidence });
  const geometry = lightGeometry({
    sun: grid.sun,
    facets,
    pattern: { ...attitude, headings: circleHeadings(headings.count) },
    incidence,
  });
  return { geometry, headings };
}

/** A clear sky along a grid; `known` is another sky along the same grid, whose air mass is taken over. */
export const clearSkyOf = (
  grid: DayGrid,
  sky: { readonly turbidity: number; readonly altitude: number },
  known?: SkyTrack,
): SkyTrack => clearSkyTrack(grid.sun, { turbidity: Math.max(1, sky.turbidity), altitude: sky.altitude }, known);

/** Terms of a clear sky under cloud. */
export function skyTermsOf(
  grid: DayGrid,
  clear: SkyTrack,
  sky: { readonly clearSkyIndex: number; readonly albedo: number },
): { readonly sky: SkyTrack; readonly terms: SkyTermsTrack } {
  const under = sky.clearSkyIndex === 1 ? clear : cloudyTrack(clear, grid.sun, sky.clearSkyIndex);
  return { sky: under, terms: skyTermsTrack(grid.sun, under, { model: 'perez', albedo: sky.albedo }) };
}

/** Light on the cells, their temperature, and what unequal light costs, for one sky along the grid. */
export interface LightCourse {
  readonly sky: SkyTrack;
  readonly ledger: LightLedger;
  readonly temperature: Float64Array;
  readonly mismatch: Float64Array;
}

/** Half an hour between the instants at which unequal light is evaluated heading by heading. */
const mismatchStep = 1800;

export function lightCourse(
  grid: DayGrid,
  array: ArrayPlan,
  setup: LightSetup,
  sky: {
    readonly turbidity: number;
    readonly altitude: number;
    readonly clearSkyIndex: number;
    readonly albedo: number;
  },
  flow: { readonly air: Air; readonly airspeed: number },
): LightCourse {
  const { terms, sky: track } = skyTermsOf(grid, clearSkyOf(grid, sky), sky);
  const ledger = lightLedger(setup.geometry, terms);
  const temperature = withAmbient(cellTemperatures(array, ledger.effective, flow), grid, array.facets.length);
  const unequal = array.strings.some(({ groups }) => groups.length > 1);
  const step = grid.times[1]! - grid.times[0]!;
  const mismatch = unequal
    ? mismatchFactors(array, effectiveLight(setup.geometry, terms), ledger.effective, temperature, {
        headings: setup.geometry.headingCount,
        stride: Math.max(1, Math.round(mismatchStep / step)),
        until: grid.stepsPerDay,
      })
    : new Float64Array(array.strings.length * grid.sun.time.length).fill(1);
  return { sky: track, ledger, temperature, mismatch };
}

/** Cell temperatures shifted by the course of the air temperature through the day. */
function withAmbient(temperature: Float64Array, grid: DayGrid, facets: number): Float64Array {
  for (let i = 0; i < temperature.length; i++) temperature[i]! += grid.ambientOffset[Math.floor(i / facets)]!;
  return temperature;
}

/** What the strings can give along the grid under a light course. */
export const maximaOf = (array: ArrayPlan, course: LightCourse) =>
  arrayMaxima(array, course.ledger.effective, course.temperature, course.mismatch);

/** Loads by hour along the grid. */
export type DayLoads = readonly Load[];

export const degreesOf = (radians: number): number => radians / degree;
