import type { Check } from '../check.js';
import { cellPack } from './cells.js';
import { circuitVoltage, polymerCircuit, restedCircuit, stepCircuit } from './circuit.js';
import {
  lithiumIon18650Curve,
  lithiumIon21700Curve,
  lithiumIon21700PowerCurve,
  lithiumIon21700PowerCurveSecond,
  lithiumPolymerCurve,
} from './curves.js';
import { type OpenCircuitCurve, openCircuitVoltage } from './openCircuit.js';
import type { CellPack } from './pack.js';
import { polymerCell } from './testCells.js';

const topic = 'battery';
const roomTemperature = 298.15;

const polymerSource =
  'Chen & Rincon-Mora, IEEE Trans. Energy Conversion 21(2), 504-511, 2006; coefficients as publicly repeated, not read in the paper itself';
const nmcSource = 'Chen et al., J. Electrochem. Soc. 167, 080534, 2020; electrode fits';

const openCircuitRow = (
  id: string,
  curve: OpenCircuitCurve,
  stateOfCharge: number,
  expected: number,
  more: Pick<Check, 'tolerance' | 'why' | 'provenance' | 'source'>,
): Check => ({
  id,
  topic,
  quantity: `open-circuit voltage of ${curve.name} at ${stateOfCharge * 100} %`,
  expected,
  unit: 'V',
  calls: 'openCircuitVoltage',
  compute: () => openCircuitVoltage(curve, stateOfCharge),
  ...more,
});

const printed = {
  tolerance: 6e-5,
  why: 'four printed decimals',
  provenance: 'recomputed from the published formula',
} as const;

const openCircuitChecks: readonly Check[] = [
  openCircuitRow('battery-ocv-nmc-20', lithiumIon21700Curve, 0.2, 3.4493, { ...printed, source: nmcSource }),
  openCircuitRow('battery-ocv-nmc-85', lithiumIon21700Curve, 0.85, 4.07, { ...printed, source: nmcSource }),
  openCircuitRow('battery-ocv-nmc-100', lithiumIon21700Curve, 1, 4.1929, { ...printed, source: nmcSource }),
  openCircuitRow('battery-ocv-polymer-5', lithiumPolymerCurve, 0.05, 3.5164, { ...printed, source: polymerSource }),
  openCircuitRow('battery-ocv-polymer-100', lithiumPolymerCurve, 1, 4.1029, { ...printed, source: polymerSource }),
  openCircuitRow('battery-ocv-18650-50', lithiumIon18650Curve, 0.5, 3.7403, {
    tolerance: 0.025,
    why: 'two laboratories differ by 5 to 23 mV on one cell',
    provenance: 'published',
    source: 'second open measured table of the same 3 Ah 18650 cell',
  }),
  openCircuitRow('battery-ocv-18650-80', lithiumIon18650Curve, 0.8, 4.032, {
    tolerance: 0.025,
    why: 'two laboratories differ by 5 to 23 mV on one cell',
    provenance: 'published',
    source: 'second open measured table of the same 3 Ah 18650 cell',
  }),
  openCircuitRow('battery-ocv-power-45', lithiumIon21700PowerCurve, 0.4523, 3.6941, {
    tolerance: 0.02,
    why: 'standard uncertainty stated for a curve used for another cell of the kind',
    provenance: 'published',
    source: `piecewise-linear table of the other cell of the kind: ${lithiumIon21700PowerCurveSecond.source}`,
  }),
];

/** The 850 mAh cell as a pack of one, with its charge held (a huge capacity) as in the check. */
function polymerCellHeldAt(stateOfCharge: number): CellPack {
  const fit = polymerCircuit(stateOfCharge);
  const total = fit.seriesResistance + fit.shortResistance + fit.longResistance;
  return cellPack(polymerCell, 1, 1, {
    cellCapacity: 1e12,
    cellResistance: { stateOfCharge: [0], resistance: [total] },
    wiringResistance: 0,
    relaxation: [
      { share: fit.shortResistance / total, timeConstant: fit.shortTimeConstant },
      { share: fit.longResistance / total, timeConstant: fit.longTimeConstant },
    ],
  });
}

const pulse = (duration: number): number => {
  const pack = polymerCellHeldAt(0.5);
  const rested = restedCircuit(pack, 0.5, roomTemperature);
  return circuitVoltage(pack, stepCircuit(pack, rested, 0.85, duration), 0.85);
};

const pulseChecks: readonly Check[] = (
  [
    [0, 3.740071],
    [10, 3.727787],
    [60, 3.696767],
    [600, 3.660895],
  ] as const
).map(([duration, expected]) => ({
  id: `battery-pulse-${duration}`,
  topic,
  quantity: `terminal voltage of the polymer cell, 0.85 A for ${duration} s from rest at 50 %`,
  expected,
  unit: 'V',
  tolerance: 2e-6,
  why: 'six printed decimals, and the curve tabulated every per cent',
  provenance: 'recomputed from the published formula',
  source: polymerSource,
  calls: 'circuitVoltage',
  compute: () => pulse(duration),
}));

/** Comparisons of single cells: open-circuit curves and the pulse response. */
export const cellChecks: readonly Check[] = [...openCircuitChecks, ...pulseChecks];
