import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../math/index.js';
import {
  bodyToSky,
  circleHeadings,
  filmCover,
  lightGeometry,
  lightLedger,
  planeLight,
  skyTermsAt,
  sunTrackFromDirection,
} from '../sun/index.js';
import { cellGeometry } from './cell-geometry.js';
import { cellLightAt, cellLightTrack, straightLeg } from './cell-light.js';
import { shadeTable } from './shade-table.js';
import type { PlacedCell } from './types.js';
import { levelCell } from './wall-shade.js';

const terms = skyTermsAt(
  {
    globalHorizontal: 468.59,
    directNormal: 786.07,
    diffuseHorizontal: 75.55,
    cosZenith: 0.5,
    extraterrestrial: 1361,
    airMass: 1.99429,
  },
  { model: 'perez', albedo: 0.2 },
);
const sun: Vec3 = [0, -Math.sqrt(0.75), 0.5];
const leaning = (x: number, y: number): PlacedCell => {
  const length = Math.hypot(x, y, 1);
  return { ...levelCell(0.125, 0.125), normal: [x / length, y / length, -1 / length] };
};
const cells = [leaning(0, 0), leaning(0.1, -0.05), leaning(-0.2, 0.1)];
const wall = {
  name: 'wall',
  opacity: 1,
  points: [
    [-0.5, 0.1, 0],
    [0.5, 0.1, 0],
    [0.5, 0.1, 0.2],
    [-0.5, 0.1, 0.2],
  ] as Vec3[],
};
const shade = shadeTable(cells, [], [wall]);
const angle = fc.double({ min: -0.6, max: 0.6, noNaN: true });
const attitudes = fc.record({ heading: fc.double({ min: 0, max: 6.28, noNaN: true }), pitch: angle, bank: angle });
const track = sunTrackFromDirection({ apparentZenith: Math.PI / 3, azimuth: Math.PI });
const termsTrack = Object.fromEntries(
  Object.entries(terms).map(([key, value]) => [key, Float64Array.of(value)]),
) as never;

describe('light on cells', () => {
  it('is that on an open plane where nothing casts shade', () => {
    fc.assert(
      fc.property(attitudes, (attitude) => {
        const found = cellLightAt({ cells, shade: undefined, incidence: filmCover }, { sun, terms, attitude });
        found.forEach((light, i) => {
          const open = planeLight({ normal: bodyToSky(cells[i]!.normal, attitude), sun, terms, incidence: filmCover });
          expect(light.direct).toBeCloseTo(open.direct, 6);
          expect(light.effective).toBeCloseTo(open.effective, 2);
          expect(light.shadeLoss).toBeCloseTo(0, 9);
          expect(light.incidenceLoss).toBeCloseTo(open.incidenceLoss, 2);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('keeps the books: what shade and incidence take is missing from the light of the open plane, nothing is negative', () => {
    fc.assert(
      fc.property(attitudes, (attitude) => {
        const found = cellLightAt({ cells, shade, incidence: filmCover }, { sun, terms, attitude });
        found.forEach((light, i) => {
          const open = planeLight({ normal: bodyToSky(cells[i]!.normal, attitude), sun, terms });
          const { direct, circumsolar, sky, ground, shadeLoss, incidenceLoss, effective } = light;
          expect(direct + circumsolar + sky + ground + shadeLoss).toBeCloseTo(open.total, 6);
          expect(direct + circumsolar + sky + ground - incidenceLoss).toBeCloseTo(effective, 9);
          expect(Math.min(direct, circumsolar, ground, shadeLoss + 1e-9, incidenceLoss + 1e-9)).toBeGreaterThanOrEqual(
            0,
          );
          expect(light.shadedFraction).toBeGreaterThanOrEqual(0);
          expect(light.shadedFraction).toBeLessThanOrEqual(1);
        });
      }),
      { numRuns: 40 },
    );
  });

  it('is nothing but dark by night', () => {
    const night = { direct: 0, circumsolar: 0, isotropic: 0, horizon: 0, ground: 0 };
    const attitude = { heading: 0, pitch: 0, bank: 0 };
    const found = cellLightAt({ cells, shade, incidence: filmCover }, { sun: [0, 0.6, -0.8], terms: night, attitude });
    for (const light of found)
      expect(light).toMatchObject({ direct: 0, effective: 0, shadeLoss: 0, shadedFraction: 1 });
  });

  it('along a track is the same as at each instant and heading', () => {
    const attitude = { heading: 1.1, pitch: 0.05, bank: 0.3 };
    const scene = { sun: track, cells, shade, pattern: straightLeg(attitude), incidence: filmCover };
    const light = cellLightTrack(scene, termsTrack);
    const single = cellLightAt(scene, { sun, terms, attitude });
    single.forEach(({ effective, shadedFraction }, i) => {
      expect(light.effective[i]).toBeCloseTo(effective, 6);
      expect(light.shadedFraction[i]).toBeCloseTo(shadedFraction, 6);
    });
  });
});

describe('geometry of cells', () => {
  const pattern = { pitch: 0.03, bank: 0.2, headings: circleHeadings(24) };

  it('is the geometry of their normals where nothing casts shade, and means over area in groups', () => {
    const geometry = cellGeometry({ sun: track, cells, shade: undefined, pattern, incidence: filmCover }, [
      [0, 1],
      [2],
    ]);
    const plain = lightGeometry({
      sun: track,
      facets: cells.map(({ normal }) => normal),
      pattern,
      incidence: filmCover,
    });
    for (const key of ['beamMean', 'beamBareMean', 'sky', 'ground', 'horizon', 'skyBare'] as const) {
      for (let i = 0; i < 3; i++) expect(geometry.cells[key][i]).toBeCloseTo(plain[key][i]!, 9);
      expect(geometry.groups[key][0]).toBeCloseTo((plain[key][0]! + plain[key][1]!) / 2, 9);
      expect(geometry.groups[key][1]).toBeCloseTo(plain[key][2]!, 9);
    }
  });

  it('adds the losses of every cell up in the ledger', () => {
    const geometry = cellGeometry({ sun: track, cells, shade, pattern, incidence: filmCover }, [[0, 1, 2]]);
    const ledger = lightLedger(geometry.cells, termsTrack);
    for (let i = 0; i < 3; i++) {
      const all =
        ledger.direct[i]! + ledger.circumsolar[i]! + ledger.isotropic[i]! + ledger.horizon[i]! + ledger.ground[i]!;
      expect(ledger.shadeLoss[i]).toBeGreaterThan(1);
      expect(ledger.shadeLoss[i]! + ledger.incidenceLoss[i]! + ledger.effective[i]!).toBeCloseTo(all, 9);
    }
  });

  it('has a mean cosine of cos z cos bank round a level circle, as no facet loses the sun', () => {
    const level = { sun: track, cells: [leaning(0, 0)], shade: undefined, incidence: filmCover };
    const { cells: mean } = cellGeometry({ ...level, pattern: { pitch: 0, bank: 0.2, headings: circleHeadings(24) } }, [
      [0],
    ]);
    expect(mean.beamBareMean[0]).toBeCloseTo(0.5 * Math.cos(0.2), 12);
  });

  it('needs a heading', () => {
    const scene = { sun: track, cells, shade, incidence: filmCover, pattern: { pitch: 0, bank: 0, headings: [] } };
    expect(() => cellGeometry(scene, [[0, 1, 2]])).toThrow(RangeError);
  });
});
