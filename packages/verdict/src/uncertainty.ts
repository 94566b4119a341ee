import { lowDiscrepancyPoint, normalQuantile } from '@noonwing/engine/math';
import type { AircraftModel } from './aircraft.js';
import { type DeviationKey, type Deviations, noDeviation } from './deviations.js';
import type { Spreads } from './prepare.js';

const additions: readonly DeviationKey[] = ['mass', 'airFactor', 'turbidity', 'cellTemperature', 'chargeAtLaunch'];

/** One uncertain input or model: its standard uncertainty and how it could be made surer. */
export interface UncertainInput {
  readonly key: DeviationKey;
  /** In words of the trade. */
  readonly label: string;
  /** Relative for factors, SI for additions. */
  readonly sigma: number;
  readonly origin: 'input' | 'model' | 'measured' | 'sky';
  /** The cheapest measurement that would reduce it; absent where none is known. */
  readonly measurement?: Measurement;
}

/** A measurement that a builder can make. */
export interface Measurement {
  readonly what: string;
  /** About how long it takes [min]. */
  readonly minutes: number;
  /** Standard uncertainty that it leaves, in the units of the input (judgement, hobby instruments). */
  readonly leaves: number;
}

/** Deviations for standard-normal coordinates, one for each input in order. Factors are log-normal, so never negative. */
export function deviationsAt(inputs: readonly UncertainInput[], coordinates: ArrayLike<number>): Deviations {
  const deviations: Record<DeviationKey, number> = { ...noDeviation };
  for (const [i, { key, sigma }] of inputs.entries()) {
    const z = coordinates[i]!;
    if (additions.includes(key)) deviations[key] += sigma * z;
    else deviations[key] *= Math.exp(sigma * z);
  }
  return deviations;
}

/**
 * Samples of all inputs together by a low-discrepancy sequence, as deviations.
 * @param count - number of samples; inputs without uncertainty take no dimension
 */
export function sampleDeviations(inputs: readonly UncertainInput[], count: number): readonly Deviations[] {
  const uncertain = inputs.filter(({ sigma }) => sigma > 0);
  const point = new Float64Array(uncertain.length);
  const coordinates = Array.from({ length: count }, (_, i) => {
    lowDiscrepancyPoint(i, count, uncertain.length, point);
    return point.map(normalQuantile);
  });
  decorrelate(coordinates);
  return coordinates.map((sample) => deviationsAt(uncertain, sample));
}

/** Samples per dimension from which their covariance is known well enough to be divided out. */
const samplesPerDimension = 4;

/**
 * Makes the sampled coordinates exactly uncorrelated, of unit variance and zero mean, in place: a hundred points in
 * seventeen dimensions are not so by themselves, and the spread of every figure would carry the error.
 * Source: J. Barraquand, Numerical valuation of high dimensional multivariate European securities, Management Science 41,
 * 1995 (quadratic resampling; from memory), with the Cholesky factor of the covariance.
 */
function decorrelate(samples: readonly Float64Array[]): void {
  const dimensions = samples[0]?.length ?? 0;
  const count = samples.length;
  if (count < samplesPerDimension * dimensions) return;
  for (let k = 0; k < dimensions; k++) {
    const mean = samples.reduce((sum, sample) => sum + sample[k]!, 0) / count;
    for (const sample of samples) sample[k]! -= mean;
  }
  const factor: Float64Array[] = [];
  for (let k = 0; k < dimensions; k++) {
    const row = new Float64Array(k + 1);
    for (let j = 0; j <= k; j++) {
      let rest = samples.reduce((sum, sample) => sum + sample[k]! * sample[j]!, 0) / count;
      const other = j === k ? row : factor[j]!;
      for (let m = 0; m < j; m++) rest -= row[m]! * other[m]!;
      row[j] = j === k ? Math.sqrt(rest) : rest / other[j]!;
    }
    factor.push(row);
  }
  for (const sample of samples) {
    for (let k = 0; k < dimensions; k++) {
      for (let m = 0; m < k; m++) sample[k]! -= factor[k]![m]! * sample[m]!;
      sample[k]! /= factor[k]![k]!;
    }
  }
}

/** Uncertainty that belongs to the flight model, beside its inputs; judgement. */
const inducedModelSigma = 0.03;
/** Of the transposition, spectrum and clear-sky models taken together (see engine/sun). */
const lightModelSigma = 0.04;
/** Of the cell temperature in flight [K] (engine/array). */
const cellTemperatureSigma = 5;

/**
 * The uncertain inputs and models of an aircraft on a day.
 */
