import type { QuantityKind } from '@noonwing/quantities';
import type { ArrayDesign } from '../aircraft.js';
import type { CellDesign, ConverterDesign, RowDesign, StringDesign } from '../array-fields.js';
import { CELLS, type CellSheet } from '../library/cells.js';
import { CONVERTERS, type ConverterName, type ConverterSheet, type Topology } from '../library/converters.js';
import { type KindedValue, keyOf, type Valued } from '../schema/field.js';
import { panelLength } from './airframe.js';
import { fromLibrary, type Log, orChoice, orDefault, usual, withSpread } from './assumptions.js';
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

type SheetKey =
  | 'length'
  | 'width'
  | 'mass'
  | 'bendRadius'
  | 'shortCircuitCurrent'
  | 'openCircuitVoltage'
  | 'maximumPowerCurrent'
  | 'maximumPowerVoltage';

/** Kind of a line of the data sheet, and the scatter of cells of one kind about a stated value. */
const SHEET: Readonly<Record<SheetKey, readonly [QuantityKind, number]>> = {
  length: ['length', 0.003],
  width: ['length', 0.003],
  mass: ['mass', 0.05],
  bendRadius: ['length', 0.2],
  shortCircuitCurrent: ['current', 0.015],
  openCircuitVoltage: ['voltage', 0.007],
  maximumPowerCurrent: ['current', 0.015],
  maximumPowerVoltage: ['voltage', 0.01],
};

function sheetLine(log: Log, stated: CellDesign, sheet: CellSheet, key: SheetKey): Valued {
  const [kind, scatter] = SHEET[key];
  const path = `array.cell.${keyOf(key)}`;
  const given = stated[key];
  if (given === undefined) return orDefault(log, path, undefined, fromLibrary(kind, sheet[key]));
  return withSpread(log, path, kind, given, { share: scatter }, 'scatter of cells of one kind');
}

/** What cutting takes from the current at maximum power. */
const EDGE = usual('ratio', 0.015, 0.005, 'edge of a laser cut, 1 to 2 %, from memory');

