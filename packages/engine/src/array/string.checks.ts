import type { Check } from '../check.js';
import { currentAtVoltage, type DiodeCurve } from './cell.js';
import { boltzmannOverCharge, standardTemperature } from './constants.js';
import { backContactBreakdown, backContactCell, frontContactBreakdown } from './reference.js';
import { groupStates, type LightString, type SeriesString, seriesString, stringCurrentAtVoltage } from './string.js';
import { parallelMaxima, stringMaxima, stringMaximumPowerPoint } from './string-maximum.js';
import { type CellParameters, cellAt } from './translate.js';

const bishop = 'Bishop, Solar Cells 25, 1988, with De Soto translation; scenario defined here';
const gallery = 'cell and scenario: public reference values; power from Bishop, Solar Cells 25, 1988';

function row(fields: Omit<Check, 'topic' | 'provenance' | 'why'> & Partial<Check>): Check {
  return {
    topic: 'string',
    provenance: 'recomputed from the published formula',
    why: '2e-3 of the power: the comparison sampled its curves',
    ...fields,
  };
}

const temperature = standardTemperature;
const cell: CellParameters = { ...backContactCell, breakdown: backContactBreakdown };
const bypass = { forwardVoltage: 0.5 };

/** Twelve cells in series, the first in another light, with a bypass over every `span` cells. */
function twelveCells(irradiance: number, span: number): SeriesString {
  const substrings: NonNullable<LightString['substrings']> = Array.from({ length: 12 / span }, (_, k) => ({
    bypass,
    groups:
      k === 0
        ? [
            { count: 1, irradiance, temperature },
            { count: span - 1, irradiance: 1000, temperature },
          ]
        : [{ count: span, irradiance: 1000, temperature }],
  }));
  return seriesString({ cell, substrings });
}

const twelveRows: readonly Check[] = (
  [
    [1000, 12, 41.064],
    [900, 12, 39.669],
    [900, 6, 39.669],
    [900, 3, 39.669],
    [500, 12, 23.807],
    [500, 6, 23.807],
    [500, 3, 27.855],
    [200, 12, 9.776],
    [200, 6, 17.593],
    [200, 3, 27.855],
    [100, 12, 6.993],
    [100, 6, 17.593],
    [100, 3, 27.855],
    [0, 12, 6.505],
    [0, 6, 17.593],
    [0, 3, 27.855],
  ] as const
).map(([irradiance, span, power]) =>
  row({
    id: `string-twelve-${irradiance}-span-${span}`,
    quantity: `greatest power of 12 cells, one at ${irradiance} W/m2, a bypass per ${span}`,
    expected: power,
    unit: 'W',
    tolerance: power * 2e-3,
    source: bishop,
    calls: 'stringMaximumPowerPoint',
    compute: () => stringMaximumPowerPoint(twelveCells(irradiance, span)).power,
  }),
);

const trapRows: readonly Check[] = (
  [
    [500, 6, 17.593],
    [200, 3, 9.776],
    [100, 12, 4.918],
    [100, 6, 4.918],
    [200, 12, 7.146],
    [200, 6, 9.776],
    [500, 3, 23.807],
    [500, 12, 7.639],
  ] as const
).map(([irradiance, span, power]) =>
  row({
    id: `string-trap-${irradiance}-span-${span}`,
    quantity: `second maximum of 12 cells, one at ${irradiance} W/m2, a bypass per ${span}`,
    expected: power,
    unit: 'W',
    tolerance: power * 2e-3,
    source: bishop,
    calls: 'stringMaxima',
    compute: () => stringMaxima(twelveCells(irradiance, span))[1]?.power ?? Number.NaN,
  }),
);

const hotSpotRows: readonly Check[] = [
  row({
    id: 'string-hot-spot-power',
    quantity: 'heat in the cell at 200 W/m2 of a shorted 12-cell string without bypass',
    expected: 33.6,
    unit: 'W',
    tolerance: 0.07,
    source: bishop,
    calls: 'groupStates',
    compute: () => -hotSpot().power,
  }),
  row({
    id: 'string-hot-spot-voltage',
    quantity: 'voltage of that cell',
    expected: -5.43,
    unit: 'V',
    tolerance: 0.01,
    why: '0.01 V on location',
    source: bishop,
    calls: 'groupStates',
    compute: () => hotSpot().voltage,
  }),
];

/** State of the dim cell in a shorted string. */
function hotSpot(): { readonly power: number; readonly voltage: number } {
  const string = seriesString({
    cell,
    groups: [
      { count: 1, irradiance: 200, temperature },
      { count: 11, irradiance: 1000, temperature },
    ],
  });
  return groupStates(string, stringCurrentAtVoltage(string, 0))[0]!;
}

