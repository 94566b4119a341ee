import { wrinklingStress } from './buckling.js';
import { isFilm } from './fibres.js';
import { webBucklingStress } from './joiner.js';
import { type Layer, membraneShear, planeStiffness, type StructuralMaterial } from './laminate.js';
import {
  type ClosedSection,
  type SectionShear,
  type SectionWeb,
  type SkinStrip,
  sectionShear,
} from './sectionShear.js';
import { faceLayers, type LocalSection } from './stack.js';
import type { SurfaceStructure } from './surface-types.js';
import type { SparCut, SurfaceSection } from './surfaceSection.js';

/** Strips along each face of a cell; those of the nose are finer in front. */
const STRIPS = 14;
/** Where lift acts along the chord. */
const liftLine = 0.25;

/** Layers of a face that carry shear: no films, which wrinkle, and no foam. */
const carrying = (structure: SurfaceStructure, face: 'upper' | 'lower', y: number, u: number): readonly Layer[] =>
  faceLayers(structure, face, y, u).filter(
    ({ material, thickness }) => !isFilm(thickness, material) && material.modulus >= 1e9,
  );

interface FacePiece {
  readonly strip: SkinStrip;
  readonly layers: readonly Layer[];
}

function facePieces(
  structure: SurfaceStructure,
  section: LocalSection,
  face: 'upper' | 'lower',
  places: readonly number[],
): readonly FacePiece[] {
  const { chord, y } = section;
  const inwards = face === 'upper' ? -1 : 1;
  const depthAt = (u: number) => faceLayers(structure, face, y, u).reduce((sum, layer) => sum + layer.thickness, 0);
  // Nose and tail are closed: both faces meet there.
  const heightAt = (u: number) => {
    const middle = (section.upper(u) + section.lower(u)) / 2;
    if (u <= 0 || u >= 1) return middle;
    const height = section[face](u) + (inwards * depthAt(u)) / 2;
    return face === 'upper' ? Math.max(middle, height) : Math.min(middle, height);
  };
  return places.slice(1).map((to, i): FacePiece => {
    const from = places[i];
    const layers = carrying(structure, face, y, (from + to) / 2);
    return {
      layers,
      strip: {
        ...{ x1: from * chord, z1: heightAt(from), x2: to * chord, z2: heightAt(to) },
        stretch: layers.reduce(
          (sum, { material, angle, thickness }) => sum + thickness * planeStiffness(material, angle).q22,
          0,
        ),
        shear: membraneShear(layers),
      },
    };
  });
}

interface Bay {
  readonly upper: readonly FacePiece[];
  readonly lower: readonly FacePiece[];
}

const isClosed = ({ upper, lower }: Bay): boolean => [...upper, ...lower].every(({ strip }) => strip.shear > 0);

function webOf({ chordFraction, height, profile, size, spar }: SparCut, section: LocalSection, ahead: Bay): SectionWeb {
  const arm = profile.halfHeight - size.depth / 2;
  return {
    x: chordFraction * section.chord,
    top: ahead.upper.at(-1)!.strip.z2,
    bottom: ahead.lower.at(-1)!.strip.z2,
    capTop: height + arm,
    capBottom: height - arm,
    capStretch: (spar.material.modulus * profile.area) / 2,
    shear: spar.web!.material.shearModulus * spar.web!.thickness,
  };
}

/** A section of closed cells as far to the rear as they are closed; undefined where it is filled, or where its nose is open. */
export interface ShearSection {
  readonly section: ClosedSection;
  readonly bays: readonly Bay[];
  readonly webs: readonly SparCut[];
}

