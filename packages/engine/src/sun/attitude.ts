import type { Vec3 } from '../math/vector.js';

/** Attitude of the aircraft: Euler angles psi, theta, phi in the order heading, pitch, bank. */
export interface Attitude {
  /** Of the nose from north, clockwise [rad] */
  readonly heading: number;
  /** Nose up [rad] */
  readonly pitch: number;
  /** Right wing down [rad] */
  readonly bank: number;
}

/** Outward normal of a level upper surface in body axes (forward, right, down). */
export const upperSurface: Vec3 = [0, 0, -1];
/** Outward normal of a level lower surface in body axes. */
export const lowerSurface: Vec3 = [0, 0, 1];

/**
 * Turns a body vector by bank and pitch: the result is in level axes (ahead, right, down) of the aircraft's heading.
 * @param body - in body axes, forward, right, down
 * @returns in heading axes, ahead, right, down
 * Source: ISO 1151-1:1988 (order of rotation).
 */
export function bodyToHeadingAxes(body: Vec3, attitude: { readonly pitch: number; readonly bank: number }): Vec3 {
  const [forward, right, down] = body;
  const [cosBank, sinBank] = [Math.cos(attitude.bank), Math.sin(attitude.bank)];
  const [cosPitch, sinPitch] = [Math.cos(attitude.pitch), Math.sin(attitude.pitch)];
  const across = right * cosBank - down * sinBank;
  const below = right * sinBank + down * cosBank;
  return [forward * cosPitch + below * sinPitch, across, below * cosPitch - forward * sinPitch];
}

/**
 * Turns a body vector into the frame of the sky.
 * @param body - in body axes, forward, right, down
 * @param attitude - heading, pitch, bank [rad]
 * @returns in east, north, up
 * Source: ISO 1151-1:1988 (order of rotation).
 */
export function bodyToSky(body: Vec3, attitude: Attitude): Vec3 {
  const [ahead, across, below] = bodyToHeadingAxes(body, attitude);
  const [cosHeading, sinHeading] = [Math.cos(attitude.heading), Math.sin(attitude.heading)];
  return [ahead * sinHeading + across * cosHeading, ahead * cosHeading - across * sinHeading, -below];
}

/**
 * Turns a vector of the sky into body axes.
 * @param sky - east, north, up
 * @returns forward, right, down
 */
export function skyToBody(sky: Vec3, attitude: Attitude): Vec3 {
  const along = (axis: Vec3): number => {
    const seen = bodyToSky(axis, attitude);
    return seen[0] * sky[0] + seen[1] * sky[1] + seen[2] * sky[2];
  };
  return [along([1, 0, 0]), along([0, 1, 0]), along([0, 0, 1])];
}

/**
 * Outward normal, in body axes, of an upper-surface patch that is turned against the aircraft.
 * @param patch.side - which half of the wing: dihedral leans both halves inboard
 * @param patch.dihedral - tip up [rad]
 * @param patch.slope - of the surface, falling towards the trailing edge [rad]: chord line incidence up counts negative,
 *   the rear of a cambered surface positive
 * @returns unit normal, forward, right, down
 */
export function patchNormal(patch: {
  readonly side: 'left' | 'right';
  readonly dihedral: number;
  readonly slope?: number;
}): Vec3 {
  const slope = patch.slope ?? 0;
  const lean = patch.side === 'right' ? -Math.sin(patch.dihedral) : Math.sin(patch.dihedral);
  // A surface that falls to the rear faces backwards: its normal leans aft.
  return [-Math.sin(slope), lean * Math.cos(slope), -Math.cos(patch.dihedral) * Math.cos(slope)];
}

/**
 * Headings spread evenly over a full circle.
 * @param count - number of headings, 1 or more
 * @returns headings from north, clockwise [rad]
 */
export function circleHeadings(count: number): Float64Array {
  if (!(Number.isInteger(count) && count >= 1)) throw new RangeError(`heading count must be 1 or more, got ${count}`);
  return Float64Array.from({ length: count }, (_, index) => (2 * Math.PI * index) / count);
}
