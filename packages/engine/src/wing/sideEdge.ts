/** Of an unswept rectangular plate of aspect ratio 2; about +-50 %. */
const coefficientAtAspectRatioTwo = 2.2;

/** Relative standard uncertainty of sideEdgeCoefficient: one rough digitised polar, +-0.05 in lift coefficient. */
export const sideEdgeSpread = 0.5;

/** Part of the leading-edge suction that thin plates realise (fitted to the same polar; standard uncertainty 0.3). */
export const plateSuction = 0.4;

/**
 * Coefficient of the side-edge normal force of a low-aspect-ratio wing: normal force = coefficient x sin^2(alpha) on the wing's own area.
 * The force of an edge grows with the square of its chord, so the coefficient falls as 1 / aspect ratio, and with the tip chord squared.
 *
 * aspectRatio - span squared / area [1], valid 0.5 to 3; the extrapolation beyond is small
 * taper - tip chord / root chord [1]
 * Source: calibrated on Pelletier and Mueller, J. Aircraft 37(5), 2000, flat plate of aspect ratio 2 (rough digitised polar);
 * form after Lamar, NASA TN D-7921, 1975 (from memory). No leading-edge vortex lift on unswept edges: Traub, Aerospace 10(7):597, 2023.
 */
export function sideEdgeCoefficient(aspectRatio: number, taper = 1): number {
  const tipChordRatio = (2 * taper) / (1 + taper);
  return ((coefficientAtAspectRatioTwo * 2) / Math.max(1, aspectRatio)) * tipChordRatio * tipChordRatio;
}
