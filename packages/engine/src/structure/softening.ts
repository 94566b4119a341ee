import type { StructuralMaterial } from './laminate.js';

/** Temperature at which moduli are stated [K]. */
const roomTemperature = 296;

/** What heat takes of a material; absent fields: nothing. */
export type Softening = Pick<StructuralMaterial, 'softensAt' | 'softeningExponent' | 'fibreShare' | 'lostByKelvin'>;

/**
 * How materials of small aircraft soften, by kind; all from memory or common practice, which the band of `stiffnessKept` answers for.
 *
 * Polystyrene has lost most of its stiffness at its glass transition of some 100 C: 97 % are left at 50 C, 78 % at 67 C and 62 % at 75 C, where
 * data sheets of boards end its use. Polypropylene crystallises and falls steadily, to 44 % at 60 C. Stretched polyester film: 4 to 5 GPa at 25 C,
 * some 1.5 GPa at 100 C. Laminating resin that cured at room temperature is glassy to some 60 C, that of pultruded rods to 100 C; fibres keep
 * what they hold. Wood of 12 % moisture loses 7 % of its stiffness and a quarter of its strength in compression from 20 to 50 C (Wood Handbook,
 * FPL-GTR-190, chapter 5, from memory).
 */
export const softeningLaws = {
  'polystyrene foam': { softensAt: 373, softeningExponent: 4 },
  'polypropylene foam': { softensAt: 400, softeningExponent: 1 },
  'polyester film': { softensAt: 393, softeningExponent: 4 },
  'hand-laid laminate': { softensAt: 353, softeningExponent: 4, fibreShare: 0.85 },
  'pultruded carbon': { softensAt: 393, softeningExponent: 4, fibreShare: 0.97 },
  wood: { lostByKelvin: { modulus: 2.5e-3, strength: 8e-3 } },
} as const satisfies Readonly<Record<string, Softening>>;

/** Part of its stiffness that a warm material keeps, with the ends of a 90 % band. */
export interface KeptStiffness {
  readonly kept: number;
  readonly low: number;
  readonly high: number;
}

/** Part of the stiffness of what softens: of the plastic or resin, or of all of the wood. */
function softPart({ softensAt, softeningExponent = 2, lostByKelvin }: Softening, temperature: number): number {
  if (!Number.isFinite(temperature)) throw new RangeError('stiffnessKept: the temperature must be a number');
  const warmer = temperature - roomTemperature;
  if (warmer <= 0) return 1;
  if (softensAt !== undefined) return 0.1 ** ((warmer / (softensAt - roomTemperature)) ** softeningExponent);
  return lostByKelvin === undefined ? 1 : Math.max(0.1, 1 - lostByKelvin.modulus * warmer);
}

/**
 * Part of its stiffness along fibres, grain or sheet that a material keeps at a temperature, over that at 23 C. What softens keeps
 * 0.1^(x^p), x the way from there to the temperature at which a tenth is left, wood a share for each kelvin.
 *
 * temperature - of the material [K]; below 23 C it is taken to keep all
 * Returns the best estimate and its band: half to one and a half of the loss, as nobody states how much a foam loses.
 * Source: common practice, no source; the shape is that of moduli of glassy and crystalline plastics over temperature (from memory).
 */
export function stiffnessKept(of: Softening, temperature: number): KeptStiffness {
  const loss = (1 - (of.fibreShare ?? 0)) * (1 - softPart(of, temperature));
  return { kept: 1 - loss, low: Math.max(0.02, 1 - 1.5 * loss), high: 1 - 0.5 * loss };
}

/** Share of its strength that wood keeps. */
const woodStrength = ({ lostByKelvin }: Softening, temperature: number): number =>
  lostByKelvin === undefined
    ? 1
    : Math.max(0.1, 1 - lostByKelvin.strength * Math.max(0, temperature - roomTemperature));

/**
 * A material at a temperature. Moduli that its resin, its foam or its wood decide soften with it; so do shear and compression, which in fibres is held
 * by the shear stiffness of the resin around them, and all strengths of a foam. Fibres keep their tension.
 *
 * temperature - [K]
 * Source: compression of fibres by microbuckling: B. W. Rosen, Fiber Composite Materials, ASM 1965 (from memory); strengths of foams with their
 * modulus: Gibson and Ashby, Cellular Solids (from memory).
 */
export function softened(material: StructuralMaterial, temperature: number): StructuralMaterial {
  const soft = softPart(material, temperature);
  const wood = woodStrength(material, temperature);
  if (soft === 1 && wood === 1) return material;
  const { kept } = stiffnessKept(material, temperature);
  const strength = material.lostByKelvin === undefined ? soft : wood;
  return {
    ...material,
    modulus: kept * material.modulus,
    // Woven cloth is as stiff across, by as many fibres.
    modulusAcross: (material.modulusAcross < material.modulus ? soft : kept) * material.modulusAcross,
    shearModulus: soft * material.shearModulus,
    throughShear: soft * material.throughShear,
    tension: (material.fibreShare === undefined ? strength : kept) * material.tension,
    compression: strength * material.compression,
    shearStrength: strength * material.shearStrength,
  };
}

/** A part whose faces differ in temperature, linear between: moduli in the mean of both, strengths at the warmer. upper, lower - [K] */
export function softenedBetween(material: StructuralMaterial, upper: number, lower: number): StructuralMaterial {
  const [a, b] = [softened(material, upper), softened(material, lower)];
  if (a === b) return a;
  const warm = upper > lower ? a : b;
  const mean = (key: 'modulus' | 'modulusAcross' | 'shearModulus' | 'throughShear') => (a[key] + b[key]) / 2;
  return {
    ...warm,
    modulus: mean('modulus'),
    modulusAcross: mean('modulusAcross'),
    shearModulus: mean('shearModulus'),
    throughShear: mean('throughShear'),
  };
}
