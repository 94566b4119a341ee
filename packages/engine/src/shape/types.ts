/**
 * Plain data of an aircraft's outer shape. Frame of geometry and masses: x aft from the datum, y to the right wing, z up [m];
 * angles in radians.
 */

/** A lengthwise cut of a surface at one spanwise position; between stations every quantity varies linearly. */
export interface Station {
  /** To the right of the plane of symmetry [m]. */
  readonly y: number;
  /** Leading edge, aft of the datum [m]. */
  readonly xLeadingEdge: number;
  /** Height of the chord line's leading edge [m]. */
  readonly z: number;
  /** Chord [m]. */
  readonly chord: number;
  /** Incidence to the body axis, nose up positive [rad]. */
  readonly twist: number;
  /** Name of the section here. */
  readonly section: string;
}

export type SurfaceKind = 'wing' | 'canard' | 'horizontal tail' | 'v-tail' | 'fin';

/**
 * elevator, flap: both sides together. aileron: the sides in opposition. elevon, ruddervator: either.
 * rudder: turns the nose; both fins alike.
 */
export type ControlKind = 'elevator' | 'elevon' | 'aileron' | 'rudder' | 'ruddervator' | 'flap';

/**
 * How much of the turning in flow without friction a control reaches with its boundary layers, at Reynolds numbers on the chord and deflections
 * that both rise; trailing edge down positive [rad], zero is not among them.
 */
export interface ControlTurning {
  readonly reynolds: readonly number[];
  readonly deflections: readonly number[];
  /** Real / ideal turning, and its standard deviation because nobody knows the layer ahead of the hinge: [reynolds * deflections + deflection]. */
  readonly ratio: readonly number[];
  readonly spread: readonly number[];
}

/** A hinged trailing edge. */
export interface ControlSurface {
  readonly name: string;
  readonly kind: ControlKind;
  /**
   * Where it begins and ends along the span [m]: y of the stations; on a steep surface (a fin, more than 60 degrees of dihedral)
   * the height above or below its root station instead, as a positive number.
   */
  readonly fromY: number;
  readonly toY: number;
  /** Hinged chord / chord. */
  readonly chordFraction: number;
  /**
   * Turning of the flow that a real hinge reaches / that of a sealed inviscid one; 0.8 +- 0.1 for taped foam hinges
   * (from memory; DATCOM 6.1.1 curves give 0.7 to 0.85).
   */
  readonly effectiveness: number;
  /**
   * What the boundary layer ahead of the hinge takes of it at low Reynolds numbers, 0 to 1: 1 laminar, 0.2 turbulent (`flapReynoldsLoss` of the
   * section folder). Absent: nothing.
   */
  readonly layerAhead?: number;
  /** What takes the place of that loss where it was computed for this section and hinge. */
  readonly turning?: ControlTurning;
}

/** A wing, tail or fin. Stations run from root to tip: the right half where mirrored, the whole surface where not. */
export interface LiftingSurface {
  readonly name: string;
  readonly kind: SurfaceKind;
  readonly stations: readonly Station[];
  /** Whether the same stands on the left side. A surface that is not mirrored must lie in the plane of symmetry. */
  readonly mirrored: boolean;
  readonly controls: readonly ControlSurface[];
  /**
   * Part of the leading-edge suction that is realised, 0 to 1; default 1. Thin plates realise about 0.4, but leave it at 1 where the
   * section's own drag already holds the loss (as the sharp plates of the section folder do), or it counts twice.
   */
  readonly suction?: number;
  /** Part of the side-edge lift of square tips that is realised, 0 to 1; default 1, and 0 where a fin closes the tip. */
  readonly sideEdge?: number;
}

/** A fuselage or pod: parasite drag, and the shift of the neutral point. */
export interface Body {
  readonly name: string;
  readonly length: number;
  /** Greatest width and height [m]. */
  readonly width: number;
  readonly height: number;
  /** Nose, aft of the datum, and height of the axis [m]. */
  readonly x: number;
  readonly z: number;
  /** Distance from the plane of symmetry [m]; 0 where absent. */
  readonly y?: number;
}

/** Something that only makes drag. */
export interface ParasiteItem {
  readonly name: string;
  /** Drag / dynamic pressure [m2]. */
  readonly dragArea: number;
  /** Standard uncertainty of the drag area, relative. */
  readonly spread?: number;
}

export interface Shape {
  readonly surfaces: readonly LiftingSurface[];
  readonly bodies: readonly Body[];
  readonly parasites: readonly ParasiteItem[];
}
