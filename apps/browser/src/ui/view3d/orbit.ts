import { skyToScene, type Vector } from './frames.js';

/** Where the eye is, seen from the middle of the aircraft. */
export interface Orbit {
  /** From north, clockwise [rad] */
  readonly azimuth: number;
  /** Above the horizon [rad] */
  readonly elevation: number;
  /** Distance over that at which everything just fits. */
  readonly distance: number;
}

/** Views with a name follow the aircraft and the sun until the user turns. */
export type NamedView = 'overview' | 'above' | 'ahead' | 'side' | 'sun';

const straightUp = Math.PI / 2 - 1e-3;
const lowest = -1.2;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** A turn of the eye; stays off the poles. scale - of the distance */
export const turned = (orbit: Orbit, by: { azimuth?: number; elevation?: number; scale?: number }): Orbit => ({
  azimuth: orbit.azimuth + (by.azimuth ?? 0),
  elevation: clamp(orbit.elevation + (by.elevation ?? 0), lowest, straightUp),
  distance: clamp(orbit.distance * (by.scale ?? 1), 0.25, 2.5),
});

/**
 * Eye of a view with a name.
 * heading - of the nose from north, clockwise [rad]; sun - direction east, north, up; noon - azimuth of the middle of the
 * sun's way [rad]; the overview looks towards it, so that the way stands behind the aircraft
 */
export function orbitOf(
  view: NamedView,
  place: {
    readonly heading: number;
    readonly noon: number;
    readonly sun?: Vector | undefined;
    readonly distance: number;
  },
): Orbit {
  const { heading, noon, sun, distance } = place;
  switch (view) {
    case 'above':
      // A hair behind the tail, so that the nose points up in the picture.
      return { azimuth: heading + Math.PI, elevation: straightUp, distance };
    case 'ahead':
      return { azimuth: heading, elevation: 0.04, distance };
    case 'side':
      return { azimuth: heading - Math.PI / 2, elevation: 0.04, distance };
    case 'sun': {
      if (sun === undefined) return { azimuth: heading + Math.PI, elevation: straightUp, distance };
      const elevation = clamp(Math.asin(clamp(sun[2], -1, 1)), 0, straightUp);
      return { azimuth: Math.atan2(sun[0], sun[1]), elevation, distance };
    }
    default:
      return { azimuth: noon + Math.PI - 0.45, elevation: 0.42, distance };
  }
}

/** Direction from the middle of the aircraft to the eye, in the scene. */
export function eyeDirection({ azimuth, elevation }: Orbit): Vector {
  const flat = Math.cos(elevation);
  return skyToScene([flat * Math.sin(azimuth), flat * Math.cos(azimuth), Math.sin(elevation)]);
}

/** Between two eyes, the short way round. share - 0 to 1 */
export function orbitBetween(from: Orbit, to: Orbit, share: number): Orbit {
  const turn = Math.PI * 2;
  const way = ((((to.azimuth - from.azimuth + Math.PI) % turn) + turn) % turn) - Math.PI;
  const eased = share * share * (3 - 2 * share);
  const mix = (a: number, b: number) => a + (b - a) * eased;
  return {
    azimuth: from.azimuth + way * eased,
    elevation: mix(from.elevation, to.elevation),
    distance: mix(from.distance, to.distance),
  };
}

/** Where the eye has to stand so that everything is in the picture. */
export interface Fit {
  /** From the point that is looked at [m]. */
  readonly distance: number;
  /** From the middle of the aircraft to that point, upwards in the picture [m]. */
  readonly shift: number;
}

/**
 * Smallest distance from which a ground and a ring of the sky, both circles about the vertical through the aircraft, are seen
 * whole. The same from all sides, so that nothing swells while the eye goes round.
 * rings - radius and height over the middle of the aircraft [m]; elevation - of the eye [rad];
 * slopes - tangents of half the angles of view, across and upright
 */
export function fitRings(
  rings: readonly { readonly radius: number; readonly height: number }[],
  elevation: number,
  slopes: { readonly across: number; readonly upright: number },
): Fit {
  const [c, s] = [Math.cos(elevation), Math.sin(elevation)];
  let [upper, lower, wide] = [0, 0, 0];
  for (const { radius, height } of rings) {
    for (let i = 0; i < 36; i++) {
      const [across, away] = [radius * Math.sin((i * Math.PI) / 18), radius * Math.cos((i * Math.PI) / 18)];
      const up = height * c - away * s;
      const near = height * s + away * c;
      upper = Math.max(upper, up / slopes.upright + near);
      lower = Math.max(lower, -up / slopes.upright + near);
      wide = Math.max(wide, Math.abs(across) / slopes.across + near);
    }
  }
  return { distance: Math.max((upper + lower) / 2, wide), shift: ((upper - lower) / 2) * slopes.upright };
}
