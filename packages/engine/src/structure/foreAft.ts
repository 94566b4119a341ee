import { type Fibre, type FibreStrain, gaveWay, plateFibres, sparFibres } from './fibres.js';
import type { MassPoint } from './input-types.js';
import { joinerProfile, jointKept, jointReport } from './panelJoint.js';
import type { PanelJoint, SurfaceStructure } from './surface-types.js';
import { type SurfaceSection, surfaceSection } from './surfaceSection.js';

/** Chord fractions for the sums over a section: middles of equal parts. */
const middles = Array.from({ length: 40 }, (_, i) => (i + 0.5) / 40);

/**
 * A part that both bendings strain: by a curvature along the span, tips up, and by a moment that bends the tips forward. Compression is
 * negative. What is round is strained by both together as by their resultant.
 */
export interface TwoWayPart {
  readonly part: string;
  /** Strain per curvature [m] and per moment [1/(N m)], and of a round part the same of its radius. */
  readonly byCurvature: number;
  readonly byMoment: number;
  readonly roundByCurvature: number;
  readonly roundByMoment: number;
  readonly strain: FibreStrain;
  /** How it gives way, where that is not torn, crushed or wrinkled. */
  readonly reason?: string;
}

/** What a section bears of bending up and down and fore and aft. */
export interface TwoWayStrength {
  /** Bending stiffness fore and aft [N m2], of the panel where there is a joint. */
  readonly bending: number;
  readonly parts: readonly TwoWayPart[];
}

/** By how much a load may grow until the first part gives way, and how. */
export interface TwoWayLimit {
  readonly factor: number;
  readonly reason: string;
}

/** Stretching stiffness of what carries, its middle behind the leading edge [m] and its bending stiffness about it [N m2]. */
function chordwiseBending(
  plates: ReturnType<typeof plateFibres>,
  { spars, section }: SurfaceSection,
): { middle: number; bending: number } | undefined {
  const width = section.chord / middles.length;
  const bars = [
    ...plates.map(({ x, stretch }) => ({ x, stretch: stretch * width })),
    ...spars.map(({ spar, profile, chordFraction }) => ({
      x: chordFraction * section.chord,
      stretch: spar.material.modulus * profile.area,
    })),
  ];
  const all = bars.reduce((sum, { stretch }) => sum + stretch, 0);
  if (!(all > 0)) return undefined;
  const middle = bars.reduce((sum, { x, stretch }) => sum + stretch * x, 0) / all;
  return { middle, bending: bars.reduce((sum, { x, stretch }) => sum + stretch * (x - middle) ** 2, 0) };
}

/** A joiner bears all of both moments. curvatureMoment - moment of the softened section per curvature [N m2] */
function joinerParts(structure: SurfaceStructure, joint: PanelJoint, curvatureMoment: number): readonly TwoWayPart[] {
  const part = `joiner ${joint.name}`;
  // A blade on edge is soft the other way: its own width is what bends, and its height is what bears.
  const turned = joint.kind === 'tube' ? joint : { ...joint, width: joint.height, height: joint.width };
  const { crushes } = jointReport(structure, joint);
  const aside = jointReport(structure, turned).crushes;
  const [upright, flat] = [joint, turned].map((each) => {
    const { inertia, halfHeight } = joinerProfile(each);
    return halfHeight / (each.material.modulus * inertia);
  });
  const { tension, compression, modulus } = joint.material;
  const fibre = { tension: tension / modulus, compression: compression / modulus, wrinkles: false };
  const whole = { tension: 1, compression: 1, wrinkles: false };
  const none = { part, byCurvature: 0, byMoment: 0, roundByCurvature: 0, roundByMoment: 0 };
  const socket = { ...none, strain: whole, reason: 'crushes its socket' };
  const breaks = { ...none, strain: fibre, reason: 'breaks' };
  if (joint.kind === 'tube')
    return [
      { ...breaks, roundByCurvature: upright * curvatureMoment, roundByMoment: flat },
      { ...socket, roundByCurvature: curvatureMoment / crushes, roundByMoment: 1 / aside },
    ];
  // Corners of a blade or box; its faces press on different walls of the socket.
  return [
    ...[-1, 1].flatMap((end) =>
      [-1, 1].map((side) => ({ ...breaks, byCurvature: end * upright * curvatureMoment, byMoment: side * flat })),
    ),
    { ...socket, byCurvature: curvatureMoment / crushes },
    { ...socket, byMoment: 1 / aside },
  ];
}

/**
 * What a section bears of bending up and down and fore and aft at once: skins, core and spars, each strained by its height above the neutral
 * axis and by its distance along the chord from the common middle; at a joint the joiner too. Films and cells are left out, so is the product of
 * inertia: the chord line is taken as a principal axis.
 *
 * y - along the surface [m]
 * Returns undefined where nothing carries. Source: bending about two principal axes, textbook.
 */
