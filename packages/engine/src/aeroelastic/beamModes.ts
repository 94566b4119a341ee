import { brentRoot } from '../math/index.js';

/** A shape with its first and second derivative along the length 0 to 1. */
export interface BeamShape {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
  readonly curvature: (x: number) => number;
  /** beta L: the frequency is its square x sqrt(EI / m L^4). */
  readonly wave: number;
}

/**
 * Bending mode of a uniform cantilever, held at 0, free at 1, tip displacement +-2.
 * number - 1 for the lowest
 * Source: W. Weaver, S. P. Timoshenko, D. H. Young, Vibration Problems in Engineering, 5th ed. 1990, section 5.11 (numbering from memory).
 */
export function cantileverMode(number: number): BeamShape {
  const middle = (number - 0.5) * Math.PI;
  const wave = brentRoot((b) => Math.cos(b) + 1 / Math.cosh(b), middle - 0.4, middle + 0.4)!;
  const sigma = (Math.cosh(wave) + Math.cos(wave)) / (Math.sinh(wave) + Math.sin(wave));
  // cosh - sigma sinh as decaying exponentials: no digits are lost at high modes.
  const falling = (x: number) => ((1 + sigma) / 2) * Math.exp(-wave * x);
  const rising = (x: number) => ((1 - sigma) / 2) * Math.exp(wave * x);
  return {
    wave,
    value: (x) => falling(x) + rising(x) - Math.cos(wave * x) + sigma * Math.sin(wave * x),
    slope: (x) => wave * (rising(x) - falling(x) + Math.sin(wave * x) + sigma * Math.cos(wave * x)),
    curvature: (x) => wave ** 2 * (falling(x) + rising(x) + Math.cos(wave * x) - sigma * Math.sin(wave * x)),
  };
}
