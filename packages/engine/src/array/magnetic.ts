import type { Vec3 } from '../math/index.js';

/** Magnetic constant over 4 pi [T m/A]. */
const fieldConstant = 1e-7;

/** A straight piece of wire and the current along it, from `from` to `to`. */
export interface WirePiece {
  /** [m] */
  readonly from: Vec3;
  readonly to: Vec3;
  /** [A] */
  readonly current: number;
}

/**
 * Magnetic field of a long straight wire.
 *
 * @param current - [A]
 * @param distance - from its middle [m], above zero
 * @returns flux density [T]
 * Source: Ampere's law, B = mu0 I / (2 pi r).
 */
export const longWireField = (current: number, distance: number): number =>
  (2 * fieldConstant * Math.abs(current)) / distance;

/**
 * Magnetic field of two long parallel wires with opposite currents, in their plane.
 *
 * @param current - [A]
 * @param distance - from the nearer wire [m], above zero
 * @param spacing - between the middles of the wires [m]
 * @returns flux density [T]
 * Source: difference of two long wires.
 */
export const wirePairField = (current: number, distance: number, spacing: number): number =>
  longWireField(current, distance) - longWireField(current, distance + spacing);

/**
 * Magnetic field of straight pieces of wire.
 *
 * @param pieces - whose currents close to a circuit, or nearly so
 * @param at - where the compass is [m]; no closer than a millimetre to a wire is counted
 * @returns flux density [T] in the frame of the pieces
 * Source: law of Biot and Savart for a straight piece, B = mu0 I / (4 pi d) (cos a1 - cos a2).
 */
export function wireField(pieces: readonly WirePiece[], at: Vec3): Vec3 {
  const field: [number, number, number] = [0, 0, 0];
  for (const { from, to, current } of pieces) {
    const along = [to[0] - from[0], to[1] - from[1], to[2] - from[2]] as const;
    const length = Math.hypot(...along);
    if (!(length > 0)) continue;
    const near = [at[0] - from[0], at[1] - from[1], at[2] - from[2]] as const;
    const far = [at[0] - to[0], at[1] - to[1], at[2] - to[2]] as const;
    const cross = [
      (along[1] * near[2] - along[2] * near[1]) / length,
      (along[2] * near[0] - along[0] * near[2]) / length,
      (along[0] * near[1] - along[1] * near[0]) / length,
    ] as const;
    const distance = Math.max(Math.hypot(...cross), 1e-3);
    const cosine = (to: readonly [number, number, number]): number => {
      const reach = Math.max(Math.hypot(...to), 1e-3);
      return (to[0] * along[0] + to[1] * along[1] + to[2] * along[2]) / (length * reach);
    };
    const strength = (fieldConstant * current * (cosine(near) - cosine(far))) / distance ** 2;
    for (let axis = 0; axis < 3; axis++) field[axis]! += strength * cross[axis]!;
  }
  return field;
}

/**
 * Largest deviation of a compass by a field from wires.
 *
 * @param disturbance - horizontal flux density at the compass [T]
 * @param earthHorizontal - of the earth [T]: about 2.5e-5 in the middle latitudes, 3.5e-5 at the equator, 1e-5 in the far north
 * @returns angle [rad], a right angle where the disturbance is the stronger
 * Source: addition of vectors; the worst is at a right angle to the sum.
 */
export const compassDeviation = (disturbance: number, earthHorizontal: number): number =>
  disturbance >= earthHorizontal ? Math.PI / 2 : Math.asin(disturbance / earthHorizontal);

/**
 * Distance from two long wires at which they turn a compass by no more than an angle.
 *
 * @param current - in each of the two wires [A]
 * @param spacing - between their middles [m]
 * @param deviation - allowed [rad]
 * @param earthHorizontal - [T], as for `compassDeviation`
 * @returns from the nearer wire [m]
 * Source: `wirePairField` and `compassDeviation` solved for the distance.
 */
export function pairClearance(current: number, spacing: number, deviation: number, earthHorizontal: number): number {
  const moment = (2 * fieldConstant * Math.abs(current) * spacing) / (earthHorizontal * Math.sin(deviation));
  return Math.sqrt(spacing ** 2 / 4 + moment) - spacing / 2;
}
