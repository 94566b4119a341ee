import { type Outcome, problem, success, type Warning } from '../result.js';
import { possibleCauses } from './causes.js';
import { type Component, deviationNames, linearised, observedOf, readingSigma, weighed } from './evidence.js';
import { type Measurement, type MeasurementValue, nextMeasurements } from './next.js';
import { type BenchModel, benchModel, type DeviationName, noDeviation } from './predict.js';
import { type BenchReading, type BenchSetup, type CauseName, type Fault, healthyFault } from './types.js';
import { causeWords } from './words.js';

/** One reading beside what a healthy array would give. */
export interface ComparedReading {
  /** [s, Unix] */
  readonly time: number;
  /** On the plane of the array by the model [W/m2], and the temperature of the cells [K]. */
  readonly light: number;
  readonly cellTemperature: number;
  /** Into the battery [A]: by the model, and its standard uncertainty from everything but the instrument. */
  readonly expected: number;
  readonly expectedSigma: number;
  /** As read [A], where it was. */
  readonly read?: number;
  /** Read over expected, less 1, with its standard uncertainty. */
  readonly difference?: number;
  readonly differenceSigma?: number;
  /** Read with a converter that is known to be good, in place of the own. */
  readonly otherConverter?: boolean;
}

/** A line of the uncertainty budget: what the difference owes to one input. */
export interface BudgetLine {
  readonly what: string;
  /** Relative standard uncertainty of the difference by it. */
  readonly share: number;
}

/** A likely cause. */
export interface LikelyCause {
  readonly name: CauseName;
  /** After the readings, 0 to 1; all causes together 1. */
  readonly probability: number;
  /** The way in which it explains the readings best. */
  readonly fault: Fault;
  readonly words: string;
  /** The cheap measurement that tells it from the others best; absent where nothing would. */
  readonly next?: Measurement & { readonly information: number };
}

/** What the readings of a bench say. */
export interface Diagnosis {
  readonly readings: readonly ComparedReading[];
  /** Of the last reading, largest first. */
  readonly budget: readonly BudgetLine[];
  /** Most likely first. */
  readonly causes: readonly LikelyCause[];
  /** What to measure next, best first. */
  readonly next: readonly MeasurementValue[];
  /** Whether something is blamed: the readings leave little room for a healthy array. Otherwise the first cause is a suspicion. */
  readonly isBlamed: boolean;
}

const budgetWords: Readonly<Record<DeviationName, string>> = {
  light: 'light of a clear sky, haze included',
  array: 'current of the cells under film and dust',
  converter: 'conversion of the converter',
  voltage: 'voltage of the cells',
  warmth: 'temperature of the cells',
  tilt: 'tilt of the array',
  facing: 'direction of the array',
  along: 'direction of the nose, rows ahead and behind',
  across: 'direction of the nose, right and left',
};

/** A reading beside the healthy model, after what an irradiance meter or thermometer at the reading says. */
function compared(
  model: BenchModel,
  setup: BenchSetup,
  reading: BenchReading,
): ComparedReading & { lines: BudgetLine[] } {
  const conditions = pick(reading);
  const component = weighed(model, setup, [conditions], [{ name: 'healthy', prior: 1, faults: [healthyFault] }])[0]!;
  const linear = linearised(model, setup, reading, healthyFault)!;
  const row = linear.moves.map(({ batteryCurrent }) => batteryCurrent);
  const expected = linear.mean.batteryCurrent + row.reduce((sum, move, k) => sum + move * component.shift[k]!, 0);
  const lines = deviationNames.map((name, k) => ({ what: budgetWords[name], share: leftOf(component, row, k) }));
  const variance = varianceOf(component, row);
  const base: ComparedReading = {
    time: reading.time,
    light: reading.irradiance?.value ?? linear.mean.irradiance,
    cellTemperature: reading.cellTemperature?.value ?? linear.mean.cellTemperature,
    ...(reading.otherConverter === true ? { otherConverter: true } : {}),
    expected,
    expectedSigma: Math.sqrt(variance),
  };
  const read = reading.batteryCurrent;
  if (read === undefined || !(expected > 0)) return { ...base, lines: lines.map((line) => ({ ...line, share: 0 })) };
  const own = readingSigma('batteryCurrent', read, reading, expected);
  const relative = lines.map(({ what, share }) => ({ what, share: share / expected }));
  return {
    ...base,
    read: read.value,
    difference: read.value / expected - 1,
    differenceSigma: Math.hypot(Math.sqrt(variance), own) / expected,
    lines: [...relative, { what: 'instruments, and scatter from one reading to the next', share: own / expected }],
  };
}

/** Only what tells about the conditions. */
function pick(reading: BenchReading): BenchReading {
  const { batteryCurrent: _current, arrayVoltage: _voltage, arrayCurrent: _array, ...rest } = reading;
  const { openCircuitVoltage: _open, shortCircuitCurrent: _short, maximumPower: _power, ...conditions } = rest;
  const { worstCellVoltage: _cell, zeroCurrent: _zero, clockError: _clock, ...kept } = conditions;
  return kept;
}

/** Variance of a linear answer after the readings of a component. */
function varianceOf(component: Component, row: readonly number[]): number {
  let variance = row.reduce((sum, move) => sum + move * move, 0);
  const columns = component.known[0]?.length ?? 0;
  for (let i = 0; i < columns; i++) {
    variance -= row.reduce((sum, move, k) => sum + move * component.known[k]![i]!, 0) ** 2;
  }
  return Math.max(variance, 0);
}

