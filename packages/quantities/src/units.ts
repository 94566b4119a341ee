import type { QuantityKind } from './kinds.js';

/**
 * A unit of one kind. SI value = written value x `scale` + `offset`, or `toSI` where the relation is a curve (Beaufort).
 * `names[0]` is the symbol that is written; the others are only read.
 */
export interface Unit {
  readonly names: readonly string[];
  readonly scale: number;
  readonly offset?: number;
  readonly toSI?: (written: number) => number;
  readonly fromSI?: (value: number) => number;
}

const unit = (names: string, scale: number, offset?: number): Unit =>
  offset === undefined ? { names: names.split('|'), scale } : { names: names.split('|'), scale, offset };

const INCH = 0.0254;
const FOOT = 0.3048;
const POUND = 0.45359237;
const OUNCE = POUND / 16;
const STANDARD_GRAVITY = 9.80665;
const TURN = 2 * Math.PI;

/**
 * Beaufort number to mean wind speed at 10 m height [m/s]: v = 0.836 B^1.5.
 * Source: World Meteorological Organization, code table 1100 (equivalent speeds of the Beaufort scale).
 */
const beaufort: Unit = {
  names: ['Bft', 'Beaufort', 'beaufort', 'bft', 'Bf'],
  scale: 0.836,
  toSI: (number) => Math.sign(number) * 0.836 * Math.abs(number) ** 1.5,
  fromSI: (speed) => Math.sign(speed) * (Math.abs(speed) / 0.836) ** (2 / 3),
};

/**
 * Units by kind; the first of a kind is SI, which is also the unit of stored values.
 * Definitions: inch, foot, pound, knot and standard gravity are exact (BIPM, The International System of Units, 9th ed.;
 * NIST Special Publication 811, appendix B).
 */
