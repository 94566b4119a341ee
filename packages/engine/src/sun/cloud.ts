import type { Sky } from './clear-sky.js';

/** A sky by name: how much of the clear sky's light comes through on average. */
export interface NamedSky {
  /** Global light under this sky / under the clear sky [-] */
  readonly clearSkyIndex: number;
  /** Standard uncertainty of the index from one such day to another [-] */
  readonly standardUncertainty: number;
  /** Why these numbers */
  readonly basis: string;
}

export type SkyName = 'clear' | 'thin cloud' | 'broken cloud';

/** The skies that a verdict is given for. The choice is judgement; `clearSkyIndexFromOktas` gives the published figures behind it. */
export const namedSkies: Readonly<Record<SkyName, NamedSky>> = {
  clear: {
    clearSkyIndex: 1,
    standardUncertainty: 0.04,
    basis:
      'by definition; 4 % is the error of clear-sky models with the right turbidity (judgement, after Ineichen, Solar Energy 132, 2016)',
  },
  'thin cloud': {
    clearSkyIndex: 0.8,
    standardUncertainty: 0.08,
    basis:
      'judgement: high veil or about 5 of 8 of cloud (0.85 by Kasten and Czeplak, 1980), of which some is before the sun',
  },
  'broken cloud': {
    clearSkyIndex: 0.6,
    standardUncertainty: 0.15,
    basis: 'judgement: mean over sun and shadow at 6 to 7 of 8 of cloud (0.72 to 0.52 by Kasten and Czeplak, 1980)',
  },
};

/**
 * Clear-sky index from cloud cover.
 * @param oktas - eighths of the sky covered, 0 to 8
 * @returns global light / clear-sky global light [-], hourly mean; single days scatter by about a quarter
 * Source: Kasten and Czeplak, Solar Energy 24, 1980, eq. 4.
 */
export function clearSkyIndexFromOktas(oktas: number): number {
  return 1 - 0.75 * (Math.min(Math.max(oktas, 0), 8) / 8) ** 3.4;
}

/**
 * Share of diffuse light in the global light on a level plane.
 * @param clearnessIndex - global horizontal / extraterrestrial horizontal irradiance [-]
 * @returns diffuse fraction [-]
 * Source: Erbs, Klein and Duffie, Solar Energy 28, 1982, eq. 1.
 */
export function diffuseFractionErbs(clearnessIndex: number): number {
  const kt = Math.max(clearnessIndex, 0);
  if (kt <= 0.22) return 1 - 0.09 * kt;
  if (kt > 0.8) return 0.165;
  return 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)));
}

/** Highest index accepted: bright cloud edges lift the light above the clear sky's for minutes. */
export const highestClearSkyIndex = 1.5;

/**
 * The clear sky with clouds. Global light is the index times the clear sky's. Below 1, the direct share of it falls in
 * the proportion in which the Erbs model's direct share falls from the clear sky's clearness to the cloudy one, so that
 * index 1 gives back the clear sky exactly. Above 1 the direct light stays and the surplus is diffuse.
 * @param clear - sky without cloud [W/m2]
 * @param cloud.clearSkyIndex - 0 to 1.5
 * @param cloud.cosZenith - cosine of the sun's apparent zenith angle [-]
 * @param cloud.extraterrestrial - above the air on a plane facing the sun [W/m2]
 * @returns sky under cloud [W/m2]; global = direct x cosZenith + diffuse holds as it did in the clear sky
 * Source: Erbs, Klein and Duffie, Solar Energy 28, 1982; the proportion is ours. Hourly means: at one instant the sun is either out or not.
 */
export function skyUnderCloud(
  clear: Sky,
  cloud: { readonly clearSkyIndex: number; readonly cosZenith: number; readonly extraterrestrial: number },
): Sky {
  const index = cloud.clearSkyIndex;
  if (!(index >= 0 && index <= highestClearSkyIndex)) {
    throw new RangeError(`clear-sky index must be from 0 to ${highestClearSkyIndex}, got ${index}`);
  }
  if (!(cloud.cosZenith > 0) || clear.globalHorizontal <= 0 || index === 1) return clear;
  const globalHorizontal = index * clear.globalHorizontal;
  let directNormal = clear.directNormal;
  if (index < 1) {
    const clearness = clear.globalHorizontal / (cloud.extraterrestrial * cloud.cosZenith);
    const directShare = (kt: number) => 1 - diffuseFractionErbs(kt);
    // The polynomial turns up again just below 0.8, hence the limit.
    directNormal *= index * Math.min(1, directShare(index * clearness) / directShare(clearness));
  }
  const diffuseHorizontal = Math.max(0, globalHorizontal - directNormal * cloud.cosZenith);
  return { globalHorizontal, directNormal, diffuseHorizontal };
}
