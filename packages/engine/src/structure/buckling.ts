import type { StructuralMaterial } from './laminate.js';

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
