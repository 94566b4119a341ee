import type { Cause } from './causes.js';
import { type BenchModel, type DeviationName, noDeviation } from './predict.js';
import {
  type BenchReading,
  type BenchSetup,
  type CauseName,
  type Fault,
  healthyFault,
  type ObservableName,
  type Observables,
  observableNames,
  type Read,
} from './types.js';

/** Relative standard uncertainty of clear-sky light at a bench when it was not measured, haze included (judgement). */
export const clearLightSigma = 0.06;

/** Standard uncertainties of what is not known about a bench [1, K, rad]. */
export const deviationSigmas = (setup: BenchSetup, reading: BenchReading): Readonly<Record<DeviationName, number>> => ({
  light: clearLightSigma,
  array: setup.arraySigma,
  converter: setup.converterSigma,
  voltage: 0.007,
  // What is not known of the wind at the cells moves their temperature as much as the law itself may be off.
  warmth: reading.wind === undefined ? 8 : 5,
  tilt: reading.tilt.sigma,
  facing: reading.facing.sigma,
  along: isFlat(setup) ? 0 : 1,
  across: isFlat(setup) ? 0 : 1,
});

/** Whether all cells look straight up from the aircraft: then it does not matter where its nose points. */
const isFlat = ({ units }: BenchSetup): boolean =>
  units.every(({ patches }) => patches.every(({ normal }) => normal[2] < -0.9999));

export const deviationNames = Object.keys(noDeviation) as readonly DeviationName[];

/** Steps of the differences by which the model is made linear. */
const steps: Readonly<Record<DeviationName, number>> = {
  light: 0.02,
  array: 0.02,
  converter: 0.02,
  voltage: 0.005,
  warmth: 2,
  tilt: 0.02,
  facing: 0.04,
  along: 0.5,
  across: 0.5,
};

/** What a bench shows under one fault, and how it moves with each deviation of one standard uncertainty. */
export interface Linear {
  readonly mean: Observables;
  /** By deviation, in the order of `deviationNames`, for one standard uncertainty each. */
  readonly moves: readonly Observables[];
}

/** Deviations that act through the light on the plane alone, so that one move stands for all of them. */
const throughLight: readonly DeviationName[] = ['tilt', 'facing'];

const observablesOf = (value: (key: ObservableName) => number): Observables =>
  Object.fromEntries(observableNames.map((key) => [key, value(key)])) as unknown as Observables;

/** Model of a reading under a fault made linear about no deviation; undefined where the fault cannot be. */
export function linearised(
  model: BenchModel,
  setup: BenchSetup,
  reading: BenchReading,
  fault: Fault,
  known?: Observables,
): Linear | undefined {
  const mean = known ?? model.predict(reading, fault, noDeviation);
  if (mean === undefined) return undefined;
  const sigmas = deviationSigmas(setup, reading);
  const light = model.conditions(reading, fault, noDeviation).total;
  const lightMove = difference(model, reading, fault, mean, 'light');
  const moves = deviationNames.map((name) => {
    if (!(sigmas[name] > 0)) return observablesOf(() => 0);
    if (name === 'light') return observablesOf((key) => lightMove[key] * sigmas.light);
    if (throughLight.includes(name)) {
      const there = model.conditions(reading, fault, { ...noDeviation, [name]: steps[name] }).total;
      const share = light > 0 ? (there / light - 1) / steps[name] : 0;
      return observablesOf((key) => lightMove[key] * share * sigmas[name]);
    }
    const move = difference(model, reading, fault, mean, name);
    return observablesOf((key) => move[key] * sigmas[name]);
  });
  return { mean, moves };
}

/** Change of everything by one deviation, per unit of it. */
function difference(
  model: BenchModel,
  reading: BenchReading,
  fault: Fault,
  mean: Observables,
  name: DeviationName,
): Observables {
  const moved = model.predict(reading, fault, { ...noDeviation, [name]: steps[name] }) ?? mean;
  return observablesOf((key) => (moved[key] - mean[key]) / steps[name]);
}