function completeCell(log: Log, stated: CellDesign, cut: boolean): CompleteCell {
  const why = 'no cell stated, or its sheet is not complete; the usual one on such aircraft';
  const like = orChoice(log, 'array.cell', stated.like, 'back-contact 125 mm', why);
  const sheet: CellSheet = CELLS[like];
  const line = (key: SheetKey) => sheetLine(log, stated, sheet, key);
  const [length, width] = [line('length'), line('width')];
  const shortCircuitCurrent = line('shortCircuitCurrent');
  const openCircuitVoltage = line('openCircuitVoltage');
  // The lit share of the outline stays that of the cell it started from, so that a cut strip need only state its size.
  const lit = (sheet.area.value / (sheet.length.value * sheet.width.value)) * length.value * width.value;
  const warmCurrent = coefficient(stated.currentCoefficient, shortCircuitCurrent);
  const warmVoltage = coefficient(stated.voltageCoefficient, openCircuitVoltage);
  const ofCurrent = fromLibrary('current per kelvin', sheet.currentCoefficient);
  const ofVoltage = fromLibrary('voltage per kelvin', sheet.voltageCoefficient);
  return {
    like,
    length,
    width,
    area: orDefault(log, 'array.cell.area', stated.area, fromLibrary('area', { value: lit, sigma: 0.007 * lit })),
    shortCircuitCurrent,
    openCircuitVoltage,
    maximumPowerCurrent: line('maximumPowerCurrent'),
    maximumPowerVoltage: line('maximumPowerVoltage'),
    currentCoefficient: orDefault(log, 'array.cell.current coefficient', warmCurrent, ofCurrent),
    voltageCoefficient: orDefault(log, 'array.cell.voltage coefficient', warmVoltage, ofVoltage),
    mass: line('mass'),
    bendRadius: line('bendRadius'),
    mostPieces: stated.mostPieces?.value ?? sheet.mostPieces,
    ...(cut ? { edgeLoss: orDefault(log, 'array.cell.edge loss', stated.edgeLoss, EDGE) } : {}),
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
  const perSide = side === 'both' ? row.cells.value / 2 : row.cells.value;
  const perHalf = row.face === 'both' ? Math.ceil(perSide / 2) : perSide;
  const pieces = row.pieces?.value ?? 1;
  const turned = row.turned ?? false;
  const length = turned ? cell.width.value / pieces : cell.length.value;
  const needed = perHalf * (length + (row.gap?.value ?? 0.002));
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
    pieces,
    turned,
    ...(row.gap === undefined ? {} : { gap: row.gap.value }),
    ...(row.places === undefined
      ? {}
      : {
          places: row.places.map(({ along, chordStation }) => ({
            along: share(along, half),
            station: chordStation.value,
          })),
        }),
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

/** Converter of the library that a builder would take for a topology and power [W]. */
export function usualConverter(topology: Topology, power: number): ConverterName {
  const names = SIZES[topology];
  return names.find((name) => CONVERTERS[name].ratedPower >= power) ?? names.at(-1)!;
}

interface Suited {
  readonly topology: Topology;
  /** Of all cells that it serves [W] */
  readonly power: number;
  /** Of its strings at 25 degC [V] */
  readonly openVoltage: number;
}

/** Limits of the converter; one that is only assumed is as large as its strings need. */
function converterLimits(log: Log, path: string, converter: ConverterDesign, sheet: ConverterSheet, suited: Suited) {
  // A unit that is too small for its strings would be a decision that nobody made.
  const free = converter.like === undefined;
  const grown = free ? Math.max(1, (1.1 * suited.power) / sheet.ratedPower) : 1;
  const high = free ? Math.max(sheet.inputVoltageHigh, 1.1 * suited.openVoltage) : sheet.inputVoltageHigh;
  const limit = (words: string, kind: QuantityKind, given: Valued | undefined, value: number) =>
    orDefault(log, `${path}.${words}`, given, fromLibrary(kind, { value, sigma: 0 }));
  return {
    ratedPower: limit('rated power', 'power', converter.ratedPower, grown * sheet.ratedPower),
    outputCurrentLimit: limit(
      'output current limit',
      'current',
      converter.outputCurrentLimit,
      grown * sheet.outputCurrentLimit,
    ),
    inputVoltageLow: limit('input voltage low', 'voltage', converter.inputVoltageLow, sheet.inputVoltageLow),
    inputVoltageHigh: limit('input voltage high', 'voltage', converter.inputVoltageHigh, high),
  };
}

const trackers = {
  'perturb and observe': usual('time', 0.05, 0.03, 'steps of a hill climber, common practice'),
  // Charger sheet: open circuit measured again every two minutes.
  'fraction of open circuit': usual('time', 120, 60, 'from the sheet of a charger'),
  sweep: usual('time', 10, 5, 'seconds between sweeps, common practice'),
};
const OPEN_FRACTION = usual('ratio', 0.8, 0.02, 'usual setting of such trackers, common practice');
const LAG = usual('time', 0.02, 0.01, '5 to 50 ms, common practice');

/** The tracker of a converter, where its method is stated. */
function trackerOf(log: Log, path: string, converter: ConverterDesign): Pick<CompleteConverter, 'tracker'> {
  const { tracking, startVoltage, openCircuitFraction } = converter;
  if (tracking === undefined || converter.fixedInputVoltage !== undefined) return {};
  const asked = tracking === 'fraction of open circuit';
  return {
    tracker: {
      method: tracking,
      openCircuitFraction: asked
        ? orDefault(log, `${path}.open circuit fraction`, openCircuitFraction, OPEN_FRACTION)
        : { value: OPEN_FRACTION.value, source: 'assumed' },
      period: orDefault(log, `${path}.tracking period`, converter.trackingPeriod, trackers[tracking]),
      timeConstant: orDefault(log, `${path}.time constant`, converter.timeConstant, LAG),
      ...(startVoltage === undefined ? {} : { startVoltage }),
    },
  };
}

function completeConverter(log: Log, name: string, converter: ConverterDesign, suited: Suited): CompleteConverter {
  const path = `array.converters.${name}`;
  const named = converter.like === undefined ? undefined : CONVERTERS[converter.like];
  const topology = converter.topology ?? named?.topology ?? suited.topology;
  const why = 'no converter named; suits string voltage, battery and power';
  const sheet = CONVERTERS[orChoice(log, path, converter.like, usualConverter(topology, suited.power), why)];
  const pick = (key: 'efficiency' | 'trackingEfficiency' | 'standbyPower' | 'mass', kind: QuantityKind) =>
    orDefault(log, `${path}.${keyOf(key)}`, converter[key], fromLibrary(kind, sheet[key]));
  return {
    name,
    topology,
    efficiency: pick('efficiency', 'ratio'),
    trackingEfficiency: pick('trackingEfficiency', 'ratio'),
    standbyPower: pick('standbyPower', 'power'),
    ...converterLimits(log, path, converter, sheet, suited),
    ...(converter.outputVoltage === undefined ? {} : { outputVoltage: converter.outputVoltage }),
    ...(converter.fixedInputVoltage === undefined ? {} : { fixedInputVoltage: converter.fixedInputVoltage }),
    ...trackerOf(log, path, converter),
    mass: pick('mass', 'mass'),
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
      ...(string.cellsPerDiode === undefined ? {} : { cellsPerDiode: string.cellsPerDiode.value }),
      ...extrasOf(string),
    };
  });
}

