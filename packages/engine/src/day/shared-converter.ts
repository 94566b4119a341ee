import {
  cellAt,
  maximumPowerPoint,
  type ParallelStrings,
  seriesString,
  sharedMaximum,
  sharedOpenCircuitVoltage,
  stringOpenCircuitVoltage,
} from '../array/index.js';
import type { ArrayPlan, ArrayString } from './array-course.js';
import type { KeptShares } from './unequal-light.js';

/** A string with all its cells at their own maximum in the mean light of their facets, without its leads. */
export interface EqualPoint {
  /** Of all parallel strings together [W]. */
  readonly power: number;
  /** Of each of them [V]. */
  readonly voltage: number;
}

/** Voltage that leads, tabs and blocking diode take from one string of a point [V]; never more than half of it. */
export const leadDrop = (
  { seriesResistance, parallel, blockingVoltage = 0 }: ArrayString,
  { power, voltage }: EqualPoint,
): number => Math.min((power / (voltage * parallel)) * seriesResistance + blockingVoltage, 0.5 * voltage);

/** All parallel strings with every cell at its own maximum in the mean light of its facet; undefined in the dark. */
export function equalPoint(
  plan: ArrayPlan,
  string: ArrayString,
  light: Float64Array,
  temperature: Float64Array,
): EqualPoint | undefined {
  let power = 0;
  let voltage = 0;
  for (const { facet, count } of string.groups) {
    const irradiance = light[facet]! * plan.lightFactor;
    if (!(irradiance > 0)) return undefined;
    const point = maximumPowerPoint(cellAt(string.cell, { irradiance, temperature: temperature[facet]! }));
    power += string.parallel * count * point.power;
    voltage += count * point.voltage;
  }
  return voltage > 0 ? { power, voltage } : undefined;
}

/** Strings by converter, as their indices. */
export function hungTogether(plan: ArrayPlan): readonly (readonly number[])[] {
  const hung = new Map<number, number[]>();
  for (const [s, { converter }] of plan.strings.entries()) hung.set(converter, [...(hung.get(converter) ?? []), s]);
  return [...hung.values()];
}

/** Whether more than one string in series stands on a converter, so that they find one voltage. */
export const sharesVoltage = (strings: readonly ArrayString[]): boolean =>
  strings.reduce((sum, { parallel }) => sum + parallel, 0) > 1;

/** Whether any converter of an array has more than one string in series. */
export const hasSharedVoltage = (plan: ArrayPlan): boolean =>
  hungTogether(plan).some((indices) => sharesVoltage(indices.map((s) => plan.strings[s]!)));

/** The strings of one converter in the mean light of their facets. */
const inMeanLight = (
  plan: ArrayPlan,
  strings: readonly ArrayString[],
  light: Float64Array,
  temperature: Float64Array,
): readonly ParallelStrings[] =>
  strings.map(({ cell, groups, parallel, seriesResistance, blockingVoltage }) => {
    const one = seriesString({
      cell,
      seriesResistance,
      groups: groups.map(({ facet, count }) => ({
        count,
        irradiance: light[facet]! * plan.lightFactor,
        temperature: temperature[facet]!,
      })),
    });
    return sideBySide(
      Array.from({ length: parallel }, () => one),
      blockingVoltage,
    );
  });

/** Strings behind their blocking diodes, where they have some. */
export const sideBySide = (
  strings: ParallelStrings['strings'],
  blockingVoltage: number | undefined,
): ParallelStrings => (blockingVoltage === undefined ? { strings } : { strings, blockingVoltage });

/**
 * What is left of strings that share one converter: on every heading they stand at the one voltage at which they give most together.
 *
 * @param strings - all that hang on the converter
 * @param light, temperature - of the facets at this instant, mean over the headings [W/m2], [K]
 * @param setsAt - the strings on a heading, each in its light, with their leads
 * @returns for each string; undefined where some of their cells are in the dark
 */
export function keptTogether(
  plan: ArrayPlan,
  strings: readonly ArrayString[],
  light: Float64Array,
  temperature: Float64Array,
  { headings, setsAt }: { readonly headings: number; readonly setsAt: (heading: number) => readonly ParallelStrings[] },
): readonly KeptShares[] | undefined {
  const equal = strings.map((string) => equalPoint(plan, string, light, temperature));
  if (equal.some((point) => point === undefined)) return undefined;
  const [own, given] = [strings.map(() => 0), strings.map(() => 0)];
  let [power, weighted] = [0, 0];
  for (let h = 0; h < headings; h++) {
    const at = sharedMaximum(setsAt(h));
    for (const k of strings.keys()) {
      own[k]! += at.own[k]! / headings;
      given[k]! += at.given[k]! / headings;
    }
    power += at.maximum.power;
    weighted += at.maximum.power * at.maximum.voltage;
  }
  if (!(power > 0)) return strings.map(() => ({ power: 0, shared: 1, voltage: 1, open: 1 }));
  const sets = inMeanLight(plan, strings, light, temperature);
  const open = sharedOpenCircuitVoltage(sets);
  return strings.map((string, k): KeptShares => {
    const point = equal[k]!;
    const left = point.voltage - leadDrop(string, point);
    const full = (point.power * left) / point.voltage;
    return {
      power: Math.min(1, own[k]! / full),
      shared: own[k]! > 0 ? given[k]! / own[k]! : 1,
      voltage: weighted / power / left,
      open: open / stringOpenCircuitVoltage(sets[k]!.strings[0]!),
    };
  });
}
