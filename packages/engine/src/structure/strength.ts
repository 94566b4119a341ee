import { webBucklingStress } from './joiner.js';
import type { PlacedLayer, StructuralMaterial } from './laminate.js';
import { jointKept, jointLimits, shearArm } from './panelJoint.js';
import { type LocalSection, type Stack, stackAt } from './stack.js';
import type { SurfaceStructure } from './surface-types.js';
import { type SurfaceSection, sparBeam, surfaceSection } from './surfaceSection.js';

/**
 * Stress at which a thin face on a thick core wrinkles [Pa].
 * @param factor - 0.91 by theory for a perfect face, 0.5 for design
 * Source: Hoff and Mautner, The buckling of sandwich-type panels, J. Aeronaut. Sci. 12, 1945.
 */
export const wrinklingStress = (
  face: Pick<StructuralMaterial, 'modulus'>,
  core: { readonly modulus: number; readonly shearModulus: number },
  factor = 0.5,
): number => factor * Math.cbrt(face.modulus * core.modulus * core.shearModulus);

/**
 * Stress at which a flat sheet between supports buckles under compression [Pa].
 * @param width - between supports [m]; edges simply held
 * Source: Bryan 1891; Timoshenko and Gere, Theory of Elastic Stability (from memory).
 */
export const panelBucklingStress = (modulus: number, poisson: number, thickness: number, width: number): number =>
  (4 * Math.PI ** 2 * modulus * (thickness / width) ** 2) / (12 * (1 - poisson ** 2));

/** A spar bedded in foam that takes a force at its end. */
export interface FoamBed {
  /** Deflection at the end [m]. */
  readonly deflection: number;
  /** Pressure on the foam [Pa]. */
  readonly pressure: number;
  /** Inverse length of the decay [1/m]. */
  readonly decay: number;
}

/**
 * Beam on foam, long, with a force at its free end: what the foam must bear.
 *
 * @param bending - of the beam [N m2]
 * @param foam - modulus [Pa], depth below the beam and width of contact [m]
 * Source: Hetenyi, Beams on Elastic Foundation, 1946 (semi-infinite beam, end force).
 */
export function foamBed(
  bending: number,
  foam: { readonly modulus: number; readonly depth: number; readonly width: number },
  force: number,
): FoamBed {
  const bed = (foam.modulus * foam.width) / foam.depth;
  const decay = (bed / (4 * bending)) ** 0.25;
  const deflection = (2 * force * decay) / bed;
  return { deflection, pressure: (bed * deflection) / foam.width, decay };
}

/** What first gives way at a section as it bends, tips up. */
export interface CurvatureLimit {
  readonly part: string;
  readonly reason: string;
  /** Curvature along the span at which it happens, tips up and tips down [1/m]; both positive. */
  readonly up: number;
  readonly down: number;
}

/** Limits of a fibre at a height above the neutral axis. */
function fibre(
  part: string,
  above: number,
  strain: { readonly tension: number; readonly compression: number; readonly wrinkles: boolean },
): CurvatureLimit {
  const arm = Math.max(Math.abs(above), 1e-6);
  // Tips up shortens what lies above the neutral axis.
  const pressed = strain.compression / arm;
  const pulled = strain.tension / arm;
  const [up, down] = above > 0 ? [pressed, pulled] : [pulled, pressed];
  const squeezed = above > 0 === up < down;
  const reason = squeezed ? (strain.wrinkles ? 'wrinkles' : 'crushed') : 'torn';
  return { part, reason, up, down };
}

const materialStrain = (material: StructuralMaterial, buckling = Number.POSITIVE_INFINITY) => ({
  tension: material.tension / material.modulus,
  compression: Math.min(material.compression, buckling) / material.modulus,
  wrinkles: buckling < material.compression,
});

/** Films carry no compression, and lose nothing by it. */
const isFilm = (thickness: number, material: StructuralMaterial): boolean =>
  thickness < 1.2e-4 && material.modulus < 6e9;

function sparLimits(structure: SurfaceStructure, { spars, neutralAxis }: SurfaceSection): CurvatureLimit[] {
  return spars.flatMap(({ spar, profile, height }) => {
    const bedded = spar.kind === 'caps' && structure.core !== undefined;
    const core = structure.core;
    const buckling =
      bedded && core !== undefined
        ? wrinklingStress(spar.material, { modulus: core.modulus, shearModulus: core.throughShear })
        : undefined;
    const strain = materialStrain(spar.material, buckling);
    const arm = height - neutralAxis;
    return [fibre(spar.name, arm + profile.halfHeight, strain), fibre(spar.name, arm - profile.halfHeight, strain)];
  });
}

/** Foam of a sandwich shell beside a layer of one face. */
const softLayer = (layers: readonly PlacedLayer[], face: PlacedLayer): StructuralMaterial | undefined =>
  layers.find(
    ({ material, thickness, middle }) =>
      material.modulus < face.material.modulus / 20 && Math.abs(middle - face.middle) < thickness + face.thickness,
  )?.material;

