import { brentRoot } from '../math/index.js';
import { type DiodeCurve, diodeVoltageAtCurrent, openCircuitVoltage, type PowerPoint } from './cell.js';
import { type CellParameters, cellAt } from './translate.js';

/** Equal cells in series under the same light and temperature. */
export interface CellGroup {
  readonly count: number;
  readonly curve: DiodeCurve;
}

/** A diode, or switch, across a substring, taken as an ideal clamp. */
export interface Bypass {
  /** Voltage across it while it conducts [V], above zero: 0.3 to 0.5 Schottky, 0.7 to 1 silicon, below 0.1 ideal-diode switch. */
  readonly forwardVoltage: number;
}

/** Part of a string that shares one bypass element, or has none. */
export interface Substring {
  readonly groups: readonly CellGroup[];
  readonly bypass?: Bypass;
}

/** Cells in series, ready to be evaluated. */
export interface SeriesString {
  readonly substrings: readonly Substring[];
  /** Tabs, joints, wires and connectors of the whole string [ohm]. */
  readonly seriesResistance: number;
  /** Of a blocking diode in series, taken as an ideal clamp [V], default 0; that it lets no current back is for `ParallelStrings`. */
  readonly blockingVoltage?: number;
}

/** Equal cells under one light. */
export interface LightGroup {
  readonly count: number;
  /** Effective irradiance [W/m2]. */
  readonly irradiance: number;
  /** Cell temperature [K]. */
  readonly temperature: number;
  /** Another kind of cell than the string's. */
  readonly cell?: CellParameters;
}

/** A string described by its cells and their light. Give `groups` for a string without bypass, else `substrings`. */
export interface LightString {
  readonly cell: CellParameters;
  readonly groups?: readonly LightGroup[];
  readonly substrings?: readonly { readonly groups: readonly LightGroup[]; readonly bypass?: Bypass }[];
  /** [ohm], default 0. */
  readonly seriesResistance?: number;
}

/** Strings side by side on one pair of wires. */
export interface ParallelStrings {
  readonly strings: readonly SeriesString[];
  /** Drop of a blocking diode in each string [V]; without it dark strings draw current from lit ones. */
  readonly blockingVoltage?: number;
}

/**
 * String of cells at the light and temperature of each of its groups.
 *
 * @param spec - cell, groups of cells (count, irradiance [W/m2], temperature [K]), series resistance [ohm]
 * @returns the string with the curve of every group
 */
export function seriesString(spec: LightString): SeriesString {
  const parts = spec.substrings ?? [{ groups: spec.groups ?? [] }];
  const substrings = parts.map((part): Substring => {
    const groups = part.groups
      .filter((group) => group.count > 0)
      .map((group) => ({ count: group.count, curve: cellAt(group.cell ?? spec.cell, group) }));
    return part.bypass === undefined ? { groups } : { groups, bypass: part.bypass };
  });
  return { substrings, seriesResistance: spec.seriesResistance ?? 0 };
}

/** All groups of a string in order. */
export const groupsOf = (string: SeriesString): readonly CellGroup[] =>
  string.substrings.flatMap((substring) => substring.groups);

/** Number of cells of a string. */
export const cellCount = (string: SeriesString): number =>
  groupsOf(string).reduce((sum, group) => sum + group.count, 0);

/** Voltage of one substring at a current [V], its bypass included. */
function substringVoltage(substring: Substring, current: number): number {
  let voltage = 0;
  for (const group of substring.groups) {
    voltage += group.count * (diodeVoltageAtCurrent(group.curve, current) - current * group.curve.seriesResistance);
  }
  const clamp = substring.bypass === undefined ? undefined : -substring.bypass.forwardVoltage;
  return clamp !== undefined && voltage < clamp ? clamp : voltage;
}

/**
 * Voltage of a series string at a given current.
 *
 * @param string - cells in series
 * @param current - current [A]. Above the photocurrent of its weakest cells those are driven into reverse: they break
 *   down (Bishop) where breakdown data are given, or else pass only what their shunt lets through, so that the string
 *   is in effect limited to their current, unless a bypass takes over
 * @returns voltage at the ends of the string [V], falling monotonically with the current
 */
export function stringVoltageAtCurrent(string: SeriesString, current: number): number {
  let voltage = -current * string.seriesResistance - (string.blockingVoltage ?? 0);
  for (const substring of string.substrings) voltage += substringVoltage(substring, current);
  return voltage;
}

/** Voltage of a string with its first and second derivative by current, below the photocurrent of every cell. */
export interface StringDerivatives {
  readonly voltage: number;
  readonly slope: number;
  readonly curvature: number;
}

/**
 * Voltage of a series string and its derivatives by current, for currents at which no cell is in reverse.
 *
 * @param groups - groups of the string
 * @param leads - of the string beside its cells: resistance [ohm], blocking diode [V]
 * @param current - [A], at most the smallest photocurrent
 * @returns voltage [V], dV/dI [ohm], d2V/dI2 [ohm/A]
 */
