import { litFrom } from '@noonwing/engine/light';
import { skyToBody } from '@noonwing/engine/sun';
import type { Verdict } from './central.js';
import { sunAt } from './sky-at.js';

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
  const sun = sunAt({ prepared }, at.hour).direction;
  if (shade === undefined || cells === undefined || light === undefined || !(sun[2] > 0)) return [];
  const [x, y, z] = skyToBody(sun, { heading: at.heading, ...light.attitude });
  const faces = cells.map(({ normal }) => x * normal[0] + y * normal[1] + z * normal[2] > 0);
  return shade.casters.map(({ name, shade: table }) => ({
    name,
    shares: litFrom(shade, [x, y, z], undefined, table).map((share, c) => (faces[c] ? share : 0)),
  }));
}
