import type { Vec3 } from '../math/vector.js';
import { bodyToHeadingAxes } from './attitude.js';
import { diffuseShares, type IncidenceModel, incidenceFactor } from './incidence.js';
import type { SunTrack } from './position.js';
import type { SkyTermsTrack } from './sky-terms.js';

/**
 * What of the light reaches each facet by geometry alone: it depends on the sun's path, the flight pattern, the facets and
 * the cover, not on the brightness of the sky. Any sky is then a handful of multiplications.
 * Beam arrays run over instants, then headings, then facets: index (instant x headingCount + heading) x facetCount + facet.
 */
export interface LightGeometry {
  readonly instantCount: number;
  readonly headingCount: number;
  readonly facetCount: number;
  /** [rad from north, clockwise] */
  readonly headings: Float64Array;
  /** Cosine of incidence x incidence factor [-] */
  readonly beam: Float64Array;
  /** Mean of `beam` over the headings: index instant x facetCount + facet */
  readonly beamMean: Float64Array;
  /** Mean of the cosine of incidence over the headings, without incidence loss and shade */
  readonly beamBareMean: Float64Array;
  /** By facet; turning about the vertical changes none of them, so they hold for every heading and instant */
  readonly sky: Float64Array;
  readonly horizon: Float64Array;
  readonly ground: Float64Array;
  /** The same without incidence loss, and without shade */
  readonly skyBare: Float64Array;
  readonly horizonBare: Float64Array;
  readonly groundBare: Float64Array;
  /** Without incidence loss, after shade: the bare ones themselves where nothing casts shade */
  readonly beamLitMean: Float64Array;
  readonly skyLit: Float64Array;
  readonly horizonLit: Float64Array;
  readonly groundLit: Float64Array;
}

export interface FlightPattern {
  /** Nose up [rad] */
  readonly pitch: number;
  /** Right wing down: positive in a right-hand circle [rad] */
  readonly bank: number;
  /** Headings flown: `circleHeadings(n)` for a circle, one value for a straight leg [rad] */
  readonly headings: ArrayLike<number>;
}

const tableSteps = 2048;

/** Cosine x incidence factor on a grid of cosines from 0 to 1 by 1/2048; between nodes linear, within 1e-6. */
export function beamTable(model: IncidenceModel): Float64Array {
  const table = new Float64Array(tableSteps + 2);
  for (let index = 0; index <= tableSteps + 1; index++) {
    const cosine = index / tableSteps;
    table[index] = cosine * incidenceFactor(model, cosine);
  }
  return table;
}

/** Normals in heading axes: ahead, right, up, three numbers for each facet. */
function levelledNormals(facets: readonly Vec3[], pattern: FlightPattern): Float64Array {
  const normals = new Float64Array(3 * facets.length);
  for (const [facet, body] of facets.entries()) {
    const [ahead, right, down] = bodyToHeadingAxes(body, pattern);
    normals.set([ahead, right, -down], 3 * facet);
  }
  return normals;
}

/**
 * Light geometry of a set of facets along a track of sun positions.
 * @param setup.sun - track
 * @param setup.facets - outward unit normals in body axes (forward, right, down)
 * @param setup.pattern - pitch, bank, headings
 * @param setup.incidence - cover of the cells
 * @returns coefficients to be combined with any sky by `effectiveLight` or `lightLedger`
 * Source: as `bodyToSky`, `incidenceFactor`, `diffuseShares`.
 */
