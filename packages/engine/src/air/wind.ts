/** Kinds of ground by aerodynamic roughness length [m]. Source: Wieringa, J. Wind Eng. Ind. Aerodyn. 41, 1992, table VIII (Davenport classes). */
export const roughnessLengths = {
  'open water': 0.0002,
  'smooth land': 0.005,
  'open grass': 0.03,
  'low crops': 0.1,
  'high crops': 0.25,
  'scattered obstacles': 0.5,
  'wood or suburb': 1,
  'city centre': 2,
} as const;

export type Ground = keyof typeof roughnessLengths;

/** Von Karman constant [-]. Source: common practice, 0.40. */
export const vonKarmanConstant = 0.4;

/** Lowest height at which the wind laws are evaluated, in roughness lengths: below it the flow goes between the obstacles. */
const lowestHeightInRoughness = 10;

export interface WindReading {
  /** Height above ground for which the wind is wanted [m] */
  readonly height: number;
  /** Wind at the reference height [m/s] */
  readonly referenceSpeed: number;
  /** Height of the reading above ground [m], default 10 (meteorological practice) */
  readonly referenceHeight?: number;
}

/**
 * Wind at a height by the power law.
 * @param reading.exponent - default 1/7, open land in neutral air
 * @returns mean wind speed [m/s]; 0 at the ground. Meant for heights of 5 to 300 m.
 * Source: Justus and Mikhail, Geophysical Research Letters 3, 1976 (1/7 from common practice).
 */
export function windByPowerLaw(reading: WindReading & { readonly exponent?: number }): number {
  const reference = reading.referenceHeight ?? 10;
  if (!(reference > 0)) throw new RangeError(`reference height must be above 0 m, got ${reference}`);
  return reading.referenceSpeed * (Math.max(reading.height, 0) / reference) ** (reading.exponent ?? 1 / 7);
}

/**
 * Wind at a height by the logarithmic law of a neutral surface layer.
 * @param reading.roughness - aerodynamic roughness length [m], default 0.03 (open grass)
 * @param reading.displacement - height by which dense obstacles lift the profile [m], default 0
 * @returns mean wind speed [m/s]; below 10 roughness lengths the value there is held. Meant for heights up to about
 * 150 m in neutral air: on a calm clear morning the wind above is stronger, in midday thermals more even.
 * Source: Wieringa, J. Wind Eng. Ind. Aerodyn. 41, 1992, eq. 1.
 */
export function windByLogLaw(
  reading: WindReading & { readonly roughness?: number; readonly displacement?: number },
): number {
  const roughness = reading.roughness ?? roughnessLengths['open grass'];
  if (!(roughness > 0)) throw new RangeError(`roughness must be above 0 m, got ${roughness}`);
  const lowest = lowestHeightInRoughness * roughness;
  const above = (height: number) => Math.max(height - (reading.displacement ?? 0), lowest);
  return (
    (reading.referenceSpeed * Math.log(above(reading.height) / roughness)) /
    Math.log(above(reading.referenceHeight ?? 10) / roughness)
  );
}

/** Which law carries a wind reading to another height. */
export type WindLaw =
  | { readonly kind: 'logarithmic'; readonly roughness: number; readonly displacement?: number }
  | { readonly kind: 'power'; readonly exponent: number };

/**
 * Wind at a height by the law named.
 * @returns mean wind speed [m/s]
 */
export function windAtHeight(reading: WindReading & { readonly law: WindLaw }): number {
  const { law } = reading;
  if (law.kind === 'power') return windByPowerLaw({ ...reading, exponent: law.exponent });
  return windByLogLaw({ ...reading, roughness: law.roughness, displacement: law.displacement ?? 0 });
}

/** Standard deviations of turbulence and the gust to expect [m/s]. */
export interface Gustiness {
  /** Along the wind [m/s] */
  readonly alongWind: number;
  /** Across the wind [m/s] */
  readonly acrossWind: number;
  /** Up and down [m/s] */
  readonly vertical: number;
  /** Highest 3-second wind within about ten minutes [m/s] */
  readonly peak: number;
}

/**
 * Turbulence and gusts that belong to a mean wind over rough ground in neutral air (sun-heated air adds thermals to this).
 * @param wind.speed - mean wind at the height [m/s]
 * @param wind.height - above ground [m]
 * @param wind.roughness - aerodynamic roughness length [m]
 * @param wind.peakFactor - standard deviations in a gust, default 3 (judgement for 3 s within 10 min; published values 2.5 to 3.5)
 * @returns standard deviations and peak [m/s]
 * Source: Panofsky and Dutton, Atmospheric Turbulence, 1984, ch. 7: 2.4, 1.9 and 1.25 friction velocities (from memory).
 */
export function gustiness(wind: {
  readonly speed: number;
  readonly height: number;
  readonly roughness: number;
  readonly peakFactor?: number;
}): Gustiness {
  if (!(wind.roughness > 0)) throw new RangeError(`roughness must be above 0 m, got ${wind.roughness}`);
  const height = Math.max(wind.height, lowestHeightInRoughness * wind.roughness);
  const frictionVelocity = (vonKarmanConstant * wind.speed) / Math.log(height / wind.roughness);
  const alongWind = 2.4 * frictionVelocity;
  return {
    alongWind,
    acrossWind: 1.9 * frictionVelocity,
    vertical: 1.25 * frictionVelocity,
    peak: wind.speed + (wind.peakFactor ?? 3) * alongWind,
  };
}