/** Scatter of the model from one reading to the next, relative (judgement: drifting haze, a tracker that hunts, wind). */
const modelScatter: Readonly<Partial<Record<ObservableName, number>>> = {
  batteryCurrent: 0.015,
  arrayVoltage: 0.012,
  arrayCurrent: 0.015,
  openCircuitVoltage: 0.005,
  shortCircuitCurrent: 0.01,
  maximumPower: 0.015,
};

/** Uncertainty of a reading against the model: the instrument, the battery voltage, the scatter of the model. */
export function readingSigma(name: ObservableName, read: Read, reading: BenchReading, expected: number): number {
  const { batteryVoltage } = reading;
  const byVoltage = name === 'batteryCurrent' ? (expected * batteryVoltage.sigma) / batteryVoltage.value : 0;
  return Math.max(Math.hypot(read.sigma, byVoltage, (modelScatter[name] ?? 0) * expected), 1e-6);
}

/** Lower triangular factor of a symmetric positive definite matrix, row by row. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const lower: number[][] = matrix.map(() => []);
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
      lower[i]!.push(i === j ? Math.sqrt(Math.max(sum, 1e-18)) : sum / lower[j]![j]!);
    }
  }
  return lower;
}

/** Solves L x = b. */
function forward(lower: readonly (readonly number[])[], right: readonly number[]): number[] {
  const x: number[] = [];
  for (let i = 0; i < right.length; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i]![k]! * x[k]!;
    x.push(sum / lower[i]![i]!);
  }
  return x;
}

/** One way in which the readings may have come about, with its weight after the readings. */
export interface Component {
  readonly cause: CauseName;
  readonly fault: Fault;
  readonly weight: number;
  /** Of the last reading. */
  readonly last: Linear;
  /** Deviations that the readings suggest under it, in standard uncertainties, and how sure of them they leave us. */
  readonly shift: readonly number[];
  /** Square root of the covariance of the deviations after the readings: rows of L^-1 J, to be taken off the unit matrix. */
  readonly known: readonly (readonly number[])[];
}

interface Observed {
  readonly name: ObservableName;
  readonly read: Read;
  readonly reading: BenchReading;
  readonly index: number;
}

/** Everything that was read, reading by reading. */
export const observedOf = (readings: readonly BenchReading[]): readonly Observed[] =>
  readings.flatMap((reading, index) =>
    observableNames.flatMap((name) => {
      const read = reading[name];
      return read === undefined ? [] : [{ name, read, reading, index }];
    }),
  );

/**
 * Weight of every fault of every cause after the readings.
 *
 * Within a fault the model is linear in what is not known (light, warmth, film, conversion, attitude), which are normal and
 * the same for all readings; so the readings are normal too, and their density is exact.
 *
 * @param causes - with their faults and weights before any reading
 * @returns components whose weights sum to 1, those below 1e-7 left out
 * Source: Bayes' theorem; JCGM 100:2008 for the propagation of standard uncertainties.
 */
export function weighed(
  model: BenchModel,
  setup: BenchSetup,
  readings: readonly BenchReading[],
  causes: readonly Cause[],
): readonly Component[] {
  const observed = observedOf(readings);
  const rough = roughDensities(model, setup, readings, observed, causes);
  const best = Math.max(...rough.map(({ logWeight }) => logWeight));
  const found = rough
    .filter(({ logWeight }) => logWeight > best - hopeless)
    .map(({ cause, fault, means }) => {
      const linear = readings.map((reading, k) => linearised(model, setup, reading, fault, means[k])!);
      const made = density(observed, linear);
      const logWeight = made.logDensity + Math.log(cause.prior / cause.faults.length);
      return { cause: cause.name, fault, logWeight, last: linear.at(-1)!, shift: made.shift, known: made.known };
    });
  const most = Math.max(...found.map(({ logWeight }) => logWeight));
  const scaled = found.map(({ logWeight, ...rest }) => ({ ...rest, weight: Math.exp(logWeight - most) }));
  const sum = scaled.reduce((total, { weight }) => total + weight, 0);
  return scaled.map((one) => ({ ...one, weight: one.weight / sum })).filter(({ weight }) => weight > 1e-7);
}

