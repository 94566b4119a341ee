import type { ControlPart } from './input-types.js';
import type { Layer, StructuralMaterial } from './laminate.js';

/** Section shape at a station: ordinates in chords at chord fractions. */
export interface SectionShape {
  readonly stations: readonly number[];
  readonly upper: readonly number[];
  readonly lower: readonly number[];
}

export interface StructureStation {
  readonly y: number;
  readonly xLeadingEdge: number;
  readonly chord: number;
  readonly shape: SectionShape;
}

/** Layers on one face over part of the chord (and span): skin, D-box sheeting, film, tape. From outside inwards. */
export interface SkinZone {
  readonly name: string;
  readonly face: 'upper' | 'lower';
  /** Chord fractions. */
  readonly from: number;
  readonly to: number;
  /** [m]; absent: the whole span. */
  readonly fromY?: number;
  readonly toY?: number;
  readonly layers: readonly Layer[];
}

/** Sizes of a spar at one place; between places they vary linearly. */
export interface SparSize {
  readonly y: number;
  readonly chordFraction: number;
  /** Tube: outer diameter; strip: width; caps: width of the caps [m]. */
  readonly width: number;
  /** Tube: inner diameter; strip: height; caps: thickness of each cap [m]. */
  readonly depth: number;
}

export interface SparPart {
  readonly name: string;
  readonly kind: 'tube' | 'strip' | 'caps';
  readonly material: StructuralMaterial;
  /** Two at least. */
  readonly sizes: readonly SparSize[];
  /** Where it lies in the height of the section; caps fill it. */
  readonly place: 'middle' | 'upper' | 'lower' | 'below';
  /** Shear web between caps. */
  readonly web?: { readonly material: StructuralMaterial; readonly thickness: number };
}

export interface RibSet {
  readonly material: StructuralMaterial;
  readonly thickness: number;
  readonly spacing: number;
  /** Part of a full rib's stiffness that is left by its holes. */
  readonly share: number;
}

/** A field of cells on one face. */
export interface CellField {
  readonly name: string;
  readonly fromY: number;
  readonly toY: number;
  /** Chord fractions. */
  readonly from: number;
  readonly to: number;
  readonly face: 'upper' | 'lower';
  readonly material: StructuralMaterial;
  /** [m] */
  readonly thickness: number;
  /** Of one cell along the span and along the chord, and the gap to the next along the span [m]. */
  readonly length: number;
  readonly width: number;
  readonly gap: number;
  /** What joins it to the surface; absent: bonded hard. */
  readonly glue?: { readonly thickness: number; readonly shearModulus: number };
}

/** Where a surface comes apart, with the peg that joins both panels. */
export interface PanelJoint {
  readonly name: string;
  /** Of its joiner along the chord; absent: not known, and nothing of strength depends on it. */
  readonly chordFraction?: number;
  /** Along the surface [m]; a joint in the plane of symmetry lies at the root. */
  readonly y: number;
  readonly kind: 'tube' | 'blade' | 'box';
  readonly material: StructuralMaterial;
  /** Outer diameter; thickness of a blade; width of a box [m]. */
  readonly width: number;
  /** Inner diameter of a tube; height of a blade or box [m]. */
  readonly height: number;
  /** Of a box [m]. */
  readonly wall: number;
  /** Length in each half [m]. */
  readonly depth: number;
  /** Between joiner and socket [m]. */
  readonly play: number;
  /** Strength of the socket in compression [Pa]. */
  readonly bearing: number;
  /** Share of the bending stiffness of the section that is left over the length of the joiner; absent: from the joiner itself. */
  readonly bendingKept?: number;
  /** The same of torsion: pins and ribs hold it, a round joiner does not. */
  readonly torsionKept: number;
}

/** Everything that carries load in the right half of one lifting surface. */
export interface SurfaceStructure {
  readonly name: string;
  readonly stations: readonly StructureStation[];
  /** Fills the section; absent: hollow. */
  readonly core?: StructuralMaterial;
  readonly zones: readonly SkinZone[];
  readonly ribs?: RibSet;
  readonly spars: readonly SparPart[];
  readonly cells: readonly CellField[];
  readonly controls: readonly ControlPart[];
  /** Where it comes apart. */
  readonly joints?: readonly PanelJoint[];
  /** Mass of the right half of the bare structure where weighed [kg]. */
  readonly mass?: number;
  /** Factors found by load tests, on bending and on torsion; 1 where none. */
  readonly bendingFactor: number;
  readonly torsionFactor: number;
}
