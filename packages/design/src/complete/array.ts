import type { BatteryDesign } from '../aircraft.js';
import type { ArrayDesign, CellDesign, ConverterDesign, RowDesign, StringDesign } from '../array-fields.js';
import { CELLS, type CellSheet } from '../library/cells.js';
import { CONVERTERS, type ConverterName, type Topology } from '../library/converters.js';
import { type KindedValue, keyOf, type Valued } from '../schema/field.js';
import { panelReach, type Surfaces } from './airframe.js';
import { type Log, orChoice, orDefault, withSpread } from './assumptions.js';

/** A temperature coefficient in the unit of the quantity, from per cent of it where it is written so. */
function coefficient(given: KindedValue | undefined, of: Valued): Valued | undefined {
  if (given === undefined) return undefined;
  const { kind, ...value } = given;
  if (kind !== 'ratio per kelvin') return value;
  return {
    value: given.value * of.value,
    ...(given.sigma === undefined ? {} : { sigma: Math.abs(given.sigma * of.value) }),
    source: given.source,
  };
}

type CompleteCell = { readonly [K in keyof CellDesign]-?: Exclude<CellDesign[K], undefined> };

function completeCell(log: Log, cell: CellDesign | undefined): CompleteCell {
  const like = orChoice(
    log,
    'array.cell',
    cell?.like,
    'back-contact 125 mm',
    'no cell stated, or its sheet is not complete; the usual one on such aircraft',
  );
  const sheet: CellSheet = CELLS[like];
  const stated = cell ?? {};
  const usual = 'parts library';
  const pick = (
    key:
      | 'length'
      | 'width'
      | 'mass'
      | 'bendRadius'
      | 'shortCircuitCurrent'
      | 'openCircuitVoltage'
      | 'maximumPowerCurrent'
      | 'maximumPowerVoltage',
    kind: 'length' | 'mass' | 'current' | 'voltage',
    words: string,
    share: number,
  ) => {
    const given = stated[key];
    const path = `array.cell.${words}`;
    if (given !== undefined) return withSpread(log, path, kind, given, { share }, 'scatter of cells of one kind');
    return orDefault(log, path, undefined, { kind, ...sheet[key], why: usual, source: 'library' });
  };
  const length = pick('length', 'length', 'length', 0.003);
  const width = pick('width', 'length', 'width', 0.003);
  const shortCircuitCurrent = pick('shortCircuitCurrent', 'current', 'short circuit current', 0.015);
  const openCircuitVoltage = pick('openCircuitVoltage', 'voltage', 'open circuit voltage', 0.007);
  // The lit share of the outline stays that of the cell it started from, so that a cut strip need only state its size.
  const lit = (sheet.area.value / (sheet.length.value * sheet.width.value)) * length.value * width.value;
  return {
    like,
    length,
    width,
    area: orDefault(log, 'array.cell.area', stated.area, {
      kind: 'area',
      value: lit,
      sigma: 0.007 * lit,
      why: usual,
      source: 'library',
    }),
    shortCircuitCurrent,
    openCircuitVoltage,
    maximumPowerCurrent: pick('maximumPowerCurrent', 'current', 'maximum power current', 0.015),
    maximumPowerVoltage: pick('maximumPowerVoltage', 'voltage', 'maximum power voltage', 0.01),
    currentCoefficient: {
      kind: 'current per kelvin',
      ...orDefault(log, 'array.cell.current coefficient', coefficient(stated.currentCoefficient, shortCircuitCurrent), {
        kind: 'current per kelvin',
        ...sheet.currentCoefficient,
        why: usual,
        source: 'library',
      }),
    },
    voltageCoefficient: {
      kind: 'voltage per kelvin',
      ...orDefault(log, 'array.cell.voltage coefficient', coefficient(stated.voltageCoefficient, openCircuitVoltage), {
        kind: 'voltage per kelvin',
        ...sheet.voltageCoefficient,
        why: usual,
        source: 'library',
      }),
    },
    mass: pick('mass', 'mass', 'mass', 0.05),
    bendRadius: pick('bendRadius', 'length', 'bend radius', 0.2),
  };
}

const share = (place: KindedValue, halfSpan: number): number =>
  place.kind === 'ratio' ? place.value : place.value / halfSpan;

