/**
 * Factor on level power for turbulence, control activity and height hold, from night to midday.
 * Judgement, no source: 1.03 in still night air to 1.15 in midday convection, +- 0.07 (one standard uncertainty).
 */
export interface AirFactor {
  readonly night: number;
  readonly midday: number;
  readonly sigma: number;
}

export const defaultAirFactor: AirFactor = { night: 1.03, midday: 1.15, sigma: 0.07 };

/**
 * The factor at an instant: it rises with the sine of the sun's elevation to its midday value at the day's highest sun,
 * because convection follows the heating of the ground.
 *
 * @param sineOfElevation - of the sun now; below zero is night
 * @param greatestSine - of the day's highest sun, > 0 on days with sun
 */
export function airFactorAt(factor: AirFactor, sineOfElevation: number, greatestSine: number): number {
  if (!(sineOfElevation > 0 && greatestSine > 0)) return factor.night;
  return factor.night + (factor.midday - factor.night) * Math.min(1, sineOfElevation / greatestSine);
}

/** An always-on or timed electrical load at the battery bus. */
export interface Load {
  readonly name: string;
  /** Power taken from the bus, regulator loss included [W]. */
  readonly power: number;
  /** Hours of local day in which it runs [h, 0 to 24]; always when absent. A window may pass midnight. */
  readonly hours?: { readonly from: number; readonly to: number };
}

/** Total of the loads that run at an hour of local day [W]. */
export function loadPowerAt(loads: readonly Load[], hour: number): number {
  let sum = 0;
  for (const load of loads) if (runsAt(load, hour)) sum += load.power;
  return sum;
}

function runsAt({ hours }: Load, hour: number): boolean {
  if (!hours) return true;
  const h = ((hour % 24) + 24) % 24;
  return hours.from <= hours.to ? h >= hours.from && h < hours.to : h >= hours.from || h < hours.to;
}