export function lightGeometry(setup: {
  readonly sun: SunTrack;
  readonly facets: readonly Vec3[];
  readonly pattern: FlightPattern;
  readonly incidence: IncidenceModel;
}): LightGeometry {
  const { sun, facets, pattern, incidence } = setup;
  const facetCount = facets.length;
  const headings = Float64Array.from(pattern.headings);
  const headingCount = headings.length;
  if (headingCount === 0) throw new RangeError('a flight pattern needs at least one heading');
  const instantCount = sun.time.length;
  const normals = levelledNormals(facets, pattern);
  const shares = facets.map((_, facet) => diffuseShares(incidence, normals[3 * facet + 2]!));
  const bare = facets.map((_, facet) => diffuseShares({ kind: 'none' }, normals[3 * facet + 2]!));
  const bareShares = {
    skyBare: Float64Array.from(bare, (share) => share.sky),
    horizonBare: Float64Array.from(bare, (share) => share.horizon),
    groundBare: Float64Array.from(bare, (share) => share.ground),
  };
  const beams = beamCoefficients({ sun, headings, normals, table: beamTable(incidence) });
  return {
    instantCount,
    headingCount,
    facetCount,
    headings,
    ...beams,
    sky: Float64Array.from(shares, (share) => share.sky),
    horizon: Float64Array.from(shares, (share) => share.horizon),
    ground: Float64Array.from(shares, (share) => share.ground),
    ...bareShares,
    beamLitMean: beams.beamBareMean,
    skyLit: bareShares.skyBare,
    horizonLit: bareShares.horizonBare,
    groundLit: bareShares.groundBare,
  };
}

function beamCoefficients(setup: {
  readonly sun: SunTrack;
  readonly headings: Float64Array;
  readonly normals: Float64Array;
  readonly table: Float64Array;
}): Pick<LightGeometry, 'beam' | 'beamMean' | 'beamBareMean'> {
  const { sun, headings, normals, table } = setup;
  const [instantCount, headingCount, facetCount] = [sun.time.length, headings.length, normals.length / 3];
  const beam = new Float64Array(instantCount * headingCount * facetCount);
  const beamMean = new Float64Array(instantCount * facetCount);
  const beamBareMean = new Float64Array(instantCount * facetCount);
  const cosHeading = headings.map(Math.cos);
  const sinHeading = headings.map(Math.sin);
  for (let instant = 0; instant < instantCount; instant++) {
    const up = sun.up[instant]!;
    if (!(up > 0)) continue;
    const east = sun.east[instant]!;
    const north = sun.north[instant]!;
    let at = instant * headingCount * facetCount;
    const meanAt = instant * facetCount;
    for (let heading = 0; heading < headingCount; heading++) {
      // The sun in heading axes: ahead and to the right of the nose.
      const ahead = north * cosHeading[heading]! + east * sinHeading[heading]!;
      const right = east * cosHeading[heading]! - north * sinHeading[heading]!;
      for (let facet = 0; facet < facetCount; facet++, at++) {
        const n = 3 * facet;
        const cosine = ahead * normals[n]! + right * normals[n + 1]! + up * normals[n + 2]!;
        if (cosine <= 0) continue;
        const position = Math.min(cosine, 1) * tableSteps;
        const node = Math.floor(position);
        const low = table[node]!;
        const value = low + (position - node) * (table[node + 1]! - low);
        beam[at] = value;
        beamMean[meanAt + facet]! += value / headingCount;
        beamBareMean[meanAt + facet]! += cosine / headingCount;
      }
    }
  }
  return { beam, beamMean, beamBareMean };
}

/**
 * Light that gets into each facet on each heading at each instant.
 * @param geometry - from `lightGeometry`
 * @param terms - sky along the same track
 * @param into - array to fill, of length instants x headings x facets; a new one by default
 * @returns effective irradiance [W/m2], indexed like `beam`
 */
export function effectiveLight(geometry: LightGeometry, terms: SkyTermsTrack, into?: Float64Array): Float64Array {
  const { instantCount, headingCount, facetCount, beam } = geometry;
  const out = into ?? new Float64Array(beam.length);
  if (out.length !== beam.length) throw new RangeError(`array of ${out.length} given for ${beam.length} values`);
  const diffuse = new Float64Array(facetCount);
  for (let instant = 0; instant < instantCount; instant++) {
    for (let facet = 0; facet < facetCount; facet++) diffuse[facet] = diffuseOn(geometry, terms, instant, facet);
    const towardsSun = terms.direct[instant]! + terms.circumsolar[instant]!;
    let at = instant * headingCount * facetCount;
    for (let heading = 0; heading < headingCount; heading++) {
      for (let facet = 0; facet < facetCount; facet++, at++) out[at] = towardsSun * beam[at]! + diffuse[facet]!;
    }
  }
  return out;
}

