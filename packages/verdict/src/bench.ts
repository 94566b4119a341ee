import type { CompletePlan, MeasuredRecord } from '@noonwing/design';
import type { Outcome } from '@noonwing/engine';
import {
  type BenchReading,
  type BenchSetup,
  type BenchUnit,
  benchModel,
  type Diagnosis,
  diagnose,
  healthyFault,
  type MeasuredTrace,
  noDeviation,
  type TraceFigures,
  traceFigures,
} from '@noonwing/engine/bench';
import type { ArrayFacet } from '@noonwing/engine/day';
import type { AircraftModel } from './aircraft.js';
import { turbidityOf } from './day-setup.js';
import { usualRead } from './instruments.js';
import type { Measured } from './measured.js';

export type ArrayReading = Extract<MeasuredRecord, { what: 'array reading' }>;

/** Numbers of a reading as they come from a file, SI; what is absent was not read. */
export type BenchNumbers = Readonly<
  Partial<
    Record<
      | 'batteryCurrent'
      | 'arrayVoltage'
      | 'arrayCurrent'
      | 'openCircuitVoltage'
      | 'shortCircuitCurrent'
      | 'maximumPower'
      | 'irradiance'
      | 'cellTemperature'
      | 'airTemperature'
      | 'worstCellVoltage'
      | 'zeroCurrent'
      | 'wind'
      | 'tilt'
      | 'facing'
      | 'nose',
      number
    >
  >
> & { readonly time: number; readonly batteryVoltage: number; readonly otherConverter?: boolean };

/** Plate and backing of the cells of a string, in the mean of its facets. */
function standingRow(facets: readonly ArrayFacet[]): BenchUnit['row'] {
  const area = facets.reduce((sum, facet) => sum + facet.area, 0);
  const mean = (of: (facet: ArrayFacet) => number) =>
    facets.reduce((sum, facet) => sum + facet.area * of(facet), 0) / area;
  return { length: mean(({ length }) => length), rearFraction: mean(({ rearFraction }) => rearFraction) };
}

/** The array of a design as it stands on a bench; undefined without one. */
export function benchSetup(model: AircraftModel, plan: CompletePlan): BenchSetup | undefined {
  const { array, battery, complete } = model;
  if (array === undefined || complete.array === undefined) return undefined;
  const units = array.plan.strings.map((string): BenchUnit => {
    const converter = array.plan.converters[string.converter]!;
    return {
      name: string.name,
      cell: string.cell,
      cells: string.groups.reduce((sum, group) => sum + group.count, 0),
      parallel: string.parallel,
      cellsPerDiode: string.cellsPerDiode,
      seriesResistance: string.seriesResistance,
      converter,
      patches: string.groups.map(({ facet, count }) => ({ normal: array.plan.facets[facet]!.normal, cells: count })),
      row: standingRow(string.groups.map(({ facet }) => array.plan.facets[facet]!)),
    };
  });
  const sigmas = [array.cellPowerSigma, array.filmSigma, array.dustSigma];
  return {
    units,
    incidence: array.plan.incidence,
    lightFactor: array.plan.lightFactor,
    arraySigma: Math.hypot(...sigmas),
    converterSigma: Math.hypot(array.converterSigma, array.trackingSigma),
    turbidity: turbidityOf(plan).value,
    albedo: plan.albedo.value,
    ...(battery.highestVoltage > 0 ? { batteryFull: battery.highestVoltage } : {}),
  };
}

/** Numbers of a reading with place, attitude and instruments; the plan says what the reading does not. */
export function benchReading(numbers: BenchNumbers, plan: CompletePlan, unit?: number): BenchReading {
  const { time, batteryVoltage, otherConverter, tilt = 0, facing = Math.PI, airTemperature, ...read } = numbers;
  const reads = Object.entries(read).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, usualRead(key, value)] as const],
  );
  return {
    time,
    latitude: plan.latitude,
    longitude: plan.longitude,
    altitude: plan.altitude.value,
    tilt: usualRead('tilt', tilt),
    // A level array faces nowhere.
    facing: tilt === 0 ? { value: facing, sigma: 0 } : usualRead('facing', facing),
    batteryVoltage: usualRead('batteryVoltage', batteryVoltage),
    airTemperature: usualRead('airTemperature', airTemperature ?? plan.temperature.value),
    ...(otherConverter === true ? { otherConverter } : {}),
    ...(unit === undefined ? {} : { unit }),
    ...Object.fromEntries(reads),
  };
}

const recordNames = {
  current: 'batteryCurrent',
  arrayVoltage: 'arrayVoltage',
  arrayCurrent: 'arrayCurrent',
  openCircuitVoltage: 'openCircuitVoltage',
  shortCircuitCurrent: 'shortCircuitCurrent',
  worstCellVoltage: 'worstCellVoltage',
  zeroCurrent: 'zeroCurrent',
  irradiance: 'irradiance',
  cellTemperature: 'cellTemperature',
  wind: 'wind',
  nose: 'nose',
} as const;

