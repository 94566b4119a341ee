import type { ArrayDesign } from '../aircraft.js';
import type { CellDesign, ConverterDesign, RowDesign } from '../array-fields.js';
import { CELLS, type CellSheet } from '../library/cells.js';
import { CONVERTERS, type ConverterName, type Topology } from '../library/converters.js';
import type { KindedValue, Valued } from '../schema/field.js';
import { panelLength } from './airframe.js';
import { type Log, orChoice, orDefault, withSpread } from './assumptions.js';
import type {
  CompleteArray,
  CompleteBattery,
  CompleteCell,
  CompleteConverter,
  CompleteRow,
  CompleteString,
  CompleteSurface,
} from './types.js';

/** A temperature coefficient in the unit of the quantity, from per cent of it where it is written so. */
function coefficient(given: KindedValue | undefined, of: Valued): Valued | undefined {
  if (given === undefined || given.kind !== 'ratio per kelvin') return given;
  return {
    value: given.value * of.value,
    ...(given.sigma === undefined ? {} : { sigma: Math.abs(given.sigma * of.value) }),
    source: given.source,
  };
}

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
    currentCoefficient: orDefault(
      log,
      'array.cell.current coefficient',
      coefficient(stated.currentCoefficient, shortCircuitCurrent),
      { kind: 'current per kelvin', ...sheet.currentCoefficient, why: usual, source: 'library' },
    ),
    voltageCoefficient: orDefault(
      log,
      'array.cell.voltage coefficient',
      coefficient(stated.voltageCoefficient, openCircuitVoltage),
      { kind: 'voltage per kelvin', ...sheet.voltageCoefficient, why: usual, source: 'library' },
    ),
    mass: pick('mass', 'mass', 'mass', 0.05),
    bendRadius: pick('bendRadius', 'length', 'bend radius', 0.2),
  };
}

const share = (place: KindedValue, halfSpan: number): number =>
  place.kind === 'ratio' ? place.value : place.value / halfSpan;

