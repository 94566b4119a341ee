import { cellTemperatures, cellWarmth, coolingOf } from '@noonwing/engine/day';
import { cellTrackAt } from './cell-track.js';
import type { Verdict } from './central.js';
import type { LightCourse } from './day-setup.js';

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
export function cellsWarmthAt(verdict: Verdict, course: LightCourse, step: number): Float64Array {
  const track = cellTrackAt(verdict, course, [step]);
  if (track === undefined) return new Float64Array();
  const { effective, headingCount, cellCount } = track;
  const mean = new Float64Array(cellCount);
  for (let i = 0; i < effective.length; i++) mean[i % cellCount]! += effective[i]! / headingCount;
  return cellsWarmth(verdict, mean, Float64Array.of(course.ambient[step]!));
}
