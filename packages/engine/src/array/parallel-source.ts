import { type ArraySource, stringSource } from './converter.js';
import { sharedMaximum, sharedOpenCircuitVoltage } from './shared-maximum.js';
import { groupsOf, type ParallelStrings, parallelCurrentAtVoltage, type SeriesString } from './string.js';

/** A source whose curve is known at every voltage. */
export type CurveSource = ArraySource & Required<Pick<ArraySource, 'currentAt'>>;

/** Whether any cell of a string is lit. */
export const isLit = (string: SeriesString): boolean => groupsOf(string).some(({ curve }) => curve.photocurrent > 0);

/** Nodes of the curve of strings side by side: between them the power is off by less than 5e-4 of the greatest. */
const curveNodes = 96;

/**
 * Strings side by side on one converter as one source: they find one voltage, and each gives what it can there.
 *
 * @param sets - strings, each set with its own blocking diodes; without them a string above its open-circuit voltage takes
 *   current from the others
 * @returns greatest power of all together (`sharedMaximum`), open circuit, short circuit, and the curve; zeros without light
 */
export function parallelSource(sets: readonly ParallelStrings[]): CurveSource {
  const hung = sets.filter(({ strings }) => strings.length > 0);
  const [first] = hung;
  if (first === undefined || !hung.some(({ strings }) => strings.some(isLit))) return dark;
  if (hung.length === 1 && first.strings.length === 1 && !((first.blockingVoltage ?? 0) > 0)) {
    return single(first.strings[0]!);
  }
  const open = sharedOpenCircuitVoltage(hung);
  if (!(open > 0)) return dark;
  const exact = (voltage: number): number =>
    hung.reduce((sum, parallel) => sum + parallelCurrentAtVoltage(parallel, voltage), 0);
  const current = Float64Array.from({ length: curveNodes + 1 }, (_, k) => exact((open * k) / curveNodes));
  const currentAt = (voltage: number): number => {
    const position = (Math.max(voltage, 0) / open) * curveNodes;
    if (position >= curveNodes) return 0;
    const node = Math.floor(position);
    return current[node]! + (position - node) * (current[node + 1]! - current[node]!);
  };
  const { maximum } = sharedMaximum(hung);
  return { maximum, openCircuitVoltage: open, shortCircuitCurrent: current[0]!, currentAt };
}

const dark: CurveSource = {
  maximum: { voltage: 0, current: 0, power: 0 },
  openCircuitVoltage: 0,
  shortCircuitCurrent: 0,
  currentAt: () => 0,
};

function single(string: SeriesString): CurveSource {
  const source = stringSource(string);
  return { ...source, currentAt: (voltage) => Math.max(0, source.currentAt!(voltage)) };
}
