import {
  type SpanStrength,
  type StructuralModel,
  type TwoWayLimit,
  twoWayLimit,
  wireTensions,
} from '../structure/index.js';
import type { ElasticHalf } from './elasticHalf.js';
import type { AllowedLoad, WirePull } from './limitTypes.js';

/**
 * Load factors at which the first place gives way, from curvatures at load factor 1. Undefined where nothing bends.
 * moments - that bend the tips forward at the same places and load factor, tips up [N m]; what both break together counts
 */
export function allowedLoad(
  curvature: readonly number[],
  strength: SpanStrength,
  moments?: readonly number[],
): AllowedLoad | undefined {
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
  const both = moments && bentBothWays(curvature, strength, moments);
  if (both !== undefined && both.factor < up) {
    up = both.factor;
    reason = `${both.reason}, bent up and forward`;
  }
  return up < Infinity && down < Infinity ? { up, down: -down, reason } : undefined;
}

/** Tension of bracing wires at load factor 1 [N], those that are taut. bent - displacement then, from `trimDisplacement` */
export const wirePulls = ({ half }: ElasticHalf, { wires }: StructuralModel, bent: Float64Array): readonly WirePull[] =>
  wireTensions(half, wires, bent).flatMap(({ wire: { name, surface, breaks }, tension }) =>
    tension > 0 ? [{ name, surface, tension, breaks }] : [],
  );

/** Load allowed where a bracing wire may part before the wing gives way. */
export const withWires = (allowed: AllowedLoad | undefined, pulls: readonly WirePull[]): AllowedLoad | undefined =>
  pulls.reduce((least, { name, surface, tension, breaks }) => {
    const up = breaks / tension;
    if (least !== undefined && least.up <= up) return least;
    return { up, down: least?.down ?? -up, reason: `wire ${name} of ${surface} parts` };
  }, allowed);

/** Where both bendings together first break the wing; undefined where nothing is known of it fore and aft. */
export function bentBothWays(
  curvature: readonly number[],
  { y, foreAft }: Pick<SpanStrength, 'y' | 'foreAft'>,
  moments: readonly number[],
): (TwoWayLimit & { readonly y: number }) | undefined {
  const found = y.flatMap((at, i) => {
    const strength = foreAft?.strengths[i];
    const limit = strength && twoWayLimit(strength, { curvature: curvature[i], moment: moments[i] });
    return limit === undefined ? [] : [{ ...limit, y: at }];
  });
  return found.sort((a, b) => a.factor - b.factor)[0];
}
