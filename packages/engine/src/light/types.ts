import type { Vec3 } from '../math/index.js';

/**
 * One cell, or one piece of a cut cell, where it lies on the aircraft. Positions in the frame of geometry (x aft, y right,
 * z up); the normal in body axes (forward, right, down), as everything that meets the sun.
 */
export interface PlacedCell {
  /** Name of its row, and its place in it: from 0, right side first, on each side from the root outwards. */
  readonly row: string;
  readonly index: number;
  readonly surface: string;
  readonly side: 'right' | 'left';
  readonly face: 'upper' | 'lower';
  /** Of a whole cell: 1, 1/2, 1/3 ... Its current is this share of that of a whole cell, its voltage the same. */
  readonly share: number;
  /** Middle on the surface [m]. */
  readonly centre: Vec3;
  /** Outward unit normal, mean over the bent cell. */
  readonly normal: Vec3;
  /** Outline, flat about its middle, counter-clockwise as seen from outside [m]; eight points where corners are cut. */
  readonly corners: readonly Vec3[];
  /** Lit area, measured along the surface [m2]. */
  readonly area: number;
  /** Chord over arc of the bent cell: what light from far away finds of its area, 1 for a flat one. */
  readonly flatness: number;
  /** Radius to which the surface bends it where it bends it most [m]; absent on a flat surface. */
  readonly bendRadius?: number;
  /** From the leading edge along the chord to the cell's front and rear edge [m]: they set its cooling. */
  readonly flowFrom: number;
  readonly flowTo: number;
  /** Chord of the surface there [m]. */
  readonly chord: number;
  /** Place on the unrolled surface: along the span from the root, and along the chord from the leading edge, of its middle [m]. */
  readonly along: number;
  readonly behind: number;
}

/** Light on one cell at one instant and attitude [W/m2]: what reaches its plane after shade, then what gets in. */
export interface CellLight {
  /** From the disc of the sun, after shade, before incidence loss. */
  readonly direct: number;
  /** From the glare about the sun, likewise. */
  readonly circumsolar: number;
  /** From the rest of the sky, horizon band included, likewise. */
  readonly sky: number;
  readonly ground: number;
  /** What shade takes from all of these. */
  readonly shadeLoss: number;
  /** direct + circumsolar + sky + ground - effective. */
  readonly incidenceLoss: number;
  /** Light that gets in, as if it came straight on, before film and soiling: what `effectiveIrradiance` of the array starts from. */
  readonly effective: number;
  /** Part of its area in shadow of the sun, 0 to 1; 1 where the sun stands behind it. */
  readonly shadedFraction: number;
}

/**
 * `CellLight` along a track and round a circle, in arrays over instants, then headings, then cells:
 * index (instant x headingCount + heading) x cellCount + cell.
 */
export interface CellLightTrack {
  readonly instantCount: number;
  readonly headingCount: number;
  readonly cellCount: number;
  /** As in `CellLight` [W/m2]. */
  readonly effective: Float64Array;
  /** As in `CellLight`. */
  readonly shadedFraction: Float32Array;
}
