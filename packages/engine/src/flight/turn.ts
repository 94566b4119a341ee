import { standardGravity } from './types.js';

/**
 * Load factor of a steady level turn.
 * @param bank - bank angle [rad], |bank| < pi/2
 * Source: vertical balance L cos(bank) = W.
 */
export const loadFactor = (bank: number): number => 1 / Math.cos(bank);

/**
 * Pitch rate of a steady level turn [rad/s], nose up positive, in the body frame.
 * @param airspeed - [m/s], > 0
 * Source: q = (g/V)(n - 1/n), kinematics of the coordinated turn (Etkin & Reid, Dynamics of Flight, 3rd ed., 1996, ch. 7; from memory).
 */
export function turnPitchRate(bank: number, airspeed: number): number {
  const n = loadFactor(bank);
  return (standardGravity / airspeed) * (n - 1 / n);
}

/**
 * Radius of a steady level turn [m]; Infinity is never returned: straight flight has no radius (undefined).
 * Source: R = V^2 / (g tan bank).
 */
export function turnRadius(bank: number, airspeed: number): number | undefined {
  const slope = Math.tan(Math.abs(bank));
  return slope > 1e-6 ? airspeed ** 2 / (standardGravity * slope) : undefined;
}

/** Bank [rad] that flies a circle of a radius [m] at an airspeed [m/s]. */
export const bankForRadius = (radius: number, airspeed: number): number =>
  Math.atan(airspeed ** 2 / (standardGravity * radius));
