import { type Fibre, gaveWay, plateFibres, sparFibres } from './fibres.js';
import { outboardMassMoments, type TwoWayStrength, twoWayStrength } from './foreAft.js';
import type { MassPoint } from './input-types.js';
import { jointKept, jointLimits, shearArm } from './panelJoint.js';
import { closedShear, type ShearBorne, webStrength } from './shearLimits.js';
import type { SurfaceStructure } from './surface-types.js';
import { type SurfaceSection, sparBeam, surfaceSection } from './surfaceSection.js';

/** What first gives way at a section as it bends, tips up. */
export interface CurvatureLimit {
  readonly part: string;
  readonly reason: string;
  /** Curvature along the span at which it happens, tips up and tips down [1/m]; both positive. */
  readonly up: number;
  readonly down: number;
}

/** Limits of a fibre by its height above the neutral axis; of a round one at its top and bottom. */
const fibreLimits = ({ part, above, radius, strain }: Fibre): CurvatureLimit[] =>
  (radius > 0 ? [above + radius, above - radius] : [above]).map((height) => {
    const arm = Math.max(Math.abs(height), 1e-6);
    // Tips up shortens what lies above the neutral axis.
    const pressed = strain.compression / arm;
    const pulled = strain.tension / arm;
    const [up, down] = height > 0 ? [pressed, pulled] : [pulled, pressed];
    return { part, reason: gaveWay(strain, height > 0 === up < down), up, down };
  });

/** Chord fractions at which faces and core are deepest. */
const deepPlaces = [0.1, 0.25, 0.4, 0.6];

/**
 * Curvatures along the span at which each part of a section gives way: fibres torn or crushed, caps and skins that wrinkle on
 * their core, sheets that buckle between ribs, foam at its outer fibre.
 * Characteristic strengths; no safety factor.
 */
export function curvatureLimits(
  structure: SurfaceStructure,
  y: number,
  whole = surfaceSection(structure, y),
): readonly CurvatureLimit[] {
  return [
    ...sparFibres(structure, whole).flatMap(fibreLimits),
    ...shearLimits(structure, whole),
    ...plateFibres(structure, whole, deepPlaces).flatMap(fibreLimits),
  ];
}

/** Shear of webs where the section is not closed: each spar carries its share of bending, skins none. */
function openShear(structure: SurfaceStructure, { spars, neutralAxis }: SurfaceSection): readonly ShearBorne[] {
  const own = spars.map((cut) => sparBeam(cut, neutralAxis, structure).bending);
  const all = own.reduce((sum, value) => sum + value, 0);
  return spars.flatMap((cut, i) => {
    const { spar, size, profile } = cut;
    if (spar.web === undefined || !(own[i] > 0)) return [];
    const { flow, reason } = webStrength(cut);
    const height = Math.max(spar.web.thickness, 2 * profile.halfHeight - size.depth);
    return [{ part: `web of ${spar.name}`, reason, shear: (flow * height * all) / own[i] }];
  });
}

/** Shear of webs and closed skins, by the shear that goes with the bending moment under elliptic lift. */
function shearLimits(structure: SurfaceStructure, whole: SurfaceSection): CurvatureLimit[] {
  const arm = shearArm(structure, whole.section.y);
  const borne = closedShear(structure, whole) ?? openShear(structure, whole);
  return borne.map(({ part, reason, shear }) => {
    const curvature = (shear * arm) / whole.bending;
    return { part, reason, up: curvature, down: curvature };
  });
}

/** Limits where a joint lies: of the panels, whose curvature is less than that of the softened model, and of the joiner. */
function limitsWithJoint(structure: SurfaceStructure, y: number, whole: SurfaceSection): readonly CurvatureLimit[] {
  const kept = jointKept(structure, y).bending;
  const panels = curvatureLimits(structure, y, whole).map((limit) => ({
    ...limit,
    up: limit.up / kept,
    down: limit.down / kept,
  }));
  return [...panels, ...jointLimits(structure, y)];
}

/** The limit that comes first. @param direction - tips up or down */
export function firstLimit(limits: readonly CurvatureLimit[], direction: 'up' | 'down'): CurvatureLimit | undefined {
  return limits.reduce<CurvatureLimit | undefined>(
    (least, limit) => (least === undefined || limit[direction] < least[direction] ? limit : least),
    undefined,
  );
}

/** Curvatures at which a surface first gives way at places along its span, tips up and tips down, both positive [1/m]. */
export interface SpanStrength {
  readonly surface: string;
  /** Distance along the surface, as the structure counts y [m]. */
  readonly y: readonly number[];
  readonly up: readonly number[];
  readonly down: readonly number[];
  /** What gives way first there with the tips up. */
  readonly reasons: readonly string[];
  /** What bends fore and aft beside it; absent where that is not known. */
  readonly foreAft?: SpanForeAft;
}

/** The same places fore and aft. */
export interface SpanForeAft {
  /** Absent where nothing carries. */
  readonly strengths: readonly (TwoWayStrength | undefined)[];
  /** First moment of the mass outside each place, about it [kg m]. */
  readonly massMoments: readonly number[];
}

/**
 * Strength along a surface, at places from the root outwards; the last tenth, which hardly bends, is left out.
 * masses - carried by the right half, which lag behind a push
 */
export function strengthAlong(structure: SurfaceStructure, masses: readonly MassPoint[] = [], count = 7): SpanStrength {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const even = Array.from({ length: count }, (_, i) => root + (tip - root) * (0.02 + (0.88 * i) / (count - 1)));
  const y = [...even, ...(structure.joints ?? []).map((joint) => joint.y)].sort((a, b) => a - b);
  const sections = y.map((at) => surfaceSection(structure, at));
  const firsts = y.map((at, i) => {
    const limits = limitsWithJoint(structure, at, sections[i]);
    return { up: firstLimit(limits, 'up'), down: firstLimit(limits, 'down') };
  });
  return {
    surface: structure.name,
    y,
    // What nothing limits is given a curvature no wing reaches.
    up: firsts.map(({ up }) => up?.up ?? 1e3),
    down: firsts.map(({ down }) => down?.down ?? 1e3),
    reasons: firsts.map(({ up }) => (up === undefined ? '' : `${up.part} ${up.reason}`)),
    foreAft: {
      strengths: y.map((at, i) => twoWayStrength(structure, at, sections[i])),
      massMoments: outboardMassMoments(structure, masses, y),
    },
  };
}
