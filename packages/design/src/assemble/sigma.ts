import type { Valued } from '../schema/field.js';

/** Relative standard uncertainty of a number; zero where none is known or the number is zero. */
export const relativeSigma = (of: Valued | undefined): number =>
  of?.sigma === undefined || of.value === 0 ? 0 : Math.abs(of.sigma / of.value);

/** Root of the sum of squares. */
export const combined = (...sigmas: readonly number[]): number => Math.hypot(...sigmas);
