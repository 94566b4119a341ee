import { backContactBreakdown, backContactCell, type Converter } from '../../array/index.js';
import { filmCover } from '../../sun/index.js';
import { type BenchReading, type BenchSetup, benchModel, type Fault, healthyFault, type Read } from '../index.js';

const degree = Math.PI / 180;

/** A boost converter for 16 cells under a 4S pack. */
export const boost: Converter = {
  topology: 'boost',
  loss: { fixed: 0.4, perAmpere: 0.25, resistance: 0.06 },
  limits: { inputPower: 80, outputCurrent: 8, minimumInputVoltage: 4, maximumInputVoltage: 24 },
  tracking: { method: 'maximum power', efficiency: 0.98 },
  standbyPower: 0.15,
};

export const setup: BenchSetup = {
  units: [
    {
      name: 'all',
      cell: { ...backContactCell, breakdown: backContactBreakdown },
      cells: 16,
      parallel: 1,
      cellsPerDiode: 4,
      seriesResistance: 0.09,
      converter: boost,
      patches: [{ normal: [0, 0, -1], cells: 16 }],
      row: { length: 0.2, rearFraction: 0 },
    },
  ],
  incidence: filmCover,
  lightFactor: 0.93,
  arraySigma: 0.03,
  converterSigma: 0.02,
  turbidity: 3.2,
  albedo: 0.2,
  batteryFull: 16.8,
};

/** 2026-06-21 at 40.7 N, 0.9 E, so many hours UTC; nothing electric read yet. */
export const readingAt = (hour: number): BenchReading => ({
  time: Date.UTC(2026, 5, 21) / 1000 + 3600 * hour,
  latitude: 40.7 * degree,
  longitude: 0.9 * degree,
  altitude: 5,
  tilt: { value: 0, sigma: 0.035 },
  facing: { value: Math.PI, sigma: 0.1 },
  batteryVoltage: { value: 15.2, sigma: 0.03 },
  airTemperature: { value: 299, sigma: 1.5 },
});

/** Normal numbers that repeat with their seed. */
export function normals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** What is read: names of what has an instrument, beside battery amps. */
export type Instruments = readonly ('arrayVoltage' | 'irradiance' | 'cellTemperature' | 'openCircuitVoltage')[];

/**
 * Readings of a bench whose true light, cells, converter and attitude differ from the model by normal amounts, with noise; at last with
 * a converter that is known to be good in place of the own, where asked for.
 */
export function simulated(
  bench: BenchSetup,
  fault: Fault,
  normal: () => number,
  instruments: Instruments = ['arrayVoltage'],
  hours: readonly number[] = [9.5, 12],
  withOther = false,
): readonly BenchReading[] {
  const model = benchModel(bench);
  const truth = {
    light: 0.06 * normal(),
    array: bench.arraySigma * normal(),
    converter: bench.converterSigma * normal(),
    voltage: 0.007 * normal(),
    warmth: 8 * normal(),
    tilt: 0.035 * normal(),
    facing: 0.1 * normal(),
    along: normal(),
    across: normal(),
  };
  const asked = hours.map(readingAt);
  const other = withOther ? [{ ...asked.at(-1)!, otherConverter: true }] : [];
  return [...asked, ...other].map((reading) => {
    const shown = model.predict(reading, fault, truth) ?? model.predict(reading, healthyFault, truth)!;
    const read = (value: number, sigma: number): Read => ({ value: value + sigma * normal(), sigma });
    const current = shown.batteryCurrent * (1 + 0.01 * normal());
    return {
      ...reading,
      batteryCurrent: read(current, 0.03 + 0.02 * Math.abs(current)),
      ...(instruments.includes('arrayVoltage')
        ? { arrayVoltage: read(shown.arrayVoltage * (1 + 0.008 * normal()), 0.05) }
        : {}),
      ...(instruments.includes('irradiance') ? { irradiance: read(shown.irradiance, 0.04 * shown.irradiance) } : {}),
      ...(instruments.includes('cellTemperature') ? { cellTemperature: read(shown.cellTemperature, 3) } : {}),
      ...(instruments.includes('openCircuitVoltage')
        ? { openCircuitVoltage: read(shown.openCircuitVoltage, 0.05) }
        : {}),
    };
  });
}
