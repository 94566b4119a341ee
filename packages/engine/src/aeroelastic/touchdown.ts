import { standardGravity as gravity } from '../air/index.js';

/** Force of a touchdown over the weight. */
export interface TouchdownLoad {
  /** Stopped evenly: the least that the way allows. */
  readonly even: number;
  /** Peak of a linear spring that is pressed in by the whole way: twice that of an even stop. */
  readonly spring: number;
}

/**
 * Force between ground and aircraft while its sink is stopped: kinetic energy and the weight that is not carried by the wing work over the way.
 *
 * sinkRate - [m/s]; way - by which skid, belly or grass give [m]; carried - share of the weight that the wing still carries
 * Source: conservation of energy; with nothing carried and a spring the impact factor 1 + sqrt(1 + 2 h / delta) of Gere and Timoshenko,
 * Mechanics of Materials, impact loading (from memory).
 */
export function touchdownLoad({
  sinkRate,
  way,
  carried = 1,
}: {
  readonly sinkRate: number;
  readonly way: number;
  readonly carried?: number;
}): TouchdownLoad {
  const even = sinkRate ** 2 / (2 * gravity * way) + (1 - carried);
  return { even, spring: 2 * even };
}

/** Sink rate that an even stop takes out, the wing carrying the weight [m/s]. loadFactor - force over weight; way [m] */
export const stoppedSinkRate = (loadFactor: number, way: number): number => Math.sqrt(2 * loadFactor * gravity * way);
