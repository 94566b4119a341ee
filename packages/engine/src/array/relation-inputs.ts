import type { RelationInput, RelationValues } from '../relation.js';
import { fitFourParameters } from './fit.js';
import type { CellParameters } from './translate.js';

/** What a relation answers where it cannot compute. */
export type Refusal = { readonly reason: string; readonly remedy: string };

/** Number of a relation's input. */
export const numberOf = (values: RelationValues, key: string): number => Number(values[key]);

/** Refusal of the first input that lies outside its range, if any; ranges by key in SI. */
export function outOfRange(
  values: RelationValues,
  ranges: Readonly<Record<string, readonly [number, number]>>,
): Refusal | undefined {
  for (const [key, [low, high]] of Object.entries(ranges)) {
    const value = numberOf(values, key);
    if (!(value >= low && value <= high)) {
      return { reason: `${key} is outside its range`, remedy: `give ${key} between ${low} and ${high} in SI units` };
    }
  }
  return undefined;
}

/** Inputs that describe a cell by its data sheet; the defaults are a generic 125 mm back-contact cell. */
export const sheetInputs: readonly RelationInput[] = [
  { key: 'shortCircuitCurrent', kind: 'current', help: 'of the data sheet at 1000 W/m2, 25 C', default: 6.27 },
  { key: 'openCircuitVoltage', kind: 'voltage', help: 'of the data sheet', default: 0.686 },
  { key: 'maximumPowerCurrent', kind: 'current', help: 'of the data sheet', default: 5.9 },
  { key: 'maximumPowerVoltage', kind: 'voltage', help: 'of the data sheet', default: 0.58 },
  { key: 'ideality', kind: 'ratio', help: 'ideality factor of the diode, 1 to 1.3 for silicon', default: 1.05 },
  {
    key: 'currentTemperatureCoefficient',
    kind: 'current per kelvin',
    help: 'of the short-circuit current',
    default: 0.003135,
  },
  {
    key: 'voltageTemperatureCoefficient',
    kind: 'voltage per kelvin',
    help: "of the open-circuit voltage, negative; 0 accepts the model's own",
    default: 0,
  },
];

/** Cell of a relation's data sheet inputs. */
export function sheetCell(values: RelationValues): CellParameters | Refusal {
  const beta = numberOf(values, 'voltageTemperatureCoefficient');
  const sheet = {
    shortCircuitCurrent: numberOf(values, 'shortCircuitCurrent'),
    openCircuitVoltage: numberOf(values, 'openCircuitVoltage'),
    maximumPowerCurrent: numberOf(values, 'maximumPowerCurrent'),
    maximumPowerVoltage: numberOf(values, 'maximumPowerVoltage'),
    currentTemperatureCoefficient: numberOf(values, 'currentTemperatureCoefficient'),
    cellsInSeries: 1,
  };
  const fit = fitFourParameters(
    beta === 0 ? sheet : { ...sheet, voltageTemperatureCoefficient: beta },
    numberOf(values, 'ideality'),
  );
  return fit.ok ? fit.value : { reason: fit.reason, remedy: fit.remedy };
}
