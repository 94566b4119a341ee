import type { Air } from '../air/index.js';
import type { Airframe, BodyPoint } from './types.js';

export interface PitchStability {
  /** Neutral point aft of the datum [m]. */
  readonly neutralPoint: number;
  /** (neutral point - balance point) / reference chord; positive is stable. */
  readonly staticMargin: number;
  readonly liftSlope: number;
  readonly momentSlope: number;
}

/**
 * Stick-fixed neutral point and static margin at a state, by central differences of the airframe's own forces.
 *
 * @param at - angle of attack, control [rad], airspeed [m/s], air
 * @param balancePoint - centre of gravity [m]
 *
 * Source: B. Etkin, L. D. Reid, Dynamics of Flight, 3rd ed., 1996, eq. 2.3,19 (from memory): static margin = -Cm_alpha / CL_alpha.
 */
export function pitchStability(
  airframe: Airframe,
  at: { readonly alpha: number; readonly control: number; readonly airspeed: number; readonly air: Air },
  balancePoint: BodyPoint,
): PitchStability {
  const h = 0.01;
  const forces = (alpha: number) => airframe.forces({ ...at, alpha, pitchRate: 0, momentReference: balancePoint });
  const up = forces(at.alpha + h);
  const down = forces(at.alpha - h);
  const liftSlope = (up.liftCoefficient - down.liftCoefficient) / (2 * h);
  const momentSlope = (up.pitchingMomentCoefficient - down.pitchingMomentCoefficient) / (2 * h);
  const staticMargin = liftSlope > 0 ? -momentSlope / liftSlope : 0;
  return {
    neutralPoint: balancePoint.x + staticMargin * airframe.referenceChord,
    staticMargin,
    liftSlope,
    momentSlope,
  };
}
