import type { QuantityKind } from './kinds.js';
import { findUnit, fromSI, intervalFromSI, toSI, UNITS, type Unit, unitSymbols } from './units.js';

/**
 * Preferred written units: from the smallest SI magnitude up, each used from its limit on; the kind's plain value
 * (and zero) uses `at zero`. Mass in g below 1 kg, length in mm below 1 m: common practice among builders, no source.
 */
const LADDERS: Readonly<Partial<Record<QuantityKind, readonly (readonly [limit: number, unit: string])[]>>> = {
  length: [
    [0, 'um'],
    [1e-4, 'mm'],
    [1, 'm'],
    [1e4, 'km'],
  ],
  area: [
    [0, 'cm2'],
    [1e-2, 'dm2'],
    [0.1, 'm2'],
  ],
  volume: [
    [0, 'cm3'],
    [1e-3, 'l'],
    [1, 'm3'],
  ],
  mass: [
    [0, 'g'],
    [1, 'kg'],
  ],
  time: [
    [0, 'ms'],
    [1, 's'],
    [300, 'min'],
    [3600, 'h'],
  ],
  angle: [[0, 'deg']],
  'angular speed': [[0, 'rpm']],
  frequency: [[0, 'Hz']],
  'areal density': [[0, 'g/dm2']],
  'linear density': [[0, 'g/m']],
  charge: [
    [0, 'mAh'],
    [3600, 'Ah'],
  ],
  energy: [
    [0, 'J'],
    [360, 'Wh'],
    [3.6e7, 'kWh'],
  ],
  power: [
    [0, 'mW'],
    [0.1, 'W'],
    [1e4, 'kW'],
  ],
  'areal energy': [
    [0, 'Wh/m2'],
    [3.6e6, 'kWh/m2'],
  ],
  torque: [
    [0, 'mN m'],
    [1, 'N m'],
  ],
  'moment of inertia': [
    [0, 'g m2'],
    [0.1, 'kg m2'],
  ],
  voltage: [
    [0, 'mV'],
    [0.1, 'V'],
    [1e4, 'kV'],
  ],
  current: [
    [0, 'mA'],
    [0.1, 'A'],
  ],
  resistance: [
    [0, 'mohm'],
    [1, 'ohm'],
    [1e4, 'kohm'],
  ],
  'resistance per length': [
    [0, 'mohm/m'],
    [1, 'ohm/m'],
  ],
  'motor speed constant': [[0, 'rpm/V']],
  temperature: [[0, 'degC']],
  pressure: [
    [0, 'Pa'],
    [1e4, 'hPa'],
    // More than any air: of loads and strengths.
    [1.2e5, 'kPa'],
    [1e6, 'MPa'],
    [1e9, 'GPa'],
  ],
  'voltage per kelvin': [[0, 'mV/K']],
  'current per kelvin': [[0, 'mA/K']],
  'ratio per kelvin': [[0, '%/K']],
};

/** Units to name in a hint, the usual ones first. */
const SUGGESTED: Readonly<Partial<Record<QuantityKind, readonly string[]>>> = {
  length: ['mm', 'm', 'cm', 'in', 'ft'],
  area: ['m2', 'dm2', 'cm2', 'in2', 'ft2'],
  mass: ['g', 'kg', 'oz', 'lb'],
  time: ['h', 'min', 's'],
  speed: ['m/s', 'km/h', 'kt', 'mph', 'Bft'],
  angle: ['deg', 'rad'],
  'angular speed': ['rpm', 'rad/s'],
  frequency: ['Hz', 'rad/s'],
  'areal density': ['g/dm2', 'kg/m2', 'g/m2', 'oz/ft2', 'oz/yd2'],
  'linear density': ['g/m', 'kg/m', 'oz/ft'],
  charge: ['Ah', 'mAh'],
  energy: ['Wh', 'J', 'kWh'],
  power: ['W', 'mW', 'kW'],
  'areal energy': ['kWh/m2', 'Wh/m2'],
  resistance: ['mohm', 'ohm'],
  'motor speed constant': ['rpm/V', 'rad/s/V'],
  temperature: ['degC', 'K', 'degF'],
  'ratio per kelvin': ['%/K', '1/K'],
  'voltage per kelvin': ['mV/K', 'V/K'],
  'current per kelvin': ['mA/K', 'A/K'],
};

export const suggestedUnits = (kind: QuantityKind): readonly string[] =>
  SUGGESTED[kind] ?? unitSymbols(kind).slice(0, 5);