const halfWing = (irradiance: number): SeriesString =>
  seriesString({ cell, groups: [{ count: 12, irradiance, temperature }] });

const wingToWing = (clamped: boolean): SeriesString =>
  seriesString({
    cell,
    substrings: [1000, 500].map((irradiance) => ({
      groups: [{ count: 12, irradiance, temperature }],
      ...(clamped ? { bypass } : {}),
    })),
  });

const wingRows: readonly Check[] = [
  row({
    id: 'string-wings-parallel',
    quantity: 'two half-wing strings of 12 at 1000 and 500 W/m2 in parallel',
    expected: 61.32,
    unit: 'W',
    tolerance: 0.06,
    why: '1e-3 of the power',
    source: bishop,
    calls: 'parallelMaxima',
    compute: () => parallelMaxima({ strings: [halfWing(1000), halfWing(500)] })[0]?.power ?? Number.NaN,
  }),
  row({
    id: 'string-wings-series',
    quantity: 'the same cells in series',
    expected: 43.894,
    unit: 'W',
    tolerance: 0.044,
    why: '1e-3 of the power',
    source: bishop,
    calls: 'stringMaximumPowerPoint',
    compute: () => stringMaximumPowerPoint(wingToWing(false)).power,
  }),
  row({
    id: 'string-wings-series-trap',
    quantity: 'second maximum in series with a bypass per 12',
    expected: 38.119,
    unit: 'W',
    tolerance: 0.038,
    why: '1e-3 of the power',
    source: bishop,
    calls: 'stringMaxima',
    compute: () => stringMaxima(wingToWing(true))[1]?.power ?? Number.NaN,
  }),
];

const frontContact: CellParameters = {
  ...backContactCell,
  photocurrent: 8.24,
  saturationCurrent: 2.36e-9,
  seriesResistance: 0.00181,
  shuntResistance: 1000,
  modifiedIdeality: 1.3 * boltzmannOverCharge * standardTemperature,
  currentTemperatureCoefficient: 0,
  breakdown: frontContactBreakdown,
};

/** Module of 72 cells in three bypassed columns of 12 rows by 2, shaded from the bottom. */
function shadedModule(fraction: number): SeriesString {
  const groups = Array.from({ length: 12 }, (_, row) => {
    const shaded = Math.min(Math.max(fraction * 12 - row, 0), 1);
    return { count: 2, irradiance: 200 + 800 * (1 - shaded), temperature };
  });
  return seriesString({ cell: frontContact, substrings: [0, 1, 2].map(() => ({ groups, bypass })) });
}

const moduleRows: readonly Check[] = (
  [
    [0, 349.263, undefined],
    [1 / 12, 83.23, undefined],
    [0.1, 83.157, undefined],
    [
      1,
      58.335,
      'The expected point (37.667 V, 1.5487 A) lies below the curve of the stated cell: at 37.667 / 72 V that cell gives 1.632 A at 200 W/m2. The row with one shaded row agrees to 1e-5 with the same curve at 200 W/m2, so the listed value seems to be a coarse interpolation.',
    ],
  ] as const
).map(([fraction, power, miss]) =>
  row({
    id: `string-module-shade-${fraction.toFixed(4)}`,
    quantity: `greatest power of a 72-cell module with ${fraction.toFixed(4)} of its height shaded`,
    expected: power,
    unit: 'W',
    tolerance: power * 2e-3,
    source: gallery,
    calls: 'stringMaximumPowerPoint',
    compute: () => stringMaximumPowerPoint(shadedModule(fraction)).power,
    ...(miss === undefined ? {} : { miss }),
  }),
);

const reverseRows: readonly Check[] = (
  [
    [1000, -5, 8.24502],
    [1000, -10, 8.25052],
    [1000, -12, 8.25494],
    [1000, -14, 8.34423],
    [200, -14, 1.66953],
  ] as const
).map(([irradiance, voltage, current]) =>
  row({
    id: `string-reverse-${irradiance}-${-voltage}`,
    quantity: `current of a front-contact cell at ${voltage} V, ${irradiance} W/m2`,
    expected: current,
    unit: 'A',
    tolerance: 1e-5,
    why: 'printed digits',
    source: gallery,
    calls: 'currentAtVoltage',
    compute: () => {
      const curve: DiodeCurve = cellAt(frontContact, { irradiance, temperature });
      return currentAtVoltage(curve, voltage);
    },
  }),
);

/** Checks of strings: mismatch, bypass, breakdown, wings in series and in parallel. */
export const stringChecks: readonly Check[] = [
  ...twelveRows,
  ...trapRows,
  ...hotSpotRows,
  ...wingRows,
  ...moduleRows,
  ...reverseRows,
];
