import { pointRow, readRow, type SpanStrength, type StructuralModel } from '../structure/index.js';
import type { ElasticHalf } from './elasticHalf.js';
import { type ElasticTrim, type TrimCondition, trimForces } from './elasticTrim.js';
import type { AllowedLoad } from './limitTypes.js';

/** Step along the span over which the slope is compared [share of the surface]. */
const step = 0.02;

/**
 * Curvature along the span of a surface in trimmed flight at load factor 1, tips up positive [1/m]: by its own lift and inertia, nothing clamped.
 */
export function spanCurvature(
  elastic: ElasticHalf,
  model: StructuralModel,
  trim: ElasticTrim,
  condition: TrimCondition,
  { surface, y }: Pick<SpanStrength, 'surface' | 'y'>,
): number[] {
  const { half, steady, displacement } = elastic;
  const forces = trimForces(elastic, trim, condition.pitchControls);
  const bent = new Float64Array(half.size);
  for (let i = 0; i < half.size; i++)
    for (let p = 0; p < steady.panels; p++) bent[i] += displacement[i * steady.panels + p] * forces[p];
  const mesh = model.surfaces.find(({ name }) => name === surface)!;
  const ends = mesh.nodes.map((node) => node.y);
  const [root, tip] = [Math.min(...ends), Math.max(...ends)];
  const slopeAt = (at: number) => {
    const here = mesh.nodes.filter((node) => Math.abs(node.y - at) < 0.1 * (tip - root)).map(({ x }) => x);
    const x = 0.7 * Math.min(...here) + 0.3 * Math.max(...here);
    const row = pointRow(model, surface, x, at);
    return readRow(half, row.dofs, row.slopeY, bent);
  };
  const h = step * (tip - root);
  return y.map((at) => {
    const [from, to] = [Math.max(root, at - h), Math.min(tip, at + h)];
    return (slopeAt(to) - slopeAt(from)) / (to - from);
  });
}

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
