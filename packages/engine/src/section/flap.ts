import type { ControlEfficiency } from './turning.js';
import type { FlapEffect } from './types.js';

/** Real / ideal effectiveness of a plain flap on a tape or foam hinge, and its standard deviation (common practice; trend of DATCOM section 6.1.1). */
export const FLAP_EFFICIENCY = 0.8;
export const FLAP_EFFICIENCY_SPREAD = 0.1;

/** Reynolds number on the chord over which the loss of a flap behind a slow boundary layer dies out. */
const FLAP_LOSS_REYNOLDS = 1.2e5;

/** Below the lowest Reynolds number computed the loss is held. */
const LEAST_FLAP_REYNOLDS = 4e4;

/**
 * Share of that loss where the layer is laminar up to the hinge, where it is turbulent ahead of it, and where nobody knows: the middle, with
 * the deviation of evenly likely values between the two.
 */
export const LAYER_AHEAD = { laminar: 1, turbulent: 0.2, unknown: 0.6, unknownSpread: 0.23 } as const;

/**
 * Part of the effectiveness of a flap that is lost at a low Reynolds number, because the layer separates ahead of the hinge or is thick there.
 *
 * reynolds - on the chord of section and flap together [-]; held below 4e4
 * layer - 1: laminar up to the hinge, 0.2: turbulent ahead of it; `LAYER_AHEAD`
 * Returns layer exp(-Re / 1.2e5), 0 to 1.
 *
 * Source: own solution of the boundary layer (`viscous/`) for sealed flaps of 20 to 35 % of the chord on NACA 0009, 2410, 23112 and 0007, 6
 * degrees up and down, related to thin-section theory. Means, laminar / tripped ahead of the hinge: 0.37 / 0.82 at 4e4, 0.44 / 0.84 at 6e4,
 * 0.58 / 0.89 at 1e5, 0.70 / 0.93 at 1.5e5, 0.79 / 0.95 at 2e5, 0.91 / 0.96 at 3e5, 1.0 / 0.97 at 5e5; single sections lie within 0.2 of the
 * laminar means and 0.1 of the others, and 3 degrees of deflection have down to half as much. No measurement was available to compare with.
 */
export const flapReynoldsLoss = (reynolds: number, layer: number = LAYER_AHEAD.unknown): number =>
  layer * Math.exp(-Math.max(LEAST_FLAP_REYNOLDS, reynolds) / FLAP_LOSS_REYNOLDS);

/** Part of the effectiveness that an open gap of half a per cent of the chord costs, and its standard deviation. */
const GAP_LOSS = { share: 0.1, spread: 0.05, at: 0.005, most: 0.25 } as const;

/**
 * Part of the effectiveness of a flap that leaks through an open gap at its hinge.
 *
 * gap - width / chord, 0 where sealed or taped [-]
 * Returns loss, 0 to 0.25, in proportion to the gap at first, and its standard deviation.
 *
 * Source: plain flaps sealed and with a gap of 0.005 chord on NACA 0009, NACA Report 721, 1941 (M. B. Ames, R. I. Sears; from memory: lift by
 * deflection a tenth lower); other gaps by judgement.
 */
export function flapGapLoss(gap: number): { readonly loss: number; readonly spread: number } {
  const open = Math.max(0, gap) / GAP_LOSS.at;
  const loss = GAP_LOSS.most * (1 - Math.exp((-open * GAP_LOSS.share) / GAP_LOSS.most));
  return { loss, spread: (GAP_LOSS.spread / GAP_LOSS.share) * loss };
}

/**
 * Real / ideal effectiveness of a plain flap.
 *
 * reynolds - on the chord [-]; gap - open gap at the hinge / chord, 0 where sealed [-]; layer - ahead of the hinge, of `LAYER_AHEAD`
 * Returns 0.8 (hinge, thick trailing edge; standard deviation 0.1) less what layer and gap take.
 */
export function flapEfficiency({
  reynolds,
  gap = 0,
  layer = LAYER_AHEAD.unknown,
}: {
  readonly reynolds: number;
  readonly gap?: number;
  readonly layer?: number;
}): ControlEfficiency {
  const { loss: lostToGap, spread: gapSpread } = flapGapLoss(gap);
  const lostToLayer = flapReynoldsLoss(reynolds, layer);
  const value = FLAP_EFFICIENCY * (1 - lostToGap) * (1 - lostToLayer);
  const doubt = layer === LAYER_AHEAD.unknown ? flapReynoldsLoss(reynolds, LAYER_AHEAD.unknownSpread) : 0;
  const relative = Math.hypot(
    FLAP_EFFICIENCY_SPREAD / FLAP_EFFICIENCY,
    doubt / (1 - lostToLayer),
    gapSpread / (1 - lostToGap),
  );
  return { value, spread: value * relative, lostToLayer, lostToGap };
}

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
