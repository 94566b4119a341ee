import { litFrom } from '@noonwing/engine/light';
import { bodyToSky, sunPosition } from '@noonwing/engine/sun';
import type { Verdict } from './verdict.js';

/** What one part takes of the direct light on every cell at an instant, 0 to 1. */
export interface CasterNow {
  readonly name: string;
  readonly shares: Float64Array;
}

/**
 * What casts shade on which cell at an instant, in the attitude flown.
 *
 * @param at.hour - after the first local midnight [h]
 * @param at.heading - from north, clockwise [rad]
 * @returns empty where the sun is down or cells are not placed one by one; a cell that looks away from the sun is in nobody's shade
 */
export function shadeNow(
  { prepared, light }: Verdict,
  at: { readonly hour: number; readonly heading: number },
): readonly CasterNow[] {
  const { shade, cells } = prepared.run.array ?? {};
  const { plan } = prepared;
  const place = { latitude: plan.latitude, longitude: plan.longitude, altitude: plan.altitude.value };
  const [east, north, up] = sunPosition({ ...place, time: plan.midnight + at.hour * 3600 }).direction;
  if (shade === undefined || cells === undefined || light === undefined || !(up > 0)) return [];
  const towards = (axis: readonly [number, number, number]): number => {
    const [e, n, u] = bodyToSky(axis, { heading: at.heading, ...light.attitude });
    return e * east + n * north + u * up;
  };
  const [x, y, z] = [towards([1, 0, 0]), towards([0, 1, 0]), towards([0, 0, 1])];
  const faces = cells.map(({ normal }) => x * normal[0] + y * normal[1] + z * normal[2] > 0);
  return shade.casters.map(({ name, shade: table }) => ({
    name,
    shares: litFrom(shade, [x, y, z], undefined, table).map((share, c) => (faces[c] ? share : 0)),
  }));
}
