import { type GeocentricSun, geocentricSun } from './ephemeris.js';

const degree = Math.PI / 180;
/** Horizontal parallax of the sun at 1 AU [rad]. Source: Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 40 (8.794 arc seconds). */
const solarParallax = (8.794 / 3600) * degree;
/** Flattening and equatorial radius [m] of the Earth. Source: Meeus, 1998, ch. 11. */
const polarOverEquatorialRadius = 0.99664719;
const equatorialRadius = 6378140;
/** Apparent radius of the sun's disc and refraction at the horizon [rad]. Source: Reda and Andreas, Solar Energy 76, 2004, section 3.11. */
export const solarDiscRadius = 0.26667 * degree;
export const horizonRefraction = 0.5667 * degree;

export interface Place {
  /** North positive [rad] */
  readonly latitude: number;
  /** East positive [rad] */
  readonly longitude: number;
  /** Above mean sea level [m], default 0 */
  readonly altitude?: number;
  /** Of the air at the place, for refraction [Pa], default 101325 */
  readonly pressure?: number;
  /** Of the air at the place, for refraction [K], default 288.15 */
  readonly temperature?: number;
}

/** Where the sun stands. Directions: azimuth from north clockwise (east pi/2); unit vectors east, north, up. */
export interface SunPosition {
  /** Of the disc's centre without refraction [rad] */
  readonly trueZenith: number;
  /** Of the disc's centre as seen through the air [rad] */
  readonly apparentZenith: number;
  /** From north clockwise [rad, 0 to 2 pi] */
  readonly azimuth: number;
  /** Earth to sun [AU] */
  readonly distance: number;
  /** Apparent minus mean solar time [s] */
  readonly equationOfTime: number;
  /** Geocentric apparent declination [rad] */
  readonly declination: number;
  /** Topocentric local hour angle, west positive [rad, -pi to pi] */
  readonly hourAngle: number;
  /** Unit vector to the apparent sun: east, north, up */
  readonly direction: readonly [east: number, north: number, up: number];
}

/**
 * Bending of light from the sun by the air.
 * @param state.trueElevation - of the disc's centre, unrefracted [rad]
 * @param state.pressure - [Pa]
 * @param state.temperature - [K]
 * @returns angle by which the sun appears higher [rad]; 0 when the whole disc is below the refracted horizon
 * Source: Reda and Andreas, Solar Energy 76, 2004, eq. 42 (Saemundsson, Sky and Telescope 72, 1986, with Meeus's scaling).
 */
export function refraction(state: {
  readonly trueElevation: number;
  readonly pressure: number;
  readonly temperature: number;
}): number {
  if (state.trueElevation < -(solarDiscRadius + horizonRefraction)) return 0;
  const elevation = state.trueElevation / degree;
  const angle = (elevation + 10.3 / (elevation + 5.11)) * degree;
  const scale = (state.pressure / 101000) * (283 / (state.temperature - 0.15));
  // Near the zenith the formula crosses zero by a few hundredths of an arc second.
  return Math.max(0, ((scale * 1.02) / (60 * Math.tan(angle))) * degree);
}

/** What the observer's place contributes to every position. */
interface Site {
  readonly longitude: number;
  readonly sinLatitude: number;
  readonly cosLatitude: number;
  /** Of the observer on the ellipsoid, in equatorial radii: towards the equator and towards the pole */
  readonly equatorward: number;
  readonly poleward: number;
  readonly pressure: number;
  readonly temperature: number;
}

function siteOf(place: Place): Site {
  const altitude = (place.altitude ?? 0) / equatorialRadius;
  const reduced = Math.atan(polarOverEquatorialRadius * Math.tan(place.latitude));
  return {
    longitude: place.longitude,
    sinLatitude: Math.sin(place.latitude),
    cosLatitude: Math.cos(place.latitude),
    equatorward: Math.cos(reduced) + altitude * Math.cos(place.latitude),
    poleward: polarOverEquatorialRadius * Math.sin(reduced) + altitude * Math.sin(place.latitude),
    pressure: place.pressure ?? 101325,
    temperature: place.temperature ?? 288.15,
  };
}

