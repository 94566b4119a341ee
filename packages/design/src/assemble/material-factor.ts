import { standardGravity } from '@noonwing/engine/air';
import {
  type StructuralMaterial,
  type SurfaceStructure,
  threePointModulus,
  threePointSpread,
  updateFactor,
} from '@noonwing/engine/structure';
import { MATERIALS, type Material } from '../library/materials.js';
import type { MeasuredRecord } from '../measured-fields.js';

type StripBend = Extract<MeasuredRecord, { what: 'strip bend' }>;

/** What a bent strip says of a material. */
export interface MaterialFactor {
  readonly material: string;
  /** On the stiffness of the parts library, with its relative standard uncertainty. */
  readonly factor: number;
  readonly spread: number;
  /** Young's modulus as read, and as the library has it [Pa]. */
  readonly read: number;
  readonly expected: number;
  /** How many standard deviations the reading lay from what was expected. */
  readonly surprise: number;
}

/** Strips of one board differ from the part that flies (relative; judgement). */
const boardSpread = 0.08;

const share = ({ value, sigma = 0 }: { readonly value: number; readonly sigma?: number | undefined }): number =>
  Math.abs(sigma / value);

function materialFactor(record: StripBend): MaterialFactor | undefined {
  const known = (MATERIALS as Readonly<Record<string, Material>>)[record.material]?.mechanics;
  if (known === undefined) return undefined;
  const { width, thickness, span, mass, deflection } = record;
  const read = threePointModulus(
    { width: width.value, thickness: thickness.value },
    {
      span: span.value,
      force: standardGravity * mass.value,
      deflection: deflection.value,
      shearRatio: known.modulus / known.shearModulus,
    },
  );
  const reading = threePointSpread({
    span: share(span),
    thickness: share(thickness),
    width: share(width),
    force: share(mass),
    deflection: share(deflection),
  });
  const { belief, surprise } = updateFactor(
    { factor: 1, spread: known.spread },
    { ratio: read / known.modulus, spread: Math.hypot(reading, boardSpread) },
  );
  return {
    material: record.material,
    factor: belief.factor,
    spread: belief.spread,
    read,
    expected: known.modulus,
    surprise,
  };
}

/** Factors of materials by the last strip of each. records - in use */
export function materialFactors(records: readonly MeasuredRecord[]): readonly MaterialFactor[] {
  const last = new Map<string, MaterialFactor>();
  for (const record of records) {
    if (record.what !== 'strip bend') continue;
    const found = materialFactor(record);
    if (found !== undefined) last.set(found.material, found);
  }
  return [...last.values()];
}

/** A structure with one of its materials stiffer or softer; strengths stay. */
export function withMaterial(
  structure: SurfaceStructure,
  { material, factor }: Pick<MaterialFactor, 'material' | 'factor'>,
): SurfaceStructure {
  const scaled = (of: StructuralMaterial): StructuralMaterial =>
    of.name !== material
      ? of
      : {
          ...of,
          modulus: factor * of.modulus,
          modulusAcross: factor * of.modulusAcross,
          shearModulus: factor * of.shearModulus,
          throughShear: factor * of.throughShear,
        };
  return {
    ...structure,
    ...(structure.core === undefined ? {} : { core: scaled(structure.core) }),
    zones: structure.zones.map((zone) => ({
      ...zone,
      layers: zone.layers.map((layer) => ({ ...layer, material: scaled(layer.material) })),
    })),
    ...(structure.ribs === undefined ? {} : { ribs: { ...structure.ribs, material: scaled(structure.ribs.material) } }),
    spars: structure.spars.map((spar) => ({
      ...spar,
      material: scaled(spar.material),
      ...(spar.web === undefined ? {} : { web: { ...spar.web, material: scaled(spar.web.material) } }),
    })),
  };
}
