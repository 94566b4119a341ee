import { brentRoot } from '../math/index.js';
import { divergencePressure, type ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, elasticTrim, rollPower, type TrimCondition } from './elasticTrim.js';

/** One way in which a soft structure ends steady flight, with its dynamic pressure. */
export interface StaticLimit {
  readonly kind:
    | 'divergence'
    | 'antisymmetric divergence'
    | 'roll reversal'
    | 'pitch reversal'
    | 'tuck'
    | 'pitch stability'
    | 'pitch trim';
  readonly pressure: number;
  /** Relative standard deviation of its airspeed by what the pitch controls turn, where it hangs on that. */
  readonly controlSpread?: number;
}

/** Trim over a range of dynamic pressures, rising. */
export interface StaticStudy {
  readonly limits: readonly StaticLimit[];
  readonly trims: readonly ElasticTrim[];
}

/** What is searched. */
export interface StaticSearch {
  readonly condition: TrimCondition;
  /** Controls that roll the aircraft, by name. */
  readonly rollControls: readonly string[];
  /** Travel of the pitch control [rad]; absent: no limit. */
  readonly controlRange: { readonly lower: number; readonly upper: number } | undefined;
  /** Dynamic pressures between which limits are of interest [Pa]. */
  readonly lowest: number;
  readonly highest: number;
  /** Of normal flight, where the control is taken to be held [Pa]. */
  readonly flown: number;
  /** Dynamic pressures up to which trim and roll are of interest, where something else certainly comes first beyond them; absent: `highest`. */
  readonly reach?: { readonly trim: number; readonly roll: number };
  /** Static margin that the rigid aircraft has beyond what the lattice alone gives it, as other models say; default 0. */
  readonly marginOffset?: number;
}

const searchPoints = 36;

/** A value over dynamic pressure. */
interface Sought {
  /** Value at the i-th of the pressures; asked for in rising order, no further than it takes. */
  readonly value: (i: number) => number | undefined;
  /** Value at any pressure. */
  readonly at: (pressure: number) => number | undefined;
}

/** First place where a value that was positive becomes negative; refined between neighbours. */
function firstFall(pressures: readonly number[], { value, at }: Sought): number | undefined {
  let before: number | undefined;
  for (let i = 0; i < pressures.length; i++) {
    const [a, b] = [before, value(i)];
    before = b;
    if (a === undefined || b === undefined || !(a > 0) || b > 0) continue;
    return brentRoot((pressure) => at(pressure) ?? b, pressures[i - 1], pressures[i], {
      tolerance: 1e-4 * pressures[i],
    });
  }
  return undefined;
}

/** Above the pressure flown: where trim first asks for more up than there. Already there if the aircraft is stable and yet asks for it. */
function tuckPressure(
  pressures: readonly number[],
  trims: readonly (ElasticTrim | undefined)[],
  trimAt: (pressure: number) => ElasticTrim | undefined,
  flown: number,
): number | undefined {
  const held = trimAt(flown);
  if (held === undefined || !(held.staticMargin > 0)) return undefined;
  const faster = pressures
    .map((pressure, i) => ({ pressure, trim: trims[i] }))
    .filter((at) => at.pressure > 1.05 * flown);
  const spare = (trim: ElasticTrim | undefined) => trim && trim.control - held.control;
  const soon = spare(faster[0]?.trim);
  if (soon !== undefined && soon <= 0) return flown;
  return firstFall(
    faster.map(({ pressure }) => pressure),
    { value: (i) => spare(faster[i].trim), at: (pressure) => spare(trimAt(pressure)) },
  );
}

/**
 * Where the flexible aircraft diverges, its controls reverse, it loses trim or stability; and its trim over the range searched. Beyond the
 * lowest divergence nothing is looked for.
 * Tuck: with the control held as in normal flight, an aircraft that has become faster is pitched up again by its own stability; where it has bent
 * so far that trim asks for more up than in normal flight, it is pitched down instead and dives more steeply.
 */
