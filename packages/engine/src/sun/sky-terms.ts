import type { Sky } from './clear-sky.js';
import type { SunTrack } from './position.js';
import type { SkyTrack } from './sky-track.js';

/** How the diffuse light is spread over the sky. */
export type DiffuseModel = 'isotropic' | 'hay-davies' | 'perez';

/**
 * Light at an instant, split by where it comes from, before any plane is chosen.
 * On a facet: (direct + circumsolar) x cosine of incidence + isotropic x sky view + horizon x sine of tilt + ground x ground view.
 */
export interface SkyTerms {
  /** From the disc, on a plane facing the sun [W/m2] */
  readonly direct: number;
  /** From the glare about the sun, on a plane facing it [W/m2] */
  readonly circumsolar: number;
  /** From the even part of the sky, on a level plane [W/m2] */
  readonly isotropic: number;
  /** Of the band along the horizon (negative: the horizon is darker) [W/m2] */
  readonly horizon: number;
  /** From the ground, on a plane facing straight down [W/m2] */
  readonly ground: number;
}

/** Reflectance of the ground seen from above [-]. Source: Liu and Jordan, Solar Energy 7, 1963, and handbook values as collected in common tables. */
export const groundAlbedos = {
  urban: 0.18,
  grass: 0.2,
  'fresh grass': 0.26,
  soil: 0.17,
  sand: 0.4,
  snow: 0.65,
  'fresh snow': 0.75,
  asphalt: 0.12,
  concrete: 0.3,
  sea: 0.06,
} as const;

export type GroundCover = keyof typeof groundAlbedos;

/** Lower edges of the clearness bins, and f11 f12 f13 f21 f22 f23 for each. Source: Perez et al., Solar Energy 44, 1990, tables 1 and 6. */
const perezEdges = [1, 1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2] as const;
const perezCoefficients: readonly (readonly [number, number, number, number, number, number])[] = [
  [-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  [0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  [0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  [1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  [0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
];

/** Brightening of the sky about the sun and along the horizon. */
export interface PerezBrightness {
  readonly clearness: number;
  readonly brightness: number;
  /** Share of the diffuse light that comes from about the sun [-] */
  readonly circumsolar: number;
  /** Horizon light as a share of the diffuse light [-] */
  readonly horizon: number;
}

export interface SkyState extends Sky {
  /** Cosine of the apparent zenith angle of the sun [-] */
  readonly cosZenith: number;
  /** Above the air, on a plane facing the sun [W/m2] */
  readonly extraterrestrial: number;
  /** Relative air mass, not corrected for pressure [-] */
  readonly airMass: number;
}

/**
 * Brightness coefficients F1 and F2 of the sky.
 * @returns sky clearness, sky brightness, F1 (held between 0 and 1), F2
 * Source: Perez, Ineichen, Seals, Michalsky and Stewart, Solar Energy 44, 1990, eqs. 1, 2, 8 and table 6 (all sites).
 */
export function perezBrightness(sky: SkyState): PerezBrightness {
  const { diffuseHorizontal, directNormal } = sky;
  if (!(diffuseHorizontal > 0)) return { clearness: 1, brightness: 0, circumsolar: 0, horizon: 0 };
  const zenith = Math.acos(Math.min(Math.max(sky.cosZenith, -1), 1));
  const brightness = (diffuseHorizontal * sky.airMass) / sky.extraterrestrial;
  const angular = 1.041 * zenith ** 3;
  const clearness = ((diffuseHorizontal + directNormal) / diffuseHorizontal + angular) / (1 + angular);
  let bin = perezEdges.length - 1;
  while (bin > 0 && clearness < perezEdges[bin]!) bin--;
  const [f11, f12, f13, f21, f22, f23] = perezCoefficients[bin]!;
  return {
    clearness,
    brightness,
    circumsolar: Math.min(1, Math.max(0, f11 + f12 * brightness + f13 * zenith)),
    horizon: f21 + f22 * brightness + f23 * zenith,
  };
}

const cosine85 = Math.cos((85 * Math.PI) / 180);
const cosine89 = 0.01745;

/**
 * Splits the light of the sky by where it comes from.
 * A level facet gets back exactly the diffuse light, at every height of the sun: the published formulas lose some of the
 * circumsolar part when the sun is below 5 degrees (Perez) or 1 degree (Hay and Davies); here that part stays in the even sky.
 * @param sky - light, height of the sun, air mass
 * @param ground.model - spread of the diffuse light
 * @param ground.albedo - reflectance of the ground [-]
 * @returns terms [W/m2]
 * Source: Hay and Davies, First Canadian Solar Radiation Data Workshop, 1980; Perez et al., Solar Energy 44, 1990, eq. 9.
 */
export function skyTermsAt(sky: SkyState, ground: { readonly model: DiffuseModel; readonly albedo: number }): SkyTerms {
  const reflected = sky.globalHorizontal * ground.albedo;
  const diffuse = sky.diffuseHorizontal;
  if (!(sky.cosZenith > 0)) return { direct: 0, circumsolar: 0, isotropic: diffuse, horizon: 0, ground: reflected };
  let circumsolar = 0;
  let horizon = 0;
  if (ground.model === 'hay-davies') {
    circumsolar = (diffuse * Math.min(1, sky.directNormal / sky.extraterrestrial)) / Math.max(sky.cosZenith, cosine89);
  } else if (ground.model === 'perez') {
    const shares = perezBrightness(sky);
    circumsolar = (diffuse * shares.circumsolar) / Math.max(sky.cosZenith, cosine85);
    horizon = diffuse * shares.horizon;
  }
  return {
    direct: sky.directNormal,
    circumsolar,
    isotropic: diffuse - circumsolar * sky.cosZenith,
    horizon,
    ground: reflected,
  };
}

/** `SkyTerms` along a track. */
export type SkyTermsTrack = { readonly [K in keyof SkyTerms]: Float64Array };

/**
 * Splits the light along a track by where it comes from.
 * @param sun - track
 * @param sky - light along it
 * @param ground - as for `skyTermsAt`
 * @returns terms at every instant [W/m2]
 */
export function skyTermsTrack(
  sun: SunTrack,
  sky: SkyTrack,
  ground: { readonly model: DiffuseModel; readonly albedo: number },
): SkyTermsTrack {
  const count = sun.time.length;
  const column = () => new Float64Array(count);
  const track = { direct: column(), circumsolar: column(), isotropic: column(), horizon: column(), ground: column() };
  for (let index = 0; index < count; index++) {
    if (!(sky.globalHorizontal[index]! > 0)) continue;
    const terms = skyTermsAt(
      {
        globalHorizontal: sky.globalHorizontal[index]!,
        directNormal: sky.directNormal[index]!,
        diffuseHorizontal: sky.diffuseHorizontal[index]!,
        cosZenith: sun.up[index]!,
        extraterrestrial: sky.extraterrestrial[index]!,
        airMass: sky.airMass[index]!,
      },
      ground,
    );
    track.direct[index] = terms.direct;
    track.circumsolar[index] = terms.circumsolar;
    track.isotropic[index] = terms.isotropic;
    track.horizon[index] = terms.horizon;
    track.ground[index] = terms.ground;
  }
  return track;
}
