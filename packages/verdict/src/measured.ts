import type { CompletePlan, MeasuredRecord } from '@noonwing/design';
import { type Outcome, problem, success } from '@noonwing/engine';
import { airAt } from '@noonwing/engine/air';
import { groundCellTemperature } from '@noonwing/engine/array';
import { benchLight, benchSky, benchWind, clearLightSigma, patchLight } from '@noonwing/engine/bench';
import { type ArrayPlan, arrayMaxima, incomePowerAt } from '@noonwing/engine/day';
import { calibrateStaticRun, type Drive, type Propeller } from '@noonwing/engine/drive';
import { usualRead } from './instruments.js';

/** A measurement that takes the place of, or scales, what is computed at one stage. */
export interface Measured {
  readonly stage: 'mass' | 'balance' | 'level power' | 'drive' | 'array';
  /** Factor on the computed value, or the value itself for mass and balance point. */
  readonly value: number;
  /** Relative standard uncertainty. */
  readonly sigma: number;
  /** In words: what was read and what the model had said. */
  readonly source: string;
  readonly on: boolean;
}

type ArrayReading = Extract<MeasuredRecord, { what: 'array reading' }>;
type MotorRun = Extract<MeasuredRecord, { what: 'motor run' }>;

/** Light that an array reading was taken in, and what is uncertain about it. */
interface ReadingLight {
  /** Effective, on the plane of the array [W/m2]. */
  readonly effective: number;
  readonly total: number;
  readonly sigma: number;
  /** On each facet per effective light on the plane. */
  readonly shares: readonly number[];
}

/**
 * Factor of an array by a reading in the sun: amps into the battery over what the model gives in that light.
 *
 * @param plan - for the place and the haze where the record has none
 * @returns factor with its relative standard uncertainty; a problem when the model expects no current then
 */
export function arrayFactor(
  reading: ArrayReading,
  array: ArrayPlan,
  plan: CompletePlan,
  turbidity: { readonly value: number },
): Outcome<Measured> {
  const light = readingLight(reading, array, plan, turbidity.value);
  if (light.effective < 50) {
    return problem({
      code: 'reading-in-the-dark',
      reason: `at the time of the array reading the light on the array would be ${light.effective.toFixed(0)} W/m2`,
      where: 'measured: array reading',
      remedy: 'check date, time, offset from UTC and place, and the attitude of the array',
    });
  }
  const airTemperature = reading.temperature?.value ?? plan.temperature.value;
  const windSpeed = reading.wind?.value ?? benchWind;
  const warmth = array.facets.map(
    (facet, k) =>
      reading.cellTemperature?.value ??
      groundCellTemperature({ irradiance: light.total * light.shares[k]!, airTemperature, windSpeed }, facet),
  );
  const maxima = arrayMaxima(
    array,
    Float64Array.from(light.shares, (share) => share * light.effective),
    Float64Array.from(warmth),
  );
  const predicted = incomePowerAt(array, maxima, 0, reading.voltage.value) / reading.voltage.value;
  if (!(predicted > 0)) {
    return problem({
      code: 'reading-without-current',
      reason: 'the model expects no current from this array at that battery voltage',
      where: 'measured: array reading',
      remedy: 'check the battery voltage, the strings and the converter',
    });
  }
  const value = reading.current.value / predicted;
  const instrument = Math.hypot(
    (reading.current.sigma ?? 0) / Math.max(reading.current.value, 1e-9),
    (reading.voltage.sigma ?? 0) / reading.voltage.value,
  );
  // 0.35 % of power per kelvin of cell temperature.
  const thermal = 0.0035 * (reading.cellTemperature === undefined ? 8 : (reading.cellTemperature.sigma ?? 3));
  return success({
    stage: 'array',
    value,
    sigma: Math.hypot(instrument, light.sigma, thermal),
    source: `${reading.current.value.toFixed(2)} A into the battery at ${reading.voltage.value.toFixed(1)} V, expected ${predicted.toFixed(2)} A in ${light.total.toFixed(0)} W/m2`,
    on: true,
  });
}

