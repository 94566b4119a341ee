import type { Check } from '../check.js';
import type { Outcome } from '../result.js';
import {
  currentAtVoltage,
  type DiodeCurve,
  openCircuitVoltage,
  shortCircuitCurrent,
  voltageAtCurrent,
} from './cell.js';
import { boltzmannOverCharge, standardTemperature } from './constants.js';
import { explicitFiveParameters } from './explicit-fit.js';
import { type CellDataSheet, fitFiveParameters, fitFourParameters } from './fit.js';
import { lambertCurrentAtVoltage } from './lambert.js';
import { maximumPowerPoint } from './maximum.js';
import { backContactCell } from './reference.js';
import { type CellParameters, cellAt, idealityFactor, impliedTemperatureCoefficients } from './translate.js';

const equation = 'De Soto, Klein and Beckman, Solar Energy 80, 2006, eq. 1';
const precise =
  'Jain and Kapoor, Sol. Energy Mater. Sol. Cells 81, 2004; single-diode curves solved to 40 digits, public reference values of the formula';

function row(fields: Omit<Check, 'topic' | 'provenance' | 'source' | 'why'> & Partial<Check>): Check {
  return {
    topic: 'cell',
    provenance: 'recomputed from the published formula',
    source: equation,
    why: '1e-8 of the value: an exact equation, solved to convergence',
    ...fields,
  };
}

/** Value of a fit that must succeed; NaN, which agrees with nothing, where it does not. */
const fitted = (outcome: Outcome<CellParameters>, read: (cell: CellParameters) => number): number =>
  outcome.ok ? read(outcome.value) : Number.NaN;

const lossy: DiodeCurve = {
  photocurrent: 7,
  saturationCurrent: 6e-7,
  seriesResistance: 0.1,
  shuntResistance: 20,
  modifiedIdeality: 0.5,
};

const lossyRows: readonly Check[] = [
  row({
    id: 'cell-lossy-short-circuit',
    quantity: 'short-circuit current (IL 7 A, I0 0.6 uA, Rs 0.1, Rsh 20, a 0.5 V)',
    expected: 6.965172322,
    unit: 'A',
    tolerance: 1e-8,
    calls: 'shortCircuitCurrent',
    compute: () => shortCircuitCurrent(lossy),
  }),
  row({
    id: 'cell-lossy-open-circuit',
    quantity: 'open-circuit voltage of the same cell',
    expected: 8.106300147,
    unit: 'V',
    tolerance: 1e-8,
    calls: 'openCircuitVoltage',
    compute: () => openCircuitVoltage(lossy),
  }),
  row({
    id: 'cell-lossy-maximum-power',
    quantity: 'maximum power of the same cell',
    expected: 38.194210548,
    unit: 'W',
    tolerance: 4e-8,
    calls: 'maximumPowerPoint',
    compute: () => maximumPowerPoint(lossy).power,
  }),
  row({
    id: 'cell-lossy-maximum-voltage',
    quantity: 'voltage at maximum power of the same cell',
    expected: 6.22433936,
    unit: 'V',
    tolerance: 6e-8,
    calls: 'maximumPowerPoint',
    compute: () => maximumPowerPoint(lossy).voltage,
  }),
  row({
    id: 'cell-lossy-current-at-3-A',
    quantity: 'current at 7.504987519345052 V, exactly 3 A',
    expected: 3,
    unit: 'A',
    tolerance: 1e-9,
    why: 'exact by construction',
    calls: 'currentAtVoltage',
    compute: () => currentAtVoltage(lossy, 7.504987519345052),
  }),
  row({
    id: 'cell-lossy-voltage-at-3-A',
    quantity: 'voltage at 3 A',
    expected: 7.504987519345052,
    unit: 'V',
    tolerance: 1e-10,
    why: 'exact by construction',
    calls: 'voltageAtCurrent',
    compute: () => voltageAtCurrent(lossy, 3),
  }),
  row({
    id: 'cell-lossy-lambert',
    quantity: 'current at 8 V by Lambert W',
    expected: 0.593457343,
    unit: 'A',
    tolerance: 1e-8,
    source: 'Jain and Kapoor, Sol. Energy Mater. Sol. Cells 81, 2004',
    calls: 'lambertCurrentAtVoltage',
    compute: () => lambertCurrentAtVoltage(lossy, 8),
  }),
];

const moduleCurve = (il: number, i0: number, rs: number, rsh: number, n: number, cells = 72): DiodeCurve => ({
  photocurrent: il,
  saturationCurrent: i0,
  seriesResistance: rs,
  shuntResistance: rsh,
  modifiedIdeality: n * cells * boltzmannOverCharge * standardTemperature,
});