export function twoWayStrength(
  structure: SurfaceStructure,
  y: number,
  whole = surfaceSection(structure, y),
): TwoWayStrength | undefined {
  const plates = plateFibres(structure, whole, middles);
  const along = chordwiseBending(plates, whole);
  if (along === undefined || !(along.bending > 0)) return undefined;
  const { middle, bending } = along;
  const kept = jointKept(structure, y).bending;
  const panel = ({ part, x, above, radius, strain }: Fibre): TwoWayPart => ({
    part,
    byCurvature: -above * kept,
    byMoment: (x - middle) / bending,
    roundByCurvature: radius * kept,
    roundByMoment: radius / bending,
    strain,
  });
  const joints = (structure.joints ?? []).filter((joint) => Math.abs(joint.y - y) < 1e-9);
  return {
    bending,
    parts: [
      ...[...sparFibres(structure, whole), ...plates].map(panel),
      ...joints.flatMap((joint) => joinerParts(structure, joint, kept * whole.bending)),
    ],
  };
}

/**
 * By how much a curvature and a moment fore and aft may grow together until the first part gives way; undefined where nothing does.
 *
 * curvature - along the span, tips up [1/m]; moment - tips forward [N m]
 */
export function twoWayLimit(
  { parts }: Pick<TwoWayStrength, 'parts'>,
  { curvature, moment }: { readonly curvature: number; readonly moment: number },
): TwoWayLimit | undefined {
  let least: TwoWayLimit | undefined;
  const take = (factor: number, reason: string) => {
    if (factor < (least?.factor ?? Number.POSITIVE_INFINITY)) least = { factor, reason };
  };
  for (const each of parts) {
    const { part, strain, reason } = each;
    const even = each.byCurvature * curvature + each.byMoment * moment;
    const round = Math.hypot(each.roundByCurvature * curvature, each.roundByMoment * moment);
    if (even + round > 0) take(strain.tension / (even + round), `${part} ${reason ?? gaveWay(strain, false)}`);
    if (round - even > 0) take(strain.compression / (round - even), `${part} ${reason ?? gaveWay(strain, true)}`);
  }
  return least;
}

/** Moment at which a section gives way fore or aft, whichever comes first [N m]. */
export function foreAftStrength(
  structure: SurfaceStructure,
  y: number,
): (TwoWayLimit & { bending: number }) | undefined {
  const strength = twoWayStrength(structure, y);
  const both = [1, -1].flatMap((moment) => (strength && twoWayLimit(strength, { curvature: 0, moment })) ?? []);
  const [first] = both.sort((a, b) => a.factor - b.factor);
  return strength === undefined || first === undefined ? undefined : { ...first, bending: strength.bending };
}

/** First moment of the mass of a half wing outside a place, about it [kg m]. */
export function outboardMassMoment(structure: SurfaceStructure, masses: readonly MassPoint[], y: number): number {
  return outboardMassMoments(structure, masses, [y])[0];
}

/** The same at several places. */
export function outboardMassMoments(
  structure: SurfaceStructure,
  masses: readonly MassPoint[],
  places: readonly number[],
): number[] {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const count = 12;
  const step = (tip - root) / count;
  const strips = Array.from({ length: count }, (_, i) => {
    const at = root + (i + 0.5) * step;
    return { y: at, mass: step * surfaceSection(structure, at).linearMass };
  });
  const described = strips.reduce((sum, { mass }) => sum + mass, 0);
  const scale = structure.mass === undefined || !(described > 0) ? 1 : structure.mass / described;
  const own = strips.map((strip) => ({ y: strip.y, mass: scale * strip.mass }));
  const carried = masses.filter(({ on, y: at }) => on === structure.name || at > 1e-6);
  return places.map((y) => [...own, ...carried].reduce((sum, each) => sum + each.mass * Math.max(0, each.y - y), 0));
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
  const levers = outboardMassMoments(structure, masses, places);
  let least: ForeAftLoad | undefined;
  for (const [i, y] of places.entries()) {
    const strength = foreAftStrength(structure, y);
    if (strength === undefined || !(levers[i] > 0)) continue;
    const acceleration = strength.factor / levers[i];
    if (least === undefined || acceleration < least.acceleration) least = { acceleration, y, reason: strength.reason };
  }
  return least;
}

/**
 * Mean acceleration of a throw [m/s2]: v^2 / (2 s). speed - let go at [m/s]; way - of the hand [m]
 * Source: kinematics; 10 m/s over 1.2 m are 4.25 g.
 */
export const throwAcceleration = (speed: number, way: number): number => speed ** 2 / (2 * way);
