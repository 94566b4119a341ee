import type { Check } from '../check.js';
import { cellString, evenDiodes } from './cell-string.js';
import { standardTemperature } from './constants.js';
import { convertedPower } from './converter.js';
import { hotSpotAtCurrent } from './hot-spot.js';
import { longWireField, wirePairField } from './magnetic.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactBreakdown, backContactCell } from './reference.js';
import { type SeriesString, stringCurrentAtVoltage, stringOpenCircuitVoltage } from './string.js';
import { stringMaxima } from './string-maximum.js';
import { climbedMaximum, type TrackerRun, trackerCourse } from './tracker-course.js';
import { type CellParameters, cellAt } from './translate.js';

const cell: CellParameters = { ...backContactCell, breakdown: backContactBreakdown };
const temperature = standardTemperature;
const bishop = 'Bishop, Solar Cells 25, 1988, with De Soto translation; scenario defined here';

/** Twelve cells, the first in another light, a diode over every `span` cells. */
function twelve(irradiance: number, span: number): SeriesString {
  const cells = Array.from({ length: 12 }, (_, k) => ({ irradiance: k === 0 ? irradiance : 1000, temperature }));
  return cellString({ cell, diodes: evenDiodes(12, span), seriesResistance: 0 }, cells);
}

/** Mean power of a hill-climbing tracker in steady light, from open circuit, once it has come to rest [W]. */
function heldPower(string: SeriesString): number {
  const run: TrackerRun = {
    tracker: { method: 'perturb and observe', step: 0.02, period: 0.05 },
    stringAt: () => string,
    duration: 30,
    step: 0.025,
    timeConstant: 0,
  };
  const { power } = trackerCourse(run);
  const late = power.subarray(power.length / 2);
  return late.reduce((sum, value) => sum + value, 0) / late.length;
}

const trapRows: readonly Check[] = (
  [
    [500, 23.807],
    [200, 9.776],
    [100, 4.918],
  ] as const
).map(([irradiance, expected]) => ({
  id: `tracker-trap-${irradiance}`,
  topic: 'tracker',
  quantity: `power at which hill climbing from open circuit rests, 12 cells, one at ${irradiance} W/m2, a bypass per 3 (27.855 W is there)`,
  expected,
  unit: 'W',
  tolerance: 0.01 * expected,
  why: '2e-3 of the power, and the ripple of the steps of 0.02 V across a steep slope',
  provenance: 'recomputed from the published formula' as const,
  source: bishop,
  calls: 'trackerCourse',
  compute: () => heldPower(twelve(irradiance, 3)),
}));

const climbRow: Check = {
  id: 'tracker-climbed-maximum',
  topic: 'tracker',
  quantity:
    'maximum that a hill climber from open circuit reaches, 12 cells, one at 200 W/m2, a bypass per 6 (17.593 W is there)',
  expected: 9.776,
  unit: 'W',
  tolerance: 0.02,
  why: '2e-3 of the power: the comparison sampled its curves',
  provenance: 'recomputed from the published formula',
  source: bishop,
  calls: 'climbedMaximum',
  compute: () => {
    const string = twelve(200, 6);
    const at = (v: number) => v * stringCurrentAtVoltage(string, v);
    return climbedMaximum(stringMaxima(string), at, stringOpenCircuitVoltage(string))?.power ?? Number.NaN;
  },
};

const shadedRows: readonly Check[] = (
  [
    [3, 6.1],
    [5, 3.2],
    [6.38, 1.3],
  ] as const
).map(([voltage, expected]) => ({
  id: `string-hot-spot-at-${voltage}`,
  topic: 'string',
  quantity: `heat in the cell at 200 W/m2 of 12 cells without bypass, string held at ${voltage} V`,
  expected,
  unit: 'W',
  tolerance: 0.05,
  why: 'printed digits',
  provenance: 'recomputed from the published formula' as const,
  source: bishop,
  calls: 'hotSpotAtCurrent',
  compute: () => {
    const string = twelve(200, 0);
    return hotSpotAtCurrent(string, stringCurrentAtVoltage(string, voltage)).power;
  },
}));

const reverseRows: readonly Check[] = (
  [
    [0, -5.5465],
    [200, -5.4139],
    [500, -5.3173],
  ] as const
).map(([irradiance, expected]) => ({
  id: `string-shaded-cell-voltage-${irradiance}`,
  topic: 'string',
  quantity: `voltage of a cell at ${irradiance} W/m2 that carries 5 A`,
  expected,
  unit: 'V',
  tolerance: 0.01,
  why: '0.01 V on location',
  provenance: 'recomputed from the published formula' as const,
  source: bishop,
  calls: 'hotSpotAtCurrent',
  compute: () => hotSpotAtCurrent(twelve(irradiance, 0), 5).voltage,
}));

