import { interpolateLinear } from '../math/index.js';
import { type OpenCircuitCurve, openCircuitCurve } from './openCircuit.js';

const everyPercent = Array.from({ length: 101 }, (_, i) => i / 100);

/**
 * Open-circuit voltage of a lithium-ion 5 Ah cell, format 21700, NMC 811 against graphite with silicon oxide, 25 C.
 * @param s - state of charge, 0 to 1
 * @returns voltage [V]
 * Source: Chen et al., Development of experimental techniques for parameterization of multi-scale lithium-ion battery
 * models, J. Electrochem. Soc. 167, 080534, 2020 (electrode fits; stoichiometry ends of the positive electrode from memory).
 */
export function nickelManganeseCobaltVoltage(s: number): number {
  const x = 0.9084 + (0.2661 - 0.9084) * s;
  const y = 0.0279 + (0.9014 - 0.0279) * s;
  const positive =
    -0.809 * x +
    4.4875 -
    0.0428 * Math.tanh(18.5138 * (x - 0.5542)) -
    17.7326 * Math.tanh(15.789 * (x - 0.3117)) +
    17.5842 * Math.tanh(15.9308 * (x - 0.312));
  const negative =
    1.9793 * Math.exp(-39.3631 * y) +
    0.2482 -
    0.0909 * Math.tanh(29.8538 * (y - 0.1234)) -
    0.04478 * Math.tanh(14.9159 * (y - 0.2769)) -
    0.0205 * Math.tanh(30.4444 * (y - 0.6103));
  return positive - negative;
}

/**
 * Open-circuit voltage of a lithium-polymer pouch cell of 850 mAh.
 * The sign of the quadratic term matters: public copies with + give 4.34 V when full.
 * @param s - state of charge, 0 to 1
 * @returns voltage [V]
 * Source: Chen & Rincon-Mora, Accurate electrical battery model capable of predicting runtime and I-V performance,
 * IEEE Trans. Energy Conversion 21(2), 504-511, 2006.
 */
export function lithiumPolymerVoltage(s: number): number {
  return -1.031 * Math.exp(-35 * s) + 3.685 + 0.2156 * s - 0.1178 * s * s + 0.3201 * s ** 3;
}

/** A published piecewise-linear fit, tabulated every per cent: straight between, corners rounded within one per cent. */
function piecewiseLinear(xs: readonly number[], ys: readonly number[]) {
  const stateOfCharge = [...new Set([...everyPercent, ...xs])].sort((a, b) => a - b);
  return { stateOfCharge, voltage: stateOfCharge.map((s) => interpolateLinear(xs, ys, s)) };
}

/** Lithium-ion 18650 of 3 Ah. Below 5 % the measured table ends; drawn to 2.5 V, the usual cut-off. */
export const lithiumIon18650Curve: OpenCircuitCurve = openCircuitCurve({
  name: 'lithium-ion 18650, 3 Ah',
  chemistry: 'lithium-ion',
  source:
    'open measured table of a 3 Ah power cell, format 18650: C/20 charge and discharge averaged, 24 h rest; a second table of the same cell differs by 5 to 23 mV',
  standardUncertainty: 0.012,
  measuredFrom: 0.05,
  stateOfCharge: [
    0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1,
  ],
  voltage: [
    2.5, 3.131, 3.268, 3.35, 3.413, 3.499, 3.559, 3.61, 3.661, 3.706, 3.753, 3.798, 3.839, 3.883, 3.923, 3.979, 4.037,
    4.0745, 4.0905, 4.112, 4.175,
  ],
});

/** Lithium-ion 21700 of 5 Ah, high energy (NMC 811, silicon-bearing graphite). */
export const lithiumIon21700Curve: OpenCircuitCurve = openCircuitCurve({
  name: 'lithium-ion 21700, 5 Ah, high energy',
  chemistry: 'lithium-ion',
  source: 'Chen et al., J. Electrochem. Soc. 167, 080534, 2020 (5 Ah, format 21700), electrode fits',
  standardUncertainty: 0.02,
  measuredFrom: 0,
  stateOfCharge: everyPercent,
  voltage: everyPercent.map(nickelManganeseCobaltVoltage),
});

/** Lithium-ion 21700 power cell of 4.2 Ah. */
export const lithiumIon21700PowerCurve: OpenCircuitCurve = openCircuitCurve({
  name: 'lithium-ion 21700, 4.2 Ah, high power',
  chemistry: 'lithium-ion',
  source:
    'Sunil, Pattipati & Balasingam, IEEE Trans. Instrum. Meas., 2025, piecewise-linear table (4.2 Ah power cell, format 21700, C/32)',
  standardUncertainty: 0.02,
  measuredFrom: 0,
  ...piecewiseLinear(
    [0, 0.0151, 0.0452, 0.0955, 0.1508, 0.2915, 0.4573, 0.8342, 0.9497, 1],
    [2.5061, 2.8981, 3.1461, 3.3231, 3.4218, 3.5737, 3.7017, 4.0637, 4.1009, 4.1932],
  ),
});

/** A second lithium-ion 21700 power cell, of 4 Ah. */
export const lithiumIon21700PowerCurveSecond: OpenCircuitCurve = openCircuitCurve({
  name: 'lithium-ion 21700, 4 Ah, high power',
  chemistry: 'lithium-ion',
  source:
    'Sunil, Pattipati & Balasingam, IEEE Trans. Instrum. Meas., 2025, piecewise-linear table (4 Ah power cell, format 21700, C/20)',
  standardUncertainty: 0.02,
  measuredFrom: 0,
  ...piecewiseLinear(
    [0, 0.005, 0.0352, 0.0854, 0.1357, 0.2915, 0.4523, 0.8392, 0.9548, 1],
    [2.5, 2.808, 3.1179, 3.3182, 3.4193, 3.5826, 3.6941, 4.0664, 4.1121, 4.2],
  ),
});

/** Lithium-polymer pouch cell. Denser near empty, where the voltage falls steeply. */
const polymerStates = [0, 0.005, 0.015, 0.025, 0.035, 0.045, 0.055, 0.065, 0.075, 0.085, 0.095];
const polymerGrid = [...polymerStates, ...everyPercent.slice(1)].sort((a, b) => a - b);
export const lithiumPolymerCurve: OpenCircuitCurve = openCircuitCurve({
  name: 'lithium polymer pouch',
  chemistry: 'lithium polymer',
  source: 'Chen & Rincon-Mora, IEEE Trans. Energy Conversion 21(2), 504-511, 2006 (850 mAh polymer cell)',
  standardUncertainty: 0.02,
  measuredFrom: 0.02,
  stateOfCharge: polymerGrid,
  voltage: polymerGrid.map(lithiumPolymerVoltage),
});

/** All curves by the names that design files and `figure` use. */
export const openCircuitCurves = {
  'lithium-ion-18650': lithiumIon18650Curve,
  'lithium-ion-21700': lithiumIon21700Curve,
  'lithium-ion-21700-power': lithiumIon21700PowerCurve,
  'lithium-ion-21700-power-second': lithiumIon21700PowerCurveSecond,
  'lithium-polymer': lithiumPolymerCurve,
} as const satisfies Record<string, OpenCircuitCurve>;

export type OpenCircuitCurveName = keyof typeof openCircuitCurves;
