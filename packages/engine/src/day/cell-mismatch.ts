import { cellAt, maximumPowerPoint, seriesString, stringMaximumPowerPoint } from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import { interpolateLinear } from '../math/index.js';
import type { ArrayPlan, ArrayString } from './array-course.js';

/** Cells whose light differs by less than this count as equal [-]: the string follows its darkest cell to the same. */
const alike = 0.01;

/**
 * Power that a string keeps when its cells see unequal light, by shade, place and attitude, relative to every cell at its own
 * maximum with the mean light of its facet: as `mismatchFactors`, cell by cell.
 *
 * @param track - light on every cell on every heading at some instants of the day
 * @param at - index of each of these instants in the day
 * @param light, temperature - means over the headings, index instant x facets + facet [W/m2], [K]
 * @param instants - of the day, or of several; they repeat after `until`
 * @returns index string x instants + instant
 */
export function cellMismatchFactors(
  plan: ArrayPlan,
  track: CellLightTrack,
  at: readonly number[],
  light: Float64Array,
  temperature: Float64Array,
  { instants, until }: { readonly instants: number; readonly until: number },
): Float64Array {
  const factors = new Float64Array(plan.strings.length * instants).fill(1);
  const facets = plan.facets.length;
  for (const [s, string] of plan.strings.entries()) {
    const lit: number[] = [];
    const values: number[] = [];
    for (const [k, instant] of at.entries()) {
      const from = instant * facets;
      const factor = keptAt(plan, string, track, k, light.subarray(from, from + facets), temperature.subarray(from));
      if (factor === undefined) continue;
      lit.push(instant);
      values.push(factor);
    }
    if (lit.length === 0) continue;
    for (let i = 0; i < instants; i++) factors[s * instants + i] = interpolateLinear(lit, values, i % until);
  }
  return factors;
}

interface Lit {
  readonly irradiance: number;
  readonly temperature: number;
}

function keptAt(
  plan: ArrayPlan,
  string: ArrayString,
  track: CellLightTrack,
  k: number,
  light: Float64Array,
  temperature: Float64Array,
): number | undefined {
  let equal = 0;
  const members: { readonly cell: number; readonly temperature: number }[] = [];
  for (const { facet } of string.groups) {
    const irradiance = light[facet]! * plan.lightFactor;
    const cells = plan.facets[facet]!.cells;
    if (!(irradiance > 0) || cells === undefined) return undefined;
    const warm = temperature[facet]!;
    equal += cells.length * maximumPowerPoint(cellAt(string.cell, { irradiance, temperature: warm })).power;
    members.push(...cells.map((cell) => ({ cell, temperature: warm })));
  }
  let sum = 0;
  for (let h = 0; h < track.headingCount; h++) {
    const row = (k * track.headingCount + h) * track.cellCount;
    const lit = members.map(({ cell, temperature: warm }) => ({
      irradiance: track.effective[row + cell]! * plan.lightFactor,
      temperature: warm,
    }));
    const groups = grouped(lit);
    sum +=
      groups.length === 1
        ? groups[0]!.count * maximumPowerPoint(cellAt(string.cell, groups[0]!)).power
        : stringMaximumPowerPoint(seriesString({ cell: string.cell, groups })).power;
  }
  return equal > 0 ? Math.min(1, sum / track.headingCount / equal) : undefined;
}

/** Cells of nearly equal light taken together, with their mean light and temperature. */
function grouped(cells: readonly Lit[]): readonly (Lit & { readonly count: number })[] {
  const sorted = [...cells].sort((a, b) => b.irradiance - a.irradiance);
  const groups: { count: number; irradiance: number; temperature: number }[] = [];
  let brightest = 0;
  for (const { irradiance, temperature } of sorted) {
    const last = groups.at(-1);
    if (last !== undefined && irradiance > brightest * (1 - alike)) {
      last.irradiance += (irradiance - last.irradiance) / ++last.count;
      last.temperature += (temperature - last.temperature) / last.count;
      continue;
    }
    brightest = irradiance;
    groups.push({ count: 1, irradiance, temperature });
  }
  return groups;
}
