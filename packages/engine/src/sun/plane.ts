import { dot, type Vec3 } from '../math/vector.js';
import { diffuseShares, type IncidenceModel, incidenceFactor } from './incidence.js';
import type { SkyTerms } from './sky-terms.js';

/** Light on a plane by origin, before incidence loss, then the loss and what gets in [W/m2]. */
export interface PlaneLight {
  readonly direct: number;
  readonly circumsolar: number;
  /** From the even sky */
  readonly isotropic: number;
  /** From the band along the horizon; negative where the horizon is dark */
  readonly horizon: number;
  readonly ground: number;
  /** Sum of the above */
  readonly total: number;
  /** total - effective */
  readonly incidenceLoss: number;
  /** Light that gets in, as if it came straight on */
  readonly effective: number;
}

/**
 * Light on one plane.
 * @param plane.normal - outward unit normal: east, north, up
 * @param plane.sun - unit vector to the apparent sun: east, north, up
 * @param plane.terms - light by origin, from `skyTermsAt`
 * @param plane.incidence - cover, default without loss
 * @returns light by origin [W/m2]. A dark horizon takes away at most the even sky's light (only facets that face down come so far)
 * Source: Perez et al., Solar Energy 44, 1990, eq. 9; Liu and Jordan, Solar Energy 7, 1963 (isotropic, ground).
 */
export function planeLight(plane: {
  readonly normal: Vec3;
  readonly sun: Vec3;
  readonly terms: SkyTerms;
  readonly incidence?: IncidenceModel;
}): PlaneLight {
  const { normal, sun, terms } = plane;
  const model = plane.incidence ?? { kind: 'none' };
  const cosine = sun[2] > 0 ? Math.max(0, dot(normal, sun)) : 0;
  const up = normal[2];
  const weighted = diffuseShares(model, up);
  const direct = terms.direct * cosine;
  const circumsolar = terms.circumsolar * cosine;
  const isotropic = (terms.isotropic * (1 + up)) / 2;
  const horizon = Math.max(terms.horizon * Math.sqrt(Math.max(0, 1 - up ** 2)), -isotropic);
  const ground = (terms.ground * (1 - up)) / 2;
  const total = direct + circumsolar + isotropic + horizon + ground;
  const even = terms.isotropic * weighted.sky;
  const effective =
    (direct + circumsolar) * incidenceFactor(model, cosine) +
    even +
    Math.max(terms.horizon * weighted.horizon, -even) +
    terms.ground * weighted.ground;
  return { direct, circumsolar, isotropic, horizon, ground, total, incidenceLoss: total - effective, effective };
}
