import { brentRoot, minimise } from '../math/index.js';
import type { PowerPoint } from './cell.js';
import {
  type CellGroup,
  forwardStringDerivatives,
  groupsOf,
  type ParallelStrings,
  type SeriesString,
  stringCurrentAtVoltage,
  stringOpenCircuitVoltage,
} from './string.js';
import { stringMaximumPowerPoint } from './string-maximum.js';

/** Where strings on one converter meet, and what each set of them gives there. */
export interface SharedMaximum {
  readonly maximum: PowerPoint;
  /** Of each set at the common voltage [W]; below zero where it takes current from the others. */
  readonly given: readonly number[];
  /** Of each set with every one of its strings at its own maximum [W]. */
  readonly own: readonly number[];
}

/** A string of a set with its blocking diode, and what the search knows of it. */
interface Member {
  readonly set: number;
  readonly string: SeriesString;
  readonly isBlocked: boolean;
  readonly groups: readonly CellGroup[];
  /** Least photocurrent of its cells: up to there none is in reverse [A]. */
  readonly weakest: number;
  readonly own: PowerPoint;
  readonly open: number;
}

/** Share of the own maxima from which a common maximum is taken without looking for a higher one. */
const closeEnough = 0.998;
/** Interval of voltage, as a share of its upper end, below which it is not divided further in the search. */
const finestInterval = 2e-3;

const nothing: PowerPoint = { voltage: 0, current: 0, power: 0 };

/**
 * Greatest power of strings that share one converter: they all stand at one voltage.
 *
 * From the mean of their own voltages Newton steps on dP/dV lead to the maximum of the branch on which no cell is in reverse,
 * where the power of each is concave in the voltage. It is taken where it is within 0.2 % of the sum of their own maxima, which
 * nothing can exceed. Else, as with strings of unlike length or with diodes that conduct, the voltage is searched by branch and
 * bound: currents fall with the voltage, so that no point of an interval exceeds its upper voltage times the current at its lower.
 *
 * @param sets - strings side by side. Behind blocking diodes none takes current; without them a string above its open-circuit
 *   voltage takes it from the others
 * @returns greatest power, global to 0.2 %, never above the sum of the own maxima; zeros in the dark
 */
export function sharedMaximum(sets: readonly ParallelStrings[]): SharedMaximum {
  const members = sets.flatMap(({ strings, blockingVoltage }, set) =>
    strings.map((string) => memberOf(string, blockingVoltage, set)),
  );
  const bySet = (of: (member: Member) => number): readonly number[] => {
    const sums = sets.map(() => 0);
    for (const member of members) sums[member.set]! += of(member);
    return sums;
  };
  const own = bySet((member) => member.own.power);
  const most = own.reduce((sum, power) => sum + power, 0);
  if (!(most > 0)) return { maximum: nothing, given: sets.map(() => 0), own };
  const near = nearMaximum(members, most);
  const power = near * totalCurrent(members, near);
  const voltage = power >= closeEnough * most ? near : searchedVoltage(members, { voltage: near, power });
  const given = bySet((member) => voltage * currentOf(member, voltage));
  const total = given.reduce((sum, part) => sum + part, 0);
  return { maximum: { voltage, current: total / voltage, power: total }, given, own };
}

/**
 * Voltage at which strings side by side give no current together [V].
 *
 * @param sets - as for `sharedMaximum`
 * @returns that of the highest where blocking diodes keep the current of each; else between those of the strings; 0 in the dark
 */
export function sharedOpenCircuitVoltage(sets: readonly ParallelStrings[]): number {
  const members = sets.flatMap(({ strings, blockingVoltage }) =>
    strings.map((string) => blockedString(string, blockingVoltage)),
  );
  const opens = members.map(({ string }) => stringOpenCircuitVoltage(string));
  const [low, high] = [Math.min(...opens), Math.max(0, ...opens)];
  if (high - Math.max(low, 0) < 1e-9 || members.every(({ isBlocked }) => isBlocked)) return high;
  return brentRoot((voltage) => totalCurrent(members, voltage), Math.max(low, 0), high, { tolerance: 1e-9 }) ?? high;
}

const blockedString = (string: SeriesString, blockingVoltage: number | undefined) => ({
  string: blockingVoltage === undefined || blockingVoltage === 0 ? string : { ...string, blockingVoltage },
  isBlocked: blockingVoltage !== undefined,
});