export const UNITS: Readonly<Record<QuantityKind, readonly Unit[]>> = {
  length: [
    unit('m|metre|metres|meter|meters', 1),
    unit('mm|millimetre|millimetres|millimeter|millimeters|MM', 1e-3),
    unit('cm|centimetre|centimetres|centimeter|centimeters', 1e-2),
    unit('dm', 1e-1),
    unit('km', 1e3),
    unit('um|µm|micron|microns', 1e-6),
    unit('in|inch|inches|"', INCH),
    unit('ft|foot|feet', FOOT),
    unit('yd|yard|yards', 3 * FOOT),
    unit('mi|mile|miles', 1609.344),
    unit('nmi|NM', 1852),
  ],
  area: [
    unit('m2|sqm', 1),
    unit('dm2', 1e-2),
    unit('cm2', 1e-4),
    unit('mm2', 1e-6),
    unit('in2|sqin', INCH ** 2),
    unit('ft2|sqft', FOOT ** 2),
  ],
  volume: [
    unit('m3', 1),
    unit('l|L|litre|litres|dm3', 1e-3),
    unit('ml|mL|cm3', 1e-6),
    unit('mm3', 1e-9),
    unit('in3', INCH ** 3),
    unit('ft3', FOOT ** 3),
  ],
  mass: [
    unit('kg|Kg|KG|kilogram|kilograms', 1),
    unit('g|gram|grams|gr', 1e-3),
    unit('mg', 1e-6),
    unit('oz|ounce|ounces', OUNCE),
    unit('lb|lbs|pound|pounds', POUND),
  ],
  time: [
    unit('s|sec|second|seconds', 1),
    unit('ms', 1e-3),
    unit('us|µs', 1e-6),
    unit('min|minute|minutes', 60),
    unit('h|hr|hour|hours', 3600),
    unit('d|day|days', 86400),
  ],
  speed: [
    unit('m/s|mps', 1),
    unit('km/h|kmh|kph', 1 / 3.6),
    unit('kt|kts|kn|knot|knots', 1852 / 3600),
    unit('mph|mi/h', 1609.344 / 3600),
    unit('ft/s|fps', FOOT),
    unit('ft/min|fpm', FOOT / 60),
    unit('cm/s', 1e-2),
    beaufort,
  ],
  acceleration: [unit('m/s2', 1), unit('g0|g', STANDARD_GRAVITY), unit('ft/s2', FOOT)],
  angle: [
    unit('rad|radian|radians', 1),
    unit('deg|°|degree|degrees', Math.PI / 180),
    unit('mrad', 1e-3),
    unit('arcmin', Math.PI / 10800),
    unit('arcsec', Math.PI / 648000),
  ],
  'angular speed': [
    unit('rad/s', 1),
    unit('rpm|1/min|RPM|U/min', TURN / 60),
    unit('deg/s|°/s', Math.PI / 180),
    unit('rps|Hz|1/s', TURN),
  ],
  // Vibrations a second; inside as an angular frequency.
  frequency: [unit('rad/s', 1), unit('Hz|1/s', TURN), unit('kHz', 1000 * TURN), unit('rpm|1/min', TURN / 60)],
  'areal density': [
    unit('kg/m2', 1),
    unit('g/dm2', 0.1),
    unit('g/m2|gsm', 1e-3),
    unit('g/cm2', 10),
    unit('mg/cm2', 1e-2),
    unit('oz/ft2|oz/sqft', OUNCE / FOOT ** 2),
    unit('oz/yd2|oz/sqyd', OUNCE / (9 * FOOT ** 2)),
    unit('lb/ft2', POUND / FOOT ** 2),
  ],
  'linear density': [
    unit('kg/m', 1),
    unit('g/m', 1e-3),
    unit('g/cm', 0.1),
    unit('g/mm', 1),
    unit('oz/in', OUNCE / INCH),
    unit('oz/ft', OUNCE / FOOT),
    unit('lb/ft', POUND / FOOT),
  ],
  density: [
    unit('kg/m3|g/l|g/L', 1),
    unit('g/cm3|kg/dm3|kg/l|kg/L', 1e3),
    unit('lb/ft3|pcf', POUND / FOOT ** 3),
    unit('oz/in3', OUNCE / INCH ** 3),
  ],
  'dynamic viscosity': [unit('Pa s|kg/m/s|N s/m2', 1), unit('mPa s|cP', 1e-3)],
  'kinematic viscosity': [unit('m2/s', 1), unit('mm2/s|cSt', 1e-6)],
  charge: [unit('C|A s|coulomb|coulombs', 1), unit('Ah|AH|ah', 3600), unit('mAh|mAH|mah|MAH|Mah', 3.6)],
  energy: [
    unit('J|Ws|joule|joules', 1),
    unit('kJ', 1e3),
    unit('MJ', 1e6),
    unit('Wh|wh', 3600),
    unit('mWh', 3.6),
    unit('kWh', 3.6e6),
  ],
  power: [unit('W|watt|watts|w', 1), unit('mW', 1e-3), unit('kW', 1e3), unit('hp', 745.6998715822702)],
  'areal power': [
    unit('W/m2', 1),
    unit('W/dm2', 100),
    unit('kW/m2', 1e3),
    unit('mW/cm2', 10),
    unit('W/cm2', 1e4),
    unit('W/ft2', 1 / FOOT ** 2),
  ],
  'areal energy': [unit('J/m2', 1), unit('kJ/m2', 1e3), unit('MJ/m2', 1e6), unit('Wh/m2', 3600), unit('kWh/m2', 3.6e6)],
  force: [
    unit('N|newton|newtons', 1),
    unit('mN', 1e-3),
    unit('kN', 1e3),
    unit('gf', 1e-3 * STANDARD_GRAVITY),
    unit('kgf|kp', STANDARD_GRAVITY),
    unit('ozf', OUNCE * STANDARD_GRAVITY),
    unit('lbf', POUND * STANDARD_GRAVITY),
  ],
  torque: [
    unit('N m', 1),
    unit('mN m', 1e-3),
    unit('N cm', 1e-2),
    unit('kgf cm|kg cm', STANDARD_GRAVITY * 1e-2),
    unit('gf cm|g cm', STANDARD_GRAVITY * 1e-5),
    unit('ozf in|oz in', OUNCE * STANDARD_GRAVITY * INCH),
    unit('lbf in|lb in', POUND * STANDARD_GRAVITY * INCH),
  ],
  'moment of inertia': [unit('kg m2', 1), unit('g m2', 1e-3), unit('kg cm2', 1e-4), unit('g cm2', 1e-7)],
  voltage: [unit('V|volt|volts|v', 1), unit('mV', 1e-3), unit('kV', 1e3)],
  current: [unit('A|amp|amps|ampere|amperes', 1), unit('mA', 1e-3), unit('uA|µA', 1e-6)],
  resistance: [unit('ohm|Ω|ohms|Ohm', 1), unit('mohm|mΩ|milliohm|milliohms|mOhm', 1e-3), unit('kohm|kΩ', 1e3)],
  'resistance per length': [unit('ohm/m|Ω/m', 1), unit('mohm/m|mΩ/m|ohm/km|Ω/km', 1e-3)],
  'motor speed constant': [unit('rad/s/V|rad/sV', 1), unit('rpm/V|RPM/V|1/min/V|U/min/V', TURN / 60)],
  temperature: [
    unit('K', 1),
    unit('degC|°C|C|celsius', 1, 273.15),
    unit('degF|°F|F|fahrenheit', 5 / 9, 459.67 * (5 / 9)),
  ],
  'temperature difference': [unit('K', 1), unit('degC|°C|C', 1), unit('degF|°F|F', 5 / 9)],
  pressure: [
    unit('Pa|N/m2', 1),
    unit('hPa|mbar', 100),
    unit('kPa', 1e3),
    unit('MPa|N/mm2', 1e6),
    unit('GPa', 1e9),
    unit('bar', 1e5),
    unit('atm', 101325),
    unit('mmHg', 133.322387415),
    unit('inHg', 3386.388640341),
    unit('psi', (POUND * STANDARD_GRAVITY) / INCH ** 2),
  ],
  'thermal conductivity': [unit('W/(m K)|W/m/K', 1)],
  'heat transfer coefficient': [unit('W/(m2 K)|W/m2/K', 1)],
  'voltage per kelvin': [unit('V/K|V/°C|V/C|V/degC', 1), unit('mV/K|mV/°C|mV/C|mV/degC', 1e-3)],
  'current per kelvin': [unit('A/K|A/°C|A/C|A/degC', 1), unit('mA/K|mA/°C|mA/C|mA/degC', 1e-3)],
  'ratio per kelvin': [unit('1/K', 1), unit('%/K|%/°C|%/C|%/degC', 1e-2)],
  ratio: [unit('', 1), unit('%|per cent', 1e-2)],
  count: [unit('', 1)],
  instant: [unit('', 1)],
};

