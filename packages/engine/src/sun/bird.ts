import { airMassKasten1966 } from './air-mass.js';
import { darkSky, type Sky } from './clear-sky.js';

export interface BirdInput {
  /** Zenith angle of the sun [rad] */
  readonly zenith: number;
  /** Above the air on a plane facing the sun [W/m2] */
  readonly extraterrestrial: number;
  /** At the place [Pa] */
  readonly pressure: number;
  /** Column of ozone [cm at standard conditions], default 0.3 */
  readonly ozone?: number;
  /** Column of water [cm], default 1.5 */
  readonly water?: number;
  /** Aerosol optical depth at 380 and 500 nm [-], default 0.15 and 0.1 */
  readonly aerosol380?: number;
  readonly aerosol500?: number;
  /** Share of the scattered light that goes forward [-], default 0.85 */
  readonly forwardScatter?: number;
  /** Of the ground [-], default 0.2 */
  readonly albedo?: number;
  /** Relative air mass, default Kasten 1966 */
  readonly airMass?: number;
  /** Pressure at which the relative air mass is absolute [Pa], default 101325 */
  readonly referencePressure?: number;
}

/** The sky by the Bird model with its factors. */
export interface BirdSky extends Sky {
  readonly airMass: number;
  /** Transmittances [-] */
  readonly rayleigh: number;
  readonly ozone: number;
  readonly mixedGases: number;
  readonly water: number;
  readonly aerosol: number;
  /** Of aerosol absorption alone [-] */
  readonly aerosolAbsorption: number;
  /** Albedo of the sky for light from below [-] */
  readonly skyAlbedo: number;
}

function aerosolTransmittance(input: BirdInput, airMass: number): number {
  const depth = 0.2758 * (input.aerosol380 ?? 0.15) + 0.35 * (input.aerosol500 ?? 0.1);
  return Math.exp(-(depth ** 0.873) * (1 + depth - depth ** 0.7088) * airMass ** 0.9108);
}

/**
 * Light of a cloudless sky from the columns of gases and aerosol: the second opinion beside `clearSkyIneichen`.
 * @returns irradiances [W/m2] and transmittances; all light is zero when the sun is below the horizon
 * Source: Bird and Hulstrom, A Simplified Clear Sky Model for Direct and Diffuse Insolation on Horizontal Surfaces,
 * SERI/TR-642-761, 1981.
 */
export function clearSkyBird(input: BirdInput): BirdSky {
  const airMass = input.airMass ?? airMassKasten1966(input.zenith);
  const absolute = (airMass * input.pressure) / (input.referencePressure ?? 101325);
  const rayleigh = Math.exp(-0.0903 * absolute ** 0.84 * (1 + absolute - absolute ** 1.01));
  const xo = (input.ozone ?? 0.3) * airMass;
  const ozone = 1 - 0.1611 * xo * (1 + 139.48 * xo) ** -0.3034 - (0.002715 * xo) / (1 + 0.044 * xo + 0.0003 * xo ** 2);
  const mixedGases = Math.exp(-0.0127 * absolute ** 0.26);
  const xw = (input.water ?? 1.5) * airMass;
  const water = 1 - (2.4959 * xw) / ((1 + 79.034 * xw) ** 0.6828 + 6.385 * xw);
  const aerosol = aerosolTransmittance(input, airMass);
  const aerosolAbsorption = 1 - 0.1 * (1 - airMass + airMass ** 1.06) * (1 - aerosol);
  const forward = input.forwardScatter ?? 0.85;
  const skyAlbedo = 0.0685 + (1 - forward) * (1 - aerosol / aerosolAbsorption);
  const factors = { airMass, rayleigh, ozone, mixedGases, water, aerosol, aerosolAbsorption, skyAlbedo };
  const cosZenith = Math.cos(input.zenith);
  if (!(cosZenith > 0)) return { ...darkSky, ...factors };
  const { extraterrestrial } = input;
  const directNormal = 0.9662 * extraterrestrial * aerosol * water * mixedGases * ozone * rayleigh;
  const scattered =
    (extraterrestrial *
      cosZenith *
      0.79 *
      ozone *
      mixedGases *
      water *
      aerosolAbsorption *
      (0.5 * (1 - rayleigh) + forward * (1 - aerosol / aerosolAbsorption))) /
    (1 - airMass + airMass ** 1.02);
  const directHorizontal = directNormal * cosZenith;
  const globalHorizontal = (directHorizontal + scattered) / (1 - (input.albedo ?? 0.2) * skyAlbedo);
  return { globalHorizontal, directNormal, diffuseHorizontal: globalHorizontal - directHorizontal, ...factors };
}
