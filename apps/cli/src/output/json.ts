import { convert, type QuantityKind } from '@noonwing/quantities';
import { type Band, siUnit } from './numbers.js';

/** A number for programs: never without its unit. A ratio or a count has the unit 1. */
export interface JsonQuantity {
  readonly value: number;
  readonly unit: string;
  /** Standard uncertainty, in the same unit. */
  readonly uncertainty?: number;
  /** Band that should hold the truth nine times in ten, in the same unit. */
  readonly low?: number;
  readonly high?: number;
}

/** Units of the JSON output, fixed by kind so that programs can rely on them: SI but for these. */
const JSON_UNITS: Readonly<Partial<Record<QuantityKind, string>>> = {
  angle: 'deg',
  'angular speed': 'rpm',
  frequency: 'Hz',
  'motor speed constant': 'rpm/V',
  temperature: 'degC',
  charge: 'Ah',
  energy: 'Wh',
};

const jsonUnit = (kind: QuantityKind): string => JSON_UNITS[kind] ?? siUnit(kind);

/** Twelve digits: what is behind them is rounding of the conversion. */
const tidy = (number: number): number => Number(number.toPrecision(12)) + 0;

const converted = (value: number, kind: QuantityKind): number =>
  tidy(convert(value, kind, siUnit(kind), jsonUnit(kind)));

/** Size of an interval: conversions with an offset drop it. */
const interval = (sigma: number, kind: QuantityKind): number =>
  kind === 'temperature' ? tidy(sigma) : converted(sigma, kind);

export function jsonQuantity(value: number, kind: QuantityKind, sigma?: number): JsonQuantity {
  if (!Number.isFinite(value)) throw new RangeError(`a ${kind} is not finite`);
  const unit = jsonUnit(kind);
  const number = { value: converted(value, kind), unit: unit === '' ? '1' : unit };
  return sigma === undefined ? number : { ...number, uncertainty: interval(sigma, kind) };
}

export function jsonBand(band: Band, kind: QuantityKind): JsonQuantity {
  const number = jsonQuantity(band.value, kind);
  return { ...number, low: converted(band.low, kind), high: converted(band.high, kind) };
}

/** A row of numbers of one kind with its unit. */
export function jsonSeries(values: Iterable<number>, kind: QuantityKind): { unit: string; values: readonly number[] } {
  const unit = jsonUnit(kind);
  return { unit: unit === '' ? '1' : unit, values: [...values].map((value) => converted(value, kind)) };
}

export const jsonText = (data: unknown): string => JSON.stringify(data, undefined, 2);