export function uncertainInputs(model: AircraftModel, context: Spreads): readonly UncertainInput[] {
  const inputs: UncertainInput[] = [];
  const add = (input: UncertainInput) => {
    if (input.sigma > 0) inputs.push(input);
  };
  if (context.stated !== undefined) {
    add({
      key: 'levelPower',
      label: context.stated.measured ? 'measured level power' : 'stated level power',
      sigma: context.stated.sigma,
      origin: context.stated.measured ? 'measured' : 'input',
      measurement: { what: 'fly level for ten minutes in calm air with a current sensor', minutes: 60, leaves: 0.05 },
    });
  } else flightInputs(model, context, add);
  add({
    key: 'airFactor',
    label: 'turbulence, control activity and height hold',
    sigma: context.airSigma,
    origin: 'model',
    measurement: {
      what: 'compare the mean power of a midday flight with that of a calm evening',
      minutes: 120,
      leaves: 0.04,
    },
  });
  add({
    key: 'loads',
    label: 'always-on loads',
    sigma: context.loadsSigma,
    origin: 'input',
    measurement: {
      what: 'measure the current of the electronics with the motor disconnected',
      minutes: 10,
      leaves: 0.03,
    },
  });
  add({ key: 'turbidity', label: 'haze (turbidity)', sigma: context.turbiditySigma, origin: 'sky' });
  arrayInputs(model, context, add);
  batteryInputs(model, add);
  if (model.battery.pack.kind !== 'none')
    add({ key: 'chargeAtLaunch', label: 'charge at launch', sigma: context.chargeAtLaunchSigma, origin: 'input' });
  return inputs;
}

type Add = (input: UncertainInput) => void;

function flightInputs(
  model: AircraftModel,
  context: {
    readonly profileSigma: number;
    readonly air: string;
    readonly turbulenceSigma: number;
    readonly driveMeasured?: number;
    readonly massMeasured: boolean;
  },
  add: Add,
): void {
  add({
    key: 'mass',
    label: context.massMeasured ? 'weighed mass' : 'mass',
    sigma: model.balance?.uncertainty.mass ?? 0,
    origin: context.massMeasured ? 'measured' : 'input',
    measurement: { what: 'weigh the aircraft ready to fly', minutes: 5, leaves: 0.005 },
  });
  const glide = { what: 'measure the sink rate in calm air with the propeller folded', minutes: 90, leaves: 0.06 };
  add({
    key: 'profileDrag',
    label: 'profile drag of the sections',
    sigma: context.profileSigma,
    origin: 'model',
    measurement: glide,
  });
  add({
    key: 'turbulence',
    label: `turbulence that the boundary layers feel (${context.air})`,
    sigma: context.turbulenceSigma,
    origin: 'model',
  });
  add({ key: 'inducedDrag', label: 'induced drag', sigma: inducedModelSigma, origin: 'model' });
  add({
    key: 'parasiteDrag',
    label: 'drag of fuselage, gaps and fittings',
    sigma: model.airframe?.parasiteSigma ?? 0,
    origin: 'model',
    measurement: glide,
  });
  const bench = { what: 'run the motor on the bench: volts, amps, throttle, propeller', minutes: 20, leaves: 0.09 };
  const drive = model.drive?.drive;
  if (drive === undefined) return;
  if (context.driveMeasured !== undefined) {
    add({
      key: 'propellerPower',
      label: 'drive, after the bench run',
      sigma: context.driveMeasured,
      origin: 'measured',
    });
    return;
  }
  add({
    key: 'propellerPower',
    label: 'propeller',
    sigma: drive.propeller.powerUncertainty,
    origin: 'model',
    measurement: bench,
  });
  add({
    key: 'motorResistance',
    label: 'motor resistance',
    sigma: drive.motor.resistanceUncertainty,
    origin: 'input',
    measurement: bench,
  });
  add({
    key: 'motorNoLoad',
    label: 'motor no-load current',
    sigma: drive.motor.noLoadCurrentUncertainty,
    origin: 'input',
    measurement: bench,
  });
}

function arrayInputs(
  model: AircraftModel,
  context: { readonly arrayMeasured?: number; readonly airTemperatureSigma: number },
  add: Add,
): void {
  if (model.array === undefined) return;
  const { arrayMeasured: measured, airTemperatureSigma } = context;
  add({ key: 'light', label: 'light on the cells (sky and plane models)', sigma: lightModelSigma, origin: 'model' });
  const reading = { what: 'read amps into the battery from the level array in the sun', minutes: 15, leaves: 0.07 };
  if (measured !== undefined) {
    add({ key: 'cellPower', label: 'array, after the reading in the sun', sigma: measured, origin: 'measured' });
  } else {
    const { cellPowerSigma, filmSigma, dustSigma, converterSigma, trackingSigma } = model.array;
    add({ key: 'cellPower', label: 'cells', sigma: cellPowerSigma, origin: 'input', measurement: reading });
    add({
      key: 'cover',
      label: 'film, tabs and dust',
      sigma: Math.hypot(filmSigma, dustSigma),
      origin: 'input',
      measurement: reading,
    });
    add({
      key: 'converter',
      label: 'converter (MPPT)',
      sigma: Math.hypot(converterSigma, trackingSigma),
      origin: 'input',
      measurement: reading,
    });
  }
  const temperatureSigma = Math.hypot(cellTemperatureSigma, airTemperatureSigma);
  add({ key: 'cellTemperature', label: 'cell temperature', sigma: temperatureSigma, origin: 'model' });
}

function batteryInputs(model: AircraftModel, add: Add): void {
  const { capacitySigma, resistanceSigma } = model.battery;
  const cycle = { what: 'discharge the pack once on a charger that counts', minutes: 120, leaves: 0.02 };
  add({ key: 'capacity', label: 'battery capacity', sigma: capacitySigma, origin: 'input', measurement: cycle });
  add({
    key: 'batteryResistance',
    label: 'battery resistance',
    sigma: resistanceSigma,
    origin: 'input',
    measurement: cycle,
  });
}
