import { cellTemperatures, cellWarmth, coolingOf } from '@noonwing/engine/day';
import { cellLightTrack } from '@noonwing/engine/light';
import { skyTermsTrack } from '@noonwing/engine/sun';
import type { Verdict } from './central.js';
import { type LightCourse, thinned } from './day-setup.js';

/**
 * Temperature of every cell in flight where it lies in the boundary layer of its own chord; the day's strings take the mean of
 * each row and side instead.
 *
 * @param light - effective light on every cell, mean over a turn: a cell on foam takes about as long to warm up; index
 *   instant x cells + cell [W/m2]
 * @param ambient - of the air at each instant [K]
 * @returns [K], same index
 */
export function cellsWarmth(verdict: Verdict, light: Float64Array, ambient: Float64Array): Float64Array {
  const { prepared, flight } = verdict;
  const cells = prepared.run.array?.cells ?? [];
  if (flight === undefined || cells.length === 0)
    return light.map((_, i) => ambient[Math.floor(i / cells.length)] ?? 0);
  const { air } = prepared.run;
  const warmth = cellWarmth(cells.map(coolingOf), { air, airspeed: flight.airspeed });
  return cellTemperatures(warmth, light).map(
    (kelvin, i) => kelvin + ambient[Math.floor(i / cells.length)]! - air.temperature,
  );
}

/** Temperature of every cell at a step of the grid [K]. */
export function cellsWarmthAt(verdict: Verdict, { sky, ambient }: LightCourse, step: number): Float64Array {
  const { grid, light, prepared } = verdict;
  const { array, albedo } = prepared.run;
  if (array?.cells === undefined || light === undefined) return new Float64Array();
  const sun = thinned(grid.sun, [step]);
  const pattern = { ...light.attitude, headings: light.geometry.headings };
  const scene = { sun, cells: array.cells, shade: array.shade, pattern, incidence: array.incidence };
  const terms = skyTermsTrack(sun, thinned(sky, [step]), { model: 'perez', albedo });
  const { effective, headingCount, cellCount } = cellLightTrack(scene, terms);
  const mean = new Float64Array(cellCount);
  for (let i = 0; i < effective.length; i++) mean[i % cellCount]! += effective[i]! / headingCount;
  return cellsWarmth(verdict, mean, Float64Array.of(ambient[step]!));
}