function completeRow(
  log: Log,
  entry: { name: string; row: RowDesign; station: number },
  cell: CompleteCell,
  surfaces: readonly CompleteSurface[],
): CompleteRow {
  const { name, row } = entry;
  const path = `array.rows.${name}`;
  const surface = surfaces.find((candidate) => candidate.name === row.on);
  const side = row.side ?? (surface?.mirrored === false ? 'right' : 'both');
  const perHalf = side === 'both' ? row.cells.value / 2 : row.cells.value;
  const needed = perHalf * (cell.length.value + 0.002);
  const half = surface === undefined ? needed : panelLength(surface.stations);
  const from = orDefault(log, `${path}.from`, row.from, {
    kind: 'ratio',
    value: Math.max(0, Math.min(0.03, 1 - needed / half)),
    sigma: 0.02,
    why: 'starts beside the root',
  });
  const start = share({ kind: 'ratio', ...from } as KindedValue, half);
  const to = orDefault(log, `${path}.to`, row.to, {
    kind: 'ratio',
    value: Math.min(1, start + needed / half),
    sigma: 0.02,
    why: 'cells side by side with 2 mm between them',
  });
  return {
    name,
    on: row.on,
    side,
    face: row.face ?? 'upper',
    from: start,
    to: share({ kind: 'ratio', ...to } as KindedValue, half),
    chordStation: orDefault(log, `${path}.chord station`, row.chordStation, {
      kind: 'ratio',
      value: entry.station,
      sigma: 0.05,
      why: 'rows spread evenly over the chord',
    }),
    cells: row.cells.value,
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

/** Which topology can serve a string at all temperatures: boost below the empty pack, buck above the full one. */
export function suitableTopology(cells: number, cell: CompleteCell, battery: CompleteBattery | undefined): Topology {
  if (battery === undefined) return 'buck-boost';
  const coldOpen = cells * (cell.openCircuitVoltage.value - 30 * cell.voltageCoefficient.value);
  const hotPower = cells * (cell.maximumPowerVoltage.value + 35 * cell.voltageCoefficient.value);
  if (coldOpen < 1.05 * battery.series * battery.emptyVoltage.value) return 'boost';
  return hotPower > 1.05 * battery.series * battery.fullVoltage.value ? 'buck' : 'buck-boost';
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
  suited: { topology: Topology; power: number; openVoltage: number },
): CompleteConverter {
  const path = `array.converters.${name}`;
  const topology =
    converter.topology ?? (converter.like === undefined ? suited.topology : CONVERTERS[converter.like].topology);
  const like = orChoice(
    log,
    path,
    converter.like,
    usualConverter(topology, suited.power),
    'no converter named; suits string voltage, battery and power',
  );
  const sheet = CONVERTERS[like];
  const pick = (
    key: 'efficiency' | 'trackingEfficiency' | 'standbyPower' | 'mass',
    kind: 'ratio' | 'power' | 'mass',
    words: string,
  ) =>
    orDefault(log, `${path}.${words}`, converter[key], {
      kind,
      ...sheet[key],
      why: 'parts library',
      source: 'library',
    });
  // A unit that is too small for its strings would be a decision nobody made: an assumed one is as large as needed.
  const free = converter.like === undefined;
  const grown = free ? Math.max(1, (1.1 * suited.power) / sheet.ratedPower) : 1;
  const opened = free ? 1.1 * suited.openVoltage : 0;
  const limit = (
    key: 'ratedPower' | 'outputCurrentLimit' | 'inputVoltageLow' | 'inputVoltageHigh',
    kind: 'power' | 'current' | 'voltage',
    words: string,
  ) =>
    orDefault(log, `${path}.${words}`, converter[key], {
      kind,
      value: key === 'inputVoltageHigh' ? Math.max(sheet[key], opened) : sheet[key] * (kind === 'voltage' ? 1 : grown),
      sigma: 0,
      why: 'parts library',
      source: 'library',
    });
  return {
    name,
    topology,
    efficiency: pick('efficiency', 'ratio', 'efficiency'),
    trackingEfficiency: pick('trackingEfficiency', 'ratio', 'tracking efficiency'),
    standbyPower: pick('standbyPower', 'power', 'standby power'),
    ratedPower: limit('ratedPower', 'power', 'rated power'),
    outputCurrentLimit: limit('outputCurrentLimit', 'current', 'output current limit'),
    ...(converter.outputVoltage === undefined ? {} : { outputVoltage: converter.outputVoltage }),
    inputVoltageLow: limit('inputVoltageLow', 'voltage', 'input voltage low'),
    inputVoltageHigh: limit('inputVoltageHigh', 'voltage', 'input voltage high'),
    ...(converter.fixedInputVoltage === undefined ? {} : { fixedInputVoltage: converter.fixedInputVoltage }),
    mass: pick('mass', 'mass', 'mass'),
  };
}

function completeStrings(log: Log, array: ArrayDesign, rows: readonly CompleteRow[]): readonly CompleteString[] {
  const stated = Object.entries(array.strings ?? {});
  if (stated.length === 0) {
    log.push({
      path: 'array.strings',
      what: 'choice',
      kind: 'choice',
      value: 'all rows in series',
      why: 'no strings stated',
    });
    stated.push(['all', { rows: rows.map((row) => row.name) }]);
  }
  const only = Object.keys(array.converters ?? {});
  return stated.map(([name, string]) => {
    const cells = rows.filter((row) => string.rows.includes(row.name)).reduce((sum, row) => sum + row.cells, 0);
    const parallel = string.parallel?.value ?? 1;
    return {
      name,
      rows: string.rows,
      parallel,
      cellsInSeries: cells / parallel,
      converter: string.converter ?? (only.length === 1 ? only[0]! : name),
    };
  });
}

/** The array with every number. */
export function completeArray(
  log: Log,
  array: ArrayDesign,
  surfaces: readonly CompleteSurface[],
  battery: CompleteBattery | undefined,
): CompleteArray {
  const cell = completeCell(log, array.cell);
  const entries = Object.entries(array.rows);
  const stations = evenStations(entries);
  const rows = entries.map(([name, row]) =>
    completeRow(log, { name, row, station: stations.get(name)! }, cell, surfaces),
  );
  const strings = completeStrings(log, array, rows);
  const cellPower = cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
  const converters = [...new Set(strings.map((string) => string.converter))].map((name) => {
    const served = strings.filter((string) => string.converter === name);
    const power = served.reduce((sum, string) => sum + string.cellsInSeries * string.parallel * cellPower, 0);
    const topology = suitableTopology(served[0]!.cellsInSeries, cell, battery);
    const openVoltage = served[0]!.cellsInSeries * cell.openCircuitVoltage.value;
    return completeConverter(log, name, array.converters?.[name] ?? {}, { topology, power, openVoltage });
  });
  return {
    cell,
    rows,
    strings,
    converters,
    transmittance: orDefault(log, 'array.lamination.transmittance', array.lamination?.transmittance, {
      kind: 'ratio',
      value: 0.96,
      sigma: 0.03,
      why: 'film, tabs and hand soldering, from memory',
    }),
    laminationArealMass: orDefault(log, 'array.lamination.areal mass', array.lamination?.arealMass, {
      kind: 'areal density',
      value: 0.26,
      sigma: 0.08,
      why: 'film, adhesive and backing, from memory',
    }),
    dust: orDefault(log, 'array.dust', array.dust, {
      kind: 'ratio',
      value: 0.02,
      sigma: 0.01,
      why: 'dust, dew and fingerprints, common practice',
    }),
    wiringResistance: orDefault(log, 'array.wiring resistance', array.wiringResistance, {
      kind: 'resistance',
      value: 0.05,
      sigma: 0.02,
      why: 'a few metres of thin wire and two connectors',
    }),
  };
}
