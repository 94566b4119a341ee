import { latitudeTerms, longitudeTerms, type PeriodicTerms, radiusTerms } from './ephemeris-terms.js';

const degree = Math.PI / 180;
const arcSecond = degree / 3600;
/** Seconds from 1970-01-01 00:00 to 2000-01-01 12:00 (J2000), both in the same time scale. */
const unixSecondsOfJ2000 = 946728000;
const secondsPerJulianCentury = 86400 * 36525;

/**
 * Terrestrial time minus universal time.
 * @param unixSeconds - instant, UTC [s since 1970-01-01]
 * @returns difference [s]; 5 s of error move the sun by 0.2 arc seconds. Meant for 1961 to 2150; held outside.
 * Source: Espenak and Meeus, Five Millennium Canon of Solar Eclipses, NASA/TP-2006-214141, 2006, polynomial expressions for 1961 to 2150.
 */
export function deltaT(unixSeconds: number): number {
  const year = Math.min(Math.max(1970 + unixSeconds / (86400 * 365.2425), 1961), 2150);
  const t = year - 2000;
  if (year < 1986) {
    const u = year - 1975;
    return 45.45 + 1.067 * u - u ** 2 / 260 - u ** 3 / 718;
  }
  if (year < 2005) {
    return 63.86 + t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 0.00002373599))));
  }
  if (year < 2050) return 62.92 + 0.32217 * t + 0.005589 * t ** 2;
  const u = (year - 1820) / 100;
  return -20 + 32 * u ** 2 - 0.5628 * (2150 - year);
}

function sumOfTerms(series: readonly PeriodicTerms[], millennia: number): number {
  let total = 0;
  for (let power = series.length - 1; power >= 0; power--) {
    const terms = series[power]!;
    let sum = 0;
    for (let index = 0; index < terms.length; index += 3) {
      sum += terms[index]! * Math.cos(terms[index + 1]! + terms[index + 2]! * millennia);
    }
    total = total * millennia + sum;
  }
  return total * 1e-8;
}

/** The sun as seen from the centre of the Earth, and the turn of the Earth. */
export interface GeocentricSun {
  /** Apparent right ascension, equator and equinox of date [rad, 0 to 2 pi] */
  readonly rightAscension: number;
  /** Apparent declination [rad] */
  readonly declination: number;
  /** Earth to sun [AU] */
  readonly distance: number;
  /** Apparent sidereal time at Greenwich [rad, not reduced] */
  readonly siderealTime: number;
  /** Apparent minus mean solar time [s], within 20 minutes */
  readonly equationOfTime: number;
}

interface Nutation {
  /** [rad] */
  readonly longitude: number;
  /** [rad] */
  readonly obliquity: number;
}

/** Source: Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 22, abridged series, accurate to 0.5 arc seconds. */
function nutation(centuries: number): Nutation {
  const node = (125.04452 - 1934.136261 * centuries) * degree;
  const sun = (280.4665 + 36000.7698 * centuries) * 2 * degree;
  const moon = (218.3165 + 481267.8813 * centuries) * 2 * degree;
  return {
    longitude:
      (-17.2 * Math.sin(node) - 1.32 * Math.sin(sun) - 0.23 * Math.sin(moon) + 0.21 * Math.sin(2 * node)) * arcSecond,
    obliquity:
      (9.2 * Math.cos(node) + 0.57 * Math.cos(sun) + 0.1 * Math.cos(moon) - 0.09 * Math.cos(2 * node)) * arcSecond,
  };
}

/** Mean obliquity of the ecliptic [rad]. Source: Meeus, 1998, eq. 22.2. */
const meanObliquity = (centuries: number): number =>
  (84381.448 - centuries * (46.815 + centuries * (0.00059 - centuries * 0.001813))) * arcSecond;

/** Mean sidereal time at Greenwich [rad]; `centuries` of universal time. Source: Meeus, 1998, eq. 12.4. */
function meanSiderealTime(centuries: number): number {
  const days = centuries * 36525;
  return (280.46061837 + 360.98564736629 * days + centuries ** 2 * (0.000387933 - centuries / 38710000)) * degree;
}

/** Mean longitude of the sun [rad]. Source: Reda and Andreas, 2004, eq. A2. */
const meanLongitude = (t: number): number =>
  (280.4664567 + t * (360007.6982779 + t * (0.03032028 + t * (1 / 49931 - t * (1 / 15300 + t / 2000000))))) * degree;

const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/**
 * Apparent place of the sun for the centre of the Earth: truncated planetary theory, nutation, aberration.
 * @param unixSeconds - instant, UTC [s since 1970-01-01]; universal time is taken equal to it, which the Earth's
 *   rotation keeps true to 0.9 s (0.004 degrees of hour angle at most)
 * @returns apparent right ascension, declination, distance, sidereal time
 * Source: Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25 (higher accuracy); Reda and Andreas, Solar Energy 76, 2004.
 */
export function geocentricSun(unixSeconds: number): GeocentricSun {
  const universal = (unixSeconds - unixSecondsOfJ2000) / secondsPerJulianCentury;
  const centuries = universal + deltaT(unixSeconds) / secondsPerJulianCentury;
  const millennia = centuries / 10;
  const distance = sumOfTerms(radiusTerms, millennia);
  const nod = nutation(centuries);
  const obliquity = meanObliquity(centuries) + nod.obliquity;
  const aberration = (-20.4898 / distance) * arcSecond;
  const longitude = sumOfTerms(longitudeTerms, millennia) + Math.PI + nod.longitude + aberration;
  const latitude = -sumOfTerms(latitudeTerms, millennia);
  const sinLongitude = Math.sin(longitude);
  const rightAscension = Math.atan2(
    sinLongitude * Math.cos(obliquity) - Math.tan(latitude) * Math.sin(obliquity),
    Math.cos(longitude),
  );
  const declination = Math.asin(
    Math.sin(latitude) * Math.cos(obliquity) + Math.cos(latitude) * Math.sin(obliquity) * sinLongitude,
  );
  const shift = nod.longitude * Math.cos(obliquity);
  const hourAngleOfMeanSun = meanLongitude(millennia) - 0.0057183 * degree - rightAscension + shift;
  return {
    rightAscension: rightAscension < 0 ? rightAscension + 2 * Math.PI : rightAscension,
    declination,
    distance,
    siderealTime: meanSiderealTime(universal) + shift,
    equationOfTime: (wrapped(hourAngleOfMeanSun) * 86400) / (2 * Math.PI),
  };
}
