import { seriesString, stringMaximumPowerPoint } from '../array/index.js';
import type { ArrayPlan, ArrayString } from './array-course.js';
import { equalPoint, hungTogether, keptTogether, sharesVoltage, sideBySide } from './shared-converter.js';
import { enterKept, type KeptShares, nothingLost, type UnequalLight } from './unequal-light.js';

/**
 * What strings keep when their groups see unequal light around a circle, relative to every cell at its own maximum with the mean
 * light of its facet, and what is left of that where they share a converter. Evaluated heading by heading at every `stride`-th lit
 * instant of the first `until` instants, linear between them, and repeated for later days.
 *
 * @param perHeading - effective light, index (instant x headings + heading) x facets + facet [W/m2]
 * @param light, temperature - means over the headings as for `arrayMaxima`
 * @returns shares; 1 for a string of one group alone on its converter, or where there is no light. No diodes here
 */
export function mismatchFactors(
  plan: ArrayPlan,
  perHeading: Float64Array,
  light: Float64Array,
  temperature: Float64Array,
  grid: { readonly headings: number; readonly stride: number; readonly until: number },
): UnequalLight {
  const facets = plan.facets.length;
  const instants = facets === 0 ? 0 : light.length / facets;
  const until = Math.max(1, grid.until);
  const left = nothingLost(plan.strings.length * instants);
  for (const indices of hungTogether(plan)) {
    const strings = indices.map((s) => plan.strings[s]!);
    if (!sharesVoltage(strings) && strings[0]!.groups.length < 2) continue;
    const found = indices.map((): { at: number; kept: KeptShares }[] => []);
    for (let i = 0; i < Math.min(instants, grid.until); i += grid.stride) {
      const mean = (values: Float64Array) => values.subarray(i * facets, (i + 1) * facets);
      const headed = (h: number) =>
        perHeading.subarray((i * grid.headings + h) * facets, (i * grid.headings + h + 1) * facets);
      const lit = { perHeading: headed, light: mean(light), temperature: mean(temperature), headings: grid.headings };
      for (const [k, kept] of (keptAt(plan, strings, lit) ?? []).entries()) found[k]!.push({ at: i, kept });
    }
    for (const [k, s] of indices.entries()) enterKept(left, s, found[k]!, { instants, until });
  }
  return left;
}

/** Light on the facets at one instant. */
interface InstantLight {
  readonly perHeading: (heading: number) => Float64Array;
  readonly light: Float64Array;
  readonly temperature: Float64Array;
  readonly headings: number;
}

/** What is left of the strings of one converter; undefined where some are in the dark. */
function keptAt(
  plan: ArrayPlan,
  strings: readonly ArrayString[],
  { perHeading, light, temperature, headings }: InstantLight,
): readonly KeptShares[] | undefined {
  const lit = ({ cell, groups }: ArrayString, h: number, seriesResistance: number) =>
    seriesString({
      cell,
      seriesResistance,
      groups: groups.map(({ facet, count }) => ({
        count,
        irradiance: perHeading(h)[facet]! * plan.lightFactor,
        temperature: temperature[facet]!,
      })),
    });
  if (sharesVoltage(strings)) {
    const setsAt = (h: number) =>
      strings.map((string) => {
        const one = lit(string, h, string.seriesResistance);
        return sideBySide(
          Array.from({ length: string.parallel }, () => one),
          string.blockingVoltage,
        );
      });
    return keptTogether(plan, strings, light, temperature, { headings, setsAt });
  }
  const string = strings[0]!;
  const equal = equalPoint(plan, string, light, temperature);
  if (equal === undefined) return undefined;
  let sum = 0;
  for (let h = 0; h < headings; h++) sum += stringMaximumPowerPoint(lit(string, h, 0)).power;
  return [{ power: Math.min(1, sum / headings / equal.power), shared: 1, voltage: 1, open: 1 }];
}
