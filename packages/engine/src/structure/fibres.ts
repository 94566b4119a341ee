import { panelBucklingStress, wrinklingStress } from './buckling.js';
import type { PlacedLayer, StructuralMaterial } from './laminate.js';
import { type Stack, stackAt } from './stack.js';
import type { SurfaceStructure } from './surface-types.js';
import type { SurfaceSection } from './surfaceSection.js';

/** Strains at which a part gives way, both positive. */
export interface FibreStrain {
  readonly tension: number;
  readonly compression: number;
  /** Pressed, it buckles before its material is crushed. */
  readonly wrinkles: boolean;
}

/** A part of a section that is strained along the span, where it lies. */
export interface Fibre {
  readonly part: string;
  /** Aft of the leading edge and above the neutral axis [m]; of a round part its middle. */
  readonly x: number;
  readonly above: number;
  /** Of a round part [m], else 0. */
  readonly radius: number;
  readonly strain: FibreStrain;
}

/** How a part gives way, in a word. squeezed - by compression */
export const gaveWay = ({ wrinkles }: FibreStrain, squeezed: boolean): string =>
  squeezed ? (wrinkles ? 'wrinkles' : 'crushed') : 'torn';

const materialStrain = (material: StructuralMaterial, buckling = Number.POSITIVE_INFINITY): FibreStrain => ({
  tension: material.tension / material.modulus,
  compression: Math.min(material.compression, buckling) / material.modulus,
  wrinkles: buckling < material.compression,
});

/** Films carry no compression, and lose nothing by it. */
export const isFilm = (thickness: number, material: StructuralMaterial): boolean =>
  thickness < 1.2e-4 && material.modulus < 6e9;

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
): FibreStrain | undefined {
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

/** Spars of a section: round ones by middle and radius, others by their corners. */
export function sparFibres(
  structure: SurfaceStructure,
  { spars, neutralAxis, section }: SurfaceSection,
): readonly Fibre[] {
  const { core } = structure;
  return spars.flatMap(({ spar, size, profile, chordFraction, height }): Fibre[] => {
    const buckling =
      spar.kind === 'caps' && core !== undefined
        ? wrinklingStress(spar.material, { modulus: core.modulus, shearModulus: core.throughShear })
        : undefined;
    const strain = materialStrain(spar.material, buckling);
    const middle = {
      part: spar.name,
      x: chordFraction * section.chord,
      above: height - neutralAxis,
      radius: 0,
      strain,
    };
    if (spar.kind === 'tube') return [{ ...middle, radius: profile.halfHeight }];
    return [-1, 1].flatMap((side) =>
      [-1, 1].map((end) => ({
        ...middle,
        x: middle.x + (side * size.width) / 2,
        above: middle.above + end * profile.halfHeight,
      })),
    );
  });
}

/** A layer of faces or core at one place of the chord. */
export interface PlateFibre extends Fibre {
  /** Modulus times thickness, shared by its faces [N/m]. */
  readonly stretch: number;
}

/** Faces and core of a section at chord fractions, each by its face away from the neutral axis, or both where it lies inside. */
export function plateFibres(
  structure: SurfaceStructure,
  { section, neutralAxis }: SurfaceSection,
  places: readonly number[],
): readonly PlateFibre[] {
  return places.flatMap((u) => {
    const { layers, height } = stackAt(structure, section, u);
    return layers.flatMap((layer): PlateFibre[] => {
      const { material, thickness, middle, share = 1 } = layer;
      const strain = layerStrain(structure, { layers, height }, layer);
      if (strain === undefined) return [];
      const part = material === structure.core ? 'foam' : `${middle > 0 ? 'upper' : 'lower'} ${material.name}`;
      const arm = middle - neutralAxis;
      // A core that holds the neutral axis is strained at both of its faces.
      const faces = Math.abs(arm) < thickness / 2 ? [-1, 1] : [Math.sign(arm)];
      const stretch = (share * material.modulus * thickness) / faces.length;
      return faces.map((face) => ({
        part,
        x: u * section.chord,
        above: arm + (face * thickness) / 2,
        radius: 0,
        strain,
        stretch,
      }));
    });
  });
}
