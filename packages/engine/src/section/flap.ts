import type { FlapEffect } from './types.js';

/** Real / ideal effectiveness of a plain flap on a tape or foam hinge, and its standard deviation (common practice; trend of DATCOM section 6.1.1). */
export const FLAP_EFFICIENCY = 0.8;
export const FLAP_EFFICIENCY_SPREAD = 0.1;

/**
 * Inviscid effect of a sealed plain flap.
 *
 * chordFraction - flap chord / section chord, 0 to 1 [-]
 * Returns effectiveness - shift of the zero-lift angle per deflection, magnitude [-];
 *         moment - change of the quarter-chord moment coefficient per radian of deflection at constant lift [1/rad].
 * Source: H. Glauert, Theoretical relationships for an aerofoil with hinged flap, ARC R&M 1095, 1927.
 */
export function glauertFlap(chordFraction: number): { readonly effectiveness: number; readonly moment: number } {
  const fraction = Math.min(1, Math.max(0, chordFraction));
  const hinge = Math.acos(2 * fraction - 1);
  const sine = Math.sin(hinge);
  return {
    effectiveness: 1 - (hinge - sine) / Math.PI,
    moment: -0.5 * sine * (1 - Math.cos(hinge)),
  };
}

/**
 * Effect of a real flap: Glauert's result times an efficiency that covers gap, thick boundary layer and hinge.
 * At large deflection the flow leaves the flap: the efficiency falls beyond 15 degrees, to about half of it at 45 degrees.
 *
 * chordFraction - flap chord / section chord [-]
 * deflection - size of the deflection at which the effect is wanted [rad], default small
 * efficiency - real / ideal effectiveness [-], default 0.8
 * Returns derivatives per radian, trailing edge down positive; the moment is scaled by the same efficiency.
 */
export function flapEffect(chordFraction: number, deflection = 0, efficiency = FLAP_EFFICIENCY): FlapEffect {
  const ideal = glauertFlap(chordFraction);
  const excess = Math.max(0, Math.abs(deflection) - Math.PI / 12);
  const factor = efficiency / (1 + (excess / (Math.PI / 6)) ** 2);
  return {
    zeroLiftShift: -ideal.effectiveness * factor,
    moment: ideal.moment * factor,
    idealEffectiveness: ideal.effectiveness,
    spread: FLAP_EFFICIENCY_SPREAD / FLAP_EFFICIENCY,
  };
}