function completeRow(
  log: Log,
  path: string,
  row: RowDesign,
  context: { cell: CompleteCell; surfaces: Surfaces; station: number },
): RowDesign {
  const surface = context.surfaces[row.on];
  const side = row.side ?? (surface?.mirrored === false ? 'right' : 'both');
  const perHalf = side === 'both' ? Math.ceil(row.cells.value / 2) : row.cells.value;
  const needed = perHalf * (context.cell.length.value + 0.002);
  const half = surface === undefined ? needed : panelReach(surface);
  const end = (key: 'from' | 'to', given: KindedValue | undefined, value: number, why: string): KindedValue =>
    given ?? {
      ...orDefault(log, `${path}.${key}`, undefined, { kind: 'ratio', value, sigma: 0.02, why }),
      kind: 'ratio',
    };
  const from = end('from', row.from, Math.max(0, Math.min(0.03, 1 - needed / half)), 'starts beside the root');
  const station = {
    kind: 'ratio',
    value: context.station,
    sigma: 0.05,
    why: 'rows spread evenly over the chord',
  } as const;
  return {
    ...row,
    side,
    face: row.face ?? 'upper',
    from,
    to: end('to', row.to, Math.min(1, share(from, half) + needed / half), 'cells side by side with 2 mm between them'),
    chordStation: orDefault(log, `${path}.chord station`, row.chordStation, station),
  };
}

/** Chord stations for rows without one: rows of one surface and side spread evenly from 15 % to 85 %. */
function evenStations(rows: readonly (readonly [string, RowDesign])[]): Map<string, number> {
  const stations = new Map<string, number>();
  for (const [name, row] of rows) {
    const fellows = rows.filter(([, other]) => other.on === row.on && (other.side ?? 'both') === (row.side ?? 'both'));
    const index = fellows.findIndex(([other]) => other === name);
    stations.set(name, 0.15 + (0.7 * (index + 0.5)) / fellows.length);
  }
  return stations;
}

/**
 * Which topology can serve a string at all temperatures: boost below the empty pack, buck above the full one.
 * cells - in series; cell - completed; battery - completed, or undefined
 */
export function suitableTopology(cells: number, cell: CompleteCell, battery: BatteryDesign | undefined): Topology {
  if (battery?.layout === undefined) return 'buck-boost';
  const { series } = battery.layout;
  const coldOpen = cells * (cell.openCircuitVoltage.value - 30 * cell.voltageCoefficient.value);
  const hotPower = cells * (cell.maximumPowerVoltage.value + 35 * cell.voltageCoefficient.value);
  if (coldOpen < 1.05 * series * (battery.emptyVoltage?.value ?? 3)) return 'boost';
  return hotPower > 1.05 * series * (battery.fullVoltage?.value ?? 4.2) ? 'buck' : 'buck-boost';
}

const SIZES: Readonly<Record<Topology, readonly ConverterName[]>> = {
  boost: ['boost 30 W', 'boost 80 W', 'boost 150 W'],
  buck: ['buck 80 W', 'buck 250 W'],
  'buck-boost': ['buck-boost 80 W'],
  direct: ['direct'],
};

function usualConverter(topology: Topology, power: number): ConverterName {
  const names = SIZES[topology];
  return names.find((name) => CONVERTERS[name].ratedPower >= power) ?? names.at(-1)!;
}

function completeConverter(
  log: Log,
  name: string,
  converter: ConverterDesign,
  suited: { topology: Topology; power: number },
): ConverterDesign {
  const path = `array.converters.${name}`;
  const topology =
    converter.topology ?? (converter.like === undefined ? suited.topology : CONVERTERS[converter.like].topology);
  const usual = usualConverter(topology, suited.power);
  const like = orChoice(
    log,
    path,
    converter.like,
    usual,
    'no converter named; suits string voltage, battery and power',
  );
  const sheet = CONVERTERS[like];
  // A unit that is too small for its strings would be a decision nobody made: an assumed one is as large as needed.
  const grown = converter.like === undefined ? Math.max(1, (1.1 * suited.power) / sheet.ratedPower) : 1;
  const pick = (key: 'efficiency' | 'trackingEfficiency' | 'standbyPower' | 'mass', kind: 'ratio' | 'power' | 'mass') =>
    orDefault(log, `${path}.${keyOf(key)}`, converter[key], {
      kind,
      ...sheet[key],
      why: 'parts library',
      source: 'library',
    });
  const limit = (
    key: 'ratedPower' | 'outputCurrentLimit' | 'inputVoltageLow' | 'inputVoltageHigh',
    kind: 'power' | 'current' | 'voltage',
  ) => {
    const value = sheet[key] * (kind === 'voltage' ? 1 : grown);
    return orDefault(log, `${path}.${keyOf(key)}`, converter[key], {
      kind,
      value,
      sigma: 0,
      why: 'parts library',
      source: 'library',
    });
  };
  return {
    ...converter,
    like,
    topology,
    efficiency: pick('efficiency', 'ratio'),
    trackingEfficiency: pick('trackingEfficiency', 'ratio'),
    standbyPower: pick('standbyPower', 'power'),
    ratedPower: limit('ratedPower', 'power'),
    outputCurrentLimit: limit('outputCurrentLimit', 'current'),
    inputVoltageLow: limit('inputVoltageLow', 'voltage'),
    inputVoltageHigh: limit('inputVoltageHigh', 'voltage'),
    mass: pick('mass', 'mass'),
  };
}

