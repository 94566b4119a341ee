import type { MassPoint } from './input-types.js';
import { jointReport } from './panelJoint.js';
import { stackAt } from './stack.js';
import { layerStrain } from './strength.js';
import type { SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';

/** What a section bears of bending in the plane of the wing. */
export interface ForeAftStrength {
  /** Bending stiffness fore and aft [N m2]. */
  readonly bending: number;
  /** Moment at which the first part gives way, fore or aft alike [N m]. */
  readonly moment: number;
  readonly reason: string;
}

/** Chord fractions for the sums over a section: middles of equal parts. */
const middles = Array.from({ length: 40 }, (_, i) => (i + 0.5) / 40);

interface Fibre {
  readonly x: number;
  /** Modulus times area [N]. */
  readonly stretch: number;
  readonly strain: number;
  readonly part: string;
}

function fibresOf(structure: SurfaceStructure, y: number): readonly Fibre[] {
  const { section, spars } = surfaceSection(structure, y);
  const width = section.chord / middles.length;
  const plates = middles.flatMap((u) => {
    const stack = stackAt(structure, section, u);
    return stack.layers.flatMap((layer): Fibre[] => {
      const { material, thickness, share = 1 } = layer;
      const strain = layerStrain(structure, stack, layer);
      if (strain === undefined) return [];
      const least = Math.min(strain.tension, strain.compression);
      const x = u * section.chord;
      return [{ x, stretch: share * material.modulus * thickness * width, strain: least, part: material.name }];
    });
  });
  const bars = spars.map(({ spar, profile, chordFraction }) => ({
    x: chordFraction * section.chord,
    stretch: spar.material.modulus * profile.area,
    strain: Math.min(spar.material.tension, spar.material.compression) / spar.material.modulus,
    part: spar.name,
  }));
  return [...plates, ...bars];
}

/**
 * Bending fore and aft of a section: skins, core and spars stretched by their distance along the chord from the common middle. At a joint the
 * joiner alone. Films and cells are left out, and so is the bending of spars about their own middle.
 *
 * y - along the surface [m]
 */
export function foreAftStrength(structure: SurfaceStructure, y: number): ForeAftStrength | undefined {
  const fibres = fibresOf(structure, y);
  const stretch = fibres.reduce((sum, each) => sum + each.stretch, 0);
  if (!(stretch > 0)) return undefined;
  const middle = fibres.reduce((sum, each) => sum + each.stretch * each.x, 0) / stretch;
  const bending = fibres.reduce((sum, each) => sum + each.stretch * (each.x - middle) ** 2, 0);
  let [moment, reason] = [Number.POSITIVE_INFINITY, ''];
  for (const { x, strain, part } of fibres) {
    const most = (strain * bending) / Math.max(1e-6, Math.abs(x - middle));
    if (most < moment) [moment, reason] = [most, `${part} gives way`];
  }
  for (const joint of structure.joints ?? []) {
    // A blade on edge is soft this way: its own width is what bends.
    if (Math.abs(joint.y - y) > 1e-9) continue;
    const { breaks } = jointReport(
      structure,
      joint.kind === 'tube' ? joint : { ...joint, width: joint.height, height: joint.width },
    );
    if (breaks < moment) [moment, reason] = [breaks, `joiner ${joint.name} breaks`];
  }
  return { bending, moment, reason };
}

/** First moment of the mass of a half wing outside a place, about it [kg m]. */
export function outboardMassMoment(structure: SurfaceStructure, masses: readonly MassPoint[], y: number): number {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const count = 24;
  const step = (tip - root) / count;
  const strips = Array.from({ length: count }, (_, i) => {
    const at = root + (i + 0.5) * step;
    return { y: at, mass: step * surfaceSection(structure, at).linearMass };
  });
  const described = strips.reduce((sum, { mass }) => sum + mass, 0);
  const scale = structure.mass === undefined || !(described > 0) ? 1 : structure.mass / described;
  const own = strips.map((strip) => ({ y: strip.y, mass: scale * strip.mass }));
  const carried = masses.filter(({ on, y: at }) => on === structure.name || at > 1e-6);
  return [...own, ...carried].reduce((sum, each) => sum + each.mass * Math.max(0, each.y - y), 0);
}

/** How hard a half wing may be pushed forward. */
export interface ForeAftLoad {
  /** Acceleration along the path at which it first gives way by its own inertia [m/s2], and where [m] and what. */
  readonly acceleration: number;
  readonly y: number;
  readonly reason: string;
}

/** The place along a half wing where a push forward breaks it first, tips lagging; places are the root and the joints. */
export function foreAftLoad(structure: SurfaceStructure, masses: readonly MassPoint[]): ForeAftLoad | undefined {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const places = [
    root,
    root + 0.3 * (tip - root),
    root + 0.6 * (tip - root),
    ...(structure.joints ?? []).map(({ y }) => y),
  ];
  let least: ForeAftLoad | undefined;
  for (const y of places) {
    const strength = foreAftStrength(structure, y);
    const lever = outboardMassMoment(structure, masses, y);
    if (strength === undefined || !(lever > 0)) continue;
    const acceleration = strength.moment / lever;
    if (least === undefined || acceleration < least.acceleration) least = { acceleration, y, reason: strength.reason };
  }
  return least;
}

/**
 * Mean acceleration of a throw [m/s2]: v^2 / (2 s). speed - let go at [m/s]; way - of the hand [m]
 * Source: kinematics; 10 m/s over 1.2 m are 4.25 g.
 */
export const throwAcceleration = (speed: number, way: number): number => speed ** 2 / (2 * way);
