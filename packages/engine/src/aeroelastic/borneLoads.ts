import type { StructuralModel } from '../structure/index.js';
import { allowedLoad, wirePulls, withWires } from './allowedLoad.js';
import { curvatureAlong, trimDisplacement } from './bentShape.js';
import type { ElasticHalf } from './elasticHalf.js';
import { elasticTrim } from './elasticTrim.js';
import { dragLimitSpeed, foreAftFlight, foreAftMoments } from './foreAftFlight.js';
import { landingLoad, pushedUp } from './landingLoad.js';
import type { AllowedLoad, LimitCondition, LimitsReport } from './limitTypes.js';
import { lineLoad } from './lineLoad.js';

/** What the strength along the wing bears. */
export interface Borne extends Pick<LimitsReport, 'allowed' | 'wires' | 'foreAft' | 'landing' | 'line'> {
  /** Airspeed at which drag breaks the wing backwards below one. */
  readonly drag: (highest: number) => ReturnType<typeof dragLimitSpeed>;
}

const unknown = (allowed: AllowedLoad | undefined): Borne => ({
  allowed,
  wires: [],
  foreAft: undefined,
  landing: undefined,
  line: undefined,
  drag: () => undefined,
});

/** Normal flight is slower than this, over the stall speed (judgement). */
const fastest = 2;

/**
 * What the strength along the wing allows, from how it bends in normal flight.
 *
 * brief - without touchdown and line
 */
export function borneLoads(
  elastic: ElasticHalf,
  model: StructuralModel,
  condition: LimitCondition,
  brief: boolean,
): Borne {
  const { strength, trim: of, allowed } = condition;
  // Far above its stall a wing bends by the air itself, not by what it carries: what a load does is then looked at more slowly.
  const airspeed = Math.min(condition.airspeed, fastest * condition.stallSpeed);
  const trim = strength === undefined ? undefined : elasticTrim(elastic, (condition.density / 2) * airspeed ** 2, of);
  if (strength === undefined || trim === undefined) return unknown(allowed);
  const bent = trimDisplacement(elastic, trim, of.pitchControls);
  const curvature = curvatureAlong(elastic, model, bent, strength);
  const moments = foreAftMoments(elastic, trim, condition, strength);
  const wires = wirePulls(elastic, model, bent);
  const borne = allowed ?? withWires(allowedLoad(curvature, strength, moments?.pullUp), wires);
  const without = moments && allowedLoad(curvature, strength)?.up;
  const pushed = brief ? undefined : pushedUp(elastic, model, of, strength);
  return {
    allowed: borne,
    wires,
    foreAft:
      moments === undefined || borne === undefined || without === undefined
        ? undefined
        : foreAftFlight(moments, strength, borne, without),
    landing: pushed && landingLoad(elastic, model, trim, of, strength, pushed),
    line: pushed && lineLoad(curvature, pushed, strength, moments),
    drag: (highest) => moments && dragLimitSpeed(moments, curvature, strength, [condition.stallSpeed, highest]),
  };
}
