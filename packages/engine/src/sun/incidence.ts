import { gaussLegendre } from '../math/quadrature.js';

/** How the cover over the cells passes oblique light, relative to light straight on. */
export type IncidenceModel =
  /** No loss */
  | { readonly kind: 'none' }
  /** A clear layer: refractive index, extinction [1/m] x thickness [m], and an optional anti-reflection coating on it */
  | {
      readonly kind: 'layer';
      readonly refractiveIndex: number;
      readonly extinction: number;
      readonly thickness: number;
      readonly coatingIndex?: number;
    }
  /** One fitted angular-loss coefficient, 0.08 to 0.25 */
  | { readonly kind: 'angular loss'; readonly coefficient: number }
  /** 1 - b (1/cos - 1) */
  | { readonly kind: 'secant'; readonly coefficient: number };

/** Low-iron glass of 2 mm. Source: De Soto, Klein and Beckman, Solar Energy 80, 2006, table 1 values of the glass cover. */
export const glassCover: IncidenceModel = { kind: 'layer', refractiveIndex: 1.526, extinction: 4, thickness: 0.002 };
/** Thin fluoropolymer film over textured cells: index 1.40 (from memory), absorption is part of the encapsulation loss. */
export const filmCover: IncidenceModel = { kind: 'layer', refractiveIndex: 1.4, extinction: 0, thickness: 0 };

/** Transmittance of a layer from air into it. Source: De Soto et al., 2006, eqs. 13, 14 (with sin r = sin t / n), coating by the same Fresnel terms. */
function layerTransmittance(layer: Extract<IncidenceModel, { kind: 'layer' }>, cosine: number): number {
  const coating = layer.coatingIndex ?? layer.refractiveIndex;
  if (!(coating >= 1 && layer.refractiveIndex >= 1)) throw new RangeError('a refractive index is at least 1');
  // Cosine of the refracted ray by Snell's law, written so that it stays accurate at grazing light.
  const refracted = (index: number): number => Math.sqrt(index ** 2 - 1 + cosine ** 2) / index;
  const cosCoating = refracted(coating);
  const cosLayer = refracted(layer.refractiveIndex);
  const reflectance = (a: number, b: number): number => (a + b === 0 ? 0 : ((a - b) / (a + b)) ** 2);
  const through = (first: number, second: number): number => ((1 - first) * (1 - second)) / (1 - first * second);
  const perpendicular = through(
    reflectance(cosine, coating * cosCoating),
    reflectance(coating * cosCoating, layer.refractiveIndex * cosLayer),
  );
  const parallel = through(
    reflectance(cosCoating, coating * cosine),
    reflectance(coating * cosLayer, layer.refractiveIndex * cosCoating),
  );
  return 0.5 * (perpendicular + parallel) * Math.exp((-layer.extinction * layer.thickness) / cosLayer);
}

/**
 * Incidence-angle factor: light that gets in at an angle over light that gets in straight on.
 * @param model - cover
 * @param cosine - cosine of the angle between the light and the outward normal [-]; 0 or less gives 0
 * @returns factor, 0 to 1 [-]
 * Source: layer: De Soto, Klein and Beckman, Solar Energy 80, 2006; angular loss: Martin and Ruiz, Solar Energy Materials
 * and Solar Cells 70, 2001, eq. 5; secant: Souka and Safwat, Solar Energy 10, 1966, as in ASHRAE standard 93.
 */
export function incidenceFactor(model: IncidenceModel, cosine: number): number {
  if (!(cosine > 0)) return 0;
  const c = Math.min(cosine, 1);
  switch (model.kind) {
    case 'none':
      return 1;
    case 'layer':
      return layerTransmittance(model, c) / layerTransmittance(model, 1);
    case 'angular loss':
      return -Math.expm1(-c / model.coefficient) / -Math.expm1(-1 / model.coefficient);
    case 'secant':
      return Math.max(0, 1 - model.coefficient * (1 / c - 1));
  }
}

/** What a facet takes of the diffuse light, relative to facing a full dome of it [-]. */
export interface DiffuseShares {
  /** Of an evenly bright sky */
  readonly sky: number;
  /** Of evenly bright ground */
  readonly ground: number;
  /** Of the bright band along the horizon */
  readonly horizon: number;
}

