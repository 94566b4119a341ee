import { type Component, foreseen, type Linear, linearised } from './evidence.js';
import type { BenchModel } from './predict.js';
import type { BenchReading, BenchSetup, CauseName, ObservableName, Read } from './types.js';

/** A measurement that may be taken next. */
export interface Measurement {
  readonly key: ObservableName | 'otherConverter';
  readonly what: string;
  readonly minutes: number;
}

/** What tells causes apart, in words of the bench, with the time that it takes (judgement). */
export const measurements: readonly Measurement[] = [
  { key: 'arrayVoltage', what: 'the voltage at the input of the converter, while it works', minutes: 2 },
  { key: 'zeroCurrent', what: 'the current sensor with the cells covered and everything else off', minutes: 2 },
  { key: 'clockError', what: 'the clock and its offset from UTC, against a telephone', minutes: 1 },
  {
    key: 'cellTemperature',
    what: 'the temperature of the cells, from behind or with an infrared thermometer',
    minutes: 3,
  },
  { key: 'openCircuitVoltage', what: 'the open-circuit voltage, converter unplugged', minutes: 4 },
  { key: 'shortCircuitCurrent', what: 'the short-circuit current, through a meter that bears it', minutes: 6 },
  { key: 'irradiance', what: 'the light on the plane of the cells, with a meter or one known cell', minutes: 5 },
  { key: 'worstCellVoltage', what: 'the voltage of each cell in turn, while the array works', minutes: 12 },
  { key: 'otherConverter', what: 'the amps of another converter on the same array, within minutes', minutes: 15 },
];

/** Standard uncertainty that usual instruments reach (common practice, no source). */
function usualSigma(key: Measurement['key'], expected: number): number {
  switch (key) {
    case 'arrayVoltage':
    case 'openCircuitVoltage':
      return 0.01 * Math.abs(expected) + 0.02;
    case 'zeroCurrent':
      return 0.03;
    case 'clockError':
      return 0.05;
    case 'cellTemperature':
      return 3;
    case 'irradiance':
      return 0.05 * Math.abs(expected) + 5;
    case 'worstCellVoltage':
      return 0.03;
    default:
      return 0.025 * Math.abs(expected) + 0.03;
  }
}

/** Nodes and weights of a normal distribution at three points. Source: Gauss-Hermite quadrature. */
const nodes = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;

/** A component as a new measurement would see it. */
interface Seen {
  readonly cause: CauseName;
  readonly weight: number;
  readonly read: Read;
}

/** Information about the cause that a measurement is expected to give. */
export interface MeasurementValue extends Measurement {
  /** About which cause it is [bit]. */
  readonly information: number;
  /** About each cause being it or not [bit]. */
  readonly about: Readonly<Partial<Record<CauseName, number>>>;
}

const bits = (p: number): number => (p > 1e-12 && p < 1 - 1e-12 ? -p * Math.log2(p) : 0);

/** Expected information of one measurement: entropy of the causes now, less what is expected to be left. */
function worthOf(measurement: Measurement, seen: readonly Seen[]): MeasurementValue {
  const names = [...new Set(seen.map(({ cause }) => cause))];
  const index = new Map(names.map((name, k) => [name, k]));
  const prior = names.map(() => 0);
  for (const { cause, weight } of seen) prior[index.get(cause)!]! += weight;
  let left = 0;
  const apart = names.map(() => 0);
  for (const component of seen) {
    for (const [place, share] of nodes) {
      const value = component.read.value + place * component.read.sigma;
      const densities = names.map(() => 0);
      for (const { cause, weight, read } of seen) {
        const z = (value - read.value) / read.sigma;
        if (z * z < 80) densities[index.get(cause)!]! += (weight / read.sigma) * Math.exp(-0.5 * z * z);
      }
      const sum = densities.reduce((total, one) => total + one, 0);
      const chance = component.weight * share;
      for (const [k, one] of densities.entries()) {
        const p = sum > 0 ? one / sum : prior[k]!;
        left += chance * bits(p);
        apart[k]! += chance * (bits(p) + bits(1 - p));
      }
    }
  }
  const about = Object.fromEntries(
    names.map((name, k) => [name, Math.max(0, bits(prior[k]!) + bits(1 - prior[k]!) - apart[k]!)]),
  );
  const before = prior.reduce((sum, p) => sum + bits(p), 0);
  return { ...measurement, information: Math.max(0, before - left), about };
}

/**
 * What to measure next: every cheap measurement that was not yet taken, by the information about the cause that it is
 * expected to give for the root of the time that it takes, best first.
 *
 * @param components - after the readings
 * @param reading - the last one: the next is taken in its conditions
 * Source: Lindley, On a measure of the information provided by an experiment, Ann. Math. Statist. 27, 1956.
 */
export function nextMeasurements(
  model: BenchModel,
  setup: BenchSetup,
  components: readonly Component[],
  reading: BenchReading,
  taken: ReadonlySet<Measurement['key']>,
): readonly MeasurementValue[] {
  const strong = components.filter(({ weight }) => weight > 2e-4);
  const swapped = new Map<Component, Linear | undefined>();
  for (const component of strong) {
    swapped.set(component, linearised(model, setup, { ...reading, otherConverter: true }, component.fault));
  }
  return measurements
    .filter(({ key }) => !taken.has(key))
    .map((measurement) => {
      const isSwap = measurement.key === 'otherConverter';
      const name: ObservableName = measurement.key === 'otherConverter' ? 'batteryCurrent' : measurement.key;
      const seen = strong.map((component): Seen => {
        const linear = isSwap ? (swapped.get(component) ?? component.last) : component.last;
        const read = foreseen(component, linear, name, usualSigma(measurement.key, linear.mean[name]));
        return { cause: component.cause, weight: component.weight, read };
      });
      return worthOf(measurement, seen);
    })
    .sort((a, b) => b.information / Math.sqrt(b.minutes) - a.information / Math.sqrt(a.minutes));
}
