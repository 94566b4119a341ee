import { finiteExp } from './constants.js';

/**
 * Avalanche breakdown of a reverse-biased cell: an extra shunt current
 * factor * (Vd / Rsh) * (1 - Vd / voltage)^(-exponent), with Vd the diode voltage.
 * It is applied at negative diode voltage only, so that the forward curve stays the one that was fitted.
 * Source: Bishop, Computer simulation of the effects of electrical mismatches in photovoltaic cell interconnection
 * circuits, Solar Cells 25, 1988.
 */
export interface ReverseBreakdown {
  /** Fraction of the shunt current that takes part in the breakdown [1]. */
  readonly factor: number;
  /** Breakdown voltage, negative [V]. */
  readonly voltage: number;
  /** Avalanche exponent [1]. */
  readonly exponent: number;
}

/**
 * Single-diode curve of one cell (or one module of equal cells) at one irradiance and temperature:
 * I = IL - I0 (exp((V + I Rs) / a) - 1) - (V + I Rs) / Rsh. Current counts positive out of the positive terminal.
 */
export interface DiodeCurve {
  /** Photocurrent IL [A]. */
  readonly photocurrent: number;
  /** Saturation current I0 [A]. */
  readonly saturationCurrent: number;
  /** Series resistance Rs [ohm]. */
  readonly seriesResistance: number;
  /** Shunt resistance Rsh [ohm]. */
  readonly shuntResistance: number;
  /** Modified ideality a = n Ns k T / q [V]. */
  readonly modifiedIdeality: number;
  readonly breakdown?: ReverseBreakdown;
}

/** A point on a current-voltage curve. */
export interface PowerPoint {
  /** [V] */
  readonly voltage: number;
  /** [A] */
  readonly current: number;
  /** [W] */
  readonly power: number;
}

/** Breakdown current at negative diode voltage x [A], and zero at positive. */
function breakdownCurrent(curve: DiodeCurve, x: number): number {
  const b = curve.breakdown;
  if (b === undefined || x >= 0) return 0;
  const margin = Math.max(1 - x / b.voltage, 1e-12);
  return ((b.factor * x) / curve.shuntResistance) * margin ** -b.exponent;
}

/** Slope of the breakdown current by diode voltage [A/V]. */
function breakdownSlope(curve: DiodeCurve, x: number): number {
  const b = curve.breakdown;
  if (b === undefined || x >= 0) return 0;
  const margin = Math.max(1 - x / b.voltage, 1e-12);
  const power = margin ** -b.exponent;
  return (b.factor / curve.shuntResistance) * power * (1 + (b.exponent * x) / (b.voltage * margin));
}

/**
 * Current of the cell as an explicit function of its diode voltage.
 *
 * @param curve - single-diode curve
 * @param diodeVoltage - V + I Rs [V]; above the breakdown voltage where one is given
 * @returns current [A], falling monotonically with the diode voltage
 * Source: the single-diode equation (De Soto, Klein and Beckman, Solar Energy 80, 2006, eq. 1) read as I(Vd).
 */
export function currentAtDiodeVoltage(curve: DiodeCurve, diodeVoltage: number): number {
  return (
    curve.photocurrent -
    curve.saturationCurrent * (finiteExp(diodeVoltage / curve.modifiedIdeality) - 1) -
    diodeVoltage / curve.shuntResistance -
    breakdownCurrent(curve, diodeVoltage)
  );
}

/** Slope dI/dVd of the current by the diode voltage [A/V], negative. */
export function currentSlopeAtDiodeVoltage(curve: DiodeCurve, diodeVoltage: number): number {
  return (
    (-curve.saturationCurrent / curve.modifiedIdeality) * finiteExp(diodeVoltage / curve.modifiedIdeality) -
    1 / curve.shuntResistance -
    breakdownSlope(curve, diodeVoltage)
  );
}

