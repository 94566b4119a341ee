import { factorLu, solveLu } from '../math/linear.js';

/**
 * Lift-curve slope of a straight wing.
 * aspectRatio - [1]; returns [1/rad]. Runs 3 to 7 % above converged lifting surfaces at aspect ratios of 4 to 10.
 * Source: H. B. Helmbold, Jahrbuch der deutschen Luftfahrtforschung, 1942.
 */
export const helmboldSlope = (aspectRatio: number): number =>
  (2 * Math.PI * aspectRatio) / (2 + Math.sqrt(aspectRatio * aspectRatio + 4));

/**
 * Lift-curve slope of a swept wing at low speed.
 *
 * aspectRatio - [1]; sweep - of the half-chord line [rad]; sectionSlope - of the section [1/rad]
 * Returns [1/rad]; 3 to 7 % above converged lifting surfaces at aspect ratios of 4 to 10.
 * Source: USAF Stability and Control DATCOM, 1978, section 4.1.3.2.
 */
export function datcomSlope({
  aspectRatio,
  sweep = 0,
  sectionSlope = 2 * Math.PI,
}: {
  readonly aspectRatio: number;
  readonly sweep?: number;
  readonly sectionSlope?: number;
}): number {
  const kappa = sectionSlope / (2 * Math.PI);
  const tangent = Math.tan(sweep);
  const root = Math.sqrt((aspectRatio / kappa) ** 2 * (1 + tangent * tangent) + 4);
  return (2 * Math.PI * aspectRatio) / (2 + root);
}

/** Result of lifting-line theory for an untwisted wing. */
export interface LiftingLine {
  readonly liftSlope: number;
  /** Induced drag = CL^2 (1 + delta) / (pi AR). */
  readonly delta: number;
  /** Slope = a0 / (1 + a0 (1 + tau) / (pi AR)). */
  readonly tau: number;
}

/**
 * Lifting-line theory of a straight, untwisted wing: a second opinion on the lattice at aspect ratios above 6.
 *
 * aspectRatio - [1]
 * chordRatio - chord / mean chord at 2 y / b, 0 to 1
 * sectionSlope - [1/rad]
 * terms - odd Fourier terms, collocated at mid-angles
 * Source: H. Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. XI.
 */
export function liftingLine({
  aspectRatio,
  chordRatio = () => 1,
  sectionSlope = 2 * Math.PI,
  terms = 60,
}: {
  readonly aspectRatio: number;
  readonly chordRatio?: (station: number) => number;
  readonly sectionSlope?: number;
  readonly terms?: number;
}): LiftingLine {
  const matrix = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  for (let i = 0; i < terms; i++) {
    const theta = ((i + 1) * Math.PI) / (2 * terms);
    const sine = Math.sin(theta);
    const mu = (sectionSlope * chordRatio(Math.cos(theta))) / (4 * aspectRatio);
    right[i] = mu * sine;
    for (let j = 0; j < terms; j++) {
      const n = 2 * j + 1;
      matrix[i * terms + j] = Math.sin(n * theta) * (n * mu + sine);
    }
  }
  const lu = factorLu(matrix, terms);
  if (!lu.ok) throw new RangeError('the chord must be positive along the whole span');
  const a = solveLu(lu.value, right);
  let delta = 0;
  for (let j = 1; j < terms; j++) delta += (2 * j + 1) * (a[j] / a[0]) ** 2;
  const liftSlope = Math.PI * aspectRatio * a[0];
  const tau = Math.PI * aspectRatio * (1 / liftSlope - 1 / sectionSlope) - 1;
  return { liftSlope, delta, tau };
}

/** Chord / mean chord of a straight taper at 2 y / b. */
export const taperedChord =
  (taper: number) =>
  (station: number): number =>
    (2 * (1 - (1 - taper) * station)) / (1 + taper);

/**
 * Downwash gradient at a tail.
 *
 * aspectRatio, taper, sweep - of the wing, sweep of the quarter chord [rad]
 * height, distance - of the tail's from the wing's quarter chord, as fractions of the span
 * Returns d epsilon / d alpha [1].
 * Source: USAF Stability and Control DATCOM, 1978, section 4.4.1 (from memory).
 */
export function datcomDownwash({
  aspectRatio,
  taper,
  sweep = 0,
  height = 0,
  distance,
}: {
  readonly aspectRatio: number;
  readonly taper: number;
  readonly sweep?: number;
  readonly height?: number;
  readonly distance: number;
}): number {
  const byAspect = 1 / aspectRatio - 1 / (1 + aspectRatio ** 1.7);
  const byTaper = (10 - 3 * taper) / 7;
  const byPlace = (1 - Math.abs(height)) / Math.cbrt(2 * distance);
  return 4.44 * (byAspect * byTaper * byPlace * Math.sqrt(Math.cos(sweep))) ** 1.19;
}

/**
 * Induced drag near the ground / far from it, elliptic load and its image, by integration of the image's downwash.
 *
 * heightRatio - height of the wing above the ground / span [1]
 * Returns 0 to 1.
 * Source: L. Prandtl, Induced Drag of Multiplanes, NACA TN 182, 1924 (mutual drag of two elliptic loads), integrated numerically.
 */
export function groundEffect(heightRatio: number): number {
  if (!(heightRatio > 0)) throw new RangeError('the height must be positive');
  const gap = 2 * heightRatio;
  const points = 200;
  // Elliptic load on a span of 2: circulation sqrt(1 - y^2); alone its downwash is 1/2 everywhere.
  const half = (2 * gap) ** 2;
  let mutual = 0;
  for (let i = 0; i < points; i++) {
    const theta = ((i + 0.5) * Math.PI) / points;
    const y = Math.cos(theta);
    let wash = 0;
    for (let j = 0; j < points; j++) {
      const phi = ((j + 0.5) * Math.PI) / points;
      const distance = y - Math.cos(phi);
      wash += (Math.cos(phi) * distance) / (distance * distance + half);
    }
    // Shed circulation d(gamma) = -cos(phi) d(phi) along the span in phi; velocity 1 / (2 pi r).
    mutual += ((wash / points) * 0.5 * Math.sin(theta) ** 2 * Math.PI) / points;
  }
  const own = (0.5 * Math.PI) / 2;
  return 1 - Math.abs(mutual) / own;
}

/**
 * Full leading-edge suction of a plane wing per sin^2 alpha: what an attached rounded edge recovers, and what a sharp edge without
 * vortex loses.
 *
 * slope - linear lift-curve slope [1/rad]; inducedFactor - d CDi / d CL^2 [1]
 * Source: E. C. Polhamus, NASA TN D-3767, 1966.
 */
export const suctionConstant = (slope: number, inducedFactor: number): number => slope - slope * slope * inducedFactor;