const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** Topocentric place of the sun (parallax included). Source: Meeus, 1998, ch. 40; Reda and Andreas, 2004, section 3.12. */
function seenFrom(site: Site, sun: GeocentricSun): SunPosition {
  const hourAngle = wrapped(sun.siderealTime + site.longitude - sun.rightAscension);
  const sinParallax = Math.sin(solarParallax) / sun.distance;
  // Rectangular equatorial coordinates with x in the plane of the meridian, y west; the observer is subtracted.
  const cosDeclination = Math.cos(sun.declination);
  const x = cosDeclination * Math.cos(hourAngle) - site.equatorward * sinParallax;
  const y = cosDeclination * Math.sin(hourAngle);
  const z = Math.sin(sun.declination) - site.poleward * sinParallax;
  const east = -y;
  const north = z * site.cosLatitude - x * site.sinLatitude;
  const up = x * site.cosLatitude + z * site.sinLatitude;
  const horizontal = Math.hypot(east, north);
  const trueElevation = Math.atan2(up, horizontal);
  const { pressure, temperature } = site;
  const elevation = trueElevation + refraction({ trueElevation, pressure, temperature });
  const azimuth = Math.atan2(east, north);
  const shrink = horizontal > 0 ? Math.cos(elevation) / horizontal : 0;
  return {
    trueZenith: Math.PI / 2 - trueElevation,
    apparentZenith: Math.PI / 2 - elevation,
    azimuth: azimuth < 0 ? azimuth + 2 * Math.PI : azimuth,
    distance: sun.distance,
    equationOfTime: sun.equationOfTime,
    declination: sun.declination,
    hourAngle: Math.atan2(y, x),
    direction: [east * shrink, north * shrink, Math.sin(elevation)],
  };
}

function checkPlace(place: Place): void {
  if (!(Math.abs(place.latitude) <= Math.PI / 2)) throw new RangeError(`latitude out of range: ${place.latitude} rad`);
  if (!Number.isFinite(place.longitude)) throw new RangeError(`longitude is not a number: ${place.longitude}`);
}

/**
 * Position of the sun for a place and instant.
 * @param at.time - instant, UTC [s since 1970-01-01]
 * @param at.latitude - north positive [rad]
 * @param at.longitude - east positive [rad]
 * @param at.altitude - above mean sea level [m]
 * @param at.pressure - at the place [Pa]
 * @param at.temperature - at the place [K]
 * @returns zenith angles, azimuth, distance; within 0.002 degrees for 1990 to 2050 (universal time taken equal to UTC)
 * Source: Meeus, Astronomical Algorithms, 2nd ed. 1998; Reda and Andreas, Solar Energy 76, 2004.
 */
export function sunPosition(at: Place & { readonly time: number }): SunPosition {
  if (!Number.isFinite(at.time)) throw new RangeError(`time is not a number: ${at.time}`);
  checkPlace(at);
  return seenFrom(siteOf(at), geocentricSun(at.time));
}

/** Sun positions of one place at many instants, in typed arrays of equal length. Units and frames as in `SunPosition`. */
export interface SunTrack {
  readonly time: Float64Array;
  readonly trueZenith: Float64Array;
  readonly apparentZenith: Float64Array;
  readonly azimuth: Float64Array;
  readonly distance: Float64Array;
  /** Unit vector to the apparent sun */
  readonly east: Float64Array;
  readonly north: Float64Array;
  readonly up: Float64Array;
}

/**
 * Positions of the sun at many instants.
 * @param at.times - instants, UTC [s since 1970-01-01]
 * @returns typed arrays, one entry per instant; other parameters as for `sunPosition`
 */
export function sunTrack(at: Place & { readonly times: ArrayLike<number> }): SunTrack {
  checkPlace(at);
  const site = siteOf(at);
  const count = at.times.length;
  for (let index = 0; index < count; index++) {
    if (!Number.isFinite(at.times[index])) throw new RangeError(`time ${index} is not a number: ${at.times[index]}`);
  }
  const column = () => new Float64Array(count);
  const track = {
    time: Float64Array.from(at.times),
    trueZenith: column(),
    apparentZenith: column(),
    azimuth: column(),
    distance: column(),
    east: column(),
    north: column(),
    up: column(),
  };
  for (let index = 0; index < count; index++) {
    const position = seenFrom(site, geocentricSun(track.time[index]!));
    track.trueZenith[index] = position.trueZenith;
    track.apparentZenith[index] = position.apparentZenith;
    track.azimuth[index] = position.azimuth;
    track.distance[index] = position.distance;
    track.east[index] = position.direction[0];
    track.north[index] = position.direction[1];
    track.up[index] = position.direction[2];
  }
  return track;
}

/**
 * A track of one instant from a stated direction of the sun, for questions that name no place or time.
 * @param sun.apparentZenith - [rad]
 * @param sun.azimuth - from north clockwise [rad], default south
 * @param sun.distance - [AU], default 1
 * @returns track of length 1; its time is 0 and its true zenith angle the apparent one
 */
export function sunTrackFromDirection(sun: {
  readonly apparentZenith: number;
  readonly azimuth?: number;
  readonly distance?: number;
}): SunTrack {
  const azimuth = sun.azimuth ?? Math.PI;
  const sinZenith = Math.sin(sun.apparentZenith);
  return {
    time: Float64Array.of(0),
    trueZenith: Float64Array.of(sun.apparentZenith),
    apparentZenith: Float64Array.of(sun.apparentZenith),
    azimuth: Float64Array.of(azimuth),
    distance: Float64Array.of(sun.distance ?? 1),
    east: Float64Array.of(sinZenith * Math.sin(azimuth)),
    north: Float64Array.of(sinZenith * Math.cos(azimuth)),
    up: Float64Array.of(Math.cos(sun.apparentZenith)),
  };
}