/**
 * Diode voltage in forward bias, where the current is at most the photocurrent by `shortfall`.
 *
 * Written as x = a ln(1 + (shortfall - x / Rsh) / I0) the equation is nearly linear where the diode carries most of the
 * current, and Newton needs two or three logarithms. It comes down monotonically from its start above the root.
 */
function forwardDiodeVoltage(curve: DiodeCurve, shortfall: number): number {
  const { saturationCurrent: i0, modifiedIdeality: a } = curve;
  const shunt = 1 / curve.shuntResistance;
  let x = a * Math.log1p(shortfall / i0);
  for (let iteration = 0; iteration < 20; iteration++) {
    const left = shortfall - shunt * x;
    if (!(left > 0)) return shuntedDiodeVoltage(curve, shortfall);
    const step = (x - a * Math.log1p(left / i0)) / (1 + (a * shunt) / (left + i0));
    x -= step;
    if (step < 1e-7 * a) break; // quadratic: the error left is below 1e-14 a
  }
  return x;
}

/**
 * The same where the shunt carries most of the current: the current is concave and falling in the diode voltage, so
 * Newton steps from a start above the root come down to it without a bracket.
 */
function shuntedDiodeVoltage(curve: DiodeCurve, shortfall: number): number {
  const { saturationCurrent: i0, modifiedIdeality: a } = curve;
  const shunt = 1 / curve.shuntResistance;
  let x = Math.min(a * Math.log1p(shortfall / i0), shortfall * curve.shuntResistance);
  for (let iteration = 0; iteration < 60; iteration++) {
    const diode = i0 * finiteExp(x / a);
    const step = (shortfall - diode + i0 - shunt * x) / (diode / a + shunt);
    x += step;
    if (Math.abs(step) < 1e-8 * a) break; // quadratic: the error left is below 1e-15 a
  }
  return x;
}

/**
 * Diode voltage in reverse bias with breakdown, where the excess current over the photocurrent runs through shunt and
 * avalanche. Solved for the logarithm of the margin 1 - x / Vbr, in which the avalanche current is nearly a line.
 */
function reverseDiodeVoltage(curve: DiodeCurve, excess: number, b: ReverseBreakdown): number {
  const scale = -b.voltage / curve.shuntResistance;
  let low = -27;
  let high = 0;
  let w = Math.max(low + 1, Math.min(-1e-9, Math.log((b.factor * scale) / excess) / b.exponent));
  const shuntOnly = 1 - excess / scale; // margin if there were no avalanche: a lower bound
  if (shuntOnly > 0 && Math.log(shuntOnly) > w) w = Math.log(shuntOnly);
  const { saturationCurrent: i0, modifiedIdeality: a, shuntResistance } = curve;
  for (let iteration = 0; iteration < 100; iteration++) {
    const margin = Math.exp(w);
    const x = b.voltage * (1 - margin);
    const avalanche = b.factor * Math.exp(-b.exponent * w);
    const saturated = i0 * finiteExp(x / a);
    const value = i0 - saturated - (x / shuntResistance) * (1 + avalanche); // current carried in reverse
    if (value > excess) low = w;
    else high = w;
    // d value / dw, with dx/dw = -Vbr margin
    const slope =
      (saturated / a + (1 + avalanche) / shuntResistance) * b.voltage * margin +
      (x / shuntResistance) * b.exponent * avalanche;
    const step = value > 0 && slope !== 0 ? (Math.log(value / excess) * value) / slope : Number.NaN;
    let next = w - step;
    if (!(next > low && next < high)) next = (low + high) / 2;
    const change = Math.abs(next - w);
    w = next;
    if (change < 1e-13 * Math.max(1, Math.abs(w)) || high - low < 1e-15) break;
  }
  return b.voltage * (1 - Math.exp(w));
}

/**
 * Diode voltage at which the cell carries a given current.
 *
 * @param curve - single-diode curve
 * @param current - current [A]; above the photocurrent the cell is driven into reverse. Without breakdown data the
 *   excess must then pass the shunt, so the voltage falls steeply (shuntResistance volts per ampere) and a string is
 *   in effect limited to the current of its weakest cell
 * @returns V + I Rs [V], above the breakdown voltage where one is given
 */
