import { currentAtDiodeVoltage, type DiodeCurve, type PowerPoint } from './cell.js';

/** Relative step, in units of a, after which the cubic error of a Halley step is below 1e-10. */
const lastStep = 3e-4;

/**
 * Start value of the diode voltage at maximum power, in units of a: the root of (1 + z - 2 r) exp(z) = IL / I0 with
 * the resistances taken at the ideal current.
 */
function startValue(ratio: number, resistance: number, leak: number): number {
  const open = Math.log1p(ratio);
  const first = open - Math.log(1 + open * 0.9);
  const drop = (2 * resistance * first) / (1 + first);
  const left = 1 - 2 * leak * first;
  const denominator = 1 + first - drop;
  return denominator > 0.5 && left > 0.05 ? Math.log((ratio * left) / denominator) : 0.7 * first;
}

/**
 * Diode voltage at which a cell gives its greatest power.
 *
 * Solves dP/dx = I'x + I - 2 Rs I I' = 0 for the diode voltage x, P = I (x - I Rs), by Halley steps (first and second
 * derivative come free with the one exponential), kept inside the bracket from short circuit to open circuit.
 *
 * @param il - photocurrent [A], above zero
 * @param i0 - saturation current [A]
 * @param rs - series resistance [ohm]
 * @param shunt - shunt conductance [S]
 * @param a - modified ideality [V]
 * @returns V + I Rs at maximum power [V]
 * Source: single-diode equation, De Soto, Klein and Beckman, Solar Energy 80, 2006, eq. 1; the condition is dP = 0.
 */
function maximumDiodeVoltage(il: number, i0: number, rs: number, shunt: number, a: number): number {
  let low = 0;
  let high = a * Math.log1p(il / i0);
  if (high * shunt > il) high = il / shunt;
  let x = a * startValue(il / i0, (rs * il) / a, (shunt * a) / il);
  if (!(x > low && x < high)) x = 0.8 * high;
  for (let iteration = 0; iteration < 60; iteration++) {
    const diode = i0 * Math.exp(x / a);
    const current = il - diode + i0 - shunt * x;
    const curvature = -diode / (a * a);
    const slope = curvature * a - shunt;
    const gradient = slope * x + current - 2 * rs * current * slope;
    const second = curvature * x + 2 * slope - 2 * rs * (slope * slope + current * curvature);
    const third = (curvature / a) * (x - 2 * rs * current) + 3 * curvature - 6 * rs * slope * curvature;
    if (gradient > 0) low = x;
    else high = x;
    const newton = gradient / second;
    const step = newton / (1 - (0.5 * newton * third) / second);
    const next = x - step;
    if (second < 0 && next >= low && next <= high) {
      x = next;
      if (step < lastStep * a && step > -lastStep * a) return x;
    } else {
      x = 0.5 * (low + high);
      if (high - low < 1e-14 * a) return x;
    }
  }
  return x;
}

const darkness: PowerPoint = { voltage: 0, current: 0, power: 0 };

/**
 * Maximum power point of one cell or of a module of equal cells.
 *
 * @param curve - single-diode curve; breakdown plays no part, since it acts in reverse only
 * @returns voltage [V], current [A], power [W]; zeros without photocurrent
 */
export function maximumPowerPoint(curve: DiodeCurve): PowerPoint {
  const { photocurrent, saturationCurrent, seriesResistance, shuntResistance, modifiedIdeality } = curve;
  if (!(photocurrent > 0)) return darkness;
  const x = maximumDiodeVoltage(
    photocurrent,
    saturationCurrent,
    seriesResistance,
    1 / shuntResistance,
    modifiedIdeality,
  );
  const current = currentAtDiodeVoltage(curve, x);
  const voltage = x - current * seriesResistance;
  return { voltage, current, power: voltage * current };
}

/** Single-diode parameters of many curves, one entry per curve; units as in DiodeCurve. */
export interface DiodeCurveBatch {
  readonly photocurrent: Float64Array;
  readonly saturationCurrent: Float64Array;
  readonly seriesResistance: Float64Array;
  readonly shuntResistance: Float64Array;
  readonly modifiedIdeality: Float64Array;
}

/** Maximum power points of many curves: [V], [A], [W]. */
export interface PowerPointBatch {
  readonly voltage: Float64Array;
  readonly current: Float64Array;
  readonly power: Float64Array;
}

/**
 * Empty batch of power points, to be reused between calls.
 *
 * @param count - number of curves
 */
export function powerPointBatch(count: number): PowerPointBatch {
  return { voltage: new Float64Array(count), current: new Float64Array(count), power: new Float64Array(count) };
}

/**
 * Maximum power points of many cells at once.
 *
 * @param batch - single-diode parameters, arrays of equal length
 * @param into - where to write; a new batch where absent
 * @returns `into`; zeros where the photocurrent is not above zero
 */
export function maximumPowerPoints(
  batch: DiodeCurveBatch,
  into: PowerPointBatch = powerPointBatch(batch.photocurrent.length),
): PowerPointBatch {
  const { photocurrent, saturationCurrent, seriesResistance, shuntResistance, modifiedIdeality } = batch;
  const { voltage, current, power } = into;
  const count = photocurrent.length;
  for (let k = 0; k < count; k++) {
    const il = photocurrent[k]!;
    if (!(il > 0)) {
      voltage[k] = current[k] = power[k] = 0;
      continue;
    }
    const i0 = saturationCurrent[k]!;
    const rs = seriesResistance[k]!;
    const shunt = 1 / shuntResistance[k]!;
    const a = modifiedIdeality[k]!;
    const x = maximumDiodeVoltage(il, i0, rs, shunt, a);
    const i = il - i0 * (Math.exp(x / a) - 1) - shunt * x;
    const v = x - i * rs;
    voltage[k] = v;
    current[k] = i;
    power[k] = v * i;
  }
  return into;
}
