import type { StructuralMaterial } from './laminate.js';

/** Temperature at which moduli are stated [K]. */
const roomTemperature = 296;

/** Part of its stiffness that a warm material keeps, with the ends of a 90 % band. */
export interface KeptStiffness {
  readonly kept: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Part of its stiffness that a material keeps at a temperature, over that at 23 C: 0.1^(x^p), x the way from there to the temperature at
 * which a tenth is left. Foam of polystyrene (p = 4, a tenth at 100 C) keeps 97 % at 50 C, 78 % at 67 C and 62 % at 75 C, where data sheets of boards
 * end its use; expanded polypropylene (p = 1, a tenth at 127 C) falls steadily, to 44 % at 60 C. What does not soften keeps all of it.
 *
 * temperature - of the material [K]; below 23 C it is taken to keep all
 * Returns the best estimate and its band: half to one and a half of the loss, as nobody states how much a foam loses.
 * Source: common practice, no source; the shape is that of moduli of glassy and crystalline plastics over temperature (from memory).
 */
export function stiffnessKept(
  { softensAt, softeningExponent = 2 }: Pick<StructuralMaterial, 'softensAt' | 'softeningExponent'>,
  temperature: number,
): KeptStiffness {
  if (!Number.isFinite(temperature)) throw new RangeError('stiffnessKept: the temperature must be a number');
  if (softensAt === undefined || temperature <= roomTemperature) return { kept: 1, low: 1, high: 1 };
  const way = (temperature - roomTemperature) / (softensAt - roomTemperature);
  const kept = 0.1 ** (way ** softeningExponent);
  const loss = 1 - kept;
  return { kept, low: Math.max(0.02, 1 - 1.5 * loss), high: 1 - 0.5 * loss };
}

/**
 * A sheet of it whose faces differ in temperature, linear between: the mean of what its faces keep, which is where its bending stiffness lies.
 * upper, lower - temperatures of the faces [K]
 */
export function sheetStiffnessKept(
  material: Pick<StructuralMaterial, 'softensAt' | 'softeningExponent'>,
  upper: number,
  lower: number,
): KeptStiffness {
  const [a, b] = [stiffnessKept(material, upper), stiffnessKept(material, lower)];
  return { kept: (a.kept + b.kept) / 2, low: (a.low + b.low) / 2, high: (a.high + b.high) / 2 };
}
