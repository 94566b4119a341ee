import { mixedPoints } from './measuredPolar.js';
import type { SectionPolar } from './polar.js';
import { isUsable, POLAR_SETTINGS, type PolarSettings, untilFirstStall } from './stored.js';

/**
 * Chord stations at which stored polars are tripped above, so that one store serves every place of a cells' front edge. Between them drag
 * is taken as straight in the station. Measured on NACA 3410 and 4409 at ten other stations, Reynolds numbers 60 000 to 480 000, lift 0.2
 * to 0.8: 0.6 % of the drag in the median, 1.2 % in nine of ten, 9 % at worst (trip at half the chord at 60 000, where the bubble ends).
 */
export const TRIP_STATIONS: readonly number[] = [0.05, 0.25, 0.6];

/** Settings of the polars with the upper layer tripped at a station. station - [chord]; settings - of the bare section */
export const trippedSettings = (station: number, settings: PolarSettings = POLAR_SETTINGS): PolarSettings => ({
  ...settings,
  trips: [station, Number.NaN],
});

/** Polar between two of the same Reynolds number over the incidences that both have; the usable one where one is not. */
function mixed(a: SectionPolar, b: SectionPolar, t: number): SectionPolar {
  const [low, high] = [untilFirstStall(a), untilFirstStall(b)];
  if (!isUsable(low) || !isUsable(high)) return isUsable(low) || !isUsable(high) ? a : b;
  const from = Math.max(low.points[0].alpha, high.points[0].alpha);
  const to = Math.min(low.points[low.points.length - 1].alpha, high.points[high.points.length - 1].alpha);
  return { reynolds: a.reynolds, points: mixedPoints(low.points, high.points, t, from, to), holes: [] };
}

/**
 * Polars tripped at any station, from those at `TRIP_STATIONS`: ahead of the first as there, because so far forward it hardly counts
 * where a trip stands, and behind the last towards the bare section, which is one tripped at its trailing edge.
 * station - [chord]; bare - polars of the bare section; tripped - at each of `TRIP_STATIONS`, at the same Reynolds numbers
 */
export function trippedAt(
  station: number,
  bare: readonly SectionPolar[],
  tripped: readonly (readonly SectionPolar[])[],
): readonly SectionPolar[] {
  const stations = [...TRIP_STATIONS, 1];
  const sets = [...tripped, bare];
  const upper = stations.findIndex((one) => one >= station);
  if (upper <= 0) return sets[upper === 0 ? 0 : sets.length - 1];
  const t = (station - stations[upper - 1]) / (stations[upper] - stations[upper - 1]);
  return sets[upper - 1].map((polar, i) => mixed(polar, sets[upper][i], t));
}
