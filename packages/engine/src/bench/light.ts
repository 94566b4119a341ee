import { airAt } from '../air/index.js';
import type { Vec3 } from '../math/index.js';
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

/**
 * Light on an array that lies still.
 *
 * @param sky - of `benchSky`
 * @param attitude.tilt - from level [rad]
 * @param attitude.facing - direction towards which it tilts, from north clockwise [rad]
 * @param incidence - cover of the cells
 * @returns light on the plane, and what gets in, straight on [W/m2]
 */
export function benchLight(
  sky: BenchSky,
  attitude: { readonly tilt: number; readonly facing: number },
  incidence: IncidenceModel,
): { readonly total: number; readonly effective: number } {
  const { tilt, facing } = attitude;
  const normal = [Math.sin(tilt) * Math.sin(facing), Math.sin(tilt) * Math.cos(facing), Math.cos(tilt)] as const;
  const { total, effective } = planeLight({ normal, sun: sky.sun, terms: sky.terms, incidence });
  return { total, effective };
}
