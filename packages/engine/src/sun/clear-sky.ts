import { absoluteAirMass, airMassKastenYoung, standardPressureAt } from './air-mass.js';

/** Light of the sky at an instant. */
export interface Sky {
  /** On a level plane, from the whole sky [W/m2] */
  readonly globalHorizontal: number;
  /** On a plane facing the sun, from the disc and the glare close to it [W/m2] */
  readonly directNormal: number;
  /** On a level plane, without the direct part [W/m2] */
  readonly diffuseHorizontal: number;
}

/** No light: the sun is below the horizon. */
export const darkSky: Sky = { globalHorizontal: 0, directNormal: 0, diffuseHorizontal: 0 };

export interface ClearSkyInput {
  /** Refracted zenith angle of the sun [rad] */
  readonly apparentZenith: number;
  /** Linke turbidity for air mass 2 [-], 1 (clean and dry) to 10 */
  readonly turbidity: number;
  /** Above sea level [m], 0 to 4000 */
  readonly altitude: number;
  /** Above the air on a plane facing the sun [W/m2] */
  readonly extraterrestrial: number;
  /** At the place [Pa], default the standard pressure at the altitude */
  readonly pressure?: number;
  /** Absolute (pressure-corrected) air mass, default from zenith and pressure */
  readonly absoluteAirMass?: number;
}

/**
 * Light of a cloudless sky from Linke turbidity and altitude.
 * @returns global, direct and diffuse irradiance [W/m2]; zero when the sun is below the horizon
 * Source: Ineichen and Perez, Solar Energy 73, 2002, eqs. 5, 6, 8; without the later factor on very long air masses.
 */
export function clearSkyIneichen(input: ClearSkyInput): Sky {
  const cosZenith = Math.cos(input.apparentZenith);
  if (!(cosZenith > 0)) return darkSky;
  const { altitude, turbidity, extraterrestrial } = input;
  const airMass =
    input.absoluteAirMass ??
    absoluteAirMass(airMassKastenYoung(input.apparentZenith), input.pressure ?? standardPressureAt(altitude));
  const fh1 = Math.exp(-altitude / 8000);
  const fh2 = Math.exp(-altitude / 1250);
  const cg1 = 5.09e-5 * altitude + 0.868;
  const cg2 = 3.92e-5 * altitude + 0.0387;
  const extinction = Math.exp(-cg2 * airMass * (fh1 + fh2 * (turbidity - 1)));
  const globalHorizontal = cg1 * extraterrestrial * cosZenith * extinction;
  const b = 0.664 + 0.163 / fh1;
  const byBeam = extraterrestrial * b * Math.exp(-0.09 * airMass * (turbidity - 1));
  const diffuseShare = (0.1 - 0.2 * Math.exp(-turbidity)) / (0.1 + 0.882 / fh1);
  const byGlobal = (globalHorizontal * Math.max(0, 1 - diffuseShare)) / cosZenith;
  const directNormal = Math.min(byBeam, byGlobal);
  return {
    globalHorizontal,
    directNormal,
    diffuseHorizontal: Math.max(0, globalHorizontal - directNormal * cosZenith),
  };
}

/**
 * Global irradiance of a cloudless sky from the sun's height alone, a rough fallback.
 * @param apparentZenith - [rad]
 * @returns global horizontal irradiance [W/m2]
 * Source: Haurwitz, Journal of Meteorology 2, 1945 (coefficients as in Reno, Hansen and Stein, SAND2012-2389, 2012).
 */
export function clearSkyHaurwitz(apparentZenith: number): number {
  const cosZenith = Math.cos(apparentZenith);
  return cosZenith > 0 ? 1098 * cosZenith * Math.exp(-0.059 / cosZenith) : 0;
}
