/**
 * Static margin: how far the balance point lies ahead of the neutral point, in mean chords.
 * @param neutralPoint, balancePoint - x aft from the datum [m]
 * @param meanChord - [m]
 * @returns ratio; positive is stable
 * Source: definition, (x_NP - x_CG)/c = -Cm_alpha/CL_alpha.
 */
export function staticMargin(at: {
  readonly neutralPoint: number;
  readonly balancePoint: number;
  readonly meanChord: number;
}): number {
  if (!(at.meanChord > 0)) throw new RangeError('the mean chord must be positive');
  return (at.neutralPoint - at.balancePoint) / at.meanChord;
}

/** Balance point that gives a static margin [m aft of the datum]. Inverse of `staticMargin`. */
export function balancePointForMargin(at: {
  readonly neutralPoint: number;
  readonly staticMargin: number;
  readonly meanChord: number;
}): number {
  if (!(at.meanChord > 0)) throw new RangeError('the mean chord must be positive');
  return at.neutralPoint - at.staticMargin * at.meanChord;
}

/** Range of balance points in which the aircraft is stable enough and can still be trimmed. */
export interface BalanceRange {
  /** Most forward: full nose-up control just trims the stated lift [m aft of the datum]. */
  readonly forward: number;
  /** Most aft: the least static margin [m aft of the datum]. */
  readonly aft: number;
  /** aft - forward [m]; negative when nothing is left. */
  readonly width: number;
}

/**
 * Balance range from stability (aft) and trim authority (forward).
 *
 * About the neutral point the moment does not depend on incidence, so trim at lift coefficient CL with control
 * deflection d needs Cm0 + Cmd d = CL (x_NP - x_CG)/c.
 *
 * @param neutralPoint - x aft from the datum [m]
 * @param meanChord - [m]
 * @param leastStaticMargin - ratio
 * @param momentAboutNeutralPoint - Cm0 with control neutral, nose-up positive
 * @param controlMoment - greatest nose-up change of Cm about the neutral point by full control, >= 0
 * @param trimLiftCoefficient - CL that must still be trimmed, > 0
 * Source: moment equilibrium with the definition of the neutral point.
 */
export function balanceRange(at: {
  readonly neutralPoint: number;
  readonly meanChord: number;
  readonly leastStaticMargin: number;
  readonly momentAboutNeutralPoint: number;
  readonly controlMoment: number;
  readonly trimLiftCoefficient: number;
}): BalanceRange {
  if (!(at.trimLiftCoefficient > 0)) throw new RangeError('the trim lift coefficient must be positive');
  const { neutralPoint, meanChord } = at;
  const greatest = (at.momentAboutNeutralPoint + at.controlMoment) / at.trimLiftCoefficient;
  const forward = balancePointForMargin({ neutralPoint, meanChord, staticMargin: greatest });
  const aft = balancePointForMargin({ neutralPoint, meanChord, staticMargin: at.leastStaticMargin });
  return { forward, aft, width: aft - forward };
}
