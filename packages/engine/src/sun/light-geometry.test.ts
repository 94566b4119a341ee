import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../math/vector.js';
import { bodyToSky, circleHeadings, patchNormal, upperSurface } from './attitude.js';
import { chooseHeadings } from './circle.js';
import { filmCover, glassCover, type IncidenceModel } from './incidence.js';
import { clearSkyTrack, cloudyTrack } from './index.js';
import { effectiveLight, lightGeometry, lightLedger } from './light-geometry.js';
import { planeLight } from './plane.js';
import { sunTrack, sunTrackFromDirection } from './position.js';
import { type SkyTerms, type SkyTermsTrack, skyTermsTrack } from './sky-terms.js';

const degree = Math.PI / 180;
const noLoss: IncidenceModel = { kind: 'none' };
const times = Array.from({ length: 49 }, (_, half) => Date.UTC(2026, 5, 21) / 1000 + 1800 * half);
const sun = sunTrack({ times, latitude: 40.7 * degree, longitude: 0.9 * degree });
const sky = clearSkyTrack(sun, { turbidity: 3, altitude: 0 });
const terms = skyTermsTrack(sun, sky, { model: 'perez', albedo: 0.2 });
const facets = [
  patchNormal({ side: 'left', dihedral: 5 * degree, slope: 3 * degree }),
  patchNormal({ side: 'right', dihedral: 5 * degree, slope: 3 * degree }),
  patchNormal({ side: 'right', dihedral: 30 * degree, slope: -6 * degree }),
];

const termsAt = (track: SkyTermsTrack, index: number): SkyTerms => ({
  direct: track.direct[index]!,
  circumsolar: track.circumsolar[index]!,
  isotropic: track.isotropic[index]!,
  horizon: track.horizon[index]!,
  ground: track.ground[index]!,
});

describe('light geometry', () => {
  it('gives for every instant, heading and facet what the plane function gives', () => {
    const pattern = { pitch: 4 * degree, bank: -25 * degree, headings: circleHeadings(6) };
    for (const incidence of [noLoss, filmCover, glassCover]) {
      const geometry = lightGeometry({ sun, facets, pattern, incidence });
      const light = effectiveLight(geometry, terms);
      for (let instant = 0; instant < times.length; instant += 5) {
        for (let heading = 0; heading < 6; heading++) {
          for (let facet = 0; facet < facets.length; facet++) {
            const attitude = { heading: geometry.headings[heading]!, pitch: pattern.pitch, bank: pattern.bank };
            const expected = planeLight({
              normal: bodyToSky(facets[facet]!, attitude),
              sun: [sun.east[instant]!, sun.north[instant]!, sun.up[instant]!],
              terms: termsAt(terms, instant),
              incidence,
            }).effective;
            // 0.01 W/m2: the beam factor is interpolated in a table.
            expect(Math.abs(light[(instant * 6 + heading) * 3 + facet]! - expected)).toBeLessThan(0.01);
          }
        }
      }
    }
  });
  it('has a ledger that adds up and whose effective light is the mean over the headings', () => {
    const geometry = lightGeometry({
      sun,
      facets,
      incidence: filmCover,
      pattern: { pitch: 2 * degree, bank: 35 * degree, headings: circleHeadings(16) },
    });
    const light = effectiveLight(geometry, terms);
    const ledger = lightLedger(geometry, terms);
    for (let instant = 0, at = 0; instant < times.length; instant++) {
      for (let facet = 0; facet < facets.length; facet++, at++) {
        let mean = 0;
        for (let heading = 0; heading < 16; heading++) mean += light[(instant * 16 + heading) * 3 + facet]! / 16;
        expect(ledger.effective[at]!).toBeCloseTo(mean, 9);
        const arriving =
          ledger.direct[at]! +
          ledger.circumsolar[at]! +
          ledger.isotropic[at]! +
          ledger.horizon[at]! +
          ledger.ground[at]!;
        expect(ledger.effective[at]! + ledger.incidenceLoss[at]!).toBeCloseTo(arriving, 9);
        expect(ledger.incidenceLoss[at]!).toBeGreaterThanOrEqual(-1e-3);
      }
    }
  });
  it('serves another sky without new geometry', () => {
    const pattern = { pitch: 0, bank: 0, headings: [0.3] };
    const geometry = lightGeometry({ sun, facets: [upperSurface], pattern, incidence: noLoss });
    const cloudy = cloudyTrack(sky, sun, 0.6);
    const light = effectiveLight(geometry, skyTermsTrack(sun, cloudy, { model: 'perez', albedo: 0.2 }));
    // A level wing without incidence loss gets the global light; the table of cosines is exact for it.
    light.forEach((value, index) => {
      expect(value).toBeCloseTo(cloudy.globalHorizontal[index]!, 6);
    });
  });
  it('fills an array that is handed in, if it fits', () => {
    const geometry = lightGeometry({
      sun,
      facets,
      pattern: { pitch: 0, bank: 0.2, headings: [0] },
      incidence: filmCover,
    });
    const into = new Float64Array(geometry.beam.length).fill(7);
    expect(effectiveLight(geometry, terms, into)).toBe(into);
    expect(into[0]).toBe(0);
    expect(() => effectiveLight(geometry, terms, new Float64Array(3))).toThrow(RangeError);
    expect(() =>
      lightGeometry({ sun, facets, pattern: { pitch: 0, bank: 0, headings: [] }, incidence: noLoss }),
    ).toThrow(RangeError);
  });
  it('is finite and not negative anywhere on Earth, at any attitude, under any sky', () => {
    const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({ latitude: fc.double({ min: -Math.PI / 2, max: Math.PI / 2, noNaN: true }), longitude: angle }),
        fc.record({ pitch: angle, bank: angle }),
        fc.record({
          turbidity: fc.double({ min: 1, max: 10, noNaN: true }),
          altitude: fc.integer({ min: 0, max: 4000 }),
        }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        fc.constantFrom('isotropic' as const, 'hay-davies' as const, 'perez' as const),
        (place, attitude, air, index, model) => {
          const path = sunTrack({ ...place, times: times.filter((_, half) => half % 3 === 0) });
          const cloudy = cloudyTrack(clearSkyTrack(path, air), path, index);
          const light = skyTermsTrack(path, cloudy, { model, albedo: 0.5 });
          const pattern = { ...attitude, headings: circleHeadings(3) };
          const geometry = lightGeometry({ sun: path, facets, pattern, incidence: filmCover });
          for (const value of effectiveLight(geometry, light)) {
            expect(Number.isFinite(value)).toBe(true);
            expect(value).toBeGreaterThanOrEqual(-1e-9);
            expect(value).toBeLessThan(3000);
          }
        },
      ),
    );
  });
  it('gives left and right wing the same in a circle without bank, and mirrored banks the same', () => {
    const mean = (bank: number, facet: Vec3) => {
      const pattern = { pitch: 0, bank, headings: circleHeadings(64) };
      return lightGeometry({ sun, facets: [facet], pattern, incidence: filmCover }).beamMean;
    };
    const left = patchNormal({ side: 'left', dihedral: 0.2 });
    const right = patchNormal({ side: 'right', dihedral: 0.2 });
    mean(0, left).forEach((value, index) => {
      expect(value).toBeCloseTo(mean(0, right)[index]!, 3);
    });
    mean(0.3, left).forEach((value, index) => {
      expect(value).toBeCloseTo(mean(-0.3, right)[index]!, 3);
    });
  });
});