const rule = gaussLegendre(32);

function integrate(f: (x: number) => number, lower: number, upper: number): number {
  const half = (upper - lower) / 2;
  const middle = (upper + lower) / 2;
  let sum = 0;
  for (let index = 0; index < rule.nodes.length; index++) {
    sum += rule.weights[index]! * f(middle + half * rule.nodes[index]!);
  }
  return sum * half;
}

/** The share above grows like a square root after the kink; x = lower + (upper - lower) u^2 makes it smooth. */
function integrateFromKink(f: (x: number) => number, lower: number, upper: number): number {
  const width = upper - lower;
  return integrate((u) => f(lower + width * u * u) * 2 * width * u, 0, 1);
}

/**
 * View factors of a facet, weighted with the incidence factor: light from each direction loses by its own angle.
 * Without incidence loss they are (1 + n_up)/2, (1 - n_up)/2 and the sine of the tilt.
 * @param model - cover
 * @param normalUp - upward component of the outward unit normal, -1 to 1 [-]
 * @returns shares of sky, ground and horizon light [-]
 * Source: Brandemuehl and Beckman, Solar Energy 24, 1980 (integration over the dome); horizon band by the same weighting.
 */
export function diffuseShares(model: IncidenceModel, normalUp: number): DiffuseShares {
  const up = Math.min(Math.max(normalUp, -1), 1);
  const sinTilt = Math.sqrt(1 - up ** 2);
  if (model.kind === 'none') return { sky: (1 + up) / 2, ground: (1 - up) / 2, horizon: sinTilt };
  const weight = (angle: number): number =>
    2 * incidenceFactor(model, Math.cos(angle)) * Math.cos(angle) * Math.sin(angle);
  // On the cone at this angle from the normal, the share of directions above the horizon.
  const shareAbove = (angle: number): number => {
    const level = Math.cos(angle) * up;
    const swing = Math.sin(angle) * sinTilt;
    if (level >= swing) return 1;
    if (level <= -swing) return 0;
    return Math.acos(-level / swing) / Math.PI;
  };
  // The cone first touches the horizon at this angle; the integrand has a kink there.
  const touch = Math.asin(Math.abs(up));
  const over = (f: (angle: number) => number): number =>
    integrate(f, 0, touch) + integrateFromKink(f, touch, Math.PI / 2);
  const horizon = integrate(
    (bearing) => incidenceFactor(model, sinTilt * Math.cos(bearing)) * Math.cos(bearing),
    0,
    Math.PI / 2,
  );
  return {
    sky: over((angle) => weight(angle) * shareAbove(angle)),
    ground: over((angle) => weight(angle) * (1 - shareAbove(angle))),
    horizon: sinTilt * horizon,
  };
}

/**
 * Diffuse incidence factors by the closed approximation that belongs to the angular-loss model; a check on `diffuseShares`.
 * @param cover.coefficient - angular-loss coefficient [-]
 * @param cover.tilt - of the facet from the level [rad], 0 to pi
 * @returns factors on light from sky and ground [-]
 * Source: Martin and Ruiz, Progress in Photovoltaics 13, 2005, eqs. 3 and 4 (corrigendum).
 */
export function diffuseFactorsMartinRuiz(cover: { readonly coefficient: number; readonly tilt: number }): {
  readonly sky: number;
  readonly ground: number;
} {
  const { coefficient, tilt } = cover;
  const sine = Math.sin(tilt);
  const c1 = 0.4244;
  const c2 = 0.5 * coefficient - 0.154;
  const factor = (x: number): number => -Math.expm1((-(c1 + c2 * x) * x) / coefficient);
  const above = 1 + Math.cos(tilt);
  const below = 1 - Math.cos(tilt);
  return {
    // The limits for a facet that sees none of the sky (or ground).
    sky: above < 1e-9 ? factor(sine) : factor(sine + (Math.PI - tilt - sine) / above),
    ground: below < 1e-9 ? factor(sine) : factor(sine + (tilt - sine) / below),
  };
}
