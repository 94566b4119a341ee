import { cellAt, seriesString, stringVoltageAtCurrent } from '../array/index.js';
import { interpolateLinear } from '../math/index.js';
import type { Warning } from '../result.js';
import type { BenchUnit } from './types.js';

/** A measured current-voltage trace by rising voltage; current out of the cells is positive. */
export interface MeasuredTrace {
  /** [V] */
  readonly voltage: readonly number[];
  /** [A] */
  readonly current: readonly number[];
}

/** What a trace shows by itself. */
export interface TraceFigures {
  /** [A] */
  readonly shortCircuitCurrent: number;
  /** [V] */
  readonly openCircuitVoltage: number;
  readonly maximum: { readonly voltage: number; readonly current: number; readonly power: number };
  /** Currents of the plateaus, highest first [A]: more than one tells of cells in other light, or cracked, past their diode. */
  readonly plateaus: readonly number[];
  /** Resistance beside that of the model, from the slope near open circuit [ohm]; undefined where the trace has no points there. */
  readonly addedResistance?: number;
  readonly warnings: readonly Warning[];
}

/** Value at which the other column reaches zero, from the two points nearest to it. */
function atZero(of: readonly number[], by: readonly number[], from: number): number {
  const [a, b] = [from, from + 1];
  const slope = (of[b]! - of[a]!) / (by[b]! - by[a]! || 1e-12);
  return of[a]! - by[a]! * slope;
}

/** Levels at which the current stands still while the voltage rises: flat stretches of at least a twelfth of the voltage. */
function plateausOf({ voltage, current }: MeasuredTrace, open: number, short: number): readonly number[] {
  const steps = 48;
  const at = (k: number) => interpolateLinear(voltage, current, (open * k) / steps);
  const levels: number[] = [];
  let length = 0;
  for (let k = 1; k <= steps; k++) {
    const isFlat = Math.abs(at(k) - at(k - 1)) < 0.012 * short;
    length = isFlat ? length + 1 : 0;
    if (length !== 4) continue;
    const level = at(k - 2);
    if (level > 0.03 * short && levels.every((known) => Math.abs(known - level) > 0.06 * short)) levels.push(level);
  }
  return levels.sort((a, b) => b - a);
}

/**
 * Figures of a trace, and what they say against the model.
 *
 * @param trace - from near short circuit to near open circuit, four points or more
 * @param unit - what was traced, one string of it
 * @param at - irradiance on the cells under their film [W/m2] and temperature [K], for the slope of the model
 * @returns short circuit, open circuit and greatest power; plateaus; added resistance
 * Source: reading of I-V curves: steps tell of diodes that carry, the slope at open circuit of series resistance.
 */
export function traceFigures(
  trace: MeasuredTrace,
  unit: BenchUnit,
  at: { readonly irradiance: number; readonly temperature: number },
): TraceFigures {
  const { voltage, current } = trace;
  const last = voltage.length - 1;
  const shortCircuitCurrent =
    voltage[0]! <= 0.02 * voltage[last]! ? current[0]! : Math.max(current[0]!, atZero(current, voltage, 0));
  const end = current[last]! <= 0.01 * shortCircuitCurrent ? voltage[last]! : atZero(voltage, current, last - 1);
  const openCircuitVoltage = Math.max(voltage[last]!, Number.isFinite(end) ? Math.min(end, 1.2 * voltage[last]!) : 0);
  let best = 0;
  for (let k = 1; k <= last; k++) if (voltage[k]! * current[k]! > voltage[best]! * current[best]!) best = k;
  const maximum = { voltage: voltage[best]!, current: current[best]!, power: voltage[best]! * current[best]! };
  const plateaus = plateausOf(trace, openCircuitVoltage, shortCircuitCurrent);
  const addedResistance = addedResistanceOf(trace, unit, at, shortCircuitCurrent);
  const warnings: Warning[] = [];
  if (plateaus.length > 1) {
    const lower = plateaus.slice(1).map((level) => `${Math.round((100 * level) / plateaus[0]!)} %`);
    warnings.push({
      code: 'trace-steps',
      message: `the trace has ${plateaus.length} steps: cells that give ${lower.join(', ')} of the current of the others (shade, crack or a lost contact)`,
    });
  }
  if (addedResistance !== undefined && addedResistance > 0.25 * unit.seriesResistance + 0.03 * unit.cells * 0.05) {
    warnings.push({
      code: 'trace-resistance',
      message: `${(1000 * addedResistance).toFixed(0)} mohm more in series than the model has: a joint, a connector or thin wire`,
    });
  }
  return {
    shortCircuitCurrent,
    openCircuitVoltage,
    maximum,
    plateaus,
    ...(addedResistance === undefined ? {} : { addedResistance }),
    warnings,
  };
}

/** Difference of the slopes between 10 and 45 % of the current near open circuit: there cells are alike in any light. */
function addedResistanceOf(
  { voltage, current }: MeasuredTrace,
  unit: BenchUnit,
  at: { readonly irradiance: number; readonly temperature: number },
  short: number,
): number | undefined {
  const string = seriesString({
    cell: unit.cell,
    groups: [{ count: unit.cells, ...at }],
    seriesResistance: unit.seriesResistance,
  });
  // The light of the model is brought to the measured short-circuit current.
  const modelShort = cellAt(unit.cell, at).photocurrent;
  const scale = modelShort > 0 ? short / (modelShort * unit.parallel) : 1;
  const points = voltage
    .map((volts, k) => ({ volts, amps: current[k]! }))
    .filter(({ amps }) => amps > 0.1 * short && amps < 0.45 * short);
  if (points.length < 2) return undefined;
  const [first, last] = [points[0]!, points.at(-1)!];
  const measured = (first.volts - last.volts) / (last.amps - first.amps);
  const modelled =
    (stringVoltageAtCurrent(string, first.amps / (scale * unit.parallel)) -
      stringVoltageAtCurrent(string, last.amps / (scale * unit.parallel))) /
    (last.amps - first.amps);
  const added = measured - modelled;
  return Number.isFinite(added) ? added : undefined;
}
