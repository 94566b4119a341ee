import type { BeamProperties } from './beam.js';
import type { PlateProperties } from './model-types.js';
import type { WireStiffness } from './wires.js';

/** A beam along a line on a surface: spar, stiffener, rib. Straight between its points; properties linear between them. */
export interface BeamPart {
  readonly name: string;
  readonly points: readonly { readonly x: number; readonly y: number; readonly at: BeamProperties }[];
}

/** A control behind its hinge. */
export interface ControlPart {
  readonly name: string;
  readonly fromY: number;
  readonly toY: number;
  /** Chord fraction of the hinge. */
  readonly hinge: number;
  /** Torsional stiffness of the hinge itself (a bent sheet, tape) per length [N m/rad per m]; 0 for pins. */
  readonly hingeStiffness: number;
  /** Of servo, arm and rod, seen at the control [N m/rad]. */
  readonly linkageStiffness: number;
  /** Where the horn stands [m]. */
  readonly hornY: number;
}

/** Right half of a lifting surface, laid flat: y along the surface. */
export interface SurfacePart {
  readonly name: string;
  readonly stations: readonly { readonly y: number; readonly xLeadingEdge: number; readonly chord: number }[];
  /** Plate at a distance out [m] and a chord fraction; called while building only. */
  readonly plateAt: (y: number, chordFraction: number) => PlateProperties;
  readonly beams: readonly BeamPart[];
  readonly controls: readonly ControlPart[];
  /** Mass of the right half of the bare structure [kg]; absent: what plates and beams weigh. Distributed as they are. */
  readonly mass?: number;
}

/** A fuselage, pod or boom: a beam along x at one y. Whole values; a body in the plane of symmetry is halved by the model. */
export interface BodyPart {
  readonly name: string;
  readonly y: number;
  readonly fromX: number;
  readonly toX: number;
  readonly at: BeamProperties;
}

/** A mass that is no part of the bare structure, on the right half: what lies in the middle with half its mass. */
export interface MassPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** [kg] */
  readonly mass: number;
  /** Surface that carries it; absent: the body at y = 0, or what lies nearest. */
  readonly on?: string;
}

/** A bracing wire of the right half, taut in flight, from a wing to a body in the plane of symmetry. */
export interface WirePart {
  readonly name: string;
  readonly surface: string;
  /** Where it is tied to the wing: x aft, y along the surface [m]. */
  readonly at: { readonly x: number; readonly y: number };
  /** Its other end, x aft [m]. */
  readonly bodyX: number;
  readonly stiffness: WireStiffness;
  /** Tension at which wire or fitting parts [N]. */
  readonly breaks: number;
}

export interface HalfAircraft {
  readonly surfaces: readonly SurfacePart[];
  readonly bodies: readonly BodyPart[];
  readonly masses: readonly MassPoint[];
  readonly wires?: readonly WirePart[];
}

/** How fine; the default is within 1 % for smooth surfaces and 5 % where stiffness steps (cells on foam); see docs/structure.md. */
export interface MeshOptions {
  /** Corners of the largest surface, about; default 100 (300 unknowns). */
  readonly corners?: number;
}
