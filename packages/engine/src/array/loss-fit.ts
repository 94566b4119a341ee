import { type Outcome, problem, success } from '../result.js';
import type { ConverterLoss } from './converter.js';

/** One efficiency reading of a converter. */
export interface EfficiencyReading {
  /** [W] */
  readonly outputPower: number;
  /** [V] */
  readonly outputVoltage: number;
  /** Output over input power. */
  readonly efficiency: number;
}

/** Solution of three linear equations by Cramer's rule; undefined where they are dependent. */
function solveThree(m: readonly (readonly number[])[], right: readonly number[]): readonly number[] | undefined {
  const determinant = (c: readonly (readonly number[])[]): number =>
    c[0]![0]! * (c[1]![1]! * c[2]![2]! - c[1]![2]! * c[2]![1]!) -
    c[0]![1]! * (c[1]![0]! * c[2]![2]! - c[1]![2]! * c[2]![0]!) +
    c[0]![2]! * (c[1]![0]! * c[2]![1]! - c[1]![1]! * c[2]![0]!);
  const whole = determinant(m);
  const size = m[0]![0]! * m[1]![1]! * m[2]![2]!;
  if (!(Math.abs(whole) > 1e-12 * Math.abs(size))) return undefined;
  return [0, 1, 2].map(
    (k) => determinant(m.map((row, i) => row.map((entry, j) => (j === k ? right[i]! : entry)))) / whole,
  );
}

/**
 * Loss model of a converter from three or more efficiency readings (least squares).
 *
 * @param readings - output power [W], output voltage [V], efficiency, at three different currents or more
 * @returns fixed [W], perAmpere [V] and resistance [ohm], none negative; a problem where readings cannot tell them apart
 * Source: quadratic loss model P0 + kv I + R I^2, common practice.
 */
export function fitConverterLoss(readings: readonly EfficiencyReading[]): Outcome<ConverterLoss> {
  const usable = readings.filter(
    (r) => r.efficiency > 0 && r.efficiency <= 1 && r.outputPower > 0 && r.outputVoltage > 0,
  );
  const matrix = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) => usable.reduce((sum, r) => sum + (r.outputPower / r.outputVoltage) ** (i + j), 0)),
  );
  const right = [0, 1, 2].map((i) =>
    usable.reduce((sum, r) => sum + (r.outputPower / r.outputVoltage) ** i * r.outputPower * (1 / r.efficiency - 1), 0),
  );
  const solved = usable.length >= 3 ? solveThree(matrix, right) : undefined;
  if (solved === undefined || solved.some((value) => value < -1e-9)) {
    return problem({
      code: 'converter-loss-fit',
      reason: 'these efficiency readings do not fit a fixed loss, a loss by current and a loss by its square',
      where: 'converter efficiency',
      remedy: 'give at least three readings at clearly different output powers, efficiencies between 0 and 1',
    });
  }
  const [fixed, perAmpere, resistance] = solved.map((value) => Math.max(value, 0)) as [number, number, number];
  return success({ fixed, perAmpere, resistance });
}
