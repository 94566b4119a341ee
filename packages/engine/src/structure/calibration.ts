/** A positive quantity known as a factor on what the model says: logarithm normal. */
export interface FactorBelief {
  readonly factor: number;
  /** Relative standard uncertainty (of the logarithm). */
  readonly spread: number;
}

/**
 * Combines what was believed of a factor with a measured one, each weighted by its certainty.
 *
 * @param ratio - measured over modelled value of something proportional to the factor to the power `power`
 * @param spread - relative standard uncertainty of that ratio: reading, set-up, and what the model leaves out
 * @param power - deflection: -1, frequency: 1/2, stiffness: 1
 * Returns the updated belief and how many standard deviations the reading lay from what was expected.
 * Source: Bayes' rule for normal logarithms; JCGM 100:2008 for the spread of the ratio.
 */
export function updateFactor(
  belief: FactorBelief,
  { ratio, spread, power = 1 }: { readonly ratio: number; readonly spread: number; readonly power?: number },
): { readonly belief: FactorBelief; readonly surprise: number } {
  if (!(ratio > 0 && spread > 0 && belief.factor > 0 && belief.spread > 0)) {
    throw new RangeError('a factor needs a positive ratio and positive uncertainties');
  }
  const measured = Math.log(ratio) / power;
  const variance = (spread / power) ** 2;
  const prior = Math.log(belief.factor);
  const weight = belief.spread ** 2 / (belief.spread ** 2 + variance);
  return {
    belief: {
      factor: Math.exp(prior + weight * (measured - prior)),
      spread: Math.sqrt((1 - weight) * belief.spread ** 2),
    },
    surprise: Math.abs(measured - prior) / Math.sqrt(belief.spread ** 2 + variance),
  };
}

/**
 * Young's modulus of a strip by three-point bending.
 *
 * @param strip - width and thickness [m]
 * @param span - between supports [m]; at least some 16 thicknesses, so that shear stays small
 * @param force - in the middle [N]
 * @param deflection - under the force [m]
 * @param shearRatio - E / G of the material; 0 leaves shear out. Foams: about 2.6 to 3.5
 * Source: textbook, P L^3 / (48 E I) + P L / (4 k G A).
 */
export function threePointModulus(
  strip: { readonly width: number; readonly thickness: number },
  {
    span,
    force,
    deflection,
    shearRatio = 0,
  }: { readonly span: number; readonly force: number; readonly deflection: number; readonly shearRatio?: number },
): number {
  const { width: b, thickness: t } = strip;
  const bending = (force * span ** 3) / (48 * ((b * t ** 3) / 12) * deflection);
  const shear = (shearRatio * force * span) / (4 * (5 / 6) * b * t * deflection);
  return bending + shear;
}

/** Relative standard uncertainty of that modulus from those of its inputs: thickness counts three times, span three, the others once. */
export const threePointSpread = (u: {
  readonly span: number;
  readonly thickness: number;
  readonly width: number;
  readonly force: number;
  readonly deflection: number;
}): number => Math.hypot(3 * u.span, 3 * u.thickness, u.width, u.force, u.deflection);
