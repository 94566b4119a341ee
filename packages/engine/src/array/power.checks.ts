import type { Check } from '../check.js';
import { openCircuitVoltage } from './cell.js';
import { flightCellTemperature, plateHeatTransfer } from './cell-temperature.js';
import { type ArraySource, bestEfficiency, type ConverterLoss, convertedPower, stringSource } from './converter.js';
import { trackingFraction } from './converter-output.js';
import {
  faimanTemperature,
  groundCellTemperature,
  mountedTemperature,
  mountings,
  nominalOperatingTemperature,
  twoCoefficientTemperature,
} from './ground-temperature.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactCell } from './reference.js';
import { seriesString } from './string.js';
import { cellAt } from './translate.js';
import { californianWeights, europeanWeights, weightedEfficiency } from './weights.js';
import { gaugeArea, gaugeDiameter, wire, wireLoss } from './wire.js';

const zero = 273.15;
const formula = 'recomputed from the published formula' as const;

const loss: ConverterLoss = { fixed: 0.25, perAmpere: 0.15, resistance: 0.06 };

const lossRows: readonly Check[] = (
  [
    [1, 0.7423],
    [2, 0.8658],
    [5, 0.9393],
    [10, 0.9627],
    [20, 0.9725],
    [40, 0.9735],
    [60, 0.9705],
    [100, 0.9624],
  ] as const
).map(([power, expected]) => ({
  id: `converter-efficiency-${power}`,
  topic: 'converter',
  quantity: `efficiency at ${power} W in, 14.8 V out (0.25 W, 0.15 V, 0.06 ohm)`,
  expected,
  unit: '1',
  tolerance: 5.1e-5,
  why: 'printed digits',
  provenance: formula,
  source: 'quadratic loss model, common practice',
  calls: 'convertedPower',
  compute: () => convertedPower(loss, power, 14.8) / power,
}));

const bestRow: Check = {
  id: 'converter-best-efficiency',
  topic: 'converter',
  quantity: 'highest efficiency of the same converter',
  expected: 0.974008,
  unit: '1',
  tolerance: 5.1e-7,
  why: 'printed digits',
  provenance: formula,
  source: 'quadratic loss model, common practice',
  calls: 'bestEfficiency',
  compute: () => bestEfficiency(loss, 14.8).efficiency,
};

const oneCell = (irradiance: number, celsius: number): ArraySource =>
  stringSource(
    seriesString({ cell: backContactCell, groups: [{ count: 1, irradiance, temperature: celsius + zero }] }),
  );

const trackerRows: readonly Check[] = (
  [
    ['fraction', 0.7, 1000, 25, 0.86853],
    ['fraction', 0.7, 1000, 60, 0.90162],
    ['fraction', 0.7, 200, 25, 0.8509],
    ['fraction', 0.76, 1000, 25, 0.93806],
    ['fraction', 0.76, 1000, 60, 0.96609],
    ['fraction', 0.76, 200, 25, 0.92022],
    ['fraction', 0.8, 1000, 25, 0.97749],
    ['fraction', 0.8, 1000, 60, 0.99468],
    ['fraction', 0.8, 200, 25, 0.96199],
    ['fraction', 0.8125, 1000, 25, 0.98711],
    ['fraction', 0.8125, 1000, 60, 0.99894],
    ['fraction', 0.8125, 200, 25, 0.97336],
    ['fraction', 0.85, 1000, 25, 0.99968],
    ['fraction', 0.85, 1000, 60, 0.98837],
    ['fraction', 0.85, 200, 25, 0.99748],
    ['voltage', 0.54, 1000, 25, 0.96599],
    ['voltage', 0.54, 1000, 60, 0.91774],
    ['voltage', 0.54, 200, 25, 0.99322],
    ['voltage', 0.58, 1000, 25, 1],
    ['voltage', 0.58, 1000, 60, 0.53781],
  ] as const
).map(([kind, value, irradiance, celsius, expected]) => ({
  id: `converter-tracker-${kind}-${value}-${irradiance}-${celsius}`,
  topic: 'converter',
  quantity: `share of greatest power at ${kind === 'fraction' ? `${value} of open circuit` : `${value} V per cell`}, ${irradiance} W/m2, ${celsius} C`,
  expected,
  unit: '1',
  tolerance: 1e-5,
  why: 'printed digits',
  provenance: formula,
  source: 'single-diode equation (De Soto, Klein and Beckman 2006) on the generic 125 mm cell',
  calls: 'trackingFraction',
  compute: () =>
    trackingFraction(
      oneCell(irradiance, celsius),
      kind === 'fraction'
        ? { method: 'fraction of open circuit', fraction: value }
        : { method: 'fixed voltage', voltage: value },
    ),
}));

