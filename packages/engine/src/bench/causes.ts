import { type BenchModel, noDeviation } from './predict.js';
import { type BenchReading, type BenchSetup, type CauseName, type Fault, healthyFault } from './types.js';

/** A cause with the ways in which it may show. */
export interface Cause {
  readonly name: CauseName;
  /** Before any reading (judgement: what is found on benches of such arrays). */
  readonly prior: number;
  readonly faults: readonly Fault[];
}

const priors: Readonly<Record<CauseName, number>> = {
  healthy: 0.5,
  'converter setting': 0.12,
  'shade or crack': 0.12,
  'local maximum': 0.05,
  'hot cells': 0.03,
  haze: 0.08,
  'wrong time zone': 0.03,
  'sensor offset': 0.04,
  'sensor sign': 0.01,
  'battery full': 0.04,
};

/** Loss of current from which something counts as wrong: less hides in the uncertainty of any bench. */
const leastLoss = 0.06;

const spaced = (from: number, to: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, k) => from + ((to - from) * k) / (count - 1));

/** Faults of one unit by cause. */
function unitFaults(setup: BenchSetup, unit: number): Readonly<Partial<Record<CauseName, readonly Fault[]>>> {
  const { cells } = setup.units[unit]!;
  const counts = [...new Set([1, Math.max(1, Math.round(cells / 4))])];
  const shares = [0.05, 0.2, 0.35, 0.5, 0.6, 0.7, 0.8, 0.88];
  const shadeOf = (trapped: boolean) =>
    counts.flatMap((count) => shares.map((share): Fault => ({ unit, shaded: { cells: count, share, trapped } })));
  return {
    'converter setting': spaced(0.42, 0.98, 29).map((heldShare) => ({ unit, heldShare })),
    'shade or crack': shadeOf(false),
    'local maximum': shadeOf(true),
  };
}

/** Faults that concern the whole bench. */
function commonFaults(): Readonly<Partial<Record<CauseName, readonly Fault[]>>> {
  return {
    healthy: [healthyFault],
    'hot cells': [12, 18, 25, 35].map((hotter) => ({ unit: -1, hotter })),
    haze: spaced(0.3, 0.86, 12).map((haze) => ({ unit: -1, haze })),
    'wrong time zone': [-2, -1, 1, 2].map((hours) => ({ unit: -1, hours })),
    'sensor offset': [-1.2, -0.8, -0.5, -0.3, -0.2, 0.2, 0.3, 0.5, 0.8, 1.2].map((offset) => ({ unit: -1, offset })),
    'sensor sign': [{ unit: -1, reversed: true }],
    'battery full': spaced(0.05, 0.92, 9).map((accepted) => ({ unit: -1, accepted })),
  };
}

/**
 * Causes that are possible on a bench, with the ways in which each may show. What would hardly be seen is left out.
 *
 * @param setup - the bench
 * @param readings - what was read; the first one decides what counts as a loss
 * @param model - of the bench
 */
export function possibleCauses(
  setup: BenchSetup,
  readings: readonly BenchReading[],
  model: BenchModel,
): readonly Cause[] {
  const reading = readings[0]!;
  const sound = model.predict({ ...reading, otherConverter: false }, healthyFault, noDeviation);
  const isSeen = (fault: Fault): boolean => {
    const shown = model.predict({ ...reading, otherConverter: false }, fault, noDeviation);
    if (shown === undefined || sound === undefined) return false;
    const needed = leastLoss * Math.abs(sound.batteryCurrent);
    return Math.abs(shown.batteryCurrent - sound.batteryCurrent) > needed || shown.zeroCurrent !== 0;
  };
  const faults = new Map<CauseName, Fault[]>();
  const add = (found: Readonly<Partial<Record<CauseName, readonly Fault[]>>>) => {
    for (const [name, list] of Object.entries(found) as [CauseName, readonly Fault[]][]) {
      faults.set(name, [...(faults.get(name) ?? []), ...list]);
    }
  };
  add(commonFaults());
  for (const [index, unit] of setup.units.entries()) {
    // Units that are alike differ by nothing that was read: one stands for all.
    if (index === 0 || reading.unit !== undefined || unit.cells !== setup.units[0]!.cells)
      add(unitFaults(setup, index));
  }
  const causes = [...faults].map(([name, list]): Cause => {
    const isOne = name === 'healthy' || name === 'sensor sign';
    return { name, prior: priorOf(name, setup, readings), faults: isOne ? list : list.filter(isSeen) };
  });
  return causes.filter((cause) => cause.faults.length > 0);
}

/** A battery near its full voltage makes a converter hold back more likely than anything else. */
function priorOf(name: CauseName, setup: BenchSetup, readings: readonly BenchReading[]): number {
  if (name !== 'battery full' || setup.batteryFull === undefined) return priors[name];
  const full = Math.max(...readings.map(({ batteryVoltage }) => batteryVoltage.value)) / setup.batteryFull;
  return full > 0.985 ? 0.4 : full > 0.96 ? priors[name] : 0.004;
}
