import type { ControlKind, ControlTurning, SurfaceKind } from '../shape/index.js';

/** Slopes dz/dx of a camber line at chord fractions (growing, 0 to 1); linear between them. */
export interface CamberLine {
  readonly chordFractions: readonly number[];
  readonly slopes: readonly number[];
}

/** Straight part of a section's lift curve: slope [1/rad] and angle of zero lift [rad] (negative for positive camber). */
export interface SectionLift {
  readonly liftSlope: number;
  readonly zeroLiftAngle: number;
}

/**
 * What the wing asks of a section. Functions take the local lift coefficient, the local Reynolds number (chord) and the
 * turning deflection of a control there (trailing edge down positive, 0 without one; less than the real one beyond 15 degrees) [rad].
 */
export interface StripSection {
  readonly dragCoefficient: (liftCoefficient: number, reynolds: number, deflection: number) => number;
  readonly maximumLift: (reynolds: number, deflection: number) => number;
  /** Negative; where absent 0.7 of the maximum with reversed sign (judgement for cambered sections). */
  readonly minimumLift?: (reynolds: number, deflection: number) => number;
  /** About the quarter chord, at zero lift. */
  readonly momentCoefficient: number;
  /** Fall of lift with incidence beyond the maximum [1/rad], positive; default 2 (judgement). */
  readonly postStallSlope?: number;
}

/** Chordwise and spanwise (half span) panels; tipInset draws the lattice in by a quarter strip at free tips (default true). */
export interface PanelCounts {
  readonly chordwise: number;
  readonly spanwise: number;
  readonly tipInset?: boolean;
}

export interface WingOptions {
  /** Camber line of each section by name; absent means flat. */
  readonly camber?: Readonly<Record<string, CamberLine>>;
  /** Straight lift curve of each section by name; absent means thin-airfoil theory (2 pi and the camber's own angle). */
  readonly sectionLift?: Readonly<Record<string, SectionLift>>;
  /** Unknowns of the half model, about; default 150. */
  readonly unknowns?: number;
  /** Chordwise and spanwise (half span) panels of every surface instead, for convergence studies. */
  readonly panels?: PanelCounts;
  /** Also solve the antisymmetric half: roll, sideslip, yaw. Default true. */
  readonly lateral?: boolean;
  /** Reference sizes; by default of all surfaces of the kind wing. */
  readonly reference?: Partial<WingReference>;
}

/** Sizes that coefficients refer to. */
export interface WingReference {
  readonly area: number;
  readonly span: number;
  /** Mean aerodynamic chord and its leading edge, aft of the datum [m]. */
  readonly chord: number;
  readonly xMeanChord: number;
}

/** Strips: spanwise pieces of the right half (and of surfaces in the plane of symmetry), one array entry each. */
export interface Strips {
  readonly count: number;
  /** Strips of mirrored surfaces come first; only they carry load in symmetric flight. */
  readonly mirroredCount: number;
  /** Index into WingModel.surfaces. */
  readonly surface: Int32Array;
  /** Middle of the strip [m]; x is the quarter-chord point. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly chord: Float64Array;
  /** Along the span, and one-sided area [m2]. */
  readonly width: Float64Array;
  readonly area: Float64Array;
  /** Unit normal (upper side) in the y-z plane. */
  readonly ny: Float64Array;
  readonly nz: Float64Array;
  readonly twist: Float64Array;
  /** Cosine of quarter-chord and leading-edge sweep. */
  readonly cosSweep: Float64Array;
  readonly cosLeadingEdge: Float64Array;
  /** Sections at both ends of the part of the surface, and the place between them, 0 to 1. */
  readonly sections: readonly string[];
  readonly outerSections: readonly string[];
  readonly blend: Float64Array;
  /** Position as a fraction of the surface's half span. */
  readonly station: Float64Array;
  /** Leading-edge suction / (dynamic pressure x width) per square of the leading-edge incidence [m]. */
  readonly suctionFactor: Float64Array;
  /** Moment coefficient of the camber about the quarter chord in thin-airfoil theory, and what the lattice makes of it. */
  readonly thinMoment: Float64Array;
  readonly latticeMoment: Float64Array;
}

