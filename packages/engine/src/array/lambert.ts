import type { DiodeCurve } from './cell.js';

/**
 * Lambert W of an exponential, w = W(exp(x)), the real solution of w + ln w = x.
 *
 * Solved for the logarithm of the argument, so that it does not overflow where a shunt resistance is large.
 *
 * @param x - natural logarithm of the argument of W, any finite number
 * @returns w, greater than zero
 * Source: Corless, Gonnet, Hare, Jeffrey and Knuth, On the Lambert W function, Adv. Comput. Math. 5, 1996; Halley
 * iteration (eq. 5.9) written for w + ln w = x.
 */
export function lambertWOfExp(x: number): number {
  if (x < -36) return Math.exp(Math.max(x, -700)); // W(y) = y - y^2, and y^2 is below the last digit
  let w = x > 1 ? x - Math.log(x) : Math.exp(x) / (1 + Math.exp(x));
  for (let iteration = 0; iteration < 30; iteration++) {
    const f = w + Math.log(w) - x;
    const slope = 1 + 1 / w;
    const curvature = -1 / (w * w);
    const step = f / (slope - (f * curvature) / (2 * slope));
    const next = w - step;
    w = next > 0 ? next : w / 2;
    if (Math.abs(step) <= 1e-15 * w) break;
  }
  return w;
}

/**
 * Current at a voltage by Lambert W: an independent route to `currentAtVoltage`, without breakdown.
 *
 * @param curve - single-diode curve with a series resistance above zero
 * @param voltage - terminal voltage [V]
 * @returns current [A]
 * Source: Jain and Kapoor, Exact analytical solutions of the parameters of real solar cells using Lambert W-function,
 * Sol. Energy Mater. Sol. Cells 81, 2004, eq. 2.
 */
export function lambertCurrentAtVoltage(curve: DiodeCurve, voltage: number): number {
  const { photocurrent, saturationCurrent, seriesResistance: rs, shuntResistance, modifiedIdeality: a } = curve;
  const shunt = 1 / shuntResistance;
  const d = 1 + rs * shunt;
  const logarithm =
    Math.log((rs * saturationCurrent) / (a * d)) + (rs * (photocurrent + saturationCurrent) + voltage) / (a * d);
  return (photocurrent + saturationCurrent - voltage * shunt) / d - (a / rs) * lambertWOfExp(logarithm);
}

/**
 * Voltage at a current by Lambert W: an independent route to `voltageAtCurrent`, without breakdown.
 *
 * @param curve - single-diode curve
 * @param current - [A]
 * @returns terminal voltage [V]
 * Source: Jain and Kapoor, Sol. Energy Mater. Sol. Cells 81, 2004, eq. 3.
 */
export function lambertVoltageAtCurrent(curve: DiodeCurve, current: number): number {
  const { photocurrent, saturationCurrent, seriesResistance, shuntResistance, modifiedIdeality: a } = curve;
  const shuntVoltage = (photocurrent + saturationCurrent - current) * shuntResistance;
  const logarithm = Math.log((saturationCurrent * shuntResistance) / a) + shuntVoltage / a;
  return shuntVoltage - current * seriesResistance - a * lambertWOfExp(logarithm);
}
