import { cross, normalise, scale, subtract, type Vec3 } from '../math/index.js';
import { ordinateAt, type SectionGeometry } from '../section/index.js';
import { between, type LiftingSurface, stationDistances } from '../shape/index.js';

/** Sections by the names that stations give; a surface whose section is missing is flat there. */
export type Sections = ReadonlyMap<string, SectionGeometry>;

/** One face of one half of a surface. */
export interface SurfaceFace {
  readonly surface: LiftingSurface;
  readonly side: 'right' | 'left';
  readonly face: 'upper' | 'lower';
}

/** Panel of a surface between two stations, and where in it, by the distance from the root along the surface. */
export function panelAt(surface: LiftingSurface, along: number): { readonly panel: number; readonly share: number } {
  const distances = stationDistances(surface);
  let panel = 0;
  while (panel < distances.length - 2 && along > distances[panel + 1]!) panel++;
  const length = distances[panel + 1]! - distances[panel]!;
  return { panel, share: length > 0 ? (along - distances[panel]!) / length : 0 };
}

/** Length of a surface from root to tip along dihedral and upturned tips [m]. */
export const surfaceLength = (surface: LiftingSurface): number => stationDistances(surface).at(-1)!;

/** Chord at a distance from the root along the surface [m]. */
export function chordAlong(surface: LiftingSurface, along: number): number {
  const { panel, share } = panelAt(surface, along);
  return between(surface.stations[panel]!, surface.stations[panel + 1]!, Math.min(1, Math.max(0, share))).chord;
}

/**
 * Point of the real surface of a panel: section curve, twist, dihedral, sweep and taper.
 *
 * @param on - face of a half of a surface
 * @param panel - index of its inner station
 * @param share - place between the stations of the panel, 0 to 1; beyond, the panel is continued straight
 * @param station - chord station, 0 at the leading edge [-]
 * @returns in the frame of geometry: x aft, y right, z up [m]
 */
export function panelPoint(on: SurfaceFace, sections: Sections, panel: number, share: number, station: number): Vec3 {
  const [inner, outer] = [on.surface.stations[panel]!, on.surface.stations[panel + 1]!];
  const at = between(inner, outer, share);
  const ordinate = (name: string) => {
    const section = sections.get(name);
    return section === undefined ? 0 : ordinateAt(section, on.face, station);
  };
  const blend = Math.min(1, Math.max(0, share));
  const height = at.chord * (ordinate(inner.section) * (1 - blend) + ordinate(outer.section) * blend);
  const reach = at.chord * station;
  // Twist turns the section about its leading edge, in the plane across the panel.
  const aft = reach * Math.cos(at.twist) + height * Math.sin(at.twist);
  const out = height * Math.cos(at.twist) - reach * Math.sin(at.twist);
  const [dy, dz] = [outer.y - inner.y, outer.z - inner.z];
  const length = Math.hypot(dy, dz) || 1;
  const sign = on.side === 'left' ? -1 : 1;
  return [at.xLeadingEdge + aft, sign * (at.y - (out * dz) / length), at.z + (out * dy) / length];
}

/**
 * Point of the real surface at a distance from the root.
 * @param along - from the root along the surface [m]
 * @param station - chord station [-]
 * @returns in the frame of geometry [m]
 */
export function surfacePoint(on: SurfaceFace, sections: Sections, along: number, station: number): Vec3 {
  const { panel, share } = panelAt(on.surface, along);
  return panelPoint(on, sections, panel, share, station);
}

/** Directions on the surface, frame of geometry: outwards along the span, aft along the chord, and away from the surface. */
export interface SurfaceAxes {
  readonly spanwise: Vec3;
  readonly aft: Vec3;
  readonly normal: Vec3;
}

/**
 * Mean axes of a patch: its spanwise axis follows the line of constant chord station, its normal is square to the secants
 * between its edges, so that a bent patch is taken in its mean direction.
 *
 * @param patch.along, patch.station - its middle [m], [-]
 * @param patch.length - along the span [m]
 * @param patch.width - along the chord [m]
 */
export function patchAxes(
  on: SurfaceFace,
  sections: Sections,
  patch: { readonly along: number; readonly station: number; readonly length: number; readonly width: number },
): SurfaceAxes {
  const { along, station } = patch;
  const half = patch.width / (2 * chordAlong(on.surface, along));
  const point = (a: number, s: number) => surfacePoint(on, sections, a, Math.min(1, Math.max(0, s)));
  const spanwise = normalise(
    subtract(point(along + patch.length / 2, station), point(along - patch.length / 2, station)),
  );
  const chordwise = subtract(point(along, station + half), point(along, station - half));
  const outward = normalise(cross(chordwise, spanwise));
  // Aft x right is up; on the left side spanwise runs to the left, and a lower face looks the other way.
  const up = on.side === 'left' ? scale(outward, -1) : outward;
  const normal = on.face === 'lower' ? scale(up, -1) : up;
  const square = cross(spanwise, normal);
  return { spanwise, aft: square[0] < 0 ? scale(square, -1) : square, normal };
}

/** From the frame of geometry (aft, right, up) to body axes (forward, right, down), and back. */
export const bodyAxes = ([x, y, z]: Vec3): Vec3 => [-x, y, -z];