/** A record of the design file as a reading of the bench, with the uncertainties that it states. */
export function readingOfRecord(record: ArrayReading, model: AircraftModel, plan: CompletePlan): BenchReading {
  const { latitude, longitude } = record.place ?? plan;
  const unit = model.array?.plan.strings.findIndex(({ name }) => name === record.string) ?? -1;
  const given = (Object.entries(recordNames) as [keyof typeof recordNames, string][]).flatMap(([from, to]) => {
    const read = record[from];
    if (read === undefined) return [];
    return [[to, { value: read.value, sigma: read.sigma ?? usualRead(to, read.value).sigma }] as const];
  });
  const basic = benchReading(
    {
      time: record.time,
      batteryVoltage: record.voltage.value,
      ...(record.tilt === undefined ? {} : { tilt: record.tilt.value }),
      ...(record.facing === undefined ? {} : { facing: record.facing.value }),
      ...(record.temperature === undefined ? {} : { airTemperature: record.temperature.value }),
      ...(record.converter === 'other' ? { otherConverter: true } : {}),
    },
    plan,
    unit >= 0 ? unit : undefined,
  );
  const voltageSigma = record.voltage.sigma ?? basic.batteryVoltage.sigma;
  return {
    ...basic,
    latitude,
    longitude,
    altitude: record.altitude?.value ?? plan.altitude.value,
    batteryVoltage: { value: record.voltage.value, sigma: voltageSigma },
    ...Object.fromEntries(given),
  };
}

/**
 * A reading with what a trace of the array shows: short circuit, open circuit and greatest power, and the conditions that
 * its file states.
 *
 * @param setup - of the design; the trace is that of its first unit, or of the one that the reading names
 */
export function withTrace(
  reading: BenchReading,
  trace: MeasuredTrace & { readonly irradiance?: number; readonly cellTemperature?: number },
  setup: BenchSetup,
): { readonly reading: BenchReading; readonly figures: TraceFigures } {
  const conditioned: BenchReading = {
    ...reading,
    ...(trace.irradiance === undefined ? {} : { irradiance: usualRead('irradiance', trace.irradiance) }),
    ...(trace.cellTemperature === undefined
      ? {}
      : { cellTemperature: usualRead('cellTemperature', trace.cellTemperature) }),
  };
  const unit = setup.units[reading.unit ?? 0]!;
  const at = benchModel(setup).unitConditions(unit, conditioned, healthyFault, noDeviation);
  const temperature = trace.cellTemperature ?? at.temperature;
  const light = trace.irradiance === undefined ? at.mean : trace.irradiance * setup.lightFactor;
  const figures = traceFigures(trace, unit, { irradiance: light, temperature });
  return {
    figures,
    reading: {
      ...conditioned,
      openCircuitVoltage: usualRead('openCircuitVoltage', figures.openCircuitVoltage),
      shortCircuitCurrent: usualRead('shortCircuitCurrent', figures.shortCircuitCurrent),
      maximumPower: usualRead('maximumPower', figures.maximum.power),
    },
  };
}

/** What the readings of a bench say, with what the last of them would correct. */
export interface BenchAnswer {
  readonly setup: BenchSetup;
  readonly diagnosis: Diagnosis;
  /** Factor on the array by the last reading; off while something is blamed, since that is to be cured, not modelled. */
  readonly measured?: Measured;
}

/**
 * Diagnosis of readings of the array of a design.
 *
 * @param readings - of `benchReading` or `readingOfRecord`, taken within hours of each other
 * @returns the diagnosis and the measured factor; undefined where the design has no array
 */
export function benchAnswer(
  model: AircraftModel,
  plan: CompletePlan,
  readings: readonly BenchReading[],
): Outcome<BenchAnswer> | undefined {
  const setup = benchSetup(model, plan);
  if (setup === undefined) return undefined;
  const found = diagnose(setup, readings);
  if (!found.ok) return found;
  const last = found.value.readings.findLast(
    ({ difference }, k) => difference !== undefined && readings[k]!.otherConverter !== true,
  );
  const measured: Measured | undefined =
    last?.difference === undefined || !(last.difference > -1)
      ? undefined
      : {
          stage: 'array',
          value: 1 + last.difference,
          sigma: last.differenceSigma! / (1 + last.difference),
          source: `${last.read!.toFixed(2)} A into the battery, expected ${last.expected.toFixed(2)} A in ${last.light.toFixed(0)} W/m2`,
          on: !found.value.isBlamed,
        };
  return { ...found, value: { setup, diagnosis: found.value, ...(measured === undefined ? {} : { measured }) } };
}
