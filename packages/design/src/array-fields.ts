import { CELLS, type CellName } from './library/cells.js';
import { CONVERTERS, type ConverterName } from './library/converters.js';
import {
  choice,
  flag,
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
    mostPieces: quantity('count', 'into how many equal strips it can be cut at most; 1: it cannot be cut', {
      bounds: { from: 1, to: 12 },
      step: '1',
    }),
    edgeLoss: quantity('ratio', 'share of the current at maximum power that cutting takes from a piece', {
      bounds: { from: 0, to: 0.3 },
      example: '1.5 % ± 0.5 %',
    }),
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
  face: labelled(
    'which face',
    choice(
      ['upper', 'lower', 'both'],
      'which face of the surface; both shares the cells out, the lower ones see ground and low sun',
    ),
  ),
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
      quantity('count', 'how many cells, or pieces where they are cut', {
        bounds: { from: 1, to: 5000 },
        usual: { to: 400 },
        step: '1',
      }),
    ),
  ),
  gap: quantity('length', 'between neighbours; without it the room is shared out', {
    bounds: NOT_NEGATIVE,
    usual: { to: 0.05 },
    example: '2 mm',
  }),
  pieces: quantity('count', 'each cell is cut into so many equal strips: 1 whole, 2 halves, 3 thirds', {
    bounds: { from: 1, to: 12 },
    step: '1',
  }),
  turned: flag('the long side of a piece lies along the chord'),
  places: labelled(
    'places one by one',
    list(
      object('place of a cell', {
        along: required(
          quantityOf(['ratio', 'length'], 'its middle: share of the half span, or distance from the root', {
            bounds: NOT_NEGATIVE,
            example: '180 mm',
          }),
        ),
        chordStation: required(quantity('ratio', 'chord station of its middle', { bounds: SHARE, example: '45 %' })),
      }),
      'middles of the cells of one side, in place of an even row',
      1,
      'cell',
    ),
  ),
});

const cellNumber = (help: string) => quantity('count', help, { bounds: { from: 1, to: 5000 }, step: '1' });

const stringField = object('string: cells in series', {
  rows: required(list(text('name of a row'), 'rows wired in series', 1)),
  parallel: quantity('count', 'equal parallel strings that the rows are split into', { bounds: { from: 1, to: 100 } }),
  converter: text('name of the converter that it feeds'),
  cellsPerDiode: quantity('count', 'cells that share a bypass diode; without it there is none', {
    bounds: { from: 1, to: 5000 },
    example: '6',
    step: '1',
  }),
  diodes: list(
    object('bypass diode', {
      from: required(labelled('first cell (from)', cellNumber('first cell that it spans'))),
      to: required(labelled('last cell (to)', cellNumber('last cell that it spans'))),
    }),
    'bypass diodes by the cells that they span, counted along the wiring of one string from 1',
    1,
    'diode',
  ),
  blockingDiode: quantity(
    'voltage',
    'forward voltage of a diode in series with each string; without it there is none',
    {
      bounds: { from: 0, to: 2 },
      example: '0.4 V',
    },
  ),
  cracked: list(
    object('cracked cell', {
      cell: required(cellNumber('which cell, counted along the wiring through all parallel strings')),
      lostArea: quantity('ratio', 'share of its area that is cut off', {
        bounds: { from: 0, to: 0.99 },
        example: '20 %',
      }),
      contactResistance: quantity('resistance', 'what lost fingers or a torn tab add in series', {
        bounds: NOT_NEGATIVE,
        example: '10 mohm',
      }),
    }),
    'cells known to be cracked or torn',
    1,
    'cracked cell',
  ),
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
    tracking: choice(
      ['perturb and observe', 'fraction of open circuit', 'sweep'],
      'how it finds the best voltage; with it the tracker is run through a turn. A fixed voltage has its own field',
    ),
    openCircuitFraction: quantity('ratio', 'share of the open-circuit voltage that it holds', {
      bounds: { above: 0.3, to: 0.98 },
      example: '80 %',
    }),
    trackingPeriod: quantity('time', 'between steps, looks at the open circuit or sweeps', {
      bounds: { from: 0.001, to: 600 },
      example: '0.05 s',
    }),
    timeConstant: quantity('time', 'with which the input voltage follows what the tracker asks for', {
      bounds: { from: 0, to: 10 },
      example: '0.02 s',
    }),
    startVoltage: quantity('voltage', 'input voltage from which the tracker begins; without it from open circuit', {
      bounds: POSITIVE,
    }),
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
    edge: quantity('length', 'height of cells and film over the skin at their front edge; 0 mm in a recess', {
      bounds: NOT_NEGATIVE,
      usual: { to: 0.002 },
      example: '0.3 mm',
    }),
  }),
  laid: labelled(
    'how cells lie',
    choice(['along the surface', 'flat'], 'bent along the upper surface, or stiff and flat, which makes facets of it'),
  ),
  dust: quantity('ratio', 'share of the light that dust, dew and fingerprints take', {
    bounds: SHARE,
    example: '2 % ± 1 %',
  }),
  jointResistance: quantity('resistance', 'tab and solder joint of each cell in its string', {
    bounds: NOT_NEGATIVE,
    usual: { to: 0.02 },
    example: '2.5 mohm',
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
