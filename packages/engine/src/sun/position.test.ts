import * as astronomy from 'astronomy-engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deltaT, geocentricSun } from './ephemeris.js';
import {
  horizonRefraction,
  type Place,
  refraction,
  solarDiscRadius,
  sunPosition,
  sunTrack,
  sunTrackFromDirection,
} from './position.js';
import { spencerDay } from './spencer.js';

const degree = Math.PI / 180;
const start2000 = Date.UTC(2000, 0, 1) / 1000;
const end2050 = Date.UTC(2050, 11, 31) / 1000;

/** Any place and millisecond from 2000 to 2050. */
const situation = fc.record({
  time: fc.integer({ min: start2000, max: end2050 }),
  latitude: fc.double({ min: -89.9 * degree, max: 89.9 * degree, noNaN: true }),
  longitude: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
  altitude: fc.double({ min: 0, max: 4000, noNaN: true }),
});

/** True direction of the sun (east, north, up) by the independent library. */
function oracle(at: Place & { time: number }): [number, number, number] {
  const observer = new astronomy.Observer(at.latitude / degree, at.longitude / degree, at.altitude ?? 0);
  const instant = new astronomy.AstroTime(new Date(at.time * 1000));
  const place = astronomy.Equator(astronomy.Body.Sun, instant, observer, true, true);
  const seen = astronomy.Horizon(instant, observer, place.ra, place.dec);
  return direction((90 - seen.altitude) * degree, seen.azimuth * degree);
}

const direction = (zenith: number, azimuth: number): [number, number, number] => [
  Math.sin(zenith) * Math.sin(azimuth),
  Math.sin(zenith) * Math.cos(azimuth),
  Math.cos(zenith),
];

/** Angle between unit vectors [deg]; the half-chord keeps its accuracy for small angles. */
const separation = (a: readonly number[], b: readonly number[]): number =>
  (2 * Math.asin(Math.min(1, Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!) / 2))) / degree;

describe('sun position', () => {
  it('lies within 0.001 degrees of an independent ephemeris from 2000 to 2050', () => {
    fc.assert(
      fc.property(situation, (at) => {
        const sun = sunPosition(at);
        expect(separation(direction(sun.trueZenith, sun.azimuth), oracle(at))).toBeLessThan(0.001);
      }),
      { numRuns: 3000, seed: 20260621 },
    );
  });
  it('gives a unit vector to the apparent sun that agrees with its angles', () => {
    fc.assert(
      fc.property(situation, (at) => {
        const sun = sunPosition(at);
        expect(separation(direction(sun.apparentZenith, sun.azimuth), sun.direction)).toBeLessThan(1e-9);
        expect(Math.hypot(...sun.direction)).toBeCloseTo(1, 12);
        expect(sun.azimuth).toBeGreaterThanOrEqual(0);
        expect(sun.azimuth).toBeLessThanOrEqual(2 * Math.PI);
      }),
    );
  });
  it('is lifted by refraction, more so by dense air, and not below the horizon', () => {
    const at = (trueElevation: number, pressure = 101325) =>
      refraction({ trueElevation, pressure, temperature: 288.15 });
    fc.assert(
      fc.property(fc.double({ min: 0, max: Math.PI / 2, noNaN: true }), (elevation) => {
        expect(at(elevation)).toBeGreaterThanOrEqual(0);
        expect(at(elevation, 80000)).toBeLessThanOrEqual(at(elevation));
        expect(at(elevation)).toBeLessThan(0.6 * degree);
      }),
    );
    expect(at(0.1)).toBeGreaterThan(at(0.5));
    expect(at(-(horizonRefraction + solarDiscRadius) - 1e-6)).toBe(0);
    expect(at(0.5, 0)).toBe(0);
  });
  it('stands in the south at noon in the north, in the north at noon in the south, and overhead between', () => {
    const noon = Date.UTC(2026, 5, 21, 12, 2) / 1000;
    expect(sunPosition({ time: noon, latitude: 45 * degree, longitude: 0 }).azimuth / degree).toBeCloseTo(180, 0);
    const south = sunPosition({ time: noon, latitude: -45 * degree, longitude: 0 }).azimuth / degree;
    expect(Math.min(south, 360 - south)).toBeLessThan(1);
    expect(sunPosition({ time: noon, latitude: 23.44 * degree, longitude: 0 }).trueZenith / degree).toBeLessThan(0.3);
  });
  it('does not change by a full turn of longitude and is defined at the poles', () => {
    const time = Date.UTC(2026, 5, 21, 9) / 1000;
    const here = sunPosition({ time, latitude: 0.7, longitude: 0.3 });
    const round = sunPosition({ time, latitude: 0.7, longitude: 0.3 + 2 * Math.PI });
    expect(round.azimuth).toBeCloseTo(here.azimuth, 10);
    for (const latitude of [Math.PI / 2, -Math.PI / 2]) {
      const sun = sunPosition({ time, latitude, longitude: 0 });
      for (const value of [sun.trueZenith, sun.azimuth, ...sun.direction]) expect(Number.isFinite(value)).toBe(true);
      expect(90 - sun.trueZenith / degree).toBeCloseTo((Math.sign(latitude) * sun.declination) / degree, 1);
    }
  });
  it('refuses what is no place or time', () => {
    expect(() => sunPosition({ time: Number.NaN, latitude: 0, longitude: 0 })).toThrow(RangeError);
    expect(() => sunPosition({ time: 0, latitude: 2, longitude: 0 })).toThrow(RangeError);
    expect(() => sunPosition({ time: 0, latitude: 0, longitude: Number.NaN })).toThrow(RangeError);
    expect(() => sunTrack({ times: [0, Number.NaN], latitude: 0, longitude: 0 })).toThrow(RangeError);
  });
});