function memberOf(bare: SeriesString, blockingVoltage: number | undefined, set: number): Member {
  const { string, isBlocked } = blockedString(bare, blockingVoltage);
  const groups = groupsOf(string);
  const weakest = groups.reduce((least, { curve }) => Math.min(least, curve.photocurrent), Number.MAX_VALUE);
  const found = stringMaximumPowerPoint(string);
  const own = found.power > 0 ? found : nothing;
  return { set, string, isBlocked, groups, weakest, own, open: stringOpenCircuitVoltage(string) };
}

/** Current of a string at the common voltage, its blocking diode respected [A]. */
function currentOf({ string, isBlocked }: Pick<Member, 'string' | 'isBlocked'>, voltage: number): number {
  const current = stringCurrentAtVoltage(string, voltage);
  return isBlocked ? Math.max(current, 0) : current;
}

const totalCurrent = (members: readonly Pick<Member, 'string' | 'isBlocked'>[], voltage: number): number =>
  members.reduce((sum, member) => sum + currentOf(member, voltage), 0);

/** Voltage of the maximum near those of the strings: by Newton steps where no cell is in reverse, else by a search between them. */
function nearMaximum(members: readonly Member[], most: number): number {
  const lit = members.filter(({ own }) => own.power > 0);
  const low = lit.reduce((least, { own }) => Math.min(least, own.voltage), Number.MAX_VALUE);
  const high = lit.reduce((top, { own }) => Math.max(top, own.voltage), 0);
  if (high - low < 1e-9 * high) return high;
  const start = lit.reduce((sum, { own }) => sum + own.power * own.voltage, 0) / most;
  return (
    forwardVoltage(members, start, { low, high }) ??
    minimise((voltage) => -voltage * totalCurrent(members, voltage), low, high, 1e-6).argument
  );
}

/** Newton steps on dP/dV = I + V dI/dV of all strings together; undefined where they lead a cell into reverse. */
function forwardVoltage(
  members: readonly Member[],
  start: number,
  { low, high }: { readonly low: number; readonly high: number },
): number | undefined {
  const currents = members.map(({ own }) => own.current);
  let voltage = start;
  for (let iteration = 0; iteration < 12; iteration++) {
    let [gradient, curvature] = [0, 0];
    for (const [k, member] of members.entries()) {
      if (member.isBlocked && voltage >= member.open) continue;
      const at = forwardCurrent(member, voltage, currents[k]!);
      if (at === undefined) return undefined;
      currents[k] = at.current;
      gradient += at.current + voltage / at.slope;
      curvature += 2 / at.slope - (voltage * at.curvature) / at.slope ** 3;
    }
    const next = Math.min(high, Math.max(low, voltage - gradient / curvature));
    const change = Math.abs(next - voltage);
    voltage = next;
    if (change < 1e-8 * high) return voltage;
  }
  return undefined;
}

/** Current at a voltage with the derivatives of the voltage there, by Newton steps from a current near it; undefined where a cell is in reverse. */
function forwardCurrent({ groups, string, weakest }: Member, voltage: number, near: number) {
  let current = Math.min(near, weakest);
  for (let iteration = 0; iteration < 30; iteration++) {
    const at = forwardStringDerivatives(groups, string, current);
    const next = current - (at.voltage - voltage) / at.slope;
    // The voltage is concave in the current: after the first step the iteration comes down from above without a bracket.
    if (next > weakest) return undefined;
    if (Math.abs(next - current) < 1e-10 * weakest) return { ...at, current: next };
    current = next;
  }
  return undefined;
}

/** Voltage of the highest power, by branch and bound over the voltage from the best that is known. */
function searchedVoltage(
  members: readonly Member[],
  known: { readonly voltage: number; readonly power: number },
): number {
  let best = known;
  const search = (low: number, high: number, currentLow: number): void => {
    if (high * currentLow <= best.power * (1 + 1e-9) || high - low < finestInterval * high) return;
    const middle = (low + high) / 2;
    const current = totalCurrent(members, middle);
    if (middle * current > best.power) best = { voltage: middle, power: middle * current };
    // The half with the higher bound first: a better best prunes the other.
    search(middle, high, current);
    search(low, middle, currentLow);
  };
  const stops = [...members.map(({ own }) => own.voltage), ...members.map(({ open }) => open)]
    .filter((voltage) => voltage > 0)
    .sort((a, b) => a - b);
  let below = 0;
  for (const stop of stops) {
    if (stop > below) search(below, stop, totalCurrent(members, below));
    below = Math.max(below, stop);
  }
  const width = 2 * finestInterval * best.voltage;
  const powerAt = (voltage: number): number => voltage * totalCurrent(members, voltage);
  const refined = minimise((voltage) => -powerAt(voltage), best.voltage - width, best.voltage + width, 1e-7).argument;
  return powerAt(refined) > best.power ? refined : best.voltage;
}