/** Strains that a layer bears; undefined for films, cells and foam that only keeps the faces of a shell apart. */
export function layerStrain(
  structure: SurfaceStructure,
  { layers, height }: Pick<Stack, 'layers' | 'height'>,
  layer: PlacedLayer,
): ReturnType<typeof materialStrain> | undefined {
  const { material, thickness } = layer;
  if (isFilm(thickness, material) || structure.cells.some((cell) => cell.material === material)) return undefined;
  const core = material === structure.core;
  // Foam inside a shell only keeps its faces apart.
  if (!core && material.modulus < 1e9) return undefined;
  const faced = !core && thickness < 0.3 * height;
  const soft = structure.core ?? softLayer(layers, layer);
  const buckling = !faced
    ? undefined
    : soft !== undefined
      ? wrinklingStress(material, { modulus: soft.modulus, shearModulus: soft.throughShear })
      : panelBucklingStress(material.modulus, 0.3, thickness, Math.min(structure.ribs?.spacing ?? 0.1, 0.1));
  return materialStrain(material, buckling);
}

/** Faces and core at the deepest place of the chord that they cover. */
function plateLimits(structure: SurfaceStructure, section: LocalSection, neutralAxis: number): CurvatureLimit[] {
  const limits: CurvatureLimit[] = [];
  for (const u of [0.1, 0.25, 0.4, 0.6]) {
    const { layers, height } = stackAt(structure, section, u);
    for (const layer of layers) {
      const { material, thickness, middle } = layer;
      const strain = layerStrain(structure, { layers, height }, layer);
      if (strain === undefined) continue;
      const core = material === structure.core;
      const part = core ? 'foam' : `${middle > 0 ? 'upper' : 'lower'} ${material.name}`;
      const outer = middle - neutralAxis + (Math.sign(middle - neutralAxis) * thickness) / 2;
      limits.push(fibre(part, outer, strain));
    }
  }
  return limits;
}

/**
 * Curvatures along the span at which each part of a section gives way: fibres torn or crushed, caps and skins that wrinkle on
 * their core, sheets that buckle between ribs, foam at its outer fibre.
 * Characteristic strengths; no safety factor.
 */
export function curvatureLimits(structure: SurfaceStructure, y: number): readonly CurvatureLimit[] {
  const whole = surfaceSection(structure, y);
  return [
    ...sparLimits(structure, whole),
    ...webLimits(structure, whole),
    ...plateLimits(structure, whole.section, whole.neutralAxis),
  ];
}

/** Shear of webs, by the shear that goes with the bending moment under elliptic lift; each spar carries its share of bending. */
function webLimits(
  structure: SurfaceStructure,
  { spars, section, bending, neutralAxis }: SurfaceSection,
): CurvatureLimit[] {
  const arm = shearArm(structure, section.y);
  const own = spars.map((cut) => sparBeam(cut, neutralAxis, structure).bending);
  const all = own.reduce((sum, value) => sum + value, 0);
  return spars.flatMap(({ spar, size, profile }, i) => {
    if (spar.web === undefined || !(own[i] > 0)) return [];
    const { material, thickness } = spar.web;
    const height = Math.max(thickness, 2 * profile.halfHeight - size.depth);
    const buckling = webBucklingStress(material.modulus, material.poisson, thickness, height);
    const shear = (Math.min(material.shearStrength, buckling) * height * thickness * all) / own[i];
    // The whole shear goes through the spars: skins are no webs.
    const curvature = (shear * arm) / (structure.bendingFactor * bending);
    const reason = buckling < material.shearStrength ? 'buckles in shear' : 'shears';
    return [{ part: `web of ${spar.name}`, reason, up: curvature, down: curvature }];
  });
}

/** Limits where a joint lies: of the panels, whose curvature is less than that of the softened model, and of the joiner. */
function limitsWithJoint(structure: SurfaceStructure, y: number): readonly CurvatureLimit[] {
  const kept = jointKept(structure, y).bending;
  const panels = curvatureLimits(structure, y).map((limit) => ({
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
}

/** Strength along a surface, at places from the root outwards; the last tenth, which hardly bends, is left out. */
export function strengthAlong(structure: SurfaceStructure, count = 7): SpanStrength {
  const { stations } = structure;
  const [root, tip] = [stations[0].y, stations[stations.length - 1].y];
  const even = Array.from({ length: count }, (_, i) => root + (tip - root) * (0.02 + (0.88 * i) / (count - 1)));
  const y = [...even, ...(structure.joints ?? []).map((joint) => joint.y)].sort((a, b) => a - b);
  const firsts = y.map((at) => {
    const limits = limitsWithJoint(structure, at);
    return { up: firstLimit(limits, 'up'), down: firstLimit(limits, 'down') };
  });
  return {
    surface: structure.name,
    y,
    // What nothing limits is given a curvature no wing reaches.
    up: firsts.map(({ up }) => up?.up ?? 1e3),
    down: firsts.map(({ down }) => down?.down ?? 1e3),
    reasons: firsts.map(({ up }) => (up === undefined ? '' : `${up.part} ${up.reason}`)),
  };
}
