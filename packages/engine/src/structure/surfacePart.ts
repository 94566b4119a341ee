import { interpolateLinear } from '../math/index.js';
import type { BeamPart, SurfacePart } from './input-types.js';
import { planeStiffness, reducedBending } from './laminate.js';
import type { PlateProperties } from './model-types.js';
import { jointEdges, jointKept } from './panelJoint.js';
import { type Stack, sectionAt, stackAt } from './stack.js';
import type { SurfaceStructure } from './surface-types.js';
import { ribBending, ribMass, type SurfaceSection, skinTorsion, sparBeam, surfaceSection } from './surfaceSection.js';

/** Bare gaps in a hollow structure still need a number: the least plate stiffness that is used [N m]. */
const LEAST_STIFFNESS = 1e-3;

/** Sections along a surface: at its stations, at ends of spars and evenly between. */
export interface SurfaceSections {
  readonly y: readonly number[];
  readonly sections: readonly SurfaceSection[];
}

/** Stiffness steps at the ends of a joiner within this share of the span. */
const jointStep = 2e-3;

export function surfaceSections(structure: SurfaceStructure, count = 9): SurfaceSections {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const all = [
    ...stations.map(({ y }) => y),
    ...structure.spars.flatMap(({ sizes }) => sizes.map(({ y }) => y)),
    ...jointEdges(structure).flatMap((y) => [y - jointStep * (tip - root), y + jointStep * (tip - root)]),
    ...Array.from({ length: count }, (_, i) => root + ((tip - root) * i) / (count - 1)),
  ]
    .filter((y) => y >= root && y <= tip)
    .sort((a, b) => a - b);
  const y = all.filter((value, i) => i === 0 || value - all[i - 1] > 1e-3 * (tip - root));
  return { y, sections: y.map((at) => surfaceSection(structure, at)) };
}

/** Transverse shear of what fills the section [N/m]; undefined where nothing soft carries it. */
function shearOf(structure: SurfaceStructure, { layers, height }: Stack): { shear?: { aft: number; out: number } } {
  const { core } = structure;
  if (core === undefined) return {};
  const filling = layers.find(({ material, thickness }) => material === core && thickness > 0.5 * height);
  if (filling === undefined) return {};
  const faced = layers.some(({ material }) => material.modulus > 10 * core.modulus);
  const apart = (height + filling.thickness) / 2;
  const stiffness = core.throughShear * (faced ? (apart * apart) / filling.thickness : (5 / 6) * height);
  return { shear: { aft: stiffness, out: stiffness } };
}

/** Free curvature for a top that is 1 K warmer than the bottom, temperature linear in between [1/(m K)]. */
function heatCurvature({ layers, top, bottom }: Stack): number {
  const [middle, gradient] = [(top + bottom) / 2, 1 / (top - bottom)];
  let [stretch, first, second, force, moment] = [0, 0, 0, 0, 0];
  for (const { material, thickness: t, middle: z, angle, share = 1 } of layers) {
    const q = planeStiffness(material, angle).q22;
    const drive = material.expansion * gradient;
    stretch += share * q * t;
    first += share * q * t * z;
    second += share * q * t * z * z + (q * t ** 3) / 12;
    force += share * q * t * drive * (z - middle);
    moment += share * q * t * drive * (z - middle) * z + (q * t ** 3 * drive) / 12;
  }
  const neutral = first / stretch;
  return (moment - neutral * force) / (second - neutral * first);
}

/** Cross stiffness kept below what a stable plate can have. */
const limited = (value: number, a: number, b: number): number => {
  const most = 0.9 * Math.sqrt(a * b);
  return Math.min(most, Math.max(-most, value));
};

/** What plates take from whole sections, along the span. */
interface AlongSpan extends SurfaceSections {
  readonly neutralAxes: Float64Array;
  readonly lags: Float64Array;
}

const alongSpan = ({ y, sections }: SurfaceSections): AlongSpan => ({
  y,
  sections,
  neutralAxes: Float64Array.from(sections, ({ neutralAxis }) => neutralAxis),
  lags: Float64Array.from(sections, ({ lag }) => lag),
});

function nearestIndex(y: readonly number[], at: number): number {
  let best = 0;
  for (let i = 1; i < y.length; i++) if (Math.abs(y[i] - at) < Math.abs(y[best] - at)) best = i;
  return best;
}

