import { bodyFormFactor, bodyWettedArea, meanFrictionCoefficient } from './friction.js';
import { cutAt } from './planform.js';
import type { Body, Shape } from './types.js';

/** One row of the parasite-drag build-up. */
export interface ParasiteDrag {
  readonly name: string;
  /** Drag / dynamic pressure [m2]. */
  readonly dragArea: number;
  /** Standard uncertainty [m2]. */
  readonly uncertainty: number;
}

export interface FlowState {
  readonly airspeed: number;
  readonly kinematicViscosity: number;
}

/** Bodies of foam, tape and covered frames: their friction over that of smooth plates (from memory, Hoerner 1965; 1.1 to 1.3). */
const roughnessFactor = 1.2;

/** Where transition is expected on a body at model speed: its Reynolds number, low because of joints and the propeller. */
const bodyTransition = 1e5;

/** Wing and body meet: interference on the body's drag (common practice, no source). */
const interference = 1.1;

/** Relative standard uncertainties: form factors of memory on real, lumpy bodies; a stated drag area without its own. */
const bodySpread = 0.25;
const itemSpread = 0.3;

/**
 * Drag area of a fuselage or pod: friction of its wetted area x form factor x roughness x interference.
 *
 * body - size [m]
 * flow - airspeed [m/s], kinematic viscosity [m2/s]
 * Returns drag / dynamic pressure, one body (both sides counted where y is not zero), with its uncertainty.
 * Source: S. F. Hoerner, Fluid-Dynamic Drag, 1965, ch. 6 (from memory).
 */
export function bodyDrag(body: Body, flow: FlowState): ParasiteDrag {
  const reynolds = (flow.airspeed * body.length) / flow.kinematicViscosity;
  const fineness = body.length / Math.sqrt(body.width * body.height);
  const copies = body.y !== undefined && body.y !== 0 ? 2 : 1;
  const dragArea =
    copies *
    meanFrictionCoefficient(reynolds, bodyTransition) *
    bodyFormFactor(fineness) *
    roughnessFactor *
    interference *
    bodyWettedArea(body);
  return { name: body.name, dragArea, uncertainty: bodySpread * dragArea };
}

/** Share of lifting-surface area that gaps of their controls, tape edges and joints add (0.0002 to 0.0005, from memory, Hoerner 1965). */
const gapCoefficient = 0.00035;

function gapDrag(shape: Shape): ParasiteDrag[] {
  return shape.surfaces.flatMap((surface) =>
    surface.controls.map((control) => {
      const { chord } = cutAt(surface, (control.fromY + control.toY) / 2);
      const area = (surface.mirrored ? 2 : 1) * (control.toY - control.fromY) * chord;
      const dragArea = gapCoefficient * area;
      return { name: `${control.name} gap`, dragArea, uncertainty: 0.5 * dragArea };
    }),
  );
}

/**
 * Parasite drag of everything that is not a lifting surface's own profile: bodies, control gaps, listed items.
 *
 * shape - bodies, controls and items
 * flow - airspeed [m/s], kinematic viscosity [m2/s]
 * Returns the rows, their sum and its standard uncertainty (rows independent) [m2].
 */
export function parasiteDrag(
  shape: Shape,
  flow: FlowState,
): { readonly items: readonly ParasiteDrag[]; readonly dragArea: number; readonly uncertainty: number } {
  const items = [
    ...shape.bodies.map((body) => bodyDrag(body, flow)),
    ...gapDrag(shape),
    ...shape.parasites.map(({ name, dragArea, spread = itemSpread }) => ({
      name,
      dragArea,
      uncertainty: spread * dragArea,
    })),
  ];
  const dragArea = items.reduce((sum, item) => sum + item.dragArea, 0);
  return { items, dragArea, uncertainty: Math.hypot(...items.map((item) => item.uncertainty)) };
}