const preciseRows: readonly Check[] = (
  [
    [
      'low-current',
      moduleCurve(1, 5e-10, 0.1, 300, 1.01),
      28.71481604564,
      39.74810737987,
      36.1346430726,
      0.74876246222,
    ],
    ['leakless', moduleCurve(1, 5e-10, 1, 3000, 1.3), 40.55663790537, 51.46112454371, 46.7828404943, 0.78910134383],
    ['resistive', moduleCurve(8, 5e-10, 1, 300, 1.01), 231.15075478698, 43.86435345904, 39.8766849628, 3.06467873127],
  ] as const
).flatMap(([name, curve, power, open, voltage, current]) => [
  row({
    id: `cell-precise-${name}-power`,
    quantity: `maximum power, 72 cells, ${name} case`,
    expected: power,
    unit: 'W',
    tolerance: power * 1e-8,
    provenance: 'published',
    source: precise,
    calls: 'maximumPowerPoint',
    compute: () => maximumPowerPoint(curve).power,
  }),
  row({
    id: `cell-precise-${name}-open-circuit`,
    quantity: `open-circuit voltage, 72 cells, ${name} case`,
    expected: open,
    unit: 'V',
    tolerance: open * 1e-8,
    provenance: 'published',
    source: precise,
    calls: 'openCircuitVoltage',
    compute: () => openCircuitVoltage(curve),
  }),
  row({
    id: `cell-precise-${name}-current`,
    quantity: `current at ${voltage} V, 72 cells, ${name} case`,
    expected: current,
    unit: 'A',
    tolerance: current * 1e-8,
    provenance: 'published',
    source: precise,
    calls: 'currentAtVoltage',
    compute: () => currentAtVoltage(curve, voltage),
  }),
]);

const shuntedRow = row({
  id: 'cell-precise-shunted-power',
  quantity: 'maximum power, 140 cells with heavy shunt',
  expected: 18.4461151075,
  unit: 'W',
  tolerance: 2e-7,
  provenance: 'published',
  source: precise,
  calls: 'maximumPowerPoint',
  compute: () => maximumPowerPoint(moduleCurve(0.5, 1e-9, 0.1, 300, 1.3, 140)).power,
});

const backContactModule: CellParameters = {
  ...backContactCell,
  photocurrent: 6.468,
  saturationCurrent: 1.88e-10,
  seriesResistance: 0.37,
  shuntResistance: 298.13,
  modifiedIdeality: 2.6868,
  currentTemperatureCoefficient: 0.004522,
  cellsInSeries: 96,
};

const translationRows: readonly Check[] = (
  [
    [1000, 25, 327.08415, 65.09339],
    [888, 55, 255.16476, 57.77911],
    [200, 25, 62.51249, 60.77537],
    [1000, 50, 294.55304, 59.29494],
  ] as const
).flatMap(([irradiance, celsius, power, open]) => {
  const condition = { irradiance, temperature: celsius + 273.15 };
  const where = `96-cell module at ${irradiance} W/m2, ${celsius} C`;
  const common = { source: 'De Soto, Klein and Beckman, Solar Energy 80, 2006, eqs. 8 to 13', why: 'printed digits' };
  return [
    row({
      ...common,
      id: `cell-translation-${irradiance}-${celsius}-power`,
      quantity: `maximum power, ${where}`,
      expected: power,
      unit: 'W',
      tolerance: 1e-5,
      calls: 'cellAt',
      compute: () => maximumPowerPoint(cellAt(backContactModule, condition)).power,
    }),
    row({
      ...common,
      id: `cell-translation-${irradiance}-${celsius}-open-circuit`,
      quantity: `open-circuit voltage, ${where}`,
      expected: open,
      unit: 'V',
      tolerance: 1e-5,
      calls: 'cellAt',
      compute: () => openCircuitVoltage(cellAt(backContactModule, condition)),
    }),
  ];
});

const genericRows: readonly Check[] = (
  [
    [1000, 25, 3.422],
    [1000, 45, 3.16228],
    [1000, 60, 2.964524],
    [1000, 0, 3.739519],
    [500, 25, 1.690149],
    [200, 25, 0.655345],
  ] as const
).map(([irradiance, celsius, power]) =>
  row({
    id: `cell-generic-${irradiance}-${celsius}`,
    quantity: `maximum power of the generic 125 mm cell at ${irradiance} W/m2, ${celsius} C`,
    expected: power,
    unit: 'W',
    tolerance: 1e-6,
    why: 'printed digits',
    source: 'De Soto, Klein and Beckman, Solar Energy 80, 2006, eqs. 8 to 13, on a defined cell',
    calls: 'cellAt',
    compute: () => maximumPowerPoint(cellAt(backContactCell, { irradiance, temperature: celsius + 273.15 })).power,
  }),
);