export function shearSection(
  structure: SurfaceStructure,
  { section, spars }: SurfaceSection,
): ShearSection | undefined {
  const webs = spars.filter(({ spar }) => spar.web !== undefined).sort((a, b) => a.chordFraction - b.chordFraction);
  if (structure.core !== undefined || webs.length === 0) return undefined;
  const stops = [0, ...webs.map(({ chordFraction }) => chordFraction), 1];
  const bays = stops.slice(1).map((to, i): Bay => {
    const from = stops[i];
    const places = Array.from({ length: STRIPS + 1 }, (_, k) => from + (to - from) * (k / STRIPS) ** (i === 0 ? 2 : 1));
    return {
      upper: facePieces(structure, section, 'upper', places),
      lower: facePieces(structure, section, 'lower', places),
    };
  });
  // A control has its own skin behind the gap at its hinge.
  const cut = structure.controls.some(({ fromY, toY }) => section.y >= fromY && section.y <= toY);
  const open = bays.findIndex((bay, i) => !isClosed(bay) || (cut && i === bays.length - 1));
  const closed = open < 0 ? bays : bays.slice(0, open);
  if (closed.length === 0) return undefined;
  const held = webs.slice(0, closed.length);
  // A web behind the closed cells stands alone: then nothing is known of how it shares.
  if (held.length < webs.length) return undefined;
  return {
    section: {
      cells: closed.map(({ upper, lower }) => ({
        upper: upper.map(({ strip }) => strip),
        lower: lower.map(({ strip }) => strip),
      })),
      webs: held.map((web, i) => webOf(web, section, closed[i])),
    },
    bays: closed,
    webs: held,
  };
}

/** Flow that the layers of a skin bear [N/m]: shear strength, wrinkling on foam or buckling between ribs. */
function skinStrength(
  structure: SurfaceStructure,
  layers: readonly Layer[],
  foam: StructuralMaterial | undefined,
): number {
  return layers.reduce((sum, { material, thickness }) => {
    const across = Math.sqrt(material.modulus * material.modulusAcross);
    const buckling =
      foam === undefined
        ? webBucklingStress(across, 0.3, thickness, Math.min(structure.ribs?.spacing ?? 0.1, 0.1))
        : // Pure shear presses with its own size along a diagonal.
          wrinklingStress({ modulus: across }, { modulus: foam.modulus, shearModulus: foam.throughShear });
    return sum + thickness * Math.min(material.shearStrength, buckling);
  }, 0);
}

/** Shear that a section bears, by part [N]. */
export interface ShearBorne {
  readonly part: string;
  readonly reason: string;
  readonly shear: number;
}

/** Strength of a web [N/m] and how it gives way. */
export function webStrength({ spar, size, profile }: SparCut): { readonly flow: number; readonly reason: string } {
  const { material, thickness } = spar.web!;
  const height = Math.max(thickness, 2 * profile.halfHeight - size.depth);
  const buckling = webBucklingStress(material.modulus, material.poisson, thickness, height);
  return {
    flow: Math.min(material.shearStrength, buckling) * thickness,
    reason: buckling < material.shearStrength ? 'buckles in shear' : 'shears',
  };
}

/**
 * Shear that webs and skins of a closed section bear, shared by their flows with lift at the quarter chord. Undefined where the section is not closed.
 */
export function closedShear(structure: SurfaceStructure, whole: SurfaceSection): readonly ShearBorne[] | undefined {
  const made = shearSection(structure, whole);
  const flows: SectionShear | undefined = made && sectionShear(made.section, liftLine * whole.section.chord);
  if (made === undefined || flows === undefined) return undefined;
  const webs = made.webs.map((cut, i): ShearBorne => {
    const { flow, reason } = webStrength(cut);
    return { part: `web of ${cut.spar.name}`, reason, shear: flow / Math.max(Math.abs(flows.webs[i]), 1e-9) };
  });
  const soft = (face: 'upper' | 'lower', u: number) =>
    faceLayers(structure, face, whole.section.y, u).find(({ material }) => material.modulus < 1e9)?.material;
  const skins = made.bays.flatMap((bay, i) =>
    (['upper', 'lower'] as const).flatMap((face) =>
      bay[face].map(({ strip, layers }, k): ShearBorne => {
        const foam = soft(face, (strip.x1 + strip.x2) / 2 / whole.section.chord);
        const shear = skinStrength(structure, layers, foam) / Math.max(Math.abs(flows.skins[i][face][k]), 1e-9);
        return { part: `${face} ${layers[0].material.name}`, reason: 'gives way in shear', shear };
      }),
    ),
  );
  return [...webs, ...skins];
}
