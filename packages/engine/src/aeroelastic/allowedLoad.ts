import type { SpanStrength, StructuralModel } from '../structure/index.js';
import { curvatureAlong, trimDisplacement } from './bentShape.js';
import type { ElasticHalf } from './elasticHalf.js';
import type { ElasticTrim, TrimCondition } from './elasticTrim.js';
import type { AllowedLoad } from './limitTypes.js';

/**
 * Curvature along the span of a surface in trimmed flight at load factor 1, tips up positive [1/m]: by its own lift and inertia, nothing clamped.
 */
export const spanCurvature = (
  elastic: ElasticHalf,
  model: StructuralModel,
  trim: ElasticTrim,
  condition: TrimCondition,
  strength: Pick<SpanStrength, 'surface' | 'y'>,
): number[] => curvatureAlong(elastic, model, trimDisplacement(elastic, trim, condition.pitchControls), strength);

/** Load factors at which the first place gives way, from curvatures at load factor 1. Undefined where nothing bends. */
export function allowedLoad(curvature: readonly number[], strength: SpanStrength): AllowedLoad | undefined {
  let up = Infinity;
  let down = Infinity;
  let reason = '';
  curvature.forEach((value, i) => {
    const size = Math.abs(value);
    if (!(size > 1e-9)) return;
    const [raised, lowered] = value > 0 ? [strength.up[i], strength.down[i]] : [strength.down[i], strength.up[i]];
    if (raised / size < up) {
      up = raised / size;
      reason = strength.reasons[i];
    }
    down = Math.min(down, lowered / size);
  });
  return up < Infinity && down < Infinity ? { up, down: -down, reason } : undefined;
}
