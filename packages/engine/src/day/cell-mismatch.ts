import {
  type CellCondition,
  type CellGroup,
  cellAt,
  conditionedCurve,
  type LightGroup,
  maximumPowerPoint,
  type ParallelStrings,
  type Substring,
  spannedSubstrings,
  stringMaximumPowerPoint,
} from '../array/index.js';
import type { CellLightTrack } from '../light/index.js';
import type { ArrayPlan, ArrayString } from './array-course.js';
import { equalPoint, hungTogether, keptTogether, sharesVoltage, sideBySide } from './shared-converter.js';
import { enterKept, type KeptShares, nothingLost, type UnequalLight } from './unequal-light.js';

/** Cells whose light differs by less than this count as equal [-]: the string follows its darkest cell to the same. */
const alike = 0.01;

/** Light and temperature of cells at one instant of a track. */
interface InstantLight {
  readonly track: CellLightTrack;
  /** Instant of the track. */
  readonly k: number;
  readonly facetOf: Int32Array;
  /** Of the facets, mean over the headings [W/m2], [K]. */
  readonly light: Float64Array;
  readonly temperature: Float64Array;
}

/**
 * What strings keep when their cells see unequal light, by shade, place and attitude, relative to every cell at its own
 * maximum with the mean light of its facet: as `mismatchFactors`, cell by cell in the order of the wiring, with bypass diodes
 * and reverse breakdown. Strings on one converter, and parallel ones in a string, stand at one voltage on every heading.
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
  grid: { readonly instants: number; readonly until: number },
): UnequalLight {
  const left = nothingLost(plan.strings.length * grid.instants);
  const facets = plan.facets.length;
  const facetOf = facetOfCells(plan);
  for (const indices of hungTogether(plan)) {
    const strings = indices.map((s) => plan.strings[s]!);
    if (strings.some(({ members }) => members === undefined)) continue;
    const found = indices.map((): { at: number; kept: KeptShares }[] => []);
    for (const [k, instant] of at.entries()) {
      const mean = (values: Float64Array) => values.subarray(instant * facets, (instant + 1) * facets);
      const lit = { track, k, facetOf, light: mean(light), temperature: mean(temperature) };
      for (const [n, kept] of (keptAt(plan, strings, lit) ?? []).entries()) found[n]!.push({ at: instant, kept });
    }
    for (const [n, s] of indices.entries()) enterKept(left, s, found[n]!, grid);
  }
  return left;
}

/** Index of the facet of every cell; -1 where none has it. */
export function facetOfCells(plan: ArrayPlan): Int32Array {
  const facetOf = new Int32Array(plan.cells?.length ?? 0).fill(-1);
  for (const [index, { cells }] of plan.facets.entries()) for (const cell of cells ?? []) facetOf[cell] = index;
  return facetOf;
}

/** What is left of the strings of one converter; undefined where some are in the dark. */
function keptAt(
  plan: ArrayPlan,
  strings: readonly ArrayString[],
  { track, k, facetOf, light, temperature }: InstantLight,
): readonly KeptShares[] | undefined {
  const rowOf = (h: number) => (k * track.headingCount + h) * track.cellCount;
  const litAt = (string: ArrayString, h: number) => {
    const here = track.effective.subarray(rowOf(h), rowOf(h) + track.cellCount);
    return litMembers(plan, string, here, (cell) => temperature[facetOf[cell]!]!);
  };
  if (sharesVoltage(strings)) {
    const setsAt = (h: number) => strings.map((string) => litStrings(string, litAt(string, h)));
    return keptTogether(plan, strings, light, temperature, { headings: track.headingCount, setsAt });
  }
  const string = strings[0]!;
  const equal = equalPoint(plan, string, light, temperature);
  if (equal === undefined) return undefined;
  let power = 0;
  let weighted = 0;
  for (let h = 0; h < track.headingCount; h++) {
    const point = stringPoint(string, litAt(string, h)[0]!);
    power += point.power;
    weighted += point.power * point.voltage;
  }
  if (!(power > 0)) return [{ power: 0, shared: 1, voltage: 1, open: 1 }];
  const share = power / track.headingCount / equal.power;
  return [{ power: Math.min(1, share), shared: 1, voltage: weighted / power / equal.voltage, open: 1 }];
}

/**
 * Cells of every one of the parallel strings of a string in their light.
 *
 * @param light - effective, on every cell of the array [W/m2]
 * @param temperatureOf - of each cell [K]
 */
export function litMembers(
  plan: ArrayPlan,
  { members = [], conditions }: ArrayString,
  light: Float64Array,
  temperatureOf: (cell: number) => number,
): readonly (readonly LitCell[])[] {
  return members.map((cells, n) =>
    cells.map((cell, i): LitCell => {
      const irradiance = light[cell]! * plan.lightFactor;
      const condition = conditions?.get(n * cells.length + i);
      return { count: 1, irradiance, temperature: temperatureOf(cell), condition };
    }),
  );
}

/** The parallel strings of a string with their leads, behind their blocking diodes. */
export function litStrings(string: ArrayString, members: readonly (readonly LitCell[])[]): ParallelStrings {
  const { seriesResistance, blockingVoltage } = string;
  const strings = members.map((cells) => ({ substrings: litString(string, cells), seriesResistance }));
  return sideBySide(strings, blockingVoltage);
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