const headroomRows: readonly Check[] = (
  [
    [8, 1000, 25, 4.64, 5.49],
    [8, 1000, 60, 4.0, 4.86],
    [8, 200, 15, 4.64, 5.33],
    [12, 1000, 25, 6.96, 8.23],
    [12, 1000, 60, 6.0, 7.29],
    [12, 200, 15, 6.95, 7.99],
    [16, 1000, 25, 9.28, 10.98],
    [16, 1000, 60, 7.99, 9.73],
    [16, 200, 15, 9.27, 10.66],
    [20, 1000, 25, 11.6, 13.72],
    [20, 1000, 60, 9.99, 12.16],
    [20, 200, 15, 11.59, 13.32],
    [24, 1000, 25, 13.92, 16.46],
    [24, 1000, 60, 11.99, 14.59],
    [24, 200, 15, 13.91, 15.99],
    [32, 1000, 25, 18.56, 21.95],
    [32, 1000, 60, 15.99, 19.45],
    [32, 200, 15, 18.55, 21.32],
  ] as const
).flatMap(([count, irradiance, celsius, maximum, open]) => {
  const curve = () => cellAt(backContactCell, { irradiance, temperature: celsius + zero });
  const common = {
    topic: 'string',
    unit: 'V',
    tolerance: 0.0051,
    why: 'printed digits',
    provenance: formula,
    source: 'De Soto, Klein and Beckman 2006 on the generic 125 mm cell',
    calls: 'cellAt',
  };
  return [
    {
      ...common,
      id: `string-headroom-${count}-${irradiance}-${celsius}-maximum`,
      quantity: `voltage at maximum power of ${count} cells, ${irradiance} W/m2, ${celsius} C`,
      expected: maximum,
      compute: () => count * maximumPowerPoint(curve()).voltage,
    },
    {
      ...common,
      id: `string-headroom-${count}-${irradiance}-${celsius}-open`,
      quantity: `open-circuit voltage of ${count} cells, ${irradiance} W/m2, ${celsius} C`,
      expected: open,
      compute: () => count * openCircuitVoltage(curve()),
    },
  ];
});

/** Cold mornings: what a string on a boost converter must stay below. */
const coldRows: readonly Check[] = (
  [
    [0, 8.894],
    [-10, 9.157],
  ] as const
).map(([celsius, expected]) => ({
  id: `string-cold-${celsius}`,
  topic: 'string',
  quantity: `open-circuit voltage of 12 cells, 1000 W/m2, ${celsius} C`,
  expected,
  unit: 'V',
  tolerance: 0.0006,
  why: 'printed digits',
  provenance: formula,
  source: 'De Soto, Klein and Beckman 2006 on the generic 125 mm cell',
  calls: 'openCircuitVoltage',
  compute: () => 12 * openCircuitVoltage(cellAt(backContactCell, { irradiance: 1000, temperature: celsius + zero })),
}));

/** Efficiency by load of the worked example. */
const exampleEfficiency = new Map([
  [0.05, 0.86],
  [0.1, 0.905],
  [0.2, 0.935],
  [0.3, 0.945],
  [0.5, 0.955],
  [0.75, 0.953],
  [1, 0.945],
]);

const weightRows: readonly Check[] = (
  [
    ['European', europeanWeights, 0.94355],
    ['Californian', californianWeights, 0.94924],
  ] as const
).map(([name, weights, expected]) => ({
  id: `converter-weights-${name}`,
  topic: 'converter',
  quantity: `${name} weighted efficiency of a worked example`,
  expected,
  unit: '1',
  tolerance: 5.1e-6,
  why: 'printed digits',
  provenance: formula,
  source: 'EN 50530 and CEC protocol weights',
  calls: 'weightedEfficiency',
  compute: () => weightedEfficiency((load) => exampleEfficiency.get(load) ?? Number.NaN, weights),
}));