export interface SurfaceSummary {
  readonly name: string;
  readonly kind: SurfaceKind;
  readonly mirrored: boolean;
  readonly suction: number;
  /** Coefficient of side-edge normal force on the reference area (force = coefficient x sin^2 alpha), and where it acts. */
  readonly sideEdge: number;
  readonly xSideEdge: number;
}

export interface ModelControl {
  readonly name: string;
  readonly kind: ControlKind;
  readonly surface: number;
  /** Covered part of each strip, 0 to 1. */
  readonly coverage: Float64Array;
  readonly symmetric: boolean;
  readonly antisymmetric: boolean;
  /** Mean chord of the strips that it lies on [m], and how much of its loss at low Reynolds numbers it suffers (see the shape). */
  readonly chord: number;
  readonly layerAhead: number;
  readonly turning?: ControlTurning;
}

/**
 * Unit solutions by strip, `[column * strips + strip]`, in units of airspeed x metre:
 * circulation, first moment of circulation about the datum (sum of circulation x x); and the leading-edge incidence, that of the flat plate
 * in plane flow with the same singularity at its leading edge [rad].
 */
export interface BasisSolutions {
  readonly names: readonly string[];
  readonly circulation: Float64Array;
  readonly firstMoment: Float64Array;
  readonly leadingEdge: Float64Array;
}

/**
 * A solved wing with everything that evaluation needs; plain data.
 * Symmetric columns: camber and twist, angle of attack, pitch rate, then the symmetric controls.
 * Antisymmetric columns: sideslip, roll rate, yaw rate, then the antisymmetric controls.
 */
export interface WingModel {
  readonly reference: WingReference;
  readonly surfaces: readonly SurfaceSummary[];
  readonly controls: readonly ModelControl[];
  readonly strips: Strips;
  readonly symmetric: BasisSolutions;
  /** Circulation and first moment of strip i for unit incidence added on strip j: column j. */
  readonly response: BasisSolutions;
  readonly antisymmetric: BasisSolutions | undefined;
  /** Normal wash far behind: -(wash at strip i) for unit circulation of strip j, [i * mirroredCount + j]. */
  readonly farField: Float64Array;
  /** Slope of the bodies' pitching moment with angle of attack, about any point (a couple) [1/rad]. */
  readonly bodyMomentSlope: number;
  readonly unknowns: number;
}

/** State at which forces are asked for. */
export interface WingState {
  /** Angle of attack of the body axis [rad]. */
  readonly alpha: number;
  /** Rotation x mean chord / (2 airspeed), nose up positive; default 0. */
  readonly pitchRate?: number;
  /** Deflections by control name [rad], trailing edge down positive. */
  readonly controls?: Readonly<Record<string, number>>;
  readonly airspeed: number;
  readonly kinematicViscosity: number;
  /** Moments are about this point (x aft, z up) [m]. */
  readonly momentReference: { readonly x: number; readonly z: number };
}

/** Strip results; lift coefficients are normal to the strip. */
export interface StripLoads {
  readonly liftCoefficient: Float64Array;
  /** What attached flow would give. */
  readonly attachedLift: Float64Array;
  readonly reynolds: Float64Array;
  readonly profileDragCoefficient: Float64Array;
  /** About the strip's quarter chord, nose up positive. */
  readonly momentCoefficient: Float64Array;
  /** Limits of attached flow there, with the loss by sweep. */
  readonly maximumLift: Float64Array;
  readonly minimumLift: Float64Array;
  /** Incidence beyond the section's lift limits [rad], negative beyond the lower one; 0 where attached. */
  readonly beyondStall: Float64Array;
}

export interface WingForces {
  readonly liftCoefficient: number;
  readonly inducedDragCoefficient: number;
  readonly profileDragCoefficient: number;
  /** About the moment reference, nose up positive. */
  readonly pitchingMomentCoefficient: number;
  /** Least maximumLift - lift of any strip, from the attached solution: negative once stalled. */
  readonly stallMargin: number;
  /** Where: fraction of the half span, and the surface. */
  readonly stallStation: number;
  readonly stallSurface: string;
  readonly strips: StripLoads;
}