const staleRow: Check = {
  id: 'tracker-stale-open-circuit',
  topic: 'tracker',
  quantity: 'share of greatest power at 200 W/m2 held at 0.80 of the open-circuit voltage of 1000 W/m2',
  expected: 0.99869,
  unit: '1',
  tolerance: 1e-5,
  why: 'printed digits',
  provenance: 'recomputed from the published formula',
  source: 'single-diode equation (De Soto, Klein and Beckman 2006) on the generic 125 mm cell',
  calls: 'cellString',
  compute: () => {
    const one = (irradiance: number) => cellString({ cell, seriesResistance: 0 }, [{ irradiance, temperature }]);
    const voltage = 0.8 * stringOpenCircuitVoltage(one(1000));
    const dim = cellAt(cell, { irradiance: 200, temperature });
    return (voltage * stringCurrentAtVoltage(one(200), voltage)) / maximumPowerPoint(dim).power;
  },
};

const sweepRow: Check = {
  id: 'tracker-sweep-cost',
  topic: 'tracker',
  quantity: 'share of power that a sweep of 0.2 s every 2 s costs in steady light',
  expected: 0.05,
  unit: '1',
  tolerance: 0.015,
  why: 'the rule (sweep time / period) x about 50 % is itself rounded',
  provenance: 'common practice',
  source: 'rule of thumb for global scans',
  calls: 'trackerCourse',
  compute: () =>
    1 -
    trackerCourse({
      tracker: { method: 'sweep', period: 2, duration: 0.2 },
      stringAt: () => sound,
      duration: 20,
      step: 0.005,
      timeConstant: 0.002,
    }).share,
};

const sound = twelve(1000, 0);

const pauseRow: Check = {
  id: 'tracker-look-cost',
  topic: 'tracker',
  quantity: 'share of power lost by an open-circuit look of 300 ms every 2 min, beside the fraction of 0.8125',
  expected: 1 - 0.98711 * (1 - 0.3 / 120.3),
  unit: '1',
  tolerance: 5e-4,
  why: 'the lag and the time steps take a little more than the pause',
  provenance: 'recomputed from the published formula',
  source:
    'single-diode equation (De Soto, Klein and Beckman 2006) on the generic 125 mm cell; timing of a charger sheet',
  calls: 'trackerCourse',
  compute: () =>
    1 -
    trackerCourse({
      tracker: { method: 'fraction of open circuit', fraction: 0.8125, period: 120, pause: 0.3 },
      stringAt: () => sound,
      duration: 240.6,
      step: 0.02,
      timeConstant: 0.01,
    }).share,
};

const magneticRows: readonly Check[] = [
  {
    id: 'wire-field-single',
    topic: 'wire',
    quantity: 'field of a single 5 A wire at 10 cm',
    expected: 10e-6,
    unit: 'T',
    tolerance: 1e-8,
    why: 'exact law, printed digits',
    provenance: 'recomputed from the published formula',
    source: "Ampere's law",
    calls: 'longWireField',
    compute: () => longWireField(5, 0.1),
  },
  {
    id: 'wire-field-pair',
    topic: 'wire',
    quantity: 'field of a pair 10 mm apart with 5 A at 10 cm',
    expected: 1e-6 / 1.1,
    unit: 'T',
    tolerance: 1e-9,
    why: 'exact law',
    provenance: 'recomputed from the published formula',
    source: "Ampere's law, difference of two wires: mu0 I s / (2 pi r (r + s))",
    calls: 'wirePairField',
    compute: () => wirePairField(5, 0.1, 0.01),
  },
];

const ratioRow: Check = {
  id: 'converter-input-current-loss',
  topic: 'converter',
  quantity: 'output of a converter that only has 50 mohm at its input, 40 W in at 10 V',
  expected: 39.2,
  unit: 'W',
  tolerance: 1e-9,
  why: 'exact: 16 A2 x 0.05 ohm of heat',
  provenance: 'recomputed from the published formula',
  source: 'heat of a current in a resistance',
  calls: 'convertedPower',
  compute: () => convertedPower({ fixed: 0, perAmpere: 0, resistance: 0, inputResistance: 0.05 }, 40, 14.8, 10),
};

/** Checks of trackers, hot spots and the field of wires. */
export const trackerChecks: readonly Check[] = [
  ...trapRows,
  climbRow,
  ...shadedRows,
  ...reverseRows,
  staleRow,
  sweepRow,
  pauseRow,
  ...magneticRows,
  ratioRow,
];