const flightRows: readonly Check[] = (
  [
    [8, 1, 48.26],
    [8, 0, 38.635],
    [10, 1, 46.26],
    [10, 0, 36.594],
    [15, 1, 42.957],
    [15, 0, 33.576],
  ] as const
).map(([airspeed, laminarFraction, expected]) => ({
  id: `cell-temperature-${airspeed}-${laminarFraction === 1 ? 'laminar' : 'turbulent'}`,
  topic: 'cell temperature',
  quantity: `cell temperature at ${airspeed} m/s, ${laminarFraction === 1 ? 'laminar' : 'turbulent'}, 1000 W/m2, 25 C air`,
  expected,
  unit: 'C',
  tolerance: 0.05,
  why: '0.05 K, far below the model uncertainty of 5 K',
  provenance: formula,
  source: 'flat-plate correlations of Incropera and DeWitt (from memory), sky of Swinbank 1963 (from memory)',
  calls: 'flightCellTemperature',
  compute: () =>
    flightCellTemperature({
      irradiance: 1000,
      air: { temperature: 298.15, pressure: 101325 },
      airspeed,
      length: 0.25,
      laminarFraction,
      heating: 'uniform temperature',
    }).temperature - zero,
}));

const plateRows: readonly Check[] = (
  [
    ['laminar', 1, 24.79],
    ['turbulent', 0, 49.959],
  ] as const
).map(([name, laminarFraction, expected]) => ({
  id: `cell-temperature-plate-${name}`,
  topic: 'cell temperature',
  quantity: `${name} heat transfer of a 0.25 m plate at 10 m/s, film at 303.15 K`,
  expected,
  unit: 'W/(m2 K)',
  tolerance: 0.0051,
  why: 'printed digits; 5e-3 also covers a specific heat of 1005 to 1007',
  provenance: formula,
  source: 'Incropera and DeWitt (from memory)',
  calls: 'plateHeatTransfer',
  compute: () =>
    plateHeatTransfer(
      {
        air: { temperature: 303.15, pressure: 101325 },
        airspeed: 10,
        length: 0.25,
        laminarFraction,
        heating: 'uniform temperature',
      },
      303.15,
    ),
}));

const ground = { irradiance: 900, airTemperature: 20 + zero, windSpeed: 5 };

const groundRow = (
  fields: Pick<Check, 'id' | 'quantity' | 'expected' | 'source' | 'calls' | 'compute'> & Partial<Check>,
): Check => ({
  topic: 'cell temperature',
  unit: 'C',
  tolerance: 0.00051,
  why: 'printed digits',
  provenance: 'published',
  ...fields,
});

