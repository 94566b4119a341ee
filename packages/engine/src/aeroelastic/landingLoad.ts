import {
  addForce,
  pointRow,
  prepareStatic,
  type SpanStrength,
  type StructuralModel,
  solveStatic,
} from '../structure/index.js';
import { curvatureAlong, trimDisplacement } from './bentShape.js';
import type { ElasticHalf } from './elasticHalf.js';
import type { ElasticTrim, TrimCondition } from './elasticTrim.js';
import type { LandingLoad } from './limitTypes.js';
import { stoppedSinkRate } from './touchdown.js';

/** Way within which a belly or a skid in grass stops the sink (judgement: 10 to 30 mm) [m]. */
const stoppedWithin = 0.02;

/**
 * Touchdown on the body below the balance point, the wing still carrying the weight: its own inertia bends the tips down, nothing clamped.
 * Undefined where nothing bends or nothing gives way.
 *
 * strength - curvatures along the wing that it bears
 */
export function landingLoad(
  elastic: ElasticHalf,
  model: StructuralModel,
  trim: ElasticTrim,
  condition: TrimCondition,
  strength: SpanStrength,
): LandingLoad | undefined {
  const { half } = elastic;
  const system = prepareStatic(half);
  if (!system.ok) return undefined;
  const loads = new Float64Array(half.size);
  // In the plane of symmetry with half its value.
  addForce(half, loads, pointRow(model, strength.surface, condition.balancePoint, 0), condition.weight / 2);
  const { displacement } = solveStatic(system.value, loads);
  const byOne = curvatureAlong(elastic, model, displacement, strength);
  const flown = curvatureAlong(elastic, model, trimDisplacement(elastic, trim, condition.pitchControls), strength);
  let factor = Number.POSITIVE_INFINITY;
  byOne.forEach((value, i) => {
    if (Math.abs(value) < 1e-9) return;
    const room = value < 0 ? strength.down[i] + flown[i] : strength.up[i] - flown[i];
    factor = Math.min(factor, Math.max(0, room) / Math.abs(value));
  });
  if (!Number.isFinite(factor)) return undefined;
  return { loadFactor: factor, stoppedWithin, sinkRate: stoppedSinkRate(factor, stoppedWithin) };
}
