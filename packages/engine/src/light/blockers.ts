import type { Vec3 } from '../math/index.js';
import type { Body, LiftingSurface, Shape } from '../shape/index.js';
import { panelPoint, type Sections, type SurfaceFace } from './surface-point.js';

/** A convex part of the aircraft that casts shade: the hull of its points, frame of geometry [m]. */
export interface Blocker {
  /** Surface, body or propeller, as shown to the user. */
  readonly name: string;
  readonly points: readonly Vec3[];
  /** Light that it takes of what meets it: 1 for solid parts, the solidity of a turning propeller. */
  readonly opacity: number;
  /** Panel of a surface that it is: cells do not shade themselves. */
  readonly panel?: { readonly surface: string; readonly side: 'right' | 'left'; readonly index: number };
}

/** A turning propeller, its disc square to the body axis. */
export interface PropellerDisc {
  readonly name: string;
  /** Frame of geometry [m]. */
  readonly centre: Vec3;
  readonly diameter: number;
  /** Blade area over disc area [-]. */
  readonly solidity: number;
}

/** Chord stations of the upper and lower side whose hull stands for a section: within about 1 % of chord of its outline. */
const sectionStations = { upper: [0, 0.06, 0.35, 0.7, 1], lower: [0.5, 0.1] } as const;

/** Panels of a surface between its stations, both halves where mirrored. */
export function surfaceBlockers(surface: LiftingSurface, sections: Sections): readonly Blocker[] {
  const sides: readonly ('right' | 'left')[] = surface.mirrored ? ['right', 'left'] : ['right'];
  return sides.flatMap((side) =>
    surface.stations.slice(1).map(
      (_, index): Blocker => ({
        name: surface.name,
        points: panelHull(surface, side, index, sections),
        opacity: 1,
        panel: { surface: surface.name, side, index },
      }),
    ),
  );
}

function panelHull(
  surface: LiftingSurface,
  side: 'right' | 'left',
  index: number,
  sections: Sections,
): readonly Vec3[] {
  const faces = ['upper', 'lower'] as const;
  return [0, 1].flatMap((share) =>
    faces.flatMap((face) => {
      const on: SurfaceFace = { surface, side, face };
      return sectionStations[face].map((station) => panelPoint(on, sections, index, share, station));
    }),
  );
}

/** Radius along a body over its greatest one: a rounded nose, a slender tail (judgement). */
const bodyProfile: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.05, 0.5],
  [0.15, 0.82],
  [0.3, 1],
  [0.5, 1],
  [0.75, 0.7],
  [1, 0.2],
];
const bodySides = 10;

/** A body as rings of an ellipse; one beside the plane of symmetry stands on both sides. */
export function bodyBlockers(body: Body): readonly Blocker[] {
  const sides = body.y === undefined || body.y === 0 ? [0] : [body.y, -body.y];
  return sides.map((y) => ({
    name: body.name,
    opacity: 1,
    points: bodyProfile.flatMap(([reach, radius]) =>
      Array.from({ length: radius === 0 ? 1 : bodySides }, (_, i): Vec3 => {
        const angle = (2 * Math.PI * (i + 0.5)) / bodySides;
        return [
          body.x + reach * body.length,
          y + 0.5 * radius * body.width * Math.cos(angle),
          body.z + 0.5 * radius * body.height * Math.sin(angle),
        ];
      }),
    ),
  }));
}

const discSides = 16;

/** Blur of a turning propeller: an even veil over its disc. */
export function propellerBlocker(disc: PropellerDisc): Blocker {
  const [x, y, z] = disc.centre;
  return {
    name: disc.name,
    opacity: Math.min(1, Math.max(0, disc.solidity)),
    points: Array.from({ length: discSides }, (_, i): Vec3 => {
      const angle = (2 * Math.PI * i) / discSides;
      return [x, y + (disc.diameter / 2) * Math.cos(angle), z + (disc.diameter / 2) * Math.sin(angle)];
    }),
  };
}

/**
 * Everything on an aircraft that can cast shade on its cells.
 * Each panel of a surface and each body counts as the convex hull of its outline. Surfaces cast no reflected light: a white
 * fin beside a cell gives some back, which is left out.
 * @param propellers - turning ones
 */
export const aircraftBlockers = (
  shape: Shape,
  sections: Sections,
  propellers: readonly PropellerDisc[] = [],
): readonly Blocker[] => [
  ...shape.surfaces.flatMap((surface) => surfaceBlockers(surface, sections)),
  ...shape.bodies.flatMap(bodyBlockers),
  ...propellers.map(propellerBlocker),
];