function readingLight(reading: ArrayReading, array: ArrayPlan, plan: CompletePlan, turbidity: number): ReadingLight {
  const altitude = reading.altitude?.value ?? plan.altitude.value;
  const { latitude, longitude } = reading.place ?? plan;
  const albedo = plan.albedo.value;
  const sky = benchSky({ time: reading.time, latitude, longitude, altitude, turbidity, albedo });
  const attitude = { tilt: reading.tilt?.value ?? 0, facing: reading.facing?.value ?? 0 };
  const plane = benchLight(sky, attitude, array.incidence);
  const { nose: said } = reading;
  const nose = said && { value: said.value, sigma: said.sigma ?? usualRead('nose', said.value).sigma };
  const normals = array.facets.map(({ normal }) => normal);
  const { shares, along, across } = patchLight(sky, attitude, nose, normals, array.incidence);
  const area = array.facets.reduce((sum, facet) => sum + facet.area, 0);
  const moved = (by: readonly number[]) =>
    area > 0 ? array.facets.reduce((sum, facet, k) => sum + facet.area * by[k]!, 0) / area : 0;
  const byNose = Math.hypot(moved(along), moved(across));
  const read = reading.irradiance;
  if (read === undefined || !(plane.total > 0)) {
    return { ...plane, sigma: Math.hypot(clearLightSigma, byNose), shares };
  }
  return {
    effective: (plane.effective * read.value) / plane.total,
    total: read.value,
    sigma: Math.hypot((read.sigma ?? 0.04 * read.value) / read.value, byNose),
    shares,
  };
}

/** What a correction found with one propeller may be off by with another (relative, judgement: blades differ as much as models do). */
const otherPropellerSigma = 0.08;

/**
 * Drive corrected by a static run, with the run as `Measured`.
 * @param drive - as designed
 * @param benchPropeller - the propeller of the run where it is not that of the design; the factor then carries over with
 *   more uncertainty
 */
export function driveByRun(
  run: MotorRun,
  drive: Drive,
  benchPropeller?: Propeller,
): Outcome<{ readonly drive: Drive; readonly measured: Measured }> {
  const air = airAt({
    altitude: run.altitude?.value ?? 0,
    temperatureOffset: run.temperature === undefined ? 0 : run.temperature.value - 288.15,
  });
  const share = (of: { value: number; sigma?: number | undefined }) => (of.sigma ?? 0) / Math.max(of.value, 1e-9);
  const calibrated = calibrateStaticRun({
    drive: benchPropeller === undefined ? drive : { ...drive, propeller: benchPropeller },
    busVoltage: run.voltage.value,
    duty: run.throttle?.value ?? 1,
    air,
    batteryCurrent: run.current.value,
    ...(run.thrust === undefined ? {} : { thrust: run.thrust.value }),
    uncertainty: {
      voltage: share(run.voltage),
      current: share(run.current),
      // At full throttle the controller switches through, whatever the transmitter shows.
      ...(run.throttle === undefined || run.throttle.value >= 1 ? {} : { duty: share(run.throttle) }),
      ...(run.thrust === undefined ? {} : { thrust: share(run.thrust) }),
    },
  });
  if (!calibrated.ok) return { ...calibrated, where: 'measured: motor run' };
  const { factor, flightUncertainty, predictedCurrent } = calibrated.value;
  const sigma = benchPropeller === undefined ? flightUncertainty : Math.hypot(flightUncertainty, otherPropellerSigma);
  const other = benchPropeller === undefined ? '' : ` with another propeller (${run.propeller})`;
  return success(
    {
      drive:
        benchPropeller === undefined
          ? calibrated.value.drive
          : carriedOver(drive, benchPropeller, calibrated.value.drive.propeller, sigma),
      measured: {
        stage: 'drive',
        value: factor,
        sigma,
        source: `${run.current.value.toFixed(2)} A at ${run.voltage.value.toFixed(2)} V standing still${other}, expected ${predictedCurrent.toFixed(2)} A`,
        on: true,
      },
    },
    calibrated.warnings,
  );
}

/** Factors on thrust and power found with one propeller, on another. */
function carriedOver(drive: Drive, bench: Propeller, corrected: Propeller, sigma: number): Drive {
  const { propeller } = drive;
  return {
    ...drive,
    propeller: {
      ...propeller,
      thrustFactor: (propeller.thrustFactor * corrected.thrustFactor) / bench.thrustFactor,
      powerFactor: (propeller.powerFactor * corrected.powerFactor) / bench.powerFactor,
      powerUncertainty: sigma,
    },
  };
}
