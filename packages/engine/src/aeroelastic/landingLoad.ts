import { addForce, pointRow, type SpanStrength, type StructuralModel, solveStatic } from '../structure/index.js';
import { curvatureAlong, trimDisplacement } from './bentShape.js';
import type { ElasticHalf } from './elasticHalf.js';
import type { ElasticTrim, TrimCondition } from './elasticTrim.js';
import type { LandingLoad } from './limitTypes.js';
import { stoppedSinkRate } from './touchdown.js';

/** Way within which a belly or a skid in grass stops the sink (judgement: 10 to 30 mm) [m]. */
const stoppedWithin = 0.02;

/**
 * Curvature along the wing by a force up on the body at the balance point as large as the weight [1/m], balanced by inertia, nothing clamped;
 * negative where tips are bent down.
 */
export function pushedUp(
  elastic: ElasticHalf,
  model: StructuralModel,
  condition: Pick<TrimCondition, 'balancePoint' | 'weight'>,
  strength: Pick<SpanStrength, 'surface' | 'y'>,
): readonly number[] {
  const { half, system } = elastic;
  const loads = new Float64Array(half.size);
  // In the plane of symmetry with half its value.
  addForce(half, loads, pointRow(model, strength.surface, condition.balancePoint, 0), condition.weight / 2);
  return curvatureAlong(elastic, model, solveStatic(system, loads).displacement, strength);
}

/**
 * Touchdown on the body below the balance point, the wing still carrying the weight: its own inertia bends the tips down, nothing clamped.
 * Undefined where nothing bends or nothing gives way.
 *
 * strength - curvatures along the wing that it bears; byOne - from `pushedUp`
 */
export function landingLoad(
  elastic: ElasticHalf,
  model: StructuralModel,
  trim: ElasticTrim,
  condition: TrimCondition,
  strength: SpanStrength,
  byOne = pushedUp(elastic, model, condition, strength),
): LandingLoad | undefined {
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
