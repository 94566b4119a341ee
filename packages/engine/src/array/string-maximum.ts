import { minimise } from '../math/index.js';
import type { PowerPoint } from './cell.js';
import { maximumPowerPoint } from './maximum.js';
import {
  type CellGroup,
  forwardStringDerivatives,
  groupsOf,
  type ParallelStrings,
  parallelCurrentAtVoltage,
  type SeriesString,
  stringOpenCircuitVoltage,
  stringPointAtCurrent,
  stringVoltageAtCurrent,
} from './string.js';

/** Samples of the current between two neighbouring photocurrents when local maxima are sought. */
const samplesBetweenLevels = 40;

/** A group that is so much like another that one curve serves both. */
const alike = (a: CellGroup, b: CellGroup): boolean =>
  a.curve.photocurrent === b.curve.photocurrent &&
  a.curve.saturationCurrent === b.curve.saturationCurrent &&
  a.curve.modifiedIdeality === b.curve.modifiedIdeality &&
  a.curve.seriesResistance === b.curve.seriesResistance &&
  a.curve.shuntResistance === b.curve.shuntResistance;

/** What a string has beside its cells. */
type Leads = Pick<SeriesString, 'seriesResistance' | 'blockingVoltage'>;

/** Maximum of a string whose cells are all alike: that of one cell with its share of the wiring. */
function uniformMaximum(groups: readonly CellGroup[], seriesResistance: number): PowerPoint {
  const count = groups.reduce((sum, group) => sum + group.count, 0);
  const { curve } = groups[0]!;
  const point = maximumPowerPoint({ ...curve, seriesResistance: curve.seriesResistance + seriesResistance / count });
  return { voltage: point.voltage * count, current: point.current, power: point.power * count };
}

/**
 * Maximum with no cell in reverse: power is concave in the current there, since the voltage of each cell is a falling
 * concave function of it. Newton on dP/dI = V + I dV/dI inside the bracket.
 */
function forwardMaximum(groups: readonly CellGroup[], leads: Leads, weakest: number): PowerPoint {
  let low = 0;
  let high = weakest;
  let current = 0.95 * weakest;
  for (const group of groups) {
    if (group.curve.photocurrent === weakest) current = maximumPowerPoint(group.curve).current;
  }
  for (let iteration = 0; iteration < 60; iteration++) {
    const { voltage, slope, curvature } = forwardStringDerivatives(groups, leads, current);
    const gradient = voltage + current * slope;
    if (gradient > 0) low = current;
    else high = current;
    let next = current - gradient / (2 * slope + current * curvature);
    if (!(next > low && next < high)) next = (low + high) / 2;
    const change = Math.abs(next - current);
    current = next;
    if (change < 1e-9 * weakest) break;
  }
  const { voltage } = forwardStringDerivatives(groups, leads, current);
  return { voltage, current, power: voltage * current };
}

/**
 * Currents at which the search for maxima is split: zero, every photocurrent, and just above the largest. Samples
 * crowd towards the upper end of each interval, where the knee of the next group lies.
 */
function searchCurrents(groups: readonly CellGroup[]): number[] {
  const levels = [...new Set(groups.map((group) => group.curve.photocurrent))].sort((a, b) => a - b);
  const currents: number[] = [0];
  let below = 0;
  for (const level of [...levels, levels.at(-1)! * 1.05]) {
    for (let k = 1; k <= samplesBetweenLevels; k++) {
      const s = k / samplesBetweenLevels;
      currents.push(below + (level - below) * (1 - (1 - s) ** 2));
    }
    below = level;
  }
  return currents;
}

/**
 * Every local maximum of power of a series string.
 *
 * @param string - cells in series
 * @returns maxima by falling power; the first is the global one, the others are where a converter can be caught.
 *   Empty in the dark. Found by 40 samples between neighbouring photocurrents, each peak refined to 1e-7 of its
 *   current; maxima closer to each other than the samples merge into the higher
 */
export function stringMaxima(string: SeriesString): readonly PowerPoint[] {
  const groups = groupsOf(string);
  if (groups.length === 0) return [];
  const currents = searchCurrents(groups);
  const powers = currents.map((current) => stringPointAtCurrent(string, current).power);
  const maxima: PowerPoint[] = [];
  for (let k = 1; k < currents.length - 1; k++) {
    const isPeak = powers[k]! > powers[k - 1]! && powers[k]! >= powers[k + 1]! && powers[k]! > 0;
    if (!isPeak) continue;
    const best = minimise((i) => -stringPointAtCurrent(string, i).power, currents[k - 1]!, currents[k + 1]!, 1e-7);
    maxima.push(stringPointAtCurrent(string, best.argument));
  }
  return maxima.sort((a, b) => b.power - a.power);
}

