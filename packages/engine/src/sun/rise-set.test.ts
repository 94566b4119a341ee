import * as astronomy from 'astronomy-engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sunPosition } from './position.js';
import { elevationAtSunrise, horizonDip, solarTransit, sunriseSunset } from './rise-set.js';

const degree = Math.PI / 180;
const day = (year: number, month: number, date: number): number => Date.UTC(year, month - 1, date) / 1000;

const anyDay = fc.record({
  dayStart: fc.integer({ min: day(2000, 1, 1), max: day(2050, 1, 1) }),
  latitude: fc.double({ min: -Math.PI / 2, max: Math.PI / 2, noNaN: true }),
  longitude: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
});

const elevationAt = (place: { latitude: number; longitude: number }, time: number): number =>
  Math.PI / 2 - sunPosition({ ...place, time }).trueZenith;

describe('sunrise and sunset', () => {
  it('agree with an independent ephemeris within 2 s', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: day(2000, 1, 1), max: day(2050, 1, 1) }),
        fc.double({ min: -60 * degree, max: 60 * degree, noNaN: true }),
        fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
        (dayStart, latitude, longitude) => {
          const result = sunriseSunset({ dayStart, latitude, longitude });
          if (result.kind !== 'rises and sets') throw new Error(result.kind);
          const observer = new astronomy.Observer(latitude / degree, longitude / degree, 0);
          const noon = new Date(result.transit * 1000);
          const search = (way: number, limit: number) =>
            astronomy.SearchAltitude(astronomy.Body.Sun, observer, way, noon, limit, elevationAtSunrise / degree);
          expect(Math.abs(search(1, -1)!.date.getTime() / 1000 - result.sunrise)).toBeLessThan(2);
          expect(Math.abs(search(-1, 1)!.date.getTime() / 1000 - result.sunset)).toBeLessThan(2);
        },
      ),
      { numRuns: 60, seed: 7 },
    );
  });
  it('stand on either side of transit, at the elevation asked for, at any place and day', () => {
    fc.assert(
      fc.property(anyDay, (at) => {
        const result = sunriseSunset(at);
        expect(Math.abs(result.transit - at.dayStart - 43200)).toBeLessThanOrEqual(43300);
        if ('sunrise' in result) {
          expect(elevationAt(at, result.sunrise)).toBeCloseTo(elevationAtSunrise, 4);
          expect(elevationAt(at, result.sunrise + 60)).toBeGreaterThan(elevationAt(at, result.sunrise - 60));
        }
        if ('sunset' in result) expect(elevationAt(at, result.sunset)).toBeCloseTo(elevationAtSunrise, 4);
        if (result.kind === 'rises and sets') {
          expect(result.sunrise).toBeLessThan(result.transit);
          expect(result.sunset).toBeGreaterThan(result.transit);
        }
        if (result.kind === 'never rises') {
          for (let hour = -12; hour <= 12; hour++) {
            expect(elevationAt(at, result.transit + 3600 * hour)).toBeLessThan(elevationAtSunrise);
          }
        }
        if (result.kind === 'never sets') {
          // All but a moment about midnight, at most.
          for (let hour = -11; hour <= 11; hour++) {
            expect(elevationAt(at, result.transit + 3600 * hour)).toBeGreaterThan(elevationAtSunrise);
          }
        }
      }),
      { numRuns: 300, seed: 11 },
    );
  });
  it('say that the polar sun never rises or never sets', () => {
    const tromso = { latitude: 69.65 * degree, longitude: 18.96 * degree };
    expect(sunriseSunset({ ...tromso, dayStart: day(2026, 6, 21) }).kind).toBe('never sets');
    expect(sunriseSunset({ ...tromso, dayStart: day(2026, 12, 21) }).kind).toBe('never rises');
    expect(sunriseSunset({ ...tromso, dayStart: day(2026, 3, 21) }).kind).toBe('rises and sets');
  });
  it('follow the pole through its year of one sunrise and one sunset', () => {
    const kinds = Array.from(
      { length: 365 },
      (_, date) => sunriseSunset({ latitude: Math.PI / 2, longitude: 0, dayStart: day(2026, 1, 1 + date) }).kind,
    );
    const count = (kind: string) => kinds.filter((found) => found === kind).length;
    expect(count('rises only') + count('rises and sets')).toBeLessThanOrEqual(2);
    expect(count('rises only')).toBe(1);
    expect(count('sets only')).toBe(1);
    expect(count('never sets')).toBeGreaterThan(180);
    expect(count('never rises')).toBeGreaterThan(170);
    expect(kinds[0]).toBe('never rises');
  });
  it('give half a day at the equinox on the equator, plus some minutes for disc and refraction', () => {
    const result = sunriseSunset({ latitude: 0, longitude: 0, dayStart: day(2026, 3, 20) });
    if (result.kind !== 'rises and sets') throw new Error(result.kind);
    expect((result.sunset - result.sunrise - 43200) / 60).toBeCloseTo(2 * 0.83337 * 4, 0);
    expect(result.transitElevation / degree).toBeGreaterThan(89);
  });
  it('come earlier and later for an observer high up', () => {
    const at = { latitude: 0.7, longitude: 0, dayStart: day(2026, 6, 21) };
    const ground = sunriseSunset(at);
    const aloft = sunriseSunset({ ...at, elevation: elevationAtSunrise - horizonDip(120) });
    if (ground.kind !== 'rises and sets' || aloft.kind !== 'rises and sets') throw new Error('expected a day');
    expect(aloft.sunrise).toBeLessThan(ground.sunrise - 60);
    expect(aloft.sunset).toBeGreaterThan(ground.sunset + 60);
    expect(horizonDip(0)).toBe(0);
    expect(horizonDip(-5)).toBe(0);
    expect(horizonDip(100) / degree).toBeCloseTo(0.293, 3);
  });
  it('need a place', () => {
    expect(() => sunriseSunset({ latitude: Number.NaN, longitude: 0, dayStart: 0 })).toThrow(RangeError);
  });
});

it('transit is where the hour angle vanishes', () => {
  fc.assert(
    fc.property(anyDay, (at) => {
      const transit = solarTransit({ ...at, near: at.dayStart });
      expect(Math.abs(sunPosition({ ...at, time: transit }).hourAngle)).toBeLessThan(1e-7);
      expect(Math.abs(transit - at.dayStart)).toBeLessThanOrEqual(43300);
    }),
  );
});