function plateOf(
  structure: SurfaceStructure,
  { y, sections, neutralAxes, lags }: AlongSpan,
  at: number,
  u: number,
): PlateProperties {
  const section = sectionAt(structure, at);
  const stack = stackAt(structure, section, u);
  const own = stack.stiffness.a[2] > 0 ? reducedBending(stack.stiffness) : ([0, 0, 0, 0, 0, 0] as const);
  const neutral = stack.stiffness.a[2] > 0 ? stack.stiffness.b[2] / stack.stiffness.a[2] : 0;
  const arm = neutral - interpolateLinear(y, neutralAxes, at);
  const kept = jointKept(structure, at);
  const [bend, twist] = [structure.bendingFactor * kept.bending, structure.torsionFactor * kept.torsion];
  const hollow = structure.core === undefined;
  const cell = sections[nearestIndex(y, at)].closed.find(({ from, to }) => u >= from && u <= to);
  // Along the chord a joint takes nothing away.
  const d11 = Math.max(LEAST_STIFFNESS, structure.bendingFactor * (own[0] + ribBending(structure, stack.height)));
  const d22 = Math.max(
    LEAST_STIFFNESS,
    bend * (own[2] + interpolateLinear(y, lags, at) * stack.stiffness.a[2] * arm * arm),
  );
  const d66 = Math.max(
    LEAST_STIFFNESS / 4,
    twist * (hollow ? skinTorsion(stack) + ((cell?.factor ?? 0) * stack.height ** 2) / 4 : own[5]),
  );
  return {
    d11,
    d22,
    d66,
    d12: limited(bend * own[1], Math.min(d11, own[0] || d11), Math.min(d22, own[2] || d22)),
    // Layers that lie askew couple bending and twist; in hollow sections their part is left out.
    d16: hollow ? 0 : limited(bend * own[3], d11, d66) / 2,
    d26: hollow ? 0 : limited(bend * own[4], d22, d66) / 2,
    ...shearOf(structure, stack),
    arealMass: stack.arealMass + ribMass(structure, stack.height),
    heatCurvature: stack.stiffness.a[2] > 0 ? heatCurvature(stack) : 0,
  };
}

function sparPart(structure: SurfaceStructure, { sections }: SurfaceSections, name: string): BeamPart | undefined {
  const points = sections.flatMap(({ section, spars, neutralAxis }) => {
    const cut = spars.find(({ spar }) => spar.name === name);
    if (cut === undefined) return [];
    const x = section.xLeadingEdge + cut.chordFraction * section.chord;
    const beam = sparBeam(cut, neutralAxis, structure);
    const kept = jointKept(structure, section.y);
    const at = { ...beam, bending: kept.bending * beam.bending, torsion: kept.torsion * beam.torsion };
    return [{ x, y: section.y, at }];
  });
  return points.length < 2 ? undefined : { name, points };
}

/** Stations of the plate, with lines of the mesh at the ends of joiners. */
function withJointEdges(structure: SurfaceStructure): SurfacePart['stations'] {
  const stations = structure.stations.map(({ y, xLeadingEdge, chord }) => ({ y, xLeadingEdge, chord }));
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  for (const edge of jointEdges(structure)) {
    if (stations.some(({ y }) => Math.abs(y - edge) < 4 * jointStep * (tip - root))) continue;
    const { y, xLeadingEdge, chord } = sectionAt(structure, edge);
    stations.push({ y, xLeadingEdge, chord });
  }
  return stations.sort((a, b) => a.y - b.y);
}

/**
 * Plates and beams of a lifting surface from its materials, for `buildModel`.
 *
 * Along the span the plate bends about the common neutral axis of the section (plane sections, with shear lag), along the chord
 * about its own. Closed cells of hollow sections give the torsion of Bredt's theory, spread over each cell.
 */
export function surfacePart(structure: SurfaceStructure, sections = surfaceSections(structure)): SurfacePart {
  const along = alongSpan(sections);
  return {
    name: structure.name,
    stations: withJointEdges(structure),
    plateAt: (y, u) => plateOf(structure, along, y, u),
    beams: structure.spars.flatMap(({ name }) => sparPart(structure, sections, name) ?? []),
    controls: structure.controls,
    ...(structure.mass === undefined ? {} : { mass: structure.mass }),
  };
}
