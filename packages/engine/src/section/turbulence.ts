/**
 * Turbulence of the air in words: logarithm of amplitude at transition and its standard uncertainty. Intensities by Mack's relation (1977, `viscous/amplification.ts`): 0.03 %
 * where the air stands still, 0.05 % on a calm morning, 0.07 % (0.03 to 0.16 %) usually, 0.4 % in gusts. That small scales, which alone a layer feels, are so weak outdoors,
 * while gusts are long, is judgement; the band of the usual case covers calm evening to thermal noon.
 */
export const TURBULENCE = {
  'quiet tunnel': { critical: 9, spread: 1 },
  'still indoors': { critical: 11, spread: 1 },
  'calm morning': { critical: 10, spread: 1.5 },
  outdoors: { critical: 9, spread: 2 },
  'gusty or behind a propeller': { critical: 5, spread: 2 },
} as const;

export type Turbulence = keyof typeof TURBULENCE;

/** Words for the air that an aircraft flies in. */
export const FLOWN_AIR = ['still indoors', 'calm morning', 'outdoors', 'gusty or behind a propeller'] as const;

/**
 * Relative standard deviation of profile drag by not knowing the turbulence of the air.
 *
 * reynolds - on the chord [-]; spread - standard uncertainty of the logarithm of amplitude at transition
 * Returns spread (0.02 + 0.03 (6e4 / Re)^2), Re not below 6e4.
 *
 * Source: own solution of the boundary layer for NACA 3410, 2410, 4409 and 0009 at lifts from 0 to 0.9 with N from 7 to 11: 0.05 for
 * each step of N at 6e4, 0.03 at 1e5, 0.02 at 2e5 and 3e5, 0.03 at 5e5, root mean square. Below about 1.5e5 more turbulence takes drag
 * off (shorter bubbles), above it adds some.
 */
export const turbulenceDragSpread = (reynolds: number, spread: number): number =>
  spread * (0.02 + 0.03 * (6e4 / Math.max(6e4, reynolds)) ** 2);
