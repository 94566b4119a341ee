import { type CellLightTrack, cellLightTrack } from '@noonwing/engine/light';
import { skyTermsTrack } from '@noonwing/engine/sun';
import type { Verdict } from './central.js';
import { type LightCourse, thinned } from './day-setup.js';

/** Light on every cell at some steps of the grid, heading by heading; undefined where no cells are placed one by one. */
export function cellTrackAt(
  { prepared, grid, light }: Verdict,
  { sky }: LightCourse,
  steps: readonly number[],
): CellLightTrack | undefined {
  const { array, albedo } = prepared.run;
  if (array?.cells === undefined || light === undefined) return undefined;
  const sun = thinned(grid.sun, steps);
  const pattern = { ...light.attitude, headings: light.geometry.headings };
  const scene = { sun, cells: array.cells, shade: array.shade, pattern, incidence: array.incidence };
  return cellLightTrack(scene, skyTermsTrack(sun, thinned(sky, steps), { model: 'perez', albedo }));
}
