import { MATERIALS } from '@noonwing/design';
import { groundCellTemperature } from '@noonwing/engine/array';
import { cellTemperatures, cellWarmth, coolingOf } from '@noonwing/engine/day';
import { type KeptStiffness, sheetStiffnessKept } from '@noonwing/engine/structure';
import type { Flown, LimitsAnswer } from './limits.js';

/** Foam under a dark top in the sun, and what that leaves of the limit speed. */
export interface WarmFoam {
  /** Of the hottest cell, which is what the top face under it comes to [K]. */
  readonly top: number;
  readonly stiffness: KeptStiffness;
  /** Limit speed with that stiffness, and where foam loses half as much again as it should [m/s]. */
  readonly limitSpeed: number;
  readonly low: number;
}

/** Warm foam in flight and on the ground, in the air of the day. */
export interface WarmFoamAnswer {
  readonly air: number;
  readonly flight: WarmFoam;
  readonly parked: WarmFoam;
}

/** Clear sun near noon on a top that lies level [W/m2]. */
const noonLight = 950;

/** Air over a parked wing: a light breath of wind, no flight [m/s] (judgement). */
const parkedWind = 1;

/** Foam of which nothing else is known. */
const usualFoam = MATERIALS['depron foam'].mechanics;

/**
 * What the sun does to a foam surface through its dark cells: its top at the temperature of the hottest cell, its bottom in the shade at that of
 * the air. All of the surface is taken to soften as its foam does; spars and glass do not, so that the limit falls less than is said.
 * Undefined where the largest surface is not of foam, no cell lies on it, or no limit was found.
 */
export function warmFoam(of: Flown, { report, structure, airspeed }: LimitsAnswer): WarmFoamAnswer | undefined {
  const { array, air } = of.prepared.run;
  const cells = array?.cells ?? [];
  const [first] = report.limits;
  if (!structure.foam || cells.length === 0 || first === undefined) return undefined;
  const core = structure.described[structure.strength?.surface ?? '']?.core ?? usualFoam;
  const places = cells.map(coolingOf);
  const ground = { irradiance: noonLight, airTemperature: air.temperature, windSpeed: parkedWind };
  const warmth = cellWarmth(places, { air, airspeed });
  const flown = cellTemperatures(warmth, new Float64Array(cells.length).fill(noonLight));
  const parked = places.map((place) => groundCellTemperature(ground, place));
  const warmed = (temperatures: Iterable<number>): WarmFoam => {
    const top = Math.max(...temperatures);
    const stiffness = sheetStiffnessKept(core, top, air.temperature);
    // Speeds go with the root of stiffness.
    const limit = (kept: number) => first.low * Math.sqrt(kept);
    return { top, stiffness, limitSpeed: limit(stiffness.kept), low: limit(stiffness.low) };
  };
  return { air: air.temperature, flight: warmed(flown), parked: warmed(parked) };
}