/** Interval of current, as a fraction of its upper end, below which it is not divided further in the search. */
const finestInterval = 2e-3;

/**
 * Current of the highest power above a starting best, by branch and bound over the current: since the voltage falls
 * with the current, no point of an interval exceeds its upper current times the voltage at its lower one.
 */
function searchAbove(string: SeriesString, levels: readonly number[], best: PowerPoint): PowerPoint {
  let found = best;
  const voltageAt = (current: number): number => stringVoltageAtCurrent(string, current);
  const search = (low: number, high: number, voltageLow: number): void => {
    if (high * voltageLow <= found.power * (1 + 1e-9) || high - low < finestInterval * high) return;
    const middle = (low + high) / 2;
    const voltage = voltageAt(middle);
    if (voltage * middle > found.power) found = { voltage, current: middle, power: voltage * middle };
    // The half with the higher bound first: a better best prunes the other.
    search(middle, high, voltage);
    search(low, middle, voltageLow);
  };
  for (let k = 1; k < levels.length; k++) {
    // Just below a level its own cells are still in front of their knee: a likely maximum, tried first.
    const high = levels[k]!;
    search(levels[k - 1]!, high, voltageAt(levels[k - 1]!));
  }
  if (found === best) return best;
  const width = 2 * finestInterval * found.current;
  const refined = minimise((i) => -i * voltageAt(i), found.current - width, found.current + width, 1e-8);
  return stringPointAtCurrent(string, refined.argument);
}

/**
 * Greatest power that a mismatched series string can give (global maximum).
 *
 * Equal cells are answered by one cell. Otherwise the concave branch without any cell in reverse is solved by Newton
 * steps; since above the weakest photocurrent the string cannot give more than the remaining cells' own maxima, the
 * branches beyond are searched only where that bound leaves room, by branch and bound.
 *
 * @param string - cells in series
 * @returns maximum power point, global to 0.2 % of the current it might be confused with; zeros where any cell is dark
 *   and nothing carries the current past it
 */
export function stringMaximumPowerPoint(string: SeriesString): PowerPoint {
  const groups = groupsOf(string);
  if (groups.length === 0) return { voltage: 0, current: 0, power: 0 };
  if (string.blockingVoltage === undefined && groups.every((group) => alike(group, groups[0]!))) {
    return uniformMaximum(groups, string.seriesResistance);
  }
  let weakest = Number.POSITIVE_INFINITY;
  for (const { curve } of groups) weakest = Math.min(weakest, curve.photocurrent);
  const forward = weakest > 0 ? forwardMaximum(groups, string, weakest) : { voltage: 0, current: 0, power: 0 };
  let room = 0;
  for (const group of groups) {
    if (group.curve.photocurrent > weakest) room += group.count * maximumPowerPoint(group.curve).power;
  }
  if (forward.power >= room) return forward;
  const levels = [...new Set(groups.map((group) => group.curve.photocurrent))].sort((a, b) => a - b);
  return searchAbove(string, levels, forward);
}

/**
 * Every local maximum of power of strings in parallel.
 *
 * @param parallel - the strings
 * @param samples - voltages tried between zero and the highest open-circuit voltage
 * @returns maxima by falling power, as for `stringMaxima`
 */
export function parallelMaxima(parallel: ParallelStrings, samples = 120): readonly PowerPoint[] {
  const { strings, blockingVoltage = 0 } = parallel;
  const top = Math.max(0, ...strings.map((string) => stringOpenCircuitVoltage(string) - blockingVoltage));
  return peaksOf((voltage) => parallelCurrentAtVoltage(parallel, voltage), top, samples);
}

/**
 * Every local maximum of power of a curve of current over voltage.
 *
 * @param currentAt - current by voltage [A]
 * @param top - highest voltage looked at [V]
 * @param samples - voltages tried between zero and the highest
 * @returns maxima by falling power
 */
export function peaksOf(currentAt: (voltage: number) => number, top: number, samples: number): readonly PowerPoint[] {
  const at = (voltage: number): PowerPoint => {
    const current = currentAt(voltage);
    return { voltage, current, power: voltage * current };
  };
  const powers = Array.from({ length: samples + 1 }, (_, k) => at((top * k) / samples).power);
  const maxima: PowerPoint[] = [];
  for (let k = 1; k < samples; k++) {
    if (!(powers[k]! > powers[k - 1]! && powers[k]! >= powers[k + 1]! && powers[k]! > 0)) continue;
    const best = minimise((v) => -at(v).power, (top * (k - 1)) / samples, (top * (k + 1)) / samples, 1e-7);
    maxima.push(at(best.argument));
  }
  return maxima.sort((a, b) => b.power - a.power);
}
