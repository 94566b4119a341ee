import type { Measure, Point } from '../model.js';

export interface PictureCell {
  readonly id: string;
  readonly label: string;
  /** x aft, y to the right. */
  readonly corners: readonly Point[];
  /** Energy or light. */
  readonly value: number;
  /** Number of its string from 1; absent where no string has it. */
  readonly string?: number;
  /** Its place in the wiring of the string from 0. */
  readonly position?: number;
  /** A diode carries the current past it. */
  readonly bypassed?: boolean;
}

/** Faces that bear cells, laid flat. */
export interface CellPictureData {
  readonly aircraft: string;
  /** "over 21 June under a clear sky" */
  readonly when: string;
  readonly value: Measure;
  readonly sheets: readonly {
    readonly label: string;
    readonly outlines: readonly (readonly Point[])[];
    readonly cells: readonly PictureCell[];
    readonly walls: readonly { readonly name: string; readonly line: readonly [Point, Point] }[];
  }[];
  readonly selected?: string;
  /** Cells taken together for an edit. */
  readonly marked?: readonly string[];
  /** Strings by their number from 1. */
  readonly strings?: readonly {
    readonly name: string;
    /** Cells of one of the strings that lie side by side. */
    readonly cells: number;
    /** Bypass diodes, each over the cells from one to before another, from 0. */
    readonly diodes: readonly { readonly from: number; readonly to: number }[];
  }[];
}

/** A string with its converter. */
export interface StringCurveData {
  readonly name: string;
  readonly when: string;
  readonly points: readonly { readonly voltage: number; readonly current: number; readonly power: number }[];
  /** By falling power. */
  readonly maxima: readonly { readonly voltage: number; readonly power: number }[];
  readonly held?: { readonly voltage: number; readonly power: number; readonly because: string };
  /** What its cells could give, each at its own maximum [W]. */
  readonly cells: number;
  /** Diodes that carry current past their cells. */
  readonly conducting: readonly number[];
}

/** Share of the light that shade takes, by hour. */
export interface ShadeCourseData {
  readonly when: string;
  readonly curves: readonly { readonly id: string; readonly label: string; readonly points: readonly Point[] }[];
  readonly cursor?: number;
}
