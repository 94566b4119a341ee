import {
  type FaceTemperatures,
  type SurfaceStructure,
  softenedBetween,
  stiffnessKept,
  strengthAlong,
  surfacePart,
  type WarmMaterial,
  type WarmStructure,
  warmStructure,
} from '@noonwing/engine/structure';
import type { AssembledStructure } from './assumed-structure.js';
import { structuralMaterial } from './structure.js';

/** A structure in the sun, and what in it has softened. */
export interface WarmAssembled {
  readonly structure: AssembledStructure;
  /** The softest first. */
  readonly softer: readonly WarmMaterial[];
}

/** Foam of which nothing else is known. */
const usualFoam = () => structuralMaterial('depron foam');

/** Plates of a wing of assumed foam; its spars are taken to be of carbon, which hardly softens. */
function warmFoamSheet(structure: AssembledStructure, { upper, lower }: FaceTemperatures): WarmAssembled {
  const [part, ...others] = structure.half.surfaces;
  const foam = usualFoam();
  const kept = softenedBetween(foam, upper, lower).modulus / foam.modulus;
  const temperature = Math.max(upper, lower);
  if (part === undefined || kept === 1) return { structure, softer: [] };
  const warmed = {
    ...part,
    plateAt: (y: number, u: number) => {
      const plate = part.plateAt(y, u);
      const { d11, d22, d12, d66 } = plate;
      return { ...plate, d11: kept * d11, d22: kept * d22, d12: kept * d12, d66: kept * d66 };
    },
  };
  return {
    structure: { ...structure, half: { ...structure.half, surfaces: [warmed, ...others] } },
    softer: [{ name: foam.name, temperature, ...stiffnessKept(foam, temperature) }],
  };
}

/** A surface that carries cells as warm as the sun makes it; the others are as warm as the air. */
export const warmSurface = (surface: SurfaceStructure, faces: FaceTemperatures): WarmStructure =>
  surface.cells.length === 0 ? { structure: surface, softer: [] } : warmStructure(surface, faces);

/** Relative standard uncertainty of a stiffness, with that of what has softened most. */
export const warmSpread = (sigma: number, softer: readonly WarmMaterial[]): number =>
  Math.hypot(sigma, Math.max(0, ...softer.map(({ low, high }) => Math.log(high / low) / (2 * 1.645))));

/** The structure as warm as the sun makes it, from that which is cool. The spread of its stiffness grows by that of what has softened most. */
export function warmAssembled(structure: AssembledStructure, faces: FaceTemperatures): WarmAssembled {
  const main = structure.half.surfaces[0]?.name ?? '';
  if (structure.described[main] === undefined && structure.foam) return warmFoamSheet(structure, faces);
  const softer: WarmMaterial[] = [];
  const described = Object.fromEntries(
    Object.entries(structure.described).map(([name, surface]) => {
      const warm = warmSurface(surface, faces);
      softer.push(...warm.softer);
      return [name, warm.structure];
    }),
  );
  if (softer.length === 0) return { structure, softer };
  const changed = (name: string) => described[name] !== structure.described[name];
  const wing = described[main];
  return {
    structure: {
      ...structure,
      described,
      ...(wing === undefined || !changed(main) ? {} : { strength: strengthAlong(wing, structure.half.masses) }),
      half: {
        ...structure.half,
        surfaces: structure.half.surfaces.map((part) =>
          changed(part.name) ? surfacePart(described[part.name]!) : part,
        ),
      },
      stiffnessSigma: warmSpread(structure.stiffnessSigma, softer),
    },
    softer: softer.sort((a, b) => a.kept - b.kept),
  };
}
