import {
  type CellCondition,
  type CellGroup,
  cellAt,
  conditionedCurve,
  type LightGroup,
  maximumPowerPoint,
  type Substring,
  spannedSubstrings,
  stringMaximumPowerPoint,
} from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import { interpolateLinear } from '../math/index.js';
import type { ArrayPlan, ArrayString, UnequalLight } from './array-course.js';

/** Cells whose light differs by less than this count as equal [-]: the string follows its darkest cell to the same. */
const alike = 0.01;

/**
 * What strings keep when their cells see unequal light, by shade, place and attitude, relative to every cell at its own
 * maximum with the mean light of its facet: as `mismatchFactors`, cell by cell in the order of the wiring, with bypass diodes
 * and reverse breakdown. Parallel strings are each taken at their own maximum; their voltages differ by less than the flat top
 * of the power curve is wide.
 *
 * @param track - light on every cell on every heading at some instants of the day
 * @param at - index of each of these instants in the day
 * @param light, temperature - means over the headings, index instant x facets + facet [W/m2], [K]
 * @param instants - of the day, or of several; they repeat after `until`
 */
export function cellMismatchFactors(
  plan: ArrayPlan,
  track: CellLightTrack,
  at: readonly number[],
  light: Float64Array,
  temperature: Float64Array,
  { instants, until }: { readonly instants: number; readonly until: number },
): UnequalLight {
  const size = plan.strings.length * instants;
  const kept = { power: new Float64Array(size).fill(1), voltage: new Float64Array(size).fill(1) };
  const facets = plan.facets.length;
  const facetOf = facetOfCells(plan);
  for (const [s, string] of plan.strings.entries()) {
    const lit: number[] = [];
    const powers: number[] = [];
    const voltages: number[] = [];
    for (const [k, instant] of at.entries()) {
      const from = instant * facets;
      const found = keptAt(
        plan,
        string,
        facetOf,
        track,
        k,
        light.subarray(from, from + facets),
        temperature.subarray(from),
      );
      if (found === undefined) continue;
      lit.push(instant);
      powers.push(found.power);
      voltages.push(found.voltage);
    }
    if (lit.length === 0) continue;
    for (let i = 0; i < instants; i++) {
      kept.power[s * instants + i] = interpolateLinear(lit, powers, i % until);
      kept.voltage[s * instants + i] = interpolateLinear(lit, voltages, i % until);
    }
  }
  return kept;
}

/** Index of the facet of every cell; -1 where none has it. */
export function facetOfCells(plan: ArrayPlan): Int32Array {
  const facetOf = new Int32Array(plan.cells?.length ?? 0).fill(-1);
  for (const [index, { cells }] of plan.facets.entries()) for (const cell of cells ?? []) facetOf[cell] = index;
  return facetOf;
}

function keptAt(
  plan: ArrayPlan,
  string: ArrayString,
  facetOf: Int32Array,
  track: CellLightTrack,
  k: number,
  light: Float64Array,
  temperature: Float64Array,
): { readonly power: number; readonly voltage: number } | undefined {
  const { members } = string;
  if (members === undefined) return undefined;
  const equal = equalLight(plan, string, light, temperature);
  if (equal === undefined) return undefined;
  let power = 0;
  let weighted = 0;
  for (let h = 0; h < track.headingCount; h++) {
    const row = (k * track.headingCount + h) * track.cellCount;
    for (const [n, cells] of members.entries()) {
      const lit = (cell: number, i: number): LitCell => ({
        count: 1,
        irradiance: track.effective[row + cell]! * plan.lightFactor,
        temperature: temperature[facetOf[cell]!]!,
        condition: string.conditions?.get(n * cells.length + i),
      });
      const point = stringPoint(string, cells.map(lit));
      power += point.power;
      weighted += point.power * point.voltage;
    }
  }
  if (!(power > 0)) return { power: 0, voltage: 1 };
  return { power: Math.min(1, power / track.headingCount / equal.power), voltage: weighted / power / equal.voltage };
}

/** All parallel strings with every cell at its own maximum in the mean light of its facet; undefined in the dark. */
function equalLight(plan: ArrayPlan, string: ArrayString, light: Float64Array, temperature: Float64Array) {
  let power = 0;
  let voltage = 0;
  for (const { facet, count } of string.groups) {
    const irradiance = light[facet]! * plan.lightFactor;
    if (!(irradiance > 0)) return undefined;
    const point = maximumPowerPoint(cellAt(string.cell, { irradiance, temperature: temperature[facet]! }));
    power += string.parallel * count * point.power;
    voltage += count * point.voltage;
  }
  return { power, voltage };
}

/** A cell with its light and temperature. */
export interface LitCell extends LightGroup {
  /** Damage, where there is some. */
  readonly condition: CellCondition | undefined;
}

/** One string of cells in their light, without its leads. */
export const litString = (
  { cell, diodes = [] }: Pick<ArrayString, 'cell' | 'diodes'>,
  cells: readonly LitCell[],
): readonly Substring[] => spannedSubstrings(cells.length, diodes, (from, to) => curves(cell, cells.slice(from, to)));

/** Greatest power of one string of cells in their light. */
export function stringPoint(string: Pick<ArrayString, 'cell' | 'diodes'>, cells: readonly LitCell[]) {
  const substrings = litString(string, cells);
  const [first] = substrings;
  if (substrings.length === 1 && first!.groups.length === 1) {
    const { count, curve } = first!.groups[0]!;
    const point = maximumPowerPoint(curve);
    return { power: count * point.power, voltage: count * point.voltage };
  }
  return stringMaximumPowerPoint({ substrings, seriesResistance: 0 });
}

/** Sound cells in groups of like light, damaged ones by themselves. */
function curves(cell: ArrayString['cell'], cells: readonly LitCell[]): readonly CellGroup[] {
  return [
    ...grouped(cells.filter(({ condition }) => condition === undefined)).map(({ count, ...at }) => ({
      count,
      curve: cellAt(cell, at),
    })),
    ...cells.flatMap(({ condition, irradiance, temperature }) =>
      condition === undefined
        ? []
        : [{ count: 1, curve: conditionedCurve(cellAt(cell, { irradiance, temperature }), condition) }],
    ),
  ];
}

/** Cells of nearly equal light taken together, with their mean light and temperature. */
function grouped(cells: readonly LightGroup[]): readonly LightGroup[] {
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