describe('banked circle', () => {
  it('has the mean cosine cos z cos bank while the sun is never behind the wing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 40 * degree, noNaN: true }),
        fc.double({ min: -45 * degree, max: 45 * degree, noNaN: true }),
        fc.integer({ min: 3, max: 20 }),
        (zenith, bank, count) => {
          const geometry = lightGeometry({
            sun: sunTrackFromDirection({ apparentZenith: zenith, azimuth: 1 }),
            facets: [upperSurface],
            pattern: { pitch: 0, bank, headings: circleHeadings(count) },
            incidence: noLoss,
          });
          expect(geometry.beamBareMean[0]).toBeCloseTo(Math.cos(zenith) * Math.cos(bank), 9);
        },
      ),
    );
  });
  it('gets more than that when the sun is low enough to be clipped', () => {
    const geometry = lightGeometry({
      sun: sunTrackFromDirection({ apparentZenith: 80 * degree }),
      facets: [upperSurface],
      pattern: { pitch: 0, bank: 30 * degree, headings: circleHeadings(360) },
      incidence: noLoss,
    });
    // Sun 10 degrees high, bank 30: 1.38 times the level wing's direct light.
    expect(geometry.beamBareMean[0]! / Math.cos(80 * degree)).toBeCloseTo(1.38, 2);
  });
  it('chooses enough headings: four times as many change the light by less than the tolerance', () => {
    for (const bank of [0, 15, 40, 60].map((value) => value * degree)) {
      const setup = { sun, terms, facets, pitch: 3 * degree, bank, incidence: filmCover };
      const choice = chooseHeadings(setup);
      expect(choice.reached).toBe(true);
      expect(choice.errorEstimate).toBeLessThan(0.003);
      const run = (count: number) => {
        const pattern = { pitch: setup.pitch, bank, headings: circleHeadings(count) };
        return lightLedger(lightGeometry({ sun, facets, pattern, incidence: filmCover }), terms).effective;
      };
      const coarse = run(choice.count);
      const fine = run(4 * choice.count);
      const brightest = Math.max(...fine);
      fine.forEach((value, index) => {
        expect(Math.abs(value - coarse[index]!) / Math.max(value, 0.1 * brightest)).toBeLessThan(0.006);
      });
    }
  });
  it('says whether the sun goes behind a facet, and when the tolerance is out of reach', () => {
    const noon = sunTrackFromDirection({ apparentZenith: 20 * degree });
    const bright = { direct: 900, circumsolar: 40, isotropic: 60, horizon: 5, ground: 190 };
    const noonTerms = Object.fromEntries(
      Object.entries(bright).map(([key, value]) => [key, Float64Array.of(value)]),
    ) as unknown as SkyTermsTrack;
    const setup = { sun: noon, terms: noonTerms, facets: [upperSurface], pitch: 0, incidence: filmCover };
    expect(chooseHeadings({ ...setup, bank: 20 * degree })).toMatchObject({ count: 8, reached: true, clipped: false });
    expect(chooseHeadings({ ...setup, bank: 80 * degree }).clipped).toBe(true);
    expect(chooseHeadings({ ...setup, bank: 80 * degree, tolerance: 0 })).toMatchObject({ count: 256, reached: false });
  });
  it('needs no headings to speak of in the dark', () => {
    const night = {
      sun: sunTrackFromDirection({ apparentZenith: 2 }),
      facets,
      pitch: 0,
      bank: 0.3,
      incidence: filmCover,
    };
    const dark = Object.fromEntries(
      ['direct', 'circumsolar', 'isotropic', 'horizon', 'ground'].map((key) => [key, new Float64Array(1)]),
    ) as unknown as SkyTermsTrack;
    expect(chooseHeadings({ ...night, terms: dark })).toEqual({
      count: 8,
      errorEstimate: 0,
      reached: true,
      clipped: false,
    });
  });
});
