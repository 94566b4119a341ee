import { airAt } from '../air/index.js';
import { dot, type Vec3 } from '../math/index.js';
import {
  airMassKastenYoung,
  clearSkyIneichen,
  extraterrestrialIrradiance,
  type IncidenceModel,
  planeLight,
  type SkyTerms,
  skyTermsAt,
  sunPosition,
} from '../sun/index.js';

/** Where and when a clear sky is asked for. */
export interface BenchSkyQuestion {
  /** [s, Unix] */
  readonly time: number;
  /** [rad] */
  readonly latitude: number;
  readonly longitude: number;
  /** [m] */
  readonly altitude: number;
  readonly turbidity: number;
  readonly albedo: number;
}

/** A clear sky at an instant: direction to the sun (east, north, up) and light by origin. */
export interface BenchSky {
  readonly sun: Vec3;
  readonly terms: SkyTerms;
}

/** Clear sky over a bench. */
export function benchSky(at: BenchSkyQuestion): BenchSky {
  const { pressure } = airAt({ altitude: at.altitude });
  const sun = sunPosition({ ...at, pressure });
  const extraterrestrial = extraterrestrialIrradiance(sun.distance);
  const { apparentZenith } = sun;
  const clear = clearSkyIneichen({
    apparentZenith,
    turbidity: at.turbidity,
    altitude: at.altitude,
    extraterrestrial,
    pressure,
  });
  const state = {
    ...clear,
    cosZenith: sun.direction[2],
    extraterrestrial,
    airMass: airMassKastenYoung(apparentZenith),
  };
  return { sun: sun.direction, terms: skyTermsAt(state, { model: 'perez', albedo: at.albedo }) };
}

/** How an aircraft stands on the ground. */
export interface BenchAttitude {
  /** From level [rad]. */
  readonly tilt: number;
  /** Direction towards which it tilts, from north clockwise [rad]. */
  readonly facing: number;
}

/**
 * Light on an array that lies still.
 *
 * @param sky - of `benchSky`
 * @param attitude - of its plane
 * @param incidence - cover of the cells
 * @returns light on the plane, and what gets in, straight on [W/m2]
 */
export function benchLight(
  sky: BenchSky,
  attitude: BenchAttitude,
  incidence: IncidenceModel,
): { readonly total: number; readonly effective: number } {
  return lightOn(sky, standing([0, 0, -1], attitude, 0), incidence);
}

function lightOn(sky: BenchSky, normal: Vec3, incidence: IncidenceModel) {
  const { total, effective } = planeLight({ normal, sun: sky.sun, terms: sky.terms, incidence });
  return { total, effective };
}

/**
 * A direction of the aircraft as it stands on the ground.
 *
 * @param body - forward, right, down
 * @param attitude - first the nose is turned, then the aircraft is tilted as a whole
 * @param nose - direction in which it points before it is tilted, from north clockwise [rad]
 * @returns east, north, up
 */
export function standing(body: Vec3, attitude: BenchAttitude, nose: number): Vec3 {
  const [forward, right, down] = body;
  const [sin, cos] = [Math.sin(nose), Math.cos(nose)];
  const level: Vec3 = [forward * sin + right * cos, forward * cos - right * sin, -down];
  const towards: Vec3 = [Math.sin(attitude.facing), Math.cos(attitude.facing), 0];
  const [sinTilt, cosTilt] = [Math.sin(attitude.tilt), Math.cos(attitude.tilt)];
  const along = dot(level, towards);
  // Of what tilts, the part along the direction and the part that points up are turned into each other.
  const moved = along * cosTilt + level[2] * sinTilt - along;
  return [level[0] + moved * towards[0], level[1] + moved * towards[1], level[2] * cosTilt - along * sinTilt];
}

/** Light on patches of an aircraft per light on its plane, and how it moves with what is not known of the nose. */
export interface PatchLight {
  /** Mean over the directions that the nose may have. */
  readonly shares: readonly number[];
  /** Change of the share by one standard uncertainty of the direction along the nose of the means, and across it. */
  readonly along: readonly number[];
  readonly across: readonly number[];
}

/** Directions of an unknown nose over which light is averaged; the first harmonic of 12 is exact for flat patches. */
const noses = 12;

/**
 * Effective light on patches that look in directions of their own.
 *
 * @param sky - of `benchSky`
 * @param nose - where it points [rad] with its standard uncertainty; undefined: anywhere, of which the first harmonic is kept
 * @param normals - of the patches, body axes
 * @returns shares of the light on the plane of the array; 0 for a plane in the dark
 */
export function patchLight(
  sky: BenchSky,
  attitude: BenchAttitude,
  nose: { readonly value: number; readonly sigma: number } | undefined,
  normals: readonly Vec3[],
  incidence: IncidenceModel,
): PatchLight {
  const plane = benchLight(sky, attitude, incidence).effective;
  const shareAt = (normal: Vec3, direction: number): number =>
    plane > 0 ? lightOn(sky, standing(normal, attitude, direction), incidence).effective / plane : 0;
  if (nose !== undefined) {
    const { value, sigma } = nose;
    const reach = 0.05;
    return {
      shares: normals.map((normal) => shareAt(normal, value)),
      along: normals.map(() => 0),
      across: normals.map(
        (normal) => ((shareAt(normal, value + reach) - shareAt(normal, value - reach)) / (2 * reach)) * sigma,
      ),
    };
  }
  const directions = Array.from({ length: noses }, (_, k) => (2 * Math.PI * k) / noses);
  const turned = normals.map((normal) => directions.map((direction) => shareAt(normal, direction)));
  const harmonic = (wave: (direction: number) => number): readonly number[] =>
    turned.map((shares) => shares.reduce((sum, share, k) => sum + share * wave(directions[k]!), 0) / noses);
  // A direction that may be any has cosine and sine of standard deviation 1/sqrt(2).
  return {
    shares: harmonic(() => 1),
    along: harmonic((direction) => Math.SQRT2 * Math.cos(direction)),
    across: harmonic((direction) => Math.SQRT2 * Math.sin(direction)),
  };
}