/** Diodes and damage of a string, as far as they are stated. */
function extrasOf({ diodes, blockingDiode, cracked }: StringDesign): Partial<CompleteString> {
  return {
    ...(diodes === undefined ? {} : { diodes: diodes.map(({ from, to }) => ({ from: from.value, to: to.value })) }),
    ...(blockingDiode === undefined ? {} : { blockingDiode }),
    ...(cracked === undefined
      ? {}
      : {
          cracked: cracked.map(({ cell, lostArea, contactResistance }) => ({
            cell: cell.value,
            lostArea: lostArea?.value ?? 0,
            contactResistance: contactResistance?.value ?? 0,
          })),
        }),
  };
}

type Context = {
  readonly cell: CompleteCell;
  readonly rows: readonly CompleteRow[];
  readonly battery: CompleteBattery | undefined;
};

/** Whole cells that a string is made of. */
const wholeCells = (string: CompleteString, rows: readonly CompleteRow[]): number =>
  rows.filter(({ name }) => string.rows.includes(name)).reduce((sum, { cells, pieces }) => sum + cells / pieces, 0);

function completeConverters(
  log: Log,
  array: ArrayDesign,
  strings: readonly CompleteString[],
  { cell, rows, battery }: Context,
): readonly CompleteConverter[] {
  const cellPower = cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
  return [...new Set(strings.map((string) => string.converter))].map((name) => {
    const served = strings.filter((string) => string.converter === name);
    const longest = Math.max(...served.map((string) => string.cellsInSeries));
    return completeConverter(log, name, array.converters?.[name] ?? {}, {
      topology: suitableTopology(longest, cell, battery),
      power: served.reduce((sum, string) => sum + wholeCells(string, rows) * cellPower, 0),
      openVoltage: longest * cell.openCircuitVoltage.value,
    });
  });
}

const FILM = usual('ratio', 0.96, 0.03, 'film, tabs and hand soldering, from memory');
const FILM_MASS = usual('areal density', 0.26, 0.08, 'film, adhesive and backing, from memory');
export const CELL_EDGE = usual('length', 0.0003, 0.0001, 'cell, adhesive and film on the skin, common practice');
const DUST = usual('ratio', 0.02, 0.01, 'dust, dew and fingerprints, common practice');
const JOINT = usual('resistance', 0.0025, 0.0006, 'tab and joint of a cell, 1.5 to 4 mohm, common practice');
const WIRING = usual('resistance', 0.05, 0.02, 'a few metres of thin wire and two connectors');

/** The array with every number. */
export function completeArray(
  log: Log,
  array: ArrayDesign,
  surfaces: readonly CompleteSurface[],
  battery: CompleteBattery | undefined,
): CompleteArray {
  const entries = Object.entries(array.rows);
  const cut = entries.some(([, { pieces }]) => (pieces?.value ?? 1) > 1);
  const cell = completeCell(log, array.cell ?? {}, cut);
  const stations = evenStations(entries);
  const rows = entries.map(([name, row]) =>
    completeRow(log, { name, row, station: stations.get(name)! }, cell, surfaces),
  );
  const strings = completeStrings(log, array, rows);
  const film = array.lamination;
  return {
    cell,
    rows,
    strings,
    converters: completeConverters(log, array, strings, { cell, rows, battery }),
    transmittance: orDefault(log, 'array.lamination.transmittance', film?.transmittance, FILM),
    laminationArealMass: orDefault(log, 'array.lamination.areal mass', film?.arealMass, FILM_MASS),
    edge: orDefault(log, 'array.lamination.edge', film?.edge, CELL_EDGE),
    laid: array.laid ?? 'along the surface',
    dust: orDefault(log, 'array.dust', array.dust, DUST),
    jointResistance: orDefault(log, 'array.joint resistance', array.jointResistance, JOINT),
    wiringResistance: orDefault(log, 'array.wiring resistance', array.wiringResistance, WIRING),
  };
}