describe('sun track', () => {
  it('holds the single positions', () => {
    const place = { latitude: 0.71, longitude: 0.02, altitude: 300, pressure: 97000, temperature: 290 };
    const times = [0, 1, 2, 3].map((hour) => Date.UTC(2026, 5, 21, 6 + hour) / 1000);
    const track = sunTrack({ ...place, times });
    times.forEach((time, index) => {
      const sun = sunPosition({ ...place, time });
      expect(track.time[index]).toBe(time);
      expect(track.trueZenith[index]).toBe(sun.trueZenith);
      expect(track.apparentZenith[index]).toBe(sun.apparentZenith);
      expect(track.azimuth[index]).toBe(sun.azimuth);
      expect(track.distance[index]).toBe(sun.distance);
      expect([track.east[index], track.north[index], track.up[index]]).toEqual(sun.direction);
    });
  });
  it('can be made from a direction', () => {
    const track = sunTrackFromDirection({ apparentZenith: 0.5, azimuth: Math.PI / 2 });
    expect(track.east[0]).toBeCloseTo(Math.sin(0.5), 12);
    expect(track.north[0]).toBeCloseTo(0, 12);
    expect(track.up[0]).toBeCloseTo(Math.cos(0.5), 12);
    expect(track.distance[0]).toBe(1);
    expect(sunTrackFromDirection({ apparentZenith: 0.5 }).north[0]).toBeLessThan(0);
  });
});

describe('time and day', () => {
  it('knows the measured difference of terrestrial and universal time', () => {
    // Bulletins of the International Earth Rotation Service: 2000.0 63.83 s, 1980.0 50.54 s, 2020.0 69.36 s.
    expect(deltaT(Date.UTC(2000, 0, 1) / 1000)).toBeCloseTo(63.83, 0);
    expect(deltaT(Date.UTC(1980, 0, 1) / 1000)).toBeCloseTo(50.54, 0);
    // The polynomial of 2006 could not know that the Earth would speed up: 2 s too much by now, 0.1 arc seconds of the sun.
    expect(Math.abs(deltaT(Date.UTC(2020, 0, 1) / 1000) - 69.36)).toBeLessThan(3);
    expect(deltaT(1e15)).toBe(deltaT(Date.UTC(2200, 0, 1) / 1000));
  });
  it('joins its pieces without a jump', () => {
    for (const year of [1986, 2005, 2050]) {
      const edge = Date.UTC(year, 0, 1) / 1000;
      expect(Math.abs(deltaT(edge + 86400 * 3) - deltaT(edge - 86400 * 3))).toBeLessThan(0.5);
    }
  });
  it('agrees with the Fourier series of the day of the year', () => {
    for (let day = 1; day <= 365; day += 7) {
      const sun = geocentricSun(Date.UTC(2026, 0, day, 12) / 1000);
      const rough = spencerDay(day + 0.5);
      expect(Math.abs(rough.declination - sun.declination) / degree).toBeLessThan(0.35);
      expect(Math.abs(rough.equationOfTime - sun.equationOfTime)).toBeLessThan(60);
      // 0.0011 is the slip of perihelion by about two days against the calendar of the fit.
      expect(Math.abs(rough.distanceFactor * sun.distance ** 2 - 1)).toBeLessThan(0.0012);
    }
  });
});