/** The unit in which a value of this kind and size is shown. value - SI */
export function preferredUnit(kind: QuantityKind, value: number): string {
  const ladder = LADDERS[kind];
  if (ladder === undefined) return UNITS[kind][0]!.names[0]!;
  const size = Math.abs(value);
  // Zero has no size; show it in the unit that a value of 1 SI would have.
  const reference = size === 0 ? 0.9999 : size;
  let chosen = ladder[0]![1];
  for (const [limit, unit] of ladder) if (reference >= limit * (1 - 1e-9)) chosen = unit;
  return chosen;
}

function unitOf(kind: QuantityKind, name: string): Unit {
  const unit = findUnit(name, kind);
  if (unit === undefined) throw new RangeError(`"${name}" is no unit of ${kind}`);
  return unit;
}

function demandFinite(value: number, what: string): void {
  if (!Number.isFinite(value)) throw new RangeError(`${what} must be finite, got ${value}`);
}

const orderOf = (size: number): number => (size === 0 ? 0 : Math.floor(Math.log10(size)));

/** A number with so many decimals; negative counts round left of the point. Never '-0'. */
function withDecimals(number: number, decimals: number): string {
  const size = Math.abs(number);
  if (size >= 1e15 || (size !== 0 && size < 1e-9) || decimals > 15) return String(Number(number.toPrecision(4)));
  const step = 10 ** -decimals;
  const text = decimals >= 0 ? number.toFixed(decimals) : String(Math.round(number / step) * step);
  return /^-[0.]*$/.test(text) ? text.slice(1) : text;
}

/** Significant digits: three, and four where the first is a 1, so that the steps stay below 1 %. */
function withDigits(number: number, digits: number | undefined): string {
  if (number === 0) return '0';
  const order = orderOf(Math.abs(number));
  const leadsWithOne = Math.abs(number) / 10 ** order < 2;
  const wanted = digits ?? (leadsWithOne ? 4 : 3);
  return withDecimals(number, wanted - 1 - order);
}

const join = (number: string, unit: string): string => (unit === '' ? number : `${number} ${unit}`);

export interface FormatOptions {
  /** Unit to write; the preferred one of the kind and size where left out. */
  readonly unit?: string;
  /** Significant digits where no uncertainty decides. */
  readonly digits?: number;
}

/**
 * Writes a quantity for reading: "620 g", "0.620 kg ± 0.020 kg". Two significant digits of the uncertainty decide the
 * digits of both numbers. quantity - SI value and standard uncertainty; throws on numbers that are not finite.
 */
export function formatQuantity(
  quantity: { readonly value: number; readonly sigma?: number | undefined },
  kind: QuantityKind,
  options: FormatOptions = {},
): string {
  const { value, sigma } = quantity;
  demandFinite(value, 'value');
  const name = options.unit ?? preferredUnit(kind, value);
  const unit = unitOf(kind, name);
  const symbol = unit.names[0]!;
  const written = fromSI(value, unit);
  if (sigma === undefined || sigma === 0) return join(withDigits(written, options.digits), symbol);
  demandFinite(sigma, 'uncertainty');
  const spread = Number(intervalFromSI(sigma, value, unit).toPrecision(2));
  const decimals = 1 - orderOf(spread);
  return `${join(withDecimals(written, decimals), symbol)} ± ${join(withDecimals(spread, decimals), symbol)}`;
}

/** A number that reads back to within 1e-12 of itself, without digits that come from rounding noise only. */
export function formatExact(written: number, unit: string): string {
  demandFinite(written, 'value');
  return join(String(Number(written.toPrecision(13)) + 0), unit);
}

/**
 * Writes a quantity for a file: reads back to the same SI value within 1e-12 of it.
 * quantity - SI; unit - symbol of the kind, the preferred one where left out
 */
export function writeQuantity(
  quantity: { readonly value: number; readonly sigma?: number | undefined },
  kind: QuantityKind,
  unitName?: string,
): string {
  const unit = unitOf(kind, unitName ?? preferredUnit(kind, quantity.value));
  const symbol = unit.names[0]!;
  const value = formatExact(fromSI(quantity.value, unit), symbol);
  if (quantity.sigma === undefined) return value;
  demandFinite(quantity.sigma, 'uncertainty');
  const spread = Number(intervalFromSI(quantity.sigma, quantity.value, unit).toPrecision(4));
  return `${value} ± ${formatExact(spread, symbol)}`;
}

/** Converts a written number between two units of one kind. Throws where a unit is not of the kind. */
export function convert(written: number, kind: QuantityKind, from: string, to: string): number {
  const source = unitOf(kind, from);
  const target = unitOf(kind, to);
  return fromSI(toSI(written, source), target);
}
