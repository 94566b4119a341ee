import type { Layer, StructuralMaterial } from './laminate.js';
import { softened, softenedBetween, stiffnessKept } from './softening.js';
import type { SparPart, SurfaceStructure } from './surface-types.js';

/** Temperatures of the faces of a surface [K]. */
export interface FaceTemperatures {
  readonly upper: number;
  readonly lower: number;
}

/** What a material of a warm structure keeps of its stiffness, at its warmest place, with the ends of a 90 % band. */
export interface WarmMaterial {
  readonly name: string;
  /** [K] */
  readonly temperature: number;
  readonly kept: number;
  readonly low: number;
  readonly high: number;
}

/** A structure with the moduli and strengths that its materials have at their temperatures. */
export interface WarmStructure {
  readonly structure: SurfaceStructure;
  /** What softened, the softest first. */
  readonly softer: readonly WarmMaterial[];
}

/**
 * A surface whose faces differ in temperature: skins and spars on a face are as warm as it, what lies between (core, ribs, caps with their web, tubes
 * and strips in the middle) is linear between them. Cells and their glue do not soften; load tests made in the cool keep their factors.
 */
export function warmStructure(structure: SurfaceStructure, { upper, lower }: FaceTemperatures): WarmStructure {
  const found = new Map<string, WarmMaterial>();
  const seen = (material: StructuralMaterial, temperature: number): void => {
    const stiffness = stiffnessKept(material, temperature);
    if (stiffness.kept >= (found.get(material.name)?.kept ?? 1)) return;
    found.set(material.name, { name: material.name, temperature, ...stiffness });
  };
  const between = (material: StructuralMaterial): StructuralMaterial => {
    seen(material, Math.max(upper, lower));
    return softenedBetween(material, upper, lower);
  };
  const on = (face: 'upper' | 'lower', layer: Layer): Layer => {
    const temperature = face === 'upper' ? upper : lower;
    seen(layer.material, temperature);
    return { ...layer, material: softened(layer.material, temperature) };
  };
  const spar = (of: SparPart): SparPart => {
    const temperature = of.place === 'upper' ? upper : lower;
    const through = of.kind === 'caps' || of.place === 'middle';
    if (!through) seen(of.material, temperature);
    return {
      ...of,
      material: through ? between(of.material) : softened(of.material, temperature),
      ...(of.web === undefined ? {} : { web: { ...of.web, material: between(of.web.material) } }),
    };
  };
  const { core, ribs, zones, spars, joints } = structure;
  const warm: SurfaceStructure = {
    ...structure,
    ...(core === undefined ? {} : { core: between(core) }),
    ...(ribs === undefined ? {} : { ribs: { ...ribs, material: between(ribs.material) } }),
    zones: zones.map((zone) => ({ ...zone, layers: zone.layers.map((layer) => on(zone.face, layer)) })),
    spars: spars.map(spar),
    ...(joints === undefined ? {} : { joints: joints.map((of) => ({ ...of, material: between(of.material) })) }),
  };
  return { structure: warm, softer: [...found.values()].sort((a, b) => a.kept - b.kept) };
}
