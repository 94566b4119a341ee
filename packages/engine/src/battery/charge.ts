import { brentRoot, gaussLegendre } from '../math/index.js';
import { type Outcome, problem, success } from '../result.js';
import { type CellPack, packCapacity, packOpenCircuitVoltage, packResistance } from './pack.js';

/** Course of a constant-current constant-voltage charge. */
export interface ConstantVoltageCharge {
  /** State of charge at the change from constant current to constant voltage. */
  readonly changeover: number;
  readonly endStateOfCharge: number;
  /** [s] */
  readonly constantCurrentDuration: number;
  /** Both phases [s]. */
  readonly duration: number;
}

/**
 * Time constant of the taper at constant voltage, where the slope of the open-circuit curve is constant:
 * I = I0 exp(-t/tau), tau = C R / (dU/ds).
 *
 * @param capacity - [C]
 * @param resistance - [ohm]
 * @param slope - of the open-circuit voltage [V per unit of state of charge], > 0
 * @returns tau [s]
 * Source: charge balance of a source with series resistance at constant terminal voltage.
 */
export function taperTimeConstant(at: {
  readonly capacity: number;
  readonly resistance: number;
  readonly slope: number;
}): number {
  if (!(at.slope > 0)) throw new RangeError('the slope must be positive');
  return (at.capacity * at.resistance) / at.slope;
}

/**
 * Durations of a charge from a strong source: constant current, then constant voltage until the current has fallen.
 *
 * @param from - state of charge at the start
 * @param current - of the pack in the first phase [A]
 * @param stopCurrent - of the pack at which charging ends [A], below `current`
 * @param temperature - cell temperature [K], constant
 * Source: ds/dt = I/C with I = min(current, (V_charge - U(s))/R(s)), integrated over s.
 */
export function chargeCourse(
  pack: CellPack,
  at: { readonly from: number; readonly current: number; readonly stopCurrent: number; readonly temperature: number },
): Outcome<ConstantVoltageCharge> {
  const { from, current, stopCurrent, temperature } = at;
  if (!(current > stopCurrent && stopCurrent > 0)) throw new RangeError('need current > stop current > 0');
  const ceiling = pack.cellsInSeries * pack.chargeVoltage;
  const taper = (s: number): number =>
    (ceiling - packOpenCircuitVoltage(pack, s)) / packResistance(pack, s, temperature);
  const capacity = packCapacity(pack) / pack.coulombicEfficiency;
  const last = pack.highestStateOfCharge;
  if (taper(from) <= stopCurrent || from >= last) {
    return problem({
      code: 'battery-full',
      reason: 'the battery takes less than the stop current already at the start',
      where: 'battery',
      remedy: 'start from a lower state of charge, or check the charge voltage',
    });
  }
  const changeover = taper(from) <= current ? from : (brentRoot((s) => taper(s) - current, from, last) ?? last);
  const end = taper(last) >= stopCurrent ? last : (brentRoot((s) => taper(s) - stopCurrent, changeover, last) ?? last);
  const constantCurrentDuration = ((changeover - from) * capacity) / current;
  const { nodes, weights } = gaussLegendre(8);
  const pieces = 40;
  const width = (end - changeover) / pieces;
  let taperDuration = 0;
  for (let piece = 0; piece < pieces; piece++) {
    for (let i = 0; i < nodes.length; i++) {
      const s = changeover + width * (piece + (1 + nodes[i]) / 2);
      taperDuration += (weights[i] * width * capacity) / (2 * taper(s));
    }
  }
  return success({
    changeover,
    endStateOfCharge: end,
    constantCurrentDuration,
    duration: constantCurrentDuration + taperDuration,
  });
}
