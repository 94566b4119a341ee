import type { Measure, Span } from '../model.js';

/** x aft, y to the right wing, z up; all in the unit of `length`. */
export type Place = readonly [x: number, y: number, z: number];

export interface SurfaceStation {
  /** Of the leading edge. */
  readonly at: Place;
  readonly chord: number;
  /** Greatest thickness over chord; default 0.1. */
  readonly thickness?: number;
  /** Leading edge up [deg]. */
  readonly twist?: number;
}

export interface SurfaceShape {
  readonly id: string;
  readonly label: string;
  /** Root to tip; of the right half where mirrored. */
  readonly stations: readonly SurfaceStation[];
  readonly mirrored?: boolean;
  /** Hinged parts as fractions of the local chord between two fractions of the span of the half. */
  readonly controls?: readonly {
    readonly id: string;
    readonly label: string;
    readonly span: Span;
    readonly hinge: number;
  }[];
}

export interface BodyShape {
  readonly id: string;
  readonly label: string;
  /** Centres of sections, front to back. */
  readonly stations: readonly { readonly at: Place; readonly width: number; readonly height: number }[];
  readonly mirrored?: boolean;
}

export interface CellShape {
  readonly id: string;
  readonly label?: string;
  readonly corners: readonly Place[];
}

export interface MassShape {
  readonly id: string;
  readonly label: string;
  readonly at: Place;
  /** As written, for instance "182 g". */
  readonly mass: string;
  readonly assumed?: boolean;
  /** Size of the drawn box: along x, y, z. */
  readonly size?: Place;
}

export interface PropellerShape {
  readonly id: string;
  readonly label: string;
  readonly at: Place;
  readonly diameter: number;
}

export interface AircraftShape {
  readonly name: string;
  readonly length: Measure;
  readonly surfaces: readonly SurfaceShape[];
  readonly bodies?: readonly BodyShape[];
  readonly cells?: readonly CellShape[];
  readonly masses?: readonly MassShape[];
  readonly propellers?: readonly PropellerShape[];
  readonly balance?: Place;
  readonly neutral?: Place;
  readonly allowed?: Span;
}

/** What is marked in a plan view. */
export interface PlanOptions {
  /** Id of the part that is selected. */
  readonly selected?: string;
  /** Nose to the left (for low, wide places) instead of up. */
  readonly noseLeft?: boolean;
  readonly labels?: boolean;
}
