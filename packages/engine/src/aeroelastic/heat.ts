import { type Outcome, success } from '../result.js';
import { heatLoad, prepareStatic, type StructuralModel, solveStatic } from '../structure/index.js';
import type { Column } from '../wing/solve.js';
import type { ElasticHalf } from './elasticHalf.js';

/**
 * The same half of the wing bent by a top that is warmer than its bottom: the incidence of the free, warped shape is added to that of camber
 * and twist.
 * difference - top less bottom [K]
 */
export function heatedHalf(elastic: ElasticHalf, model: StructuralModel, difference: number): Outcome<ElasticHalf> {
  const { half, rows, steady } = elastic;
  const system = prepareStatic(half);
  if (!system.ok) return system;
  const { displacement } = solveStatic(system.value, heatLoad(model, half, difference));
  const [[name, incidence], ...others] = steady.causes as readonly [Column, ...Column[]];
  const warped = incidence.slice();
  for (let p = 0; p < steady.panels; p++)
    for (let i = 0; i < half.size; i++) warped[p] -= rows.slope[p * half.size + i] * displacement[i];
  return success({ ...elastic, steady: { ...steady, causes: [[name, warped], ...others] } });
}