/** Logarithm by which a fault may roughly fall behind the best before it is dropped: the rough densities err by a few. */
const hopeless = 22;

/** Densities of all faults with the moves of the sound bench in proportion: tells which are worth a closer look. */
function roughDensities(
  model: BenchModel,
  setup: BenchSetup,
  readings: readonly BenchReading[],
  observed: readonly Observed[],
  causes: readonly Cause[],
) {
  const sound = readings.map((reading) => linearised(model, setup, reading, healthyFault)!);
  return causes.flatMap((cause) =>
    cause.faults.flatMap((fault) => {
      const means = readings.map((reading) => model.predict(reading, fault, noDeviation));
      if (means.some((mean) => mean === undefined)) return [];
      const linear = sound.map((one, k): Linear => {
        const mean = means[k]!;
        const scale = (key: ObservableName) => (one.mean[key] > 1e-6 ? Math.abs(mean[key]) / one.mean[key] : 1);
        return { mean, moves: one.moves.map((move) => observablesOf((key) => move[key] * Math.min(scale(key), 3))) };
      });
      const logWeight = density(observed, linear).logDensity + Math.log(cause.prior / cause.faults.length);
      return [{ cause, fault, means: means as readonly Observables[], logWeight }];
    }),
  );
}

/** Logarithm of the density of what was read under one fault, and what it says about the deviations. */
function density(observed: readonly Observed[], linear: readonly Linear[]) {
  const jacobian = observed.map(({ name, index }) => linear[index]!.moves.map((move) => move[name]));
  const residual = observed.map(({ name, read, index }) => read.value - linear[index]!.mean[name]);
  const covariance = observed.map(({ name, read, reading, index }, i) =>
    observed.map((_, j) => {
      const shared = jacobian[i]!.reduce((sum, move, k) => sum + move * jacobian[j]![k]!, 0);
      const own = i === j ? readingSigma(name, read, reading, linear[index]!.mean[name]) ** 2 : 0;
      return shared + own;
    }),
  );
  const lower = cholesky(covariance);
  const white = forward(lower, residual);
  const known = deviationNames.map((_, k) =>
    forward(
      lower,
      jacobian.map((row) => row[k]!),
    ),
  );
  const shift = known.map((row) => row.reduce((sum, value, i) => sum + value * white[i]!, 0));
  let logDensity = 0;
  for (let i = 0; i < white.length; i++) logDensity -= 0.5 * white[i]! ** 2 + Math.log(lower[i]![i]!);
  return { logDensity, shift, known };
}

/**
 * What one more reading would show under a component, the earlier ones taken into account.
 *
 * @param component - after the readings
 * @param linear - of the new reading
 * @param name - what is read
 * @param sigma - of the instrument
 * @returns mean and standard uncertainty
 */
export function foreseen(component: Component, linear: Linear, name: ObservableName, sigma: number): Read {
  const row = linear.moves.map((move) => move[name]);
  const value = linear.mean[name] + row.reduce((sum, move, k) => sum + move * component.shift[k]!, 0);
  let variance = row.reduce((sum, move) => sum + move * move, 0);
  const columns = component.known[0]?.length ?? 0;
  for (let i = 0; i < columns; i++) {
    const explained = row.reduce((sum, move, k) => sum + move * component.known[k]![i]!, 0);
    variance -= explained * explained;
  }
  return { value, sigma: Math.sqrt(Math.max(variance, 0) + sigma ** 2) };
}
