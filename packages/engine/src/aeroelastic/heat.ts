import { heatLoad, type StructuralModel, solveStatic } from '../structure/index.js';
import type { Column } from '../wing/solve.js';
import type { ElasticHalf } from './elasticHalf.js';
import { elasticTrim } from './elasticTrim.js';
import type { HeatEffect, LimitCondition } from './limitTypes.js';

/**
 * The same half of the wing bent by a top that is warmer than its bottom: the incidence of the free, warped shape is added to that of camber
 * and twist.
 * difference - top less bottom [K]
 */
export function heatedHalf(elastic: ElasticHalf, model: StructuralModel, difference: number): ElasticHalf {
  const { half, rows, steady, system } = elastic;
  const { displacement } = solveStatic(system, heatLoad(model, half, difference));
  const [[name, incidence], ...others] = steady.causes as readonly [Column, ...Column[]];
  const warped = incidence.slice();
  for (let p = 0; p < steady.panels; p++)
    for (let i = 0; i < half.size; i++) warped[p] -= rows.slope[p * half.size + i] * displacement[i];
  return { ...elastic, steady: { ...steady, causes: [[name, warped], ...others] } };
}

/** A dark top in the sun over foam in its own shade (from memory: cells 20 to 30 K above the air, less in flight) [K]. */
const warmTop = 20;

/** What a warm top does to the trim of normal flight; undefined where the structure does not warp. */
export function heatEffect(
  elastic: ElasticHalf,
  model: StructuralModel,
  condition: LimitCondition,
): HeatEffect | undefined {
  const heated = heatedHalf(elastic, model, warmTop);
  const pressure = (condition.density / 2) * condition.airspeed ** 2;
  const [cold, warm] = [elastic, heated].map((half) => elasticTrim(half, pressure, condition.trim));
  if (cold === undefined || warm === undefined) return undefined;
  const [control, alpha] = [warm.control - cold.control, warm.alpha - cold.alpha];
  return Math.abs(control) + Math.abs(alpha) > 1e-6 ? { difference: warmTop, control, alpha } : undefined;
}
