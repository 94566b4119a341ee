import { type JoinerSize, joinerArea, socketBearing } from './joiner.js';
import { capsProfile, type Profile, stripProfile, tubeProfile } from './profiles.js';
import type { CurvatureLimit } from './strength.js';
import type { PanelJoint, SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';

/** Profile of a joiner: round tube or rod, blade on edge, or box with walls of one thickness. */
export function joinerProfile({ kind, width, height, wall }: JoinerSize): Profile {
  if (kind === 'tube') return tubeProfile(width, height);
  if (kind === 'blade') return stripProfile(width, height);
  const caps = capsProfile(width, wall, height);
  const sides = stripProfile(2 * wall, height - 2 * wall);
  const [a, b] = [width - wall, height - wall];
  return {
    area: joinerArea({ kind, width, height, wall }),
    inertia: caps.inertia + sides.inertia,
    // Bredt: 4 A^2 over the way round by the thickness.
    torsion: (2 * wall * (a * b) ** 2) / (a + b),
    halfHeight: height / 2,
  };
}

const tipOf = ({ stations }: Pick<SurfaceStructure, 'stations'>): number => stations[stations.length - 1].y;
const rootOf = ({ stations }: Pick<SurfaceStructure, 'stations'>): number => stations[0].y;

/** Ends of the joiners inside the surface [m]. */
export const jointEdges = (structure: SurfaceStructure): number[] =>
  (structure.joints ?? [])
    .flatMap(({ y, depth }) => [y - depth, y + depth])
    .filter((y) => y > rootOf(structure) + 1e-6 && y < tipOf(structure) - 1e-6);

/**
 * Bending moment over shear at a place along a half wing under elliptic lift [m], no inertia relief.
 * Source: statics of w = w0 sqrt(1 - eta^2): V = (w0 L / 2)(theta - eta sin theta), M = w0 L^2 [sin^3 theta / 3 - (eta / 2)(theta - eta sin theta)].
 */
export function shearArm(structure: Pick<SurfaceStructure, 'stations'>, y: number): number {
  const tip = tipOf(structure);
  const eta = Math.min(0.999, Math.max(0, y / tip));
  const theta = Math.acos(eta);
  const sine = Math.sin(theta);
  const shear = (theta - eta * sine) / 2;
  return (tip * (sine ** 3 / 3 - eta * shear)) / shear;
}

/** Shares of bending and torsional stiffness that are left. */
export interface JointKept {
  readonly bending: number;
  readonly torsion: number;
}

const whole: JointKept = { bending: 1, torsion: 1 };

/** The joiner takes over the moment towards the joint, so that panel and joiner each bend over half of its length. */
function bendingKept(structure: SurfaceStructure, joint: PanelJoint): number {
  if (joint.bendingKept !== undefined) return joint.bendingKept;
  const panel = surfaceSection(structure, joint.y).bending;
  return Math.min(1, 2 / (1 + panel / (joint.material.modulus * joinerProfile(joint).inertia)));
}

const remembered = new WeakMap<PanelJoint, { readonly structure: SurfaceStructure; readonly kept: JointKept }>();

function keptBy(structure: SurfaceStructure, joint: PanelJoint): JointKept {
  const known = remembered.get(joint);
  if (known?.structure === structure) return known.kept;
  const kept = { bending: bendingKept(structure, joint), torsion: joint.torsionKept };
  remembered.set(joint, { structure, kept });
  return kept;
}

/**
 * What a joint leaves of the stiffness of a section, over the length of its joiner; 1 elsewhere.
 *
 * y - along the surface [m]
 * Source: a stiff peg in its socket takes over the moment as 1 - 3 s^2 + 2 s^3 along its length, half of it in the mean; slip in the socket
 * (play) is not a stiffness and is left to `jointReport`. A joiner is never taken to stiffen the panels.
 */
export function jointKept(structure: SurfaceStructure, y: number): JointKept {
  const joint = structure.joints?.find((each) => Math.abs(y - each.y) <= each.depth);
  return joint === undefined ? whole : keptBy(structure, joint);
}

/** What a joint bears and takes away. */
export interface JointReport {
  readonly name: string;
  readonly y: number;
  readonly kept: JointKept;
  /** Bending moment at which the joiner breaks and at which its socket is crushed [N m]. */
  readonly breaks: number;
  readonly crushes: number;
  /** Kink of both panels together by the play in their sockets [rad]. */
  readonly kink: number;
}

/** What the joint bears by itself, the shear on its socket being that of elliptic lift. */
export function jointReport(structure: SurfaceStructure, joint: PanelJoint): JointReport {
  const { inertia, halfHeight } = joinerProfile(joint);
  const { tension, compression } = joint.material;
  const arm = shearArm(structure, joint.y);
  const one = socketBearing({ moment: 1, shear: 1 / arm }, joint);
  return {
    name: joint.name,
    y: joint.y,
    kept: keptBy(structure, joint),
    breaks: (Math.min(tension, compression) * inertia) / halfHeight,
    crushes: joint.bearing / one.pressure,
    kink: 2 * one.kink,
  };
}

/** Curvatures of the softened section at which joints at a place give way, tips up and down alike [1/m]. */
export function jointLimits(structure: SurfaceStructure, y: number): readonly CurvatureLimit[] {
  return (structure.joints ?? [])
    .filter((joint) => Math.abs(joint.y - y) < 1e-9)
    .flatMap((joint) => {
      const { name, breaks, crushes, kept } = jointReport(structure, joint);
      const bending = kept.bending * surfaceSection(structure, y).bending;
      const at = (reason: string, moment: number) => ({
        part: `joiner ${name}`,
        reason,
        up: moment / bending,
        down: moment / bending,
      });
      return [at('breaks', breaks), at('crushes its socket', crushes)];
    });
}