const groundRows: readonly Check[] = [
  groundRow({
    id: 'cell-temperature-faiman',
    quantity: 'cell on the ground, 900 W/m2, 20 C, 5 m/s',
    expected: 35.203,
    provenance: 'recomputed from the published formula',
    source: 'Faiman, Prog. Photovolt. 16, 2008; public reference values of the formula',
    calls: 'faimanTemperature',
    compute: () => faimanTemperature(ground) - zero,
  }),
  groundRow({
    id: 'cell-temperature-standing-row',
    quantity: 'rise of cells on foam in still air, 1000 W/m2, above the air',
    unit: 'K',
    expected: 48,
    tolerance: 8,
    why: 'the stated uncertainty of both: the two-coefficient law has one loss for all weather',
    provenance: 'recomputed from the published formula',
    source:
      'two-coefficient law with 15 W/(m2 K) for an insulated back, 0.9 absorbed, efficiency 0.2 (from memory), after Faiman 2008',
    calls: 'groundCellTemperature',
    compute: () =>
      groundCellTemperature(
        { irradiance: 1000, airTemperature: 298.15, windSpeed: 0 },
        { length: 0.2, rearFraction: 0 },
      ) - 298.15,
  }),
  groundRow({
    id: 'cell-temperature-faiman-other',
    quantity: 'the same with coefficients 22 and 6',
    expected: 37.308,
    provenance: 'recomputed from the published formula',
    source: 'Faiman, Prog. Photovolt. 16, 2008; public reference values of the formula',
    calls: 'faimanTemperature',
    compute: () => faimanTemperature(ground, { constant: 22, wind: 6 }) - zero,
  }),
  groundRow({
    id: 'cell-temperature-two-coefficients',
    quantity: 'cell on the ground by two coefficients, 29 W/(m2 K)',
    expected: 45.137,
    tolerance: 0.001,
    why: 'the source cuts digits off instead of rounding: 20 + 0.9 x 0.9 x 900 / 29 = 45.1379',
    provenance: 'recomputed from the published formula',
    source: 'two-coefficient heat balance (T = Ta + a (1 - eta) G / U); public reference values of the formula',
    calls: 'twoCoefficientTemperature',
    compute: () => twoCoefficientTemperature(ground) - zero,
  }),
  groundRow({
    id: 'cell-temperature-nominal',
    quantity: 'cell with a nominal operating temperature of 50 C at 1000 W/m2, 30 C',
    expected: 67.5,
    source: 'IEC 61215 definition; Ross 1980',
    calls: 'nominalOperatingTemperature',
    compute: () => nominalOperatingTemperature({ irradiance: 1000, airTemperature: 30 + zero }, 50 + zero) - zero,
  }),
  groundRow({
    id: 'cell-temperature-open-rack',
    quantity: 'cell on an open rack, 900 W/m2, 20 C, 5 m/s',
    expected: 43.509,
    provenance: 'recomputed from the published formula',
    source: 'King, Boyson and Kratochvil, SAND2004-3535, 2004; public reference values of the formula',
    calls: 'mountedTemperature',
    compute: () => mountedTemperature(ground, mountings['open rack, glass and glass']).cell - zero,
  }),
];

const gaugeRows: readonly Check[] = (
  [
    [10, 0.9989],
    [14, 2.525],
    [18, 6.385],
    [20, 10.15],
    [24, 25.67],
    [30, 103.2],
  ] as const
).map(([gauge, expected]) => ({
  id: `wiring-gauge-${gauge}`,
  topic: 'wiring',
  quantity: `resistance of 1000 ft of AWG ${gauge} at 20 C`,
  expected,
  unit: 'ohm',
  tolerance: expected * 1e-3,
  why: 'the printed tables round diameter and resistance to four digits',
  provenance: 'published' as const,
  source: 'copper wire tables (NBS Handbook 100), as printed by HyperPhysics',
  calls: 'wire',
  compute: () => wire({ area: gaugeArea(gauge), length: 304.8, conductors: 1 }).resistance,
}));

const run = { area: gaugeArea(18), length: 1.5 };

const runRows: readonly Check[] = (
  [
    ['resistance', 62.84, 'mohm', 'wireLoss', () => loopLoss('resistance') * 1000, 0.0051],
    ['drop', 0.3142, 'V', 'wireLoss', () => loopLoss('voltageDrop'), 5.1e-5],
    ['power', 1.571, 'W', 'wireLoss', () => loopLoss('power'), 5.1e-4],
    ['copper', 21.95, 'g', 'wire', () => wire(run).copperMass * 1000, 0.0051],
    ['diameter', 1.0237, 'mm', 'gaugeDiameter', () => gaugeDiameter(18) * 1000, 5.1e-5],
  ] as const
).map(([name, expected, unit, calls, compute, tolerance]) => ({
  id: `wiring-run-${name}`,
  topic: 'wiring',
  quantity: `${name} of AWG 18, 1.5 m out and back, 5 A, 20 C`,
  expected,
  unit,
  tolerance,
  why: 'printed digits',
  provenance: formula,
  source: 'ASTM B258; IEC 60028; NBS Handbook 100',
  calls,
  compute,
}));

/** One loss figure of the run; NaN, which agrees with nothing, where the run is refused. */
function loopLoss(key: 'resistance' | 'voltageDrop' | 'power'): number {
  const outcome = wireLoss(run, 5);
  return outcome.ok ? outcome.value[key] : Number.NaN;
}

/** Checks of converter, cell temperature and wiring. */
export const powerChecks: readonly Check[] = [
  ...lossRows,
  bestRow,
  ...trackerRows,
  ...headroomRows,
  ...coldRows,
  ...weightRows,
  ...flightRows,
  ...plateRows,
  ...groundRows,
  ...gaugeRows,
  ...runRows,
];
