/**
 * Lift-curve slope of a plain wing from its aspect ratio, after Helmbold: 2 pi A / (2 + sqrt(A^2 + 4)).
 * Runs 3 to 7 % above a converged lifting surface at aspect ratios 4 to 10.
 *
 * @param aspectRatio - > 0
 * @returns slope [1/rad]
 * Source: Helmbold, Der unverwundene Ellipsenfluegel als tragende Flaeche, Jahrbuch der deutschen Luftfahrtforschung, 1942.
 */
export function closedFormLiftSlope(aspectRatio: number): number {
  if (!(aspectRatio > 0)) throw new RangeError('the aspect ratio must be positive');
  return (2 * Math.PI * aspectRatio) / (2 + Math.sqrt(aspectRatio * aspectRatio + 4));
}

/**
 * Downwash gradient far behind an elliptically loaded wing, 2 a_w / (pi A).
 * @param liftSlope - of the wing [1/rad]
 * @returns d(epsilon)/d(alpha)
 * Source: lifting-line theory (Prandtl), far wake.
 */
export function farDownwashGradient(liftSlope: number, aspectRatio: number): number {
  return (2 * liftSlope) / (Math.PI * aspectRatio);
}

/**
 * Downwash gradient at a tail by the handbook fit 4.44 [K_A K_lambda K_H sqrt(cos L)]^1.19.
 *
 * @param aspectRatio - of the wing
 * @param taper - tip chord / root chord
 * @param quarterChordSweep - [rad]
 * @param height - of the tail above or below the wing's plane [m]
 * @param distance - from the wing's quarter chord to the tail's [m]
 * @param span - of the wing [m]
 * @returns d(epsilon)/d(alpha)
 * Source: USAF Stability and Control DATCOM, section 4.4.1 (from memory).
 */
export function tailDownwashGradient(at: {
  readonly aspectRatio: number;
  readonly taper: number;
  readonly quarterChordSweep: number;
  readonly height: number;
  readonly distance: number;
  readonly span: number;
}): number {
  const { aspectRatio, span } = at;
  if (!(aspectRatio > 0) || !(span > 0) || !(at.distance > 0)) {
    throw new RangeError('aspect ratio, span and distance must be positive');
  }
  const byAspect = 1 / aspectRatio - 1 / (1 + aspectRatio ** 1.7);
  const byTaper = (10 - 3 * at.taper) / 7;
  const byPlace = Math.max(0, 1 - Math.abs(at.height) / span) / Math.cbrt((2 * at.distance) / span);
  return 4.44 * (byAspect * byTaper * byPlace * Math.sqrt(Math.cos(at.quarterChordSweep))) ** 1.19;
}

/**
 * Horizontal tail volume S_H l_H / (S c).
 * @param tailArea, wingArea - [m2]
 * @param tailArm - between the aerodynamic centres of wing and tail [m]
 * @param meanChord - [m]
 * Typical of models 0.35 to 0.6 (from memory).
 */
export function horizontalTailVolume(at: {
  readonly tailArea: number;
  readonly tailArm: number;
  readonly wingArea: number;
  readonly meanChord: number;
}): number {
  if (!(at.wingArea > 0) || !(at.meanChord > 0)) throw new RangeError('wing area and mean chord must be positive');
  return (at.tailArea * at.tailArm) / (at.wingArea * at.meanChord);
}

/**
 * Vertical tail volume S_V l_V / (S b).
 * @param finArea, wingArea - [m2]
 * @param finArm, span - [m]
 * Typical of models 0.02 to 0.04 (from memory).
 */
export function verticalTailVolume(at: {
  readonly finArea: number;
  readonly finArm: number;
  readonly wingArea: number;
  readonly span: number;
}): number {
  if (!(at.wingArea > 0) || !(at.span > 0)) throw new RangeError('wing area and span must be positive');
  return (at.finArea * at.finArm) / (at.wingArea * at.span);
}

/** A wing and a tail in closed form. */
export interface WingAndTail {
  /** [m2] */
  readonly wingArea: number;
  /** [m] */
  readonly meanChord: number;
  /** [1/rad] */
  readonly wingLiftSlope: number;
  /** [m2] */
  readonly tailArea: number;
  /** Between the aerodynamic centres of wing and tail [m]. */
  readonly tailArm: number;
  /** [1/rad] */
  readonly tailLiftSlope: number;
  /** Dynamic pressure at the tail / free stream. */
  readonly tailEfficiency: number;
  readonly downwashGradient: number;
}

/** Longitudinal stability of a wing and a tail. */
export interface WingAndTailStability {
  /** Of the whole aircraft, on the wing area [1/rad]. */
  readonly liftSlope: number;
  /** Neutral point aft of the wing's aerodynamic centre [mean chords]. */
  readonly neutralPoint: number;
  readonly tailVolume: number;
  /** Derivatives by q c/(2 V) and by the rate of incidence likewise. */
  readonly liftByPitchRate: number;
  readonly momentByPitchRate: number;
  readonly momentByIncidenceRate: number;
}

/**
 * Neutral point and damping of a wing with a tail, a second opinion on the lattice. No fuselage, which moves the
 * neutral point forward, no propeller.
 *
 * With k = eta (S_H/S)(a_t/a_w)(1 - e'): x_NP - x_acw = k/(1 + k) l_H; CLq = 2 eta a_t V_H; Cmq = -CLq l_H/c;
 * Cm by incidence rate = Cmq e'. The tail arm stands for the arm from the balance point in the damping terms.
 *
 * Source: standard two-surface analysis, e.g. Nelson, Flight Stability and Automatic Control, 1998, ch. 2 and 3.
 */
export function wingAndTailStability(aircraft: WingAndTail): WingAndTailStability {
  const { wingArea, meanChord, wingLiftSlope, tailArea, tailArm, tailLiftSlope, tailEfficiency, downwashGradient } =
    aircraft;
  if (!(wingLiftSlope > 0)) throw new RangeError('the wing lift slope must be positive');
  const tailVolume = horizontalTailVolume({ tailArea, tailArm, wingArea, meanChord });
  const k = ((tailEfficiency * tailArea * tailLiftSlope) / (wingArea * wingLiftSlope)) * (1 - downwashGradient);
  const liftByPitchRate = 2 * tailEfficiency * tailLiftSlope * tailVolume;
  const momentByPitchRate = (-liftByPitchRate * tailArm) / meanChord;
  return {
    liftSlope: wingLiftSlope * (1 + k),
    neutralPoint: ((k / (1 + k)) * tailArm) / meanChord,
    tailVolume,
    liftByPitchRate,
    momentByPitchRate,
    momentByIncidenceRate: momentByPitchRate * downwashGradient,
  };
}
