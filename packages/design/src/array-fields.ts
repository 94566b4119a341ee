import { CELLS, type CellName } from './library/cells.js';
import { CONVERTERS, type ConverterName } from './library/converters.js';
import {
  choice,
  labelled,
  list,
  NOT_NEGATIVE,
  object,
  POSITIVE,
  quantity,
  quantityOf,
  type Read,
  record,
  required,
  SHARE,
  shortForm,
  text,
} from './schema/field.js';

const cellNames = Object.keys(CELLS) as CellName[];
const converterNames = Object.keys(CONVERTERS) as ConverterName[];

const cellField = shortForm(
  'solar cell: a name of the parts library, or its data sheet',
  choice(cellNames, 'cell of the parts library'),
  object('data sheet of a solar cell at 1000 W/m2 and 25 degC', {
    like: labelled('start from (like)', choice(cellNames, 'cell of the parts library to start from')),
    length: quantity('length', 'size along the row', { bounds: POSITIVE, example: '125 mm' }),
    width: quantity('length', 'size across the row', { bounds: POSITIVE, example: '125 mm' }),
    area: quantity('area', 'lit area, cut corners left out', { bounds: POSITIVE, example: '153 cm2' }),
    shortCircuitCurrent: quantity('current', 'short-circuit current', { bounds: POSITIVE, example: '6.27 A' }),
    openCircuitVoltage: quantity('voltage', 'open-circuit voltage', { bounds: POSITIVE, example: '0.686 V' }),
    maximumPowerCurrent: quantity('current', 'current at maximum power', { bounds: POSITIVE, example: '5.90 A' }),
    maximumPowerVoltage: quantity('voltage', 'voltage at maximum power', { bounds: POSITIVE, example: '0.58 V' }),
    currentCoefficient: quantityOf(
      ['current per kelvin', 'ratio per kelvin'],
      'change of short-circuit current with temperature',
      { example: '0.05 %/K' },
    ),
    voltageCoefficient: quantityOf(
      ['voltage per kelvin', 'ratio per kelvin'],
      'change of open-circuit voltage with temperature',
      {
        bounds: { to: 0 },
        example: '-0.29 %/K',
      },
    ),
    mass: quantity('mass', 'mass of a cell with its tabs', { bounds: POSITIVE, example: '7.8 g' }),
    bendRadius: quantity('length', 'least bend radius', { bounds: POSITIVE }),
  }),
  (like) => ({ like }),
  (full) => (Object.keys(full).length === 1 ? full.like : undefined),
);

const rowField = object('row of cells', {
  on: required(labelled('lies on (on)', text('name of the surface that carries it'))),
  side: labelled(
    'which side',
    choice(['both', 'right', 'left'], 'which half of the surface; both counts the cells of both halves together'),
  ),
  face: labelled('which face', choice(['upper', 'lower'], 'which face of the surface')),
  from: labelled(
    'inner end (from)',
    quantityOf(['ratio', 'length'], 'inner end: share of the half span, or distance from the root', {
      bounds: NOT_NEGATIVE,
      example: '5 %',
    }),
  ),
  to: labelled(
    'outer end (to)',
    quantityOf(['ratio', 'length'], 'outer end: share of the half span, or distance from the root', {
      bounds: POSITIVE,
      example: '60 %',
    }),
  ),
  chordStation: quantity('ratio', 'chord station of the middle of the row', {
    bounds: SHARE,
    example: '45 %',
    step: '5 %',
  }),
  cells: required(
    labelled(
      'number of cells',
      quantity('count', 'how many cells', { bounds: { from: 1, to: 5000 }, usual: { to: 400 }, step: '1' }),
    ),
  ),
});

const stringField = object('string: cells in series', {
  rows: required(list(text('name of a row'), 'rows wired in series', 1)),
  parallel: quantity('count', 'equal parallel strings that the rows are split into', { bounds: { from: 1, to: 100 } }),
  converter: text('name of the converter that it feeds'),
  cellsPerDiode: quantity('count', 'cells that share a bypass diode; without it there is none', {
    bounds: { from: 1, to: 5000 },
    example: '6',
    step: '1',
  }),
});

const converterField = shortForm(
  'converter (MPPT): a name of the parts library, or its data',
  choice(converterNames, 'converter of the parts library'),
  object('converter (MPPT)', {
    like: labelled('start from (like)', choice(converterNames, 'converter of the parts library to start from')),
    topology: choice(
      ['boost', 'buck', 'buck-boost', 'direct'],
      'boost: string below battery voltage; buck: above; direct: none',
    ),
    efficiency: quantity('ratio', 'best conversion efficiency', { bounds: { above: 0, to: 1 }, example: '95 % ± 2 %' }),
    trackingEfficiency: quantity('ratio', 'share of the available power that it finds', {
      bounds: { above: 0, to: 1 },
    }),
    standbyPower: quantity('power', 'drawn at all times', { bounds: NOT_NEGATIVE, example: '60 mW' }),
    ratedPower: quantity('power', 'rated power', { bounds: POSITIVE }),
    outputCurrentLimit: quantity('current', 'greatest output current', { bounds: POSITIVE }),
    outputVoltage: quantity('voltage', 'voltage at which it stops charging', { bounds: POSITIVE, example: '12.5 V' }),
    inputVoltageLow: quantity('voltage', 'least input voltage', { bounds: NOT_NEGATIVE }),
    inputVoltageHigh: quantity('voltage', 'greatest input voltage', { bounds: POSITIVE }),
    fixedInputVoltage: quantity('voltage', 'holds the array at this voltage instead of tracking', { bounds: POSITIVE }),
    mass: quantity('mass', 'mass', { bounds: POSITIVE }),
  }),
  (like) => ({ like }),
  (full) => (Object.keys(full).length === 1 ? full.like : undefined),
);

export const arrayField = object('solar array', {
  cell: cellField,
  rows: required(record(rowField, 'rows of cells by name', 'row of cells')),
  strings: record(stringField, 'strings by name; without it all rows are one string', 'string'),
  converters: record(converterField, 'converters by name', 'converter'),
  lamination: object('film over the cells', {
    transmittance: quantity('ratio', 'share of the cell power that is left after film, tabs and soldering', {
      bounds: { above: 0, to: 1.05 },
      example: '96 % ± 3 %',
    }),
    arealMass: quantity('areal density', 'film and adhesive', { bounds: NOT_NEGATIVE, example: '260 g/m2' }),
  }),
  dust: quantity('ratio', 'share of the light that dust, dew and fingerprints take', {
    bounds: SHARE,
    example: '2 % ± 1 %',
  }),
  wiringResistance: quantity('resistance', 'leads and connectors of each string, out and back', {
    bounds: NOT_NEGATIVE,
    example: '40 mohm',
  }),
});

export type ArrayDesign = Read<typeof arrayField>;
export type CellDesign = Read<typeof cellField>;
export type RowDesign = Read<typeof rowField>;
export type StringDesign = Read<typeof stringField>;
export type ConverterDesign = Read<typeof converterField>;
