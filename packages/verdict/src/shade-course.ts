import { eachSun, litFrom } from '@noonwing/engine/light';
import type { Verdict } from './central.js';
import { thinned } from './day-setup.js';

/** Steps between the instants at which shade is told apart by what casts it [s]. */
const casterStep = 1800;

/** What takes direct light from every cell through the first day, mean over the headings flown. */
export interface ShadeCourse {
  /** Steps of the grid of the verdict, and their clock times [h]. */
  readonly steps: readonly number[];
  readonly hours: readonly number[];
  /** Time that each stands for [s]. */
  readonly every: number;
  /** Cosine of incidence without shade, index instant x cells + cell. */
  readonly open: Float64Array;
  /** Of that, taken by each part, the parts before it in the list of blockers served first; same index. */
  readonly casters: readonly { readonly name: string; readonly taken: Float64Array }[];
}

/** Shade through the first day by what casts it; undefined where cells are not placed one by one or it cannot fly. */
export function shadeCourse({ prepared, grid, light }: Verdict): ShadeCourse | undefined {
  const { shade, cells } = prepared.run.array ?? {};
  if (shade === undefined || cells === undefined || light === undefined) return undefined;
  const stride = Math.max(1, Math.round(casterStep / (grid.times[1]! - grid.times[0]!)));
  const steps = Array.from({ length: Math.floor(grid.stepsPerDay / stride) }, (_, i) => i * stride);
  const sun = thinned(grid.sun, steps);
  const { headings } = light.geometry;
  const open = new Float64Array(steps.length * cells.length);
  const casters = shade.casters.map(({ name }) => ({ name, taken: new Float64Array(open.length) }));
  const shares = new Float64Array(cells.length);
  const cosines = new Float64Array(cells.length);
  eachSun(sun, { ...light.attitude, headings }, (instant, _, x, y, z) => {
    const row = instant * cells.length;
    for (const [c, { normal }] of cells.entries()) {
      cosines[c] = Math.max(0, x * normal[0] + y * normal[1] + z * normal[2]) / headings.length;
      open[row + c]! += cosines[c]!;
    }
    for (const [k, caster] of shade.casters.entries()) {
      litFrom(shade, [x, y, z], shares, caster.shade);
      const { taken } = casters[k]!;
      for (let c = 0; c < cells.length; c++) taken[row + c]! += cosines[c]! * shares[c]!;
    }
  });
  return {
    steps,
    hours: steps.map((step) => grid.hours[step]!),
    every: stride * (grid.times[1]! - grid.times[0]!),
    open,
    casters,
  };
}