export const QUANTITY_KINDS = Object.keys(UNITS) as readonly QuantityKind[];

/** Spelling without what people vary: spaces, product dots, power signs, paired brackets; micro and ohm signs unified. */
export function unitSpelling(text: string): string {
  return text
    .replace(/\(([^()]*)\)/g, '$1')
    .replace(/[\s·⋅*^]/g, '')
    .replace(/²/g, '2')
    .replace(/³/g, '3')
    .replace(/μ/g, 'µ')
    .replace(/\u2126/g, 'Ω')
    .replace(/º/g, '°')
    .replace(/℃/g, '°C')
    .replace(/℉/g, '°F')
    .replace(/[″”“]/g, '"');
}

const bySpelling = new Map<QuantityKind, Map<string, Unit>>();

function spellingsOf(kind: QuantityKind): Map<string, Unit> {
  let spellings = bySpelling.get(kind);
  if (spellings === undefined) {
    spellings = new Map();
    for (const candidate of UNITS[kind]) {
      for (const name of candidate.names) spellings.set(unitSpelling(name), candidate);
    }
    bySpelling.set(kind, spellings);
  }
  return spellings;
}

/** The unit of a kind that is written so, or undefined. Case matters: mW is not MW. */
export const findUnit = (text: string, kind: QuantityKind): Unit | undefined =>
  spellingsOf(kind).get(unitSpelling(text));

/** Every accepted spelling of a kind's units, for hints. */
export const unitNames = (kind: QuantityKind): readonly string[] => UNITS[kind].flatMap((candidate) => candidate.names);

/** Symbols of a kind's units as they are written by the program. */
export const unitSymbols = (kind: QuantityKind): readonly string[] =>
  UNITS[kind].map((candidate) => candidate.names[0]!);

/** Kinds in which this unit exists; empty when it is unknown everywhere. */
export const kindsOfUnit = (text: string): readonly QuantityKind[] =>
  QUANTITY_KINDS.filter((kind) => kind !== 'count' && kind !== 'instant' && findUnit(text, kind) !== undefined);

/**
 * Number of units in one SI unit where that is whole (1000 for mm), else undefined. Dividing by it rounds once, so that
 * 95 % reads as 0.95 and not as the product 95 x 0.01.
 */
function wholeDivisor(scale: number): number | undefined {
  const divisor = Math.round(1 / scale);
  return scale < 1 && Math.abs(divisor * scale - 1) < 1e-12 ? divisor : undefined;
}

/** Written value in `from` to SI. */
export function toSI(written: number, from: Unit): number {
  if (from.toSI) return from.toSI(written);
  const divisor = wholeDivisor(from.scale);
  return (divisor === undefined ? written * from.scale : written / divisor) + (from.offset ?? 0);
}

/** SI value to the number written in `to`. */
export function fromSI(value: number, to: Unit): number {
  if (to.fromSI) return to.fromSI(value);
  const divisor = wholeDivisor(to.scale);
  const shifted = value - (to.offset ?? 0);
  return divisor === undefined ? shifted / to.scale : shifted * divisor;
}

/** Size of a small written interval at `written`, in SI: what turns a written uncertainty into an SI one. */
export function intervalToSI(interval: number, written: number, from: Unit): number {
  if (from.toSI === undefined) return Math.abs(toSI(interval, { ...from, offset: 0 }));
  return Math.abs(from.toSI(written + interval) - from.toSI(written - interval)) / 2;
}

/** SI uncertainty at an SI value to the interval written in `to`. */
export function intervalFromSI(sigma: number, value: number, to: Unit): number {
  if (to.fromSI === undefined) return Math.abs(fromSI(sigma, { ...to, offset: 0 }));
  return Math.abs(to.fromSI(value + sigma) - to.fromSI(value - sigma)) / 2;
}
