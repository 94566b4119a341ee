import type { QuantityKind } from '@noonwing/quantities';
import type { MeasuredRecord } from '../measured-fields.js';
import type { Valued } from '../schema/field.js';
import { type Log, type Spread, withSpread } from './assumptions.js';

/** What hobby instruments usually do, common practice, no source. */
const INSTRUMENTS: Readonly<Record<string, readonly [QuantityKind, Spread, string]>> = {
  power: ['power', { share: 0.05 }, 'current sensor of a model'],
  airspeed: ['speed', { share: 0.05 }, 'airspeed sensor or wind box'],
  mass: ['mass', { share: 0.003, fixed: 0.001 }, 'kitchen scale'],
  x: ['length', { fixed: 0.003 }, 'balance on two fingers or a stand'],
  voltage: ['voltage', { share: 0.005, fixed: 0.02 }, 'hand meter'],
  current: ['current', { share: 0.02, fixed: 0.03 }, 'clamp or hall sensor'],
  throttle: ['ratio', { fixed: 0.02 }, 'transmitter display'],
  speed: ['angular speed', { share: 0.01 }, 'optical tachometer'],
  thrust: ['force', { share: 0.03, fixed: 0.05 }, 'kitchen scale on a stand'],
  temperature: ['temperature', { fixed: 1.5 }, 'thermometer in the shade'],
  cellTemperature: ['temperature', { fixed: 3 }, 'infrared thermometer'],
  tilt: ['angle', { fixed: 0.035 }, 'bubble or telephone'],
  facing: ['angle', { fixed: 0.1 }, 'compass or telephone'],
  arrayVoltage: ['voltage', { share: 0.005, fixed: 0.02 }, 'hand meter'],
  arrayCurrent: ['current', { share: 0.02, fixed: 0.03 }, 'clamp or hall sensor'],
  openCircuitVoltage: ['voltage', { share: 0.005, fixed: 0.02 }, 'hand meter'],
  shortCircuitCurrent: ['current', { share: 0.02, fixed: 0.03 }, 'meter or clamp'],
  worstCellVoltage: ['voltage', { fixed: 0.02 }, 'hand meter'],
  zeroCurrent: ['current', { fixed: 0.02 }, 'the sensor itself'],
  deflection: ['length', { share: 0.02, fixed: 0.001 }, 'ruler or gauge'],
  station: ['length', { fixed: 0.005 }, 'tape'],
  at: ['length', { fixed: 0.005 }, 'tape'],
  chordStation: ['ratio', { fixed: 0.02 }, 'tape'],
  twist: ['angle', { fixed: 0.005 }, 'difference of two rulers, or a telephone'],
  width: ['length', { fixed: 0.0005 }, 'ruler'],
  thickness: ['length', { fixed: 0.0001 }, 'calliper'],
  span: ['length', { fixed: 0.001 }, 'ruler'],
  frequency: ['angular speed', { share: 0.03 }, 'slow motion or a microphone'],
  irradiance: ['areal power', { share: 0.04 }, 'small irradiance meter'],
};

const isValued = (value: unknown): value is Valued =>
  typeof value === 'object' && value !== null && 'value' in value && 'source' in value;

/** Records in use; their numbers count as measured and get the uncertainty of usual instruments where none is written. */
export function completeMeasured(log: Log, records: readonly MeasuredRecord[]): readonly MeasuredRecord[] {
  return records.flatMap((record, index) => {
    if (record.use === false) return [];
    const entries = Object.entries(record).map(([key, value]) => {
      if (!isValued(value)) return [key, value];
      const usual = INSTRUMENTS[key];
      const measured: Valued = { ...value, source: 'measured' };
      return [
        key,
        usual === undefined
          ? measured
          : withSpread(log, `measured[${index + 1}].${key}`, usual[0], measured, usual[1], usual[2]),
      ];
    });
    return [Object.fromEntries(entries) as MeasuredRecord];
  });
}
