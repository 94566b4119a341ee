import { brentRoot } from '../math/roots.js';
import { horizonRefraction, type Place, solarDiscRadius, sunPosition } from './position.js';

/**
 * True elevation of the disc's centre at sunrise and sunset, upper edge on a level horizon [rad].
 * Source: Reda and Andreas, Solar Energy 76, 2004, section 3.11 and appendix A.2.
 */
export const elevationAtSunrise = -(solarDiscRadius + horizonRefraction);

/** When the sun is up on the solar day around one transit. Instants are UTC [s since 1970-01-01], elevations true [rad]. */
export type Daylight =
  | {
      readonly kind: 'rises and sets';
      readonly sunrise: number;
      readonly sunset: number;
      readonly transit: number;
      readonly transitElevation: number;
    }
  | { readonly kind: 'never sets'; readonly transit: number; readonly transitElevation: number }
  | { readonly kind: 'never rises'; readonly transit: number; readonly transitElevation: number }
  /** Near a pole the sun may cross the horizon only once in a day: up from sunrise on, or until sunset. */
  | {
      readonly kind: 'rises only';
      readonly sunrise: number;
      readonly transit: number;
      readonly transitElevation: number;
    }
  | {
      readonly kind: 'sets only';
      readonly sunset: number;
      readonly transit: number;
      readonly transitElevation: number;
    };

const halfDay = 43200;
/** Steps in half a day when looking for crossings; the transit itself is a node, so the shortest day is not overlooked. */
const stepsInHalfDay = 36;

/**
 * Depression of the sea horizon seen from a height: the sun rises earlier and sets later for an aircraft.
 * @param height - above the ground or sea [m]
 * @returns angle below the level [rad]
 * Source: Bowditch, The American Practical Navigator, table 12 (1.76 arc minutes times the root of metres, refraction included; from memory).
 */
export function horizonDip(height: number): number {
  return ((1.76 / 60) * Math.PI * Math.sqrt(Math.max(height, 0))) / 180;
}

/**
 * Instant at which the sun crosses the meridian (hour angle zero), nearest to a given instant.
 * @param at.near - instant [s since 1970-01-01, UTC]
 * @returns instant [s since 1970-01-01, UTC], within 12 hours of `near`
 */
export function solarTransit(at: Place & { readonly near: number }): number {
  let time = at.near;
  // The hour angle runs within 0.03 % of uniformly, so each pass shrinks the error by a factor of 3000.
  for (let pass = 0; pass < 4; pass++) {
    time -= (sunPosition({ ...at, time }).hourAngle * 86400) / (2 * Math.PI);
  }
  return time;
}

/**
 * Sunrise, sunset and transit of a day.
 * @param day.dayStart - beginning of the day at the place, local midnight [s since 1970-01-01, UTC]; the transit nearest
 *   to half a day later is taken, with the half days before and after it, so a zone error of some hours does no harm
 * @param day.latitude - north positive [rad]
 * @param day.longitude - east positive [rad]
 * @param day.elevation - true elevation of the disc's centre that counts as sunrise [rad], default -0.83337 degrees;
 *   subtract `horizonDip` for an observer high above the ground
 * @returns rise, set and transit, or that the sun never rises or never sets on this day
 */
export function sunriseSunset(day: Place & { readonly dayStart: number; readonly elevation?: number }): Daylight {
  const threshold = day.elevation ?? elevationAtSunrise;
  const height = (time: number): number => Math.PI / 2 - sunPosition({ ...day, time }).trueZenith - threshold;
  const transit = solarTransit({ ...day, near: day.dayStart + halfDay });
  const transitElevation = height(transit) + threshold;
  const step = halfDay / stepsInHalfDay;
  let sunrise: number | undefined;
  let sunset: number | undefined;
  let before = height(transit - halfDay);
  for (let index = -stepsInHalfDay + 1; index <= stepsInHalfDay; index++) {
    const time = transit + index * step;
    const now = height(time);
    if (before < 0 !== now < 0) {
      // A tenth of a second: the rise itself is known to some seconds, for refraction at the horizon varies.
      const crossing = brentRoot(height, time - step, time, { tolerance: 0.1 }) ?? time;
      if (now >= 0) sunrise ??= crossing;
      else sunset = crossing;
    }
    before = now;
  }
  const common = { transit, transitElevation };
  if (sunrise !== undefined && sunset !== undefined && sunrise < sunset) {
    return { kind: 'rises and sets', sunrise, sunset, ...common };
  }
  if (sunrise !== undefined && sunset === undefined) return { kind: 'rises only', sunrise, ...common };
  if (sunset !== undefined && sunrise === undefined) return { kind: 'sets only', sunset, ...common };
  // A sun that sets before it rises within the day is down only for a moment about midnight of a polar summer.
  return before >= 0 || transitElevation >= threshold
    ? { kind: 'never sets', ...common }
    : { kind: 'never rises', ...common };
}