const impliedRow = row({
  id: 'cell-generic-voltage-coefficient',
  quantity: 'implied coefficient of open-circuit voltage of the generic 125 mm cell',
  expected: -2.22,
  unit: 'mV/K',
  tolerance: 0.005,
  why: 'printed digits',
  calls: 'impliedTemperatureCoefficients',
  compute: () => impliedTemperatureCoefficients(backContactCell).voltage * 1000,
});

const sixtyCells: CellDataSheet = {
  shortCircuitCurrent: 9.43,
  openCircuitVoltage: 38.3,
  maximumPowerCurrent: 8.71,
  maximumPowerVoltage: 31,
  currentTemperatureCoefficient: 0.005658,
  voltageTemperatureCoefficient: -0.13788,
  cellsInSeries: 60,
};

const genericSheet: CellDataSheet = {
  shortCircuitCurrent: 6.27,
  openCircuitVoltage: 0.686,
  maximumPowerCurrent: 5.9,
  maximumPowerVoltage: 0.58,
  cellsInSeries: 1,
};

const fiveParameterRows: readonly Check[] = (
  [
    ['photocurrent', 9.45232, 'A'],
    ['saturationCurrent', 3.2246e-10, 'A'],
    ['seriesResistance', 0.297814, 'ohm'],
    ['shuntResistance', 125.798, 'ohm'],
    ['modifiedIdeality', 1.59128, 'V'],
  ] as const
).map(([key, expected, unit]) =>
  row({
    id: `cell-five-parameters-${key}`,
    quantity: `${key} of a 60-cell module fitted from its data sheet`,
    expected,
    unit,
    tolerance: expected * 1e-4,
    why: '1e-4 of the value, as the reference values are stated with',
    source: 'De Soto, Klein and Beckman 2006, eqs. 2 to 7; public reference values of the formula',
    calls: 'fitFiveParameters',
    compute: () => fitted(fitFiveParameters(sixtyCells), (cell) => cell[key]),
  }),
);

const otherFitRows: readonly Check[] = [
  row({
    id: 'cell-four-parameters-saturation',
    quantity: 'saturation current of the generic cell, fitted with ideality 1.05',
    expected: 5.5792683329170935e-11,
    unit: 'A',
    tolerance: 5.6e-17,
    why: '1e-6 of the value: the same equations by another method',
    calls: 'fitFourParameters',
    compute: () => fitted(fitFourParameters(genericSheet, 1.05), (cell) => cell.saturationCurrent),
  }),
  ...(
    [
      [-1.7, 0.929],
      [-1.9, 0.976],
      [-2.1, 1.022],
    ] as const
  ).map(([beta, expected]) =>
    row({
      id: `cell-ideality-for-${-beta}-mV`,
      quantity: `ideality that ${beta} mV/K implies for the generic cell`,
      expected,
      unit: '1',
      tolerance: 0.0005,
      why: 'printed digits',
      calls: 'fitFiveParameters',
      compute: () =>
        fitted(
          fitFiveParameters({
            ...genericSheet,
            currentTemperatureCoefficient: 0.003135,
            voltageTemperatureCoefficient: beta / 1000,
          }),
          idealityFactor,
        ),
    }),
  ),
  row({
    id: 'cell-explicit-ideality',
    quantity: 'modified ideality by closed formulas',
    expected: 1.72576325,
    unit: 'V',
    tolerance: 1e-7,
    why: 'closed formula, printed digits',
    source: 'Batzelis, IEEE J. Photovoltaics 7, 2017; public reference values of the formula',
    calls: 'explicitFiveParameters',
    compute: () =>
      fitted(
        explicitFiveParameters({
          shortCircuitCurrent: 15.98,
          openCircuitVoltage: 50.26,
          maximumPowerCurrent: 15.27,
          maximumPowerVoltage: 42.57,
          currentTemperatureCoefficient: 0.007351,
          voltageTemperatureCoefficient: -0.120624,
          cellsInSeries: 72,
        }),
        (cell) => cell.modifiedIdeality,
      ),
  }),
];

/** Checks of single cells: curve, translation, fits. */
export const cellChecks: readonly Check[] = [
  ...lossyRows,
  ...preciseRows,
  shuntedRow,
  ...translationRows,
  ...genericRows,
  impliedRow,
  ...fiveParameterRows,
  ...otherFitRows,
];
