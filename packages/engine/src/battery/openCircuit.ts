import {
  evaluateMonotoneCubic,
  intervalIndex,
  type MonotoneCubic,
  monotoneCubic,
  monotoneCubicSlope,
} from '../math/index.js';

/** Open-circuit voltage of one cell against state of charge (0 empty to 1 full). Plain data. */
export interface OpenCircuitCurve {
  /** Chemistry and format, no maker. */
  readonly name: string;
  readonly chemistry: 'lithium-ion' | 'lithium polymer';
  readonly source: string;
  /** Standard uncertainty of the curve for another cell of the same kind [V]. */
  readonly standardUncertainty: number;
  /** Below this state of charge the curve is not measured but drawn to the cut-off voltage. */
  readonly measuredFrom: number;
  readonly cubic: MonotoneCubic;
  /** Integral of the voltage over state of charge from 0 to each point of the cubic [V]. */
  readonly integral: Float64Array;
}

/** What an open-circuit curve is made from. */
export interface OpenCircuitTable {
  readonly name: string;
  readonly chemistry: OpenCircuitCurve['chemistry'];
  readonly source: string;
  readonly standardUncertainty: number;
  readonly measuredFrom: number;
  readonly stateOfCharge: readonly number[];
  readonly voltage: readonly number[];
}

/**
 * Prepare an open-circuit table for interpolation by a monotone cubic, so that it can be inverted and integrated.
 *
 * @param table - states of charge from 0 to 1 with strictly rising voltages [V]
 * @throws RangeError when the table does not run from 0 to 1 or the voltage does not rise
 */
export function openCircuitCurve(table: OpenCircuitTable): OpenCircuitCurve {
  const { stateOfCharge, voltage } = table;
  const last = stateOfCharge.length - 1;
  if (stateOfCharge[0] !== 0 || stateOfCharge[last] !== 1) throw new RangeError('state of charge must run from 0 to 1');
  for (let i = 1; i <= last; i++) {
    if (!(voltage[i] > voltage[i - 1])) throw new RangeError(`open-circuit voltage must rise (at index ${i})`);
  }
  const cubic = monotoneCubic(stateOfCharge, voltage);
  const integral = new Float64Array(last + 1);
  for (let i = 0; i < last; i++) {
    const h = stateOfCharge[i + 1] - stateOfCharge[i];
    integral[i + 1] = integral[i] + cubicIntegral(cubic, i, h, 1);
  }
  const { name, chemistry, source, standardUncertainty, measuredFrom } = table;
  return { name, chemistry, source, standardUncertainty, measuredFrom, cubic, integral };
}

/** Integral of interval i of a cubic Hermite interpolant from its left end to the fraction t of its width h. */
function cubicIntegral(cubic: MonotoneCubic, i: number, h: number, t: number): number {
  const { ys, slopes } = cubic;
  const t2 = t * t;
  const t3 = t2 * t;
  const t4 = t2 * t2;
  return (
    h *
    (ys[i] * (t - t3 + t4 / 2) +
      slopes[i] * h * (t2 / 2 - (2 * t3) / 3 + t4 / 4) +
      ys[i + 1] * (t3 - t4 / 2) +
      slopes[i + 1] * h * (t4 / 4 - t3 / 3))
  );
}

/**
 * Open-circuit voltage of a cell.
 * @param stateOfCharge - 0 to 1; the end values hold beyond
 * @returns voltage [V]
 */
export function openCircuitVoltage(curve: OpenCircuitCurve, stateOfCharge: number): number {
  return evaluateMonotoneCubic(curve.cubic, stateOfCharge);
}

/** Slope of the open-circuit voltage with state of charge [V per unit of state of charge]. */
export function openCircuitSlope(curve: OpenCircuitCurve, stateOfCharge: number): number {
  return monotoneCubicSlope(curve.cubic, stateOfCharge);
}

/**
 * Integral of the open-circuit voltage from empty to a state of charge [V]; times capacity [C] it is the stored energy [J].
 * Beyond the ends the voltage is taken as constant.
 */
export function openCircuitIntegral(curve: OpenCircuitCurve, stateOfCharge: number): number {
  const { cubic, integral } = curve;
  const { xs, ys } = cubic;
  const last = xs.length - 1;
  if (stateOfCharge <= 0) return ys[0] * stateOfCharge;
  if (stateOfCharge >= 1) return integral[last] + ys[last] * (stateOfCharge - 1);
  const i = intervalIndex(xs, stateOfCharge);
  const h = xs[i + 1] - xs[i];
  return integral[i] + cubicIntegral(cubic, i, h, (stateOfCharge - xs[i]) / h);
}

/**
 * Mean open-circuit voltage between two states of charge [V].
 * Over a tiny change the difference of integrals would lose digits; there the middle value is the mean to rounding.
 */
export function meanOpenCircuitVoltage(curve: OpenCircuitCurve, from: number, to: number): number {
  return meanFromIntegral(curve, from, openCircuitIntegral(curve, from), to);
}

/**
 * `meanOpenCircuitVoltage` where the integral up to `from` is already known, for loops that try many ends.
 * @param integralFrom - openCircuitIntegral(curve, from) [V]
 */
export function meanFromIntegral(curve: OpenCircuitCurve, from: number, integralFrom: number, to: number): number {
  const change = to - from;
  if (Math.abs(change) < 1e-6) return openCircuitVoltage(curve, from + change / 2);
  return (openCircuitIntegral(curve, to) - integralFrom) / change;
}

/**
 * State of charge at which a cell has an open-circuit voltage; 0 or 1 beyond the ends of the curve.
 * @param voltage - open-circuit voltage of the cell [V]
 */
export function stateOfChargeAtOpenCircuit(curve: OpenCircuitCurve, voltage: number): number {
  const { xs, ys } = curve.cubic;
  const last = xs.length - 1;
  if (voltage <= ys[0]) return 0;
  if (voltage >= ys[last]) return 1;
  const i = intervalIndex(ys, voltage);
  let low = xs[i];
  let high = xs[i + 1];
  let s = low + ((high - low) * (voltage - ys[i])) / (ys[i + 1] - ys[i]);
  for (let iteration = 0; iteration < 60; iteration++) {
    const error = openCircuitVoltage(curve, s) - voltage;
    if (error > 0) high = s;
    else low = s;
    const slope = openCircuitSlope(curve, s);
    const newton = slope > 0 ? s - error / slope : Number.NaN;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - s) < 1e-14) return next;
    s = next;
  }
  return s;
}
