import { planform } from './planform.js';
import type { Body, LiftingSurface } from './types.js';

/**
 * Mean friction coefficient of one side of a laminar flat plate.
 * reynolds - on its length [1]
 * Source: H. Blasius, 1908: 1.328 / sqrt(Re).
 */
export const laminarFriction = (reynolds: number): number => 1.32823 / Math.sqrt(reynolds);

/**
 * Mean friction coefficient of one side of a turbulent flat plate, 1e5 to 1e9.
 * Source: Prandtl and Schlichting, as in H. Schlichting, Boundary-Layer Theory, 1979, eq. 21.16 (numbering from memory).
 */
export const turbulentFriction = (reynolds: number): number => 0.455 / Math.log10(reynolds) ** 2.58;

/**
 * Mean friction coefficient of one side of a plate that turns turbulent on the way.
 *
 * reynolds - on the whole length [1]
 * transition - at the place of transition [1]
 * Returns the turbulent coefficient less what the laminar part saves; laminar where transition lies behind the end.
 * Source: L. Prandtl's correction, in the form that holds at any Reynolds number (Schlichting 1979, section 21.a.3, numbering from memory).
 */
export function meanFrictionCoefficient(reynolds: number, transition: number): number {
  if (!(reynolds > 0)) throw new RangeError('the Reynolds number must be positive');
  if (transition >= reynolds) return laminarFriction(reynolds);
  const saved = turbulentFriction(transition) - laminarFriction(transition);
  return turbulentFriction(reynolds) - (transition / reynolds) * saved;
}

/**
 * Drag of a streamlined body / friction of its wetted area.
 * fineness - length / diameter [1], 2 to 15
 * Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 6 eq. 28 (from memory).
 */
export const bodyFormFactor = (fineness: number): number => 1 + 1.5 / fineness ** 1.5 + 7 / fineness ** 3;

/**
 * Drag of an attached wing section / friction of both sides.
 * thickness - thickness / chord [1], up to 0.25; not valid below a Reynolds number of 3e5, where bubbles add drag
 * Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 6 eq. 6 (from memory).
 */
export const sectionFormFactor = (thickness: number): number => 1 + 2 * thickness + 60 * thickness ** 4;

/**
 * Wetted area of a streamlined body of elliptic cross-section.
 * Source: E. Torenbeek, Synthesis of Subsonic Airplane Design, 1982, app. B: pi d l (1 - 2/f)^(2/3) (1 + 1/f^2) (from memory);
 * stubby bodies, below a fineness of 3, are held at that of 3 for the first bracket.
 */
export function bodyWettedArea(body: Body): number {
  const diameter = (body.width + body.height) / 2;
  const fineness = body.length / diameter;
  const taper = (1 - 2 / Math.max(3, fineness)) ** (2 / 3);
  return Math.PI * diameter * body.length * taper * (1 + 1 / fineness ** 2);
}

/**
 * Wetted area of a lifting surface, both faces and sides.
 * thickness - thickness / chord [1]
 * Source: common practice: 2 S (1 + 0.25 t/c).
 */
export const surfaceWettedArea = (surface: LiftingSurface, thickness: number): number =>
  2 * planform(surface).area * (1 + 0.25 * thickness);

/**
 * Drag area of a wire, rod or strut of round section across the flow, inclined by `sweep` from it.
 *
 * length, diameter - [m]; sweep - angle between the rod and the plane across the flow [rad]
 * Returns drag / dynamic pressure [m2], Reynolds number on the diameter 1e3 to 2e5.
 * Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from memory): 1.1 cos^3 of the sweep.
 */
export function rodDragArea({
  length,
  diameter,
  sweep = 0,
}: {
  length: number;
  diameter: number;
  sweep?: number;
}): number {
  return 1.1 * Math.cos(sweep) ** 3 * length * diameter;
}

/** Drag coefficients of blunt parts on their frontal area. Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 and 13 (from memory). */
export const frontalDragCoefficients = {
  cube: 1.05,
  disc: 1.17,
  sphere: 0.47,
  hemisphere: 0.4,
  cup: 1.4,
  'open blunt pod': 0.8,
  canopy: 0.1,
  wheel: 0.4,
  'landing gear': 0.75,
  'streamlined strut': 0.15,
} as const;

/** Parts whose frontal drag coefficient is listed. */
export type BluntPart = keyof typeof frontalDragCoefficients;
