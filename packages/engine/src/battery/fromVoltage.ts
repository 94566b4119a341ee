import {
  type OpenCircuitCurve,
  openCircuitSlope,
  openCircuitVoltage,
  stateOfChargeAtOpenCircuit,
} from './openCircuit.js';

/** A state of charge told by a voltage alone. */
export interface StateOfChargeEstimate {
  readonly stateOfCharge: number;
  /** First order, from the local slope of the curve. */
  readonly standardUncertainty: number;
  /** Ends for the open-circuit voltage two standard uncertainties lower and higher: lopsided near plateaus. */
  readonly low: number;
  readonly high: number;
}

/**
 * State of charge from the terminal voltage of a cell, with its uncertainty. Give the interval, not the number, when
 * no current is measured: between 85 and 95 % ten millivolts are 2 to 3 % of charge.
 *
 * @param voltage - at the terminals [V per cell]
 * @param current - > 0 discharges [A per cell]
 * @param resistance - direct current, at this temperature [ohm per cell]
 * @param voltageUncertainty, currentUncertainty, resistanceUncertainty - standard [V, A, ohm]
 * @returns estimate; the uncertainty of the curve itself is included
 * Source: inverse of U(s) = V + I R; JCGM 100:2008 eq. 10.
 */
export function stateOfChargeFromVoltage(
  curve: OpenCircuitCurve,
  at: {
    readonly voltage: number;
    readonly current: number;
    readonly resistance: number;
    readonly voltageUncertainty: number;
    readonly currentUncertainty: number;
    readonly resistanceUncertainty: number;
  },
): StateOfChargeEstimate {
  const open = at.voltage + at.current * at.resistance;
  const u = Math.hypot(
    at.voltageUncertainty,
    at.resistance * at.currentUncertainty,
    at.current * at.resistanceUncertainty,
    curve.standardUncertainty,
  );
  const stateOfCharge = stateOfChargeAtOpenCircuit(curve, open);
  const slope = openCircuitSlope(curve, Math.min(1, Math.max(0, stateOfCharge)));
  return {
    stateOfCharge,
    // More than the whole range means nothing; a flat spot of the curve would give infinity.
    standardUncertainty: slope > 0 ? Math.min(1, u / slope) : 1,
    low: stateOfChargeAtOpenCircuit(curve, open - 2 * u),
    high: stateOfChargeAtOpenCircuit(curve, open + 2 * u),
  };
}

/**
 * Mean slope of the open-circuit voltage between two states of charge [V per unit of state of charge].
 * @param from, to - 0 <= from < to <= 1
 */
export function meanOpenCircuitSlope(curve: OpenCircuitCurve, from: number, to: number): number {
  if (!(from >= 0 && from < to && to <= 1)) throw new RangeError('need 0 <= from < to <= 1');
  return (openCircuitVoltage(curve, to) - openCircuitVoltage(curve, from)) / (to - from);
}

/** A current with its standard uncertainty [A]. */
export interface CurrentEstimate {
  readonly current: number;
  readonly standardUncertainty: number;
}

/**
 * Pack current from one terminal voltage and a known state of charge: I = (U(s) - V)/R. Usually too uncertain to use.
 *
 * @param openCircuitVoltage, voltage - of the pack [V]
 * @param resistance - of the pack [ohm]
 * @param voltageUncertainty - [V]
 * @param slope - of the pack's open-circuit voltage [V per unit of state of charge]
 * @param stateOfChargeUncertainty - ratio
 * @returns > 0 discharges
 * Source: equivalent circuit; JCGM 100:2008 eq. 10.
 */
export function currentFromVoltage(at: {
  readonly openCircuitVoltage: number;
  readonly voltage: number;
  readonly resistance: number;
  readonly voltageUncertainty: number;
  readonly slope: number;
  readonly stateOfChargeUncertainty: number;
}): CurrentEstimate {
  if (!(at.resistance > 0)) throw new RangeError('the resistance must be positive');
  return {
    current: (at.openCircuitVoltage - at.voltage) / at.resistance,
    standardUncertainty: Math.hypot(at.voltageUncertainty, at.slope * at.stateOfChargeUncertainty) / at.resistance,
  };
}

/**
 * Mean net current from the slow change of a rested voltage: I = -C (dV/dt)/(Ns dU/ds). Fails on the plateau between
 * 85 and 95 %, and with changing load.
 *
 * @param capacity - of the pack [C]
 * @param voltageRate - dV/dt of the pack [V/s]
 * @param cellsInSeries - count
 * @param cellSlope - dU/ds of a cell [V per unit of state of charge], > 0
 * @returns > 0 discharges [A]
 * Source: chain rule on U(s(t)).
 */
export function currentFromVoltageRate(at: {
  readonly capacity: number;
  readonly voltageRate: number;
  readonly cellsInSeries: number;
  readonly cellSlope: number;
}): number {
  if (!(at.cellSlope > 0)) throw new RangeError('the slope must be positive');
  return (-at.capacity * at.voltageRate) / (at.cellsInSeries * at.cellSlope);
}