/** Part of one deviation in it, as a standard uncertainty by itself. */
const leftOf = (component: Component, row: readonly number[], of: number): number =>
  Math.sqrt(
    varianceOf(
      component,
      row.map((move, k) => (k === of ? move : 0)),
    ),
  );

/** Causes by their probability, with the fault that carries most of it. */
function rankedCauses(
  components: readonly Component[],
  next: readonly MeasurementValue[],
  setup: BenchSetup,
): readonly LikelyCause[] {
  const byCause = new Map<CauseName, { sum: number; best: Component }>();
  for (const component of components) {
    const known = byCause.get(component.cause);
    if (known === undefined) byCause.set(component.cause, { sum: component.weight, best: component });
    else {
      known.sum += component.weight;
      if (component.weight > known.best.weight) known.best = component;
    }
  }
  const causes = [...byCause].map(([name, { sum, best }]): LikelyCause => {
    const gain = (one: MeasurementValue) => (one.about[name] ?? 0) / Math.sqrt(one.minutes);
    const told = next.reduce<MeasurementValue | undefined>(
      (most, one) => (gain(one) > (most === undefined ? 0 : gain(most)) ? one : most),
      undefined,
    );
    const told_ = told === undefined || (told.about[name] ?? 0) < 1e-4 ? undefined : told;
    return {
      name,
      probability: sum,
      fault: best.fault,
      words: causeWords(name, best, setup),
      ...(told_ === undefined
        ? {}
        : { next: { key: told_.key, what: told_.what, minutes: told_.minutes, information: told_.about[name]! } }),
    };
  });
  return causes.filter(({ probability }) => probability > 0.002).sort((a, b) => b.probability - a.probability);
}

/** Probability of a healthy array below which a cause is blamed: four to one against it. */
const blameBelow = 0.2;

/** Light below which nothing is compared [W/m2]. */
const leastLight = 50;

/**
 * What readings of an array in the sun say: what this sun should give, the difference with its uncertainty, likely causes
 * and what to measure next.
 *
 * @param setup - what stands on the bench
 * @param readings - taken within hours of each other; more of them, and more kinds, tell more
 * @returns the diagnosis; a problem where there is no light or nothing to compare
 * Source: Bayes' theorem over causes; JCGM 100:2008 for the difference.
 */
export function diagnose(setup: BenchSetup, readings: readonly BenchReading[]): Outcome<Diagnosis> {
  const model = benchModel(setup);
  const refused = refusalOf(setup, readings, model);
  if (refused !== undefined) return refused;
  const causes = possibleCauses(setup, readings, model);
  const components = weighed(model, setup, readings, causes);
  const last = readings.at(-1)!;
  const taken = new Set(observedOf(readings).map(({ name }): Measurement['key'] => name));
  const swapped = readings.some(({ otherConverter }) => otherConverter === true);
  const next = nextMeasurements(
    model,
    setup,
    components,
    last,
    swapped ? new Set<Measurement['key']>([...taken, 'otherConverter']) : taken,
  );
  const ranked = rankedCauses(components, next, setup);
  const healthy = ranked.find(({ name }) => name === 'healthy')?.probability ?? 0;
  const beside = readings.map((reading) => compared(model, setup, reading));
  const warnings: Warning[] = [];
  if (
    readings.every(({ batteryCurrent, arrayVoltage }) => batteryCurrent === undefined && arrayVoltage === undefined)
  ) {
    warnings.push({
      code: 'bench-no-current',
      message: 'without amps or volts of the running array the converter is not judged',
    });
  }
  return success(
    {
      readings: beside.map(({ lines: _lines, ...one }) => one),
      budget: [...beside.at(-1)!.lines].sort((a, b) => b.share - a.share),
      causes: ranked,
      next: next.filter(({ information }) => information > 1e-3),
      isBlamed: ranked[0]?.name !== 'healthy' && healthy < blameBelow,
    },
    warnings,
  );
}

/** Why readings cannot be judged. */
function refusalOf(setup: BenchSetup, readings: readonly BenchReading[], model: BenchModel) {
  if (setup.units.length === 0 || readings.length === 0) {
    return problem({
      code: 'bench-empty',
      reason: setup.units.length === 0 ? 'the design has no string of cells' : 'there is no reading',
      where: 'bench',
      remedy:
        setup.units.length === 0
          ? 'describe the array in the design'
          : 'give volts and amps at the battery, with date, time and place',
    });
  }
  const observed = observedOf(readings);
  if (observed.every(({ name }) => name === 'irradiance' || name === 'cellTemperature')) {
    return problem({
      code: 'bench-nothing-electric',
      reason: 'nothing electric was read',
      where: 'bench',
      remedy: 'give amps into the battery, or volts of the array',
    });
  }
  for (const reading of readings) {
    const { total } = model.conditions(reading, healthyFault, noDeviation);
    if (total >= leastLight) continue;
    return problem({
      code: 'bench-dark',
      reason: `by the model the light on the array was ${total.toFixed(0)} W/m2 then`,
      where: 'time, place or attitude of the reading',
      remedy: 'check date, time, offset from UTC, place, tilt and direction',
    });
  }
  return undefined;
}
