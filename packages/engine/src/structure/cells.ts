import { cellShare, compliance, lagNumber, sectionAt, stackAt } from './stack.js';
import type { CellField, SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';

/** Least radius to which a plate of thickness t may be bent, plate effect left out [m]: R = E t / (2 sigma). */
export const leastBendRadius = (modulus: number, thickness: number, stress: number): number =>
  (modulus * thickness) / (2 * stress);

/** Strain at the face of a plate bent to a curvature. */
export const bendStrain = (thickness: number, curvature: number): number => (thickness * Math.abs(curvature)) / 2;

/** What a cell has to bear. Strains are at its worst place and positive where it is stretched. */
export interface CellStrain {
  readonly name: string;
  /** From laying a flat cell on a curved surface. */
  readonly assembly: number;
  /** From flight bending, along the span: carried with the surface, and its own bending. */
  readonly carried: number;
  readonly own: number;
  /** Greatest of the sums on either face. */
  readonly worst: number;
  /** [Pa] */
  readonly stress: number;
  /** Part of the surface's strain that reaches the middle of the cell. */
  readonly handedOver: number;
}

/** Curvature of a face along the chord at a place, positive where it is humped [1/m]. */
export function faceCurvature(structure: SurfaceStructure, cell: CellField): number {
  const section = sectionAt(structure, (cell.fromY + cell.toY) / 2);
  const of = cell.face === 'upper' ? section.upper : section.lower;
  const half = Math.min(0.08, (cell.to - cell.from) / 2);
  const middle = (cell.from + cell.to) / 2;
  const second = (of(middle + half) - 2 * of(middle) + of(middle - half)) / (half * section.chord) ** 2;
  const slope = (of(middle + half) - of(middle - half)) / (2 * half * section.chord);
  const humped = cell.face === 'upper' ? -second : second;
  return humped / (1 + slope * slope) ** 1.5;
}

/**
 * Strain of a field of cells.
 *
 * @param curvature - of the wing along the span in flight, tips up positive [1/m]
 * @param formed - whether the cells were curved before they were joined (then nothing is added by the chordwise curvature but
 *   their own bending)
 * Source: plate bending; shear lag after Volkersen 1938, at the middle of the cell: 1 - 1 / cosh(a).
 */
export function cellStrain(structure: SurfaceStructure, cell: CellField, curvature: number): CellStrain {
  const y = (cell.fromY + cell.toY) / 2;
  const whole = surfaceSection(structure, y);
  const stack = stackAt(structure, whole.section, (cell.from + cell.to) / 2);
  const height = cell.face === 'upper' ? stack.top : stack.bottom;
  const below = compliance(cell, structure, stack.height);
  const handedOver = 1 - 1 / Math.cosh(lagNumber(cell, cell.length, below));
  const assembly = bendStrain(cell.thickness, faceCurvature(structure, cell));
  const carried = -curvature * (height - whole.neutralAxis) * handedOver;
  const own = bendStrain(cell.thickness, curvature);
  const worst = Math.max(assembly, Math.abs(carried) + own, Math.hypot(assembly, Math.abs(carried) + own));
  return { name: cell.name, assembly, carried, own, worst, stress: worst * cell.material.modulus, handedOver };
}

export { cellShare };

/** Weibull strength of cells, with what is not known about it. */
export interface CellStrength {
  /** Stress at which 63 of 100 pieces of the reference area break [Pa]. */
  readonly characteristic: number;
  readonly modulus: number;
  /** Area of the pieces that were tested [m2]. */
  readonly referenceArea: number;
  /** Relative standard uncertainty of the characteristic strength. */
  readonly spread: number;
}

/**
 * Strength of processed cells of 160 to 180 micrometres with their edges and tabs: 150 MPa, Weibull modulus 8. Range read from
 * several reports: 100 to 200 MPa and 5 to 15 (from memory); edges chipped in handling dominate.
 */
export const usualCellStrength: CellStrength = {
  characteristic: 150e6,
  modulus: 8,
  referenceArea: 0.0125,
  spread: 0.25,
};

/**
 * Chance that a cell cracks, with the band that its uncertain strength gives.
 *
 * @param stress - greatest [Pa]
 * @param area - under that stress, all cells together [m2]
 * Source: Weibull 1939 (weakest link, two parameters).
 */
export function crackChance(
  stress: number,
  area: number,
  strength: CellStrength = usualCellStrength,
): { readonly value: number; readonly low: number; readonly high: number } {
  const chance = (characteristic: number) => {
    const hazard = (area / strength.referenceArea) * (Math.max(0, stress) / characteristic) ** strength.modulus;
    return 1 - Math.exp(-hazard);
  };
  // Nine in ten by a log-normal strength.
  const factor = Math.exp(1.645 * strength.spread);
  return {
    value: chance(strength.characteristic),
    low: chance(strength.characteristic * factor),
    high: chance(strength.characteristic / factor),
  };
}