export function forwardStringDerivatives(
  groups: readonly CellGroup[],
  { seriesResistance, blockingVoltage = 0 }: Pick<SeriesString, 'seriesResistance' | 'blockingVoltage'>,
  current: number,
): StringDerivatives {
  let voltage = -current * seriesResistance - blockingVoltage;
  let slope = -seriesResistance;
  let curvature = 0;
  for (const { count, curve } of groups) {
    const x = diodeVoltageAtCurrent(curve, current);
    // The diode carries what neither terminal nor shunt does, which saves its exponential.
    const diode = curve.photocurrent - current - x / curve.shuntResistance + curve.saturationCurrent;
    const conductance = diode / curve.modifiedIdeality;
    const fall = -conductance - 1 / curve.shuntResistance;
    voltage += count * (x - current * curve.seriesResistance);
    slope += count * (1 / fall - curve.seriesResistance);
    curvature += (count * conductance) / (curve.modifiedIdeality * fall * fall * fall);
  }
  return { voltage, slope, curvature };
}

/** Open-circuit voltage of a series string [V]. */
export function stringOpenCircuitVoltage(string: SeriesString): number {
  const cells = groupsOf(string).reduce((sum, group) => sum + group.count * openCircuitVoltage(group.curve), 0);
  return cells - (string.blockingVoltage ?? 0);
}

/** Largest photocurrent of any cell of a string [A]. */
const largestPhotocurrent = (string: SeriesString): number =>
  groupsOf(string).reduce((most, group) => Math.max(most, group.curve.photocurrent), 0);

/**
 * Current of a series string at a given voltage.
 *
 * @param string - cells in series
 * @param voltage - at the ends of the string [V], zero or above
 * @returns current [A]; negative above the open-circuit voltage, where the string takes current
 */
export function stringCurrentAtVoltage(string: SeriesString, voltage: number): number {
  const excess = (current: number): number => stringVoltageAtCurrent(string, current) - voltage;
  let upper = largestPhotocurrent(string);
  let lower = 0;
  if (excess(lower) < 0) {
    upper = 0;
    lower = -1e-3;
    for (let doubling = 0; doubling < 60 && excess(lower) < 0; doubling++) lower *= 2;
  } else {
    // In the shunt-limited sense no cell can carry more than the strongest photocurrent while the string gives power.
    for (let doubling = 0; doubling < 8 && excess(upper) > 0; doubling++) upper = upper * 2 + 1e-9;
  }
  return brentRoot(excess, lower, upper, { tolerance: 1e-11 }) ?? 0;
}

/** Short-circuit current of a series string [A]. */
export const stringShortCircuitCurrent = (string: SeriesString): number => stringCurrentAtVoltage(string, 0);

/**
 * Current that strings in parallel give at a common voltage.
 *
 * @param parallel - the strings and their blocking diodes
 * @param voltage - at the common terminals [V]
 * @returns current [A]
 */
export function parallelCurrentAtVoltage(parallel: ParallelStrings, voltage: number): number {
  const drop = parallel.blockingVoltage;
  let sum = 0;
  for (const string of parallel.strings) {
    const current = stringCurrentAtVoltage(string, voltage + (drop ?? 0));
    sum += drop === undefined ? current : Math.max(current, 0);
  }
  return sum;
}

/** State of one group of cells at a string current. */
export interface GroupState {
  readonly count: number;
  /** Terminal voltage of each cell [V]. */
  readonly voltage: number;
  /** Power that each cell gives [W]; negative where it takes power as heat. */
  readonly power: number;
  /** True where the bypass of its substring carries the current instead. */
  readonly bypassed: boolean;
}

/**
 * What each group of cells does at a string current: who gives, who is bypassed, who is heated in reverse.
 *
 * @param string - cells in series
 * @param current - string current [A]
 * @returns one state per group, in order. In a bypassed substring the cells carry the current at which their sum of
 *   voltages equals the clamp voltage
 */
export function groupStates(string: SeriesString, current: number): readonly GroupState[] {
  return string.substrings.flatMap((substring) => {
    const free: SeriesString = { substrings: [{ groups: substring.groups }], seriesResistance: 0 };
    const clamp = substring.bypass === undefined ? undefined : -substring.bypass.forwardVoltage;
    const bypassed = clamp !== undefined && stringVoltageAtCurrent(free, current) < clamp;
    const carried = bypassed
      ? (brentRoot((i) => stringVoltageAtCurrent(free, i) - clamp, 0, current, { tolerance: 1e-11 }) ?? current)
      : current;
    return substring.groups.map(({ count, curve }) => {
      const voltage = diodeVoltageAtCurrent(curve, carried) - carried * curve.seriesResistance;
      return { count, voltage, power: voltage * carried, bypassed };
    });
  });
}

/** Power point of a string at a current. */
export function stringPointAtCurrent(string: SeriesString, current: number): PowerPoint {
  const voltage = stringVoltageAtCurrent(string, current);
  return { voltage, current, power: voltage * current };
}