export function diodeVoltageAtCurrent(curve: DiodeCurve, current: number): number {
  const shortfall = curve.photocurrent - current;
  if (shortfall >= 0) return forwardDiodeVoltage(curve, shortfall);
  if (curve.breakdown !== undefined) return reverseDiodeVoltage(curve, -shortfall, curve.breakdown);
  // No breakdown: shunt plus the vanishing reverse saturation current; two Newton steps from the line are exact.
  let x = shortfall * curve.shuntResistance;
  for (let iteration = 0; iteration < 4; iteration++) {
    x -= (currentAtDiodeVoltage(curve, x) - current) / currentSlopeAtDiodeVoltage(curve, x);
  }
  return x;
}

/**
 * Terminal voltage at a given current.
 *
 * @param curve - single-diode curve
 * @param current - current [A], any sign
 * @returns voltage [V]
 */
export function voltageAtCurrent(curve: DiodeCurve, current: number): number {
  return diodeVoltageAtCurrent(curve, current) - current * curve.seriesResistance;
}

/** Bracket of the diode voltage that belongs to a terminal voltage. */
function diodeVoltageBracket(curve: DiodeCurve, voltage: number): [number, number] {
  const { photocurrent, saturationCurrent, seriesResistance, shuntResistance, modifiedIdeality } = curve;
  const openCircuitBound = Math.min(
    modifiedIdeality * Math.log1p(photocurrent / saturationCurrent),
    photocurrent * shuntResistance,
  );
  const passing =
    modifiedIdeality * Math.log1p((Math.abs(voltage) / seriesResistance + photocurrent) / saturationCurrent);
  const upper = Math.min(
    Math.max(voltage, Math.min(voltage + photocurrent * seriesResistance, openCircuitBound), 0),
    passing,
  );
  const floor = curve.breakdown === undefined ? voltage : Math.max(voltage, curve.breakdown.voltage * (1 - 1e-12));
  return [voltage > openCircuitBound ? Math.min(0, floor) : Math.min(floor, upper), upper];
}

/**
 * Current at a given terminal voltage.
 *
 * @param curve - single-diode curve
 * @param voltage - terminal voltage [V], any sign; below the breakdown voltage the cell cannot be held, the current at
 *   the breakdown voltage is returned
 * @returns current [A]
 */
export function currentAtVoltage(curve: DiodeCurve, voltage: number): number {
  const rs = curve.seriesResistance;
  if (rs === 0) return currentAtDiodeVoltage(curve, voltage);
  let [low, high] = diodeVoltageBracket(curve, voltage);
  let x = high;
  for (let iteration = 0; iteration < 200; iteration++) {
    const f = x - rs * currentAtDiodeVoltage(curve, x) - voltage;
    if (f > 0) high = x;
    else low = x;
    let next = x - f / (1 - rs * currentSlopeAtDiodeVoltage(curve, x));
    if (!(next >= low && next <= high) || (iteration > 30 && iteration % 2 === 0)) next = (low + high) / 2;
    const change = Math.abs(next - x);
    x = next;
    if (change <= 1e-15 * Math.max(curve.modifiedIdeality, Math.abs(x)) || high - low === 0) break;
  }
  return currentAtDiodeVoltage(curve, x);
}

/**
 * Short-circuit current [A].
 *
 * @param curve - single-diode curve
 */
export const shortCircuitCurrent = (curve: DiodeCurve): number => currentAtVoltage(curve, 0);

/**
 * Open-circuit voltage [V].
 *
 * @param curve - single-diode curve
 */
export const openCircuitVoltage = (curve: DiodeCurve): number =>
  curve.photocurrent > 0 ? forwardDiodeVoltage(curve, curve.photocurrent) : 0;
