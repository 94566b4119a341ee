/**
 * The only place where frames meet. Geometry and masses: x aft from the datum, y to the right wing, z up. Sky: east, north, up.
 * Scene (three): x east, y up, z south; an aircraft that heads north with level wings has x right, y up, z aft in it.
 */

export type Vector = readonly [number, number, number];

/** How the aircraft is turned against the sky: as in the engine, heading, then pitch, then bank. */
export interface Attitude {
  /** Of the nose from north, clockwise [rad] */
  readonly heading: number;
  /** Nose up [rad] */
  readonly pitch: number;
  /** Right wing down [rad] */
  readonly bank: number;
}

/** A point or direction of the geometry frame in the scene, for an aircraft that heads north with level wings. */
export const geometryToScene = ([x, y, z]: Vector): Vector => [y, z, x];

/** A direction east, north, up in the scene. */
export const skyToScene = ([east, north, up]: Vector): Vector => [east, up, -north];

/** A direction of the scene as east, north, up. */
export const sceneToSky = ([x, y, z]: Vector): Vector => [x, -z, y];

/**
 * Turns about the scene's axes, to be applied in three's order 'YXZ', that give the aircraft its attitude.
 * @returns about x, y and z [rad]
 */
export const attitudeTurns = ({ heading, pitch, bank }: Attitude): Vector => [pitch, -heading, -bank];

/**
 * A point of the geometry frame in the scene, for an aircraft at an attitude, about the datum.
 * The same as three does with `attitudeTurns`; for labels and tests without it.
 */
export function turnedToScene(point: Vector, { heading, pitch, bank }: Attitude): Vector {
  const [x, y, z] = geometryToScene(point);
  const [cb, sb, cp, sp] = [Math.cos(bank), Math.sin(bank), Math.cos(pitch), Math.sin(pitch)];
  const [rx, ry] = [x * cb + y * sb, y * cb - x * sb];
  const [py, pz] = [ry * cp - z * sp, ry * sp + z * cp];
  const [ch, sh] = [Math.cos(heading), Math.sin(heading)];
  return [rx * ch - pz * sh, py, rx * sh + pz * ch];
}
