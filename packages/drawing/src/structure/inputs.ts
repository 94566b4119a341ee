import type { Measure, Point } from '../model.js';

/** An airspeed above which something ends flight, with the stretch in which it lies nine times in ten. */
export interface LimitBandRow {
  readonly id: string;
  /** In few words: "tuck". */
  readonly label: string;
  /** What happens there. */
  readonly words: string;
  readonly low: number;
  readonly value: number;
  readonly high: number;
  /** Shown for information, not among the limits that count. */
  readonly aside?: boolean;
}

export interface LimitBandsData {
  readonly aircraft: string;
  readonly speed: Measure;
  /** Lowest lower edge first. */
  readonly limits: readonly LimitBandRow[];
  /** Airspeeds flown that have a name. */
  readonly flown: readonly { readonly label: string; readonly value: number }[];
  /** Up to where limits were looked for. */
  readonly searchedTo?: number;
}

export type LayUpKind = 'core' | 'skin' | 'sheet' | 'spar' | 'web' | 'rib' | 'cell' | 'control' | 'joint' | 'wire';

/** A part of the lay-up with its number in section and plan. */
export interface LayUpPart {
  readonly number: number;
  readonly kind: LayUpKind;
  readonly label: string;
  /** Material and sizes in words. */
  readonly detail: string;
  /** Whether the material's numbers were stated, measured or are typical, in a word; empty where nothing needs saying. */
  readonly known?: string;
}

/** A layer on one face between two places along the chord; layers are given from outside inwards. */
export interface CutLayer {
  readonly number: number;
  readonly face: 'upper' | 'lower';
  readonly from: number;
  readonly to: number;
  readonly thickness: number;
  /** Foam within a skin: drawn as a core. */
  readonly soft?: boolean;
}

export type CutShape =
  | {
      readonly form: 'tube';
      readonly number: number;
      readonly x: number;
      readonly z: number;
      readonly outer: number;
      readonly inner: number;
    }
  | {
      readonly form: 'box';
      readonly number: number;
      readonly x: number;
      readonly z: number;
      readonly width: number;
      readonly height: number;
    };

/** A cut through a surface; x aft of the leading edge, z up, in the unit of the length. */
export interface SectionCutData {
  /** "wing, 300 mm from the middle" */
  readonly where: string;
  readonly length: Measure;
  readonly upper: readonly Point[];
  readonly lower: readonly Point[];
  /** Number of what fills it; absent: hollow. */
  readonly core?: number;
  readonly layers: readonly CutLayer[];
  /** Spars, webs and stiffeners. */
  readonly shapes: readonly CutShape[];
  /** On the face, outside of all layers. */
  readonly cells: readonly CutLayer[];
  /** Hinge lines of controls cut here. */
  readonly hinges: readonly { readonly number: number; readonly x: number }[];
  /** Number of the ribs, where there are any. */
  readonly ribs?: number;
  readonly parts: readonly LayUpPart[];
}

/** A line or patch of the plan; x aft, y to the right, in the unit of the length. */
export interface PlanLine {
  readonly number: number;
  readonly points: readonly Point[];
}

/** Where a surface comes apart. */
export interface PlanJoint {
  readonly number: number;
  /** Ends of the cut between the panels. */
  readonly split: readonly [Point, Point];
  /** Corners of the joiner in its sockets. */
  readonly joiner: readonly Point[];
}

/** The right half of a surface from above: x aft, y to the right. */
export interface LayUpPlanData {
  readonly surface: string;
  readonly length: Measure;
  readonly outline: readonly Point[];
  readonly zones: readonly PlanLine[];
  readonly cells: readonly PlanLine[];
  readonly controls: readonly PlanLine[];
  readonly ribs: readonly PlanLine[];
  readonly spars: readonly PlanLine[];
  readonly joints?: readonly PlanJoint[];
  /** Bracing wires, from the middle outwards. */
  readonly wires?: readonly PlanLine[];
  readonly parts: readonly LayUpPart[];
  /** Where it is cut: ends of the line. */
  readonly cut?: readonly [Point, Point];
}

/** A chord of a surface at rest and under load: places from the leading to the trailing edge, x aft and z up. */
export interface BentStrip {
  readonly y: number;
  readonly rest: readonly Point[];
  readonly bent: readonly Point[];
}

/** What loads do to the shape. */
export interface UnderLoadData {
  readonly aircraft: string;
  /** "at 8.4 m/s and 1 g" */
  readonly when: string;
  readonly length: Measure;
  /** Displacements are drawn so many times as large. */
  readonly exaggeration: number;
  readonly surfaces: readonly {
    readonly id: string;
    readonly label: string;
    readonly mirrored: boolean;
    /** Root to tip, displaced as they are, without exaggeration. */
    readonly strips: readonly BentStrip[];
  }[];
}

export interface StrainCell {
  readonly id: string;
  readonly label: string;
  /** x aft, y to the right. */
  readonly corners: readonly Point[];
  /** Strain over the one at which a usual cell cracks. */
  readonly share: number;
  /** Chance that it cracks: best estimate, least, most. */
  readonly chance?: readonly [value: number, low: number, high: number];
}

export interface CellStrainData {
  readonly aircraft: string;
  readonly when: string;
  /** Of the aircraft seen from above. */
  readonly outlines: readonly (readonly Point[])[];
  readonly cells: readonly StrainCell[];
}