export function staticLimits(
  symmetric: ElasticHalf,
  antisymmetric: ElasticHalf | undefined,
  search: StaticSearch,
): StaticStudy {
  const { condition, rollControls, controlRange, highest, marginOffset = 0, reach } = search;
  const limits: StaticLimit[] = [];
  const note = (kind: StaticLimit['kind'], pressure: number | undefined) => {
    if (pressure !== undefined && pressure > 0 && pressure <= highest) limits.push({ kind, pressure });
  };
  const divergence = divergencePressure(symmetric);
  note('divergence', divergence);
  const opposed = antisymmetric && divergencePressure(antisymmetric);
  note('antisymmetric divergence', opposed);
  const list = searched(search, divergence, reach?.trim);
  const trimAt = (pressure: number) => elasticTrim(symmetric, pressure, condition);
  const trims = list.map(trimAt);
  const fall = (kind: StaticLimit['kind'], of: (trim: ElasticTrim) => number) =>
    note(
      kind,
      firstFall(list, {
        value: (i) => trims[i] && of(trims[i]),
        at: (pressure) => {
          const trim = trimAt(pressure);
          return trim && of(trim);
        },
      }),
    );
  fall('pitch stability', ({ staticMargin }) => staticMargin + marginOffset);
  fall('pitch reversal', ({ controlPower }) => -controlPower);
  if (controlRange !== undefined) limits.push(...trimLimit({ list, trims, trimAt }, search, controlRange));
  note('tuck', tuckPressure(list, trims, trimAt, search.flown));
  if (antisymmetric !== undefined && rollControls.length > 0) {
    const roll = (pressure: number) => {
      const value = rollPower(antisymmetric, pressure, rollControls);
      return value === undefined ? undefined : -value;
    };
    const own = searched(search, opposed, reach?.roll);
    note('roll reversal', firstFall(own, { value: (i) => roll(own[i]), at: roll }));
  }
  return {
    limits: limits.sort((a, b) => a.pressure - b.pressure),
    trims: trims.filter((trim) => trim !== undefined),
  };
}

/** Where the pitch control reaches the end of its travel, and how far that moves with what it turns. */
function trimLimit(
  { list, trims, trimAt }: Searched,
  { condition, highest }: StaticSearch,
  range: NonNullable<StaticSearch['controlRange']>,
): readonly StaticLimit[] {
  const at = (factor: number): number | undefined => {
    const spare = (trim: ElasticTrim | undefined) =>
      trim && Math.min(factor * trim.control - range.lower, range.upper - factor * trim.control);
    return firstFall(list, { value: (i) => spare(trims[i]), at: (pressure) => spare(trimAt(pressure)) });
  };
  const pressure = at(1);
  if (pressure === undefined || !(pressure > 0 && pressure <= highest)) return [];
  const factor = Math.exp(condition.pitchLayers?.spread ?? 0);
  // Airspeed goes with the root of the pressure; the end that lies within what was searched counts for both.
  const moved = [at(factor), at(1 / factor)].map((end) => (end ? Math.abs(Math.log(end / pressure)) / 2 : 0));
  return [{ kind: 'pitch trim', pressure, controlSpread: Math.max(...moved) }];
}

interface Searched {
  readonly list: readonly number[];
  readonly trims: readonly (ElasticTrim | undefined)[];
  readonly trimAt: (pressure: number) => ElasticTrim | undefined;
}

/** Dynamic pressures at which a value is looked at: below divergence, up to the first one from which on nothing is of interest. */
function searched({ lowest, highest }: StaticSearch, divergence: number | undefined, reach = highest): number[] {
  const to = Math.min(highest, 0.98 * (divergence ?? Infinity));
  const all = Array.from({ length: searchPoints }, (_, i) => lowest * (to / lowest) ** (i / (searchPoints - 1)));
  const past = all.findIndex((pressure) => pressure > reach);
  return past < 0 ? all : all.slice(0, Math.max(2, past + 1));
}