type CompleteString = StringDesign & { readonly converter: string };

/** Strings as stated, or all rows in series; each with its converter. */
function completeStrings(log: Log, array: ArrayDesign): Readonly<Record<string, CompleteString>> {
  const stated = Object.entries(array.strings ?? {});
  if (stated.length === 0) {
    log.push({
      path: 'array.strings',
      what: 'choice',
      kind: 'choice',
      value: 'all rows in series',
      why: 'no strings stated',
    });
    stated.push(['all', { rows: Object.keys(array.rows) }]);
  }
  const only = Object.keys(array.converters ?? {});
  return Object.fromEntries(
    stated.map(([name, string]) => [
      name,
      { ...string, converter: string.converter ?? (only.length === 1 ? only[0]! : name) },
    ]),
  );
}

function completeConverters(
  log: Log,
  array: ArrayDesign,
  strings: Readonly<Record<string, CompleteString>>,
  context: { cell: CompleteCell; battery: BatteryDesign | undefined },
) {
  const { cell, battery } = context;
  const cellPower = cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
  const cellsOf = (string: StringDesign) =>
    string.rows.reduce((sum, row) => sum + (array.rows[row]?.cells.value ?? 0), 0);
  const names = [...new Set(Object.values(strings).map((string) => string.converter))];
  const entries = names.map((name) => {
    const served = Object.values(strings).filter((string) => string.converter === name);
    const power = served.reduce((sum, string) => sum + cellsOf(string) * cellPower, 0);
    const inSeries = cellsOf(served[0]!) / (served[0]!.parallel?.value ?? 1);
    const topology = suitableTopology(inSeries, cell, battery);
    return [name, completeConverter(log, name, array.converters?.[name] ?? {}, { topology, power })] as const;
  });
  return Object.fromEntries(entries);
}

/** The array with every number. */
export function completeArray(
  log: Log,
  array: ArrayDesign,
  surfaces: Surfaces,
  battery: BatteryDesign | undefined,
): ArrayDesign {
  const cell = completeCell(log, array.cell);
  const entries = Object.entries(array.rows);
  const stations = evenStations(entries);
  const rows = entries.map(
    ([name, row]) =>
      [name, completeRow(log, `array.rows.${name}`, row, { cell, surfaces, station: stations.get(name)! })] as const,
  );
  const strings = completeStrings(log, array);
  const transmittance = {
    kind: 'ratio',
    value: 0.96,
    sigma: 0.03,
    why: 'film, tabs and hand soldering, from memory',
  } as const;
  const arealMass = {
    kind: 'areal density',
    value: 0.26,
    sigma: 0.08,
    why: 'film, adhesive and backing, from memory',
  } as const;
  const dust = { kind: 'ratio', value: 0.02, sigma: 0.01, why: 'dust, dew and fingerprints, common practice' } as const;
  const wiring = {
    kind: 'resistance',
    value: 0.05,
    sigma: 0.02,
    why: 'a few metres of thin wire and two connectors',
  } as const;
  return {
    cell,
    rows: Object.fromEntries(rows),
    strings,
    converters: completeConverters(log, array, strings, { cell, battery }),
    lamination: {
      transmittance: orDefault(log, 'array.lamination.transmittance', array.lamination?.transmittance, transmittance),
      arealMass: orDefault(log, 'array.lamination.areal mass', array.lamination?.arealMass, arealMass),
    },
    dust: orDefault(log, 'array.dust', array.dust, dust),
    wiringResistance: orDefault(log, 'array.wiring resistance', array.wiringResistance, wiring),
  };
}