function diffuseOn(geometry: LightGeometry, terms: SkyTermsTrack, instant: number, facet: number): number {
  const even = terms.isotropic[instant]! * geometry.sky[facet]!;
  const band = Math.max(terms.horizon[instant]! * geometry.horizon[facet]!, -even);
  return even + band + terms.ground[instant]! * geometry.ground[facet]!;
}

/** Light that reaches a facet after shade, mean over the headings [W/m2]. */
function litOn(geometry: LightGeometry, terms: SkyTermsTrack, instant: number, facet: number): number {
  const towardsSun = terms.direct[instant]! + terms.circumsolar[instant]!;
  const even = terms.isotropic[instant]! * geometry.skyLit[facet]!;
  const band = Math.max(terms.horizon[instant]! * geometry.horizonLit[facet]!, -even);
  const beam = towardsSun * geometry.beamLitMean[instant * geometry.facetCount + facet]!;
  return beam + even + band + terms.ground[instant]! * geometry.groundLit[facet]!;
}

/** Light by origin averaged over the headings, in arrays over instants then facets [W/m2]. Names as in `PlaneLight`. */
export interface LightLedger {
  readonly direct: Float64Array;
  readonly circumsolar: Float64Array;
  readonly isotropic: Float64Array;
  readonly horizon: Float64Array;
  readonly ground: Float64Array;
  readonly shadeLoss: Float64Array;
  readonly incidenceLoss: Float64Array;
  readonly effective: Float64Array;
}

/**
 * Where the light on each facet comes from, averaged over the headings, and what is lost by shade and oblique incidence.
 * direct + circumsolar + isotropic + horizon + ground = shadeLoss + incidenceLoss + effective, and `effective` is the mean of
 * `effectiveLight`. The origins are before shade.
 * @param geometry - from `lightGeometry`
 * @param terms - sky along the same track
 * @returns arrays indexed instant x facetCount + facet [W/m2]
 */
export function lightLedger(geometry: LightGeometry, terms: SkyTermsTrack): LightLedger {
  const { instantCount, facetCount } = geometry;
  const column = () => new Float64Array(instantCount * facetCount);
  const ledger = {
    direct: column(),
    circumsolar: column(),
    isotropic: column(),
    horizon: column(),
    ground: column(),
    shadeLoss: column(),
    incidenceLoss: column(),
    effective: column(),
  };
  for (let instant = 0, at = 0; instant < instantCount; instant++) {
    for (let facet = 0; facet < facetCount; facet++, at++) {
      const cosine = geometry.beamBareMean[at]!;
      const direct = terms.direct[instant]! * cosine;
      const circumsolar = terms.circumsolar[instant]! * cosine;
      const isotropic = terms.isotropic[instant]! * geometry.skyBare[facet]!;
      const horizon = Math.max(terms.horizon[instant]! * geometry.horizonBare[facet]!, -isotropic);
      const ground = terms.ground[instant]! * geometry.groundBare[facet]!;
      const towardsSun = terms.direct[instant]! + terms.circumsolar[instant]!;
      const effective = towardsSun * geometry.beamMean[at]! + diffuseOn(geometry, terms, instant, facet);
      ledger.direct[at] = direct;
      ledger.circumsolar[at] = circumsolar;
      ledger.isotropic[at] = isotropic;
      ledger.horizon[at] = horizon;
      ledger.ground[at] = ground;
      ledger.effective[at] = effective;
      const reached = litOn(geometry, terms, instant, facet);
      ledger.shadeLoss[at] = direct + circumsolar + isotropic + horizon + ground - reached;
      ledger.incidenceLoss[at] = reached - effective;
    }
  }
  return ledger;
}
