import { brentRoot } from '../math/index.js';
import type { SpanStrength } from '../structure/index.js';
import { bentBothWays } from './allowedLoad.js';
import type { ForeAftMoments } from './foreAftFlight.js';
import type { LineLoad } from './limitTypes.js';

/**
 * How much lift over weight the wing bears while a line pulls the body straight down. The aircraft is held, not accelerated: what the wing weighs
 * relieves it by one g only, so that it breaks sooner than in a pull-up of the same lift.
 *
 * flown - curvature along the wing at load factor 1 [1/m]; pushed - by a force up on the body as large as the weight, from `pushedUp`
 * moments - that bend it forward meanwhile, at the greatest lift; absent where they are not known
 * Returns undefined where nothing bends. Source: statics; lift over weight 1 + pull / weight.
 */
export function lineLoad(
  flown: readonly number[],
  pushed: readonly number[],
  strength: SpanStrength,
  moments?: Pick<ForeAftMoments, 'held'>,
): LineLoad | undefined {
  const rise = flown.map((value, i) => value - pushed[i]);
  const at = (loadFactor: number) => flown.map((value, i) => value + (loadFactor - 1) * rise[i]);
  let [most, reason] = [Number.POSITIVE_INFINITY, ''];
  rise.forEach((each, i) => {
    if (Math.abs(each) < 1e-9) return;
    const room = each > 0 ? strength.up[i] - flown[i] : strength.down[i] + flown[i];
    const loadFactor = 1 + room / Math.abs(each);
    if (loadFactor < most) [most, reason] = [loadFactor, strength.reasons[i]];
  });
  if (!Number.isFinite(most)) return undefined;
  if (moments === undefined) return { loadFactor: most, reason };
  const both = (loadFactor: number) =>
    bentBothWays(
      at(loadFactor),
      strength,
      moments.held.map((moment) => loadFactor * moment),
    );
  const spare = (loadFactor: number) => (both(loadFactor)?.factor ?? Number.POSITIVE_INFINITY) - 1;
  if (!(most > 1) || spare(most) >= 0 || spare(1) <= 0) return { loadFactor: most, reason };
  const loadFactor = brentRoot(spare, 1, most, { tolerance: 1e-6 });
  return loadFactor === undefined
    ? { loadFactor: most, reason }
    : { loadFactor, reason: `${both(loadFactor)!.reason}, bent up and forward` };
}
