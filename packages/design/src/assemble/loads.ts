import type { Load } from '@noonwing/engine/day';
import type { CompleteLoad } from '../complete/index.js';

/** Loads of a completed design as the day needs them; a share of the time counts as that share of the power. */
export function assembleLoads(loads: readonly CompleteLoad[]): readonly Load[] {
  return loads.map(({ name, power, from, to, share }): Load => {
    const hours =
      from === undefined && to === undefined ? {} : { hours: { from: (from ?? 0) / 3600, to: (to ?? 86400) / 3600 } };
    return { name, power: power.value * share.value, ...hours };
  });
}
