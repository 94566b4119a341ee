/** What the page shows of a wing section: plain data as in `view.ts`. Lengths / chord, angles [rad]. */

import type { Interval } from '@noonwing/engine/section';
import type { Morph } from '@noonwing/engine/section/flats';
import type { EdgeEffect, MeasuredComparison, MeasuredPoint } from '@noonwing/engine/section/viscous';

/** edge - height of cells and film over the skin [m]; rigid - cells stay flat; measured - points to lay over the computed polar */
export interface SectionWish {
  readonly edge: number;
  readonly rigid: boolean;
  readonly measured?: readonly MeasuredPoint[];
}

/** The section in another shape; flats - how many under the cells, 0 where cells follow the surface. */
export interface SectionShapeWish {
  readonly edge: number;
  readonly morph: Morph;
  readonly flats: number;
}

/** A section for flat cells: flats one behind the other of a width [m], limits of moment and thickness. */
export interface FlatsWish {
  readonly edge: number;
  readonly cell: number;
  readonly count: number;
  readonly leastMoment: number;
  readonly leastThickness: number;
}

export interface LayerView {
  /** Where the layer becomes turbulent; 1 where it stays laminar. */
  readonly transition: number;
  readonly separation?: number;
  readonly reattachment?: number;
  readonly openAtTail: boolean;
}

export interface FlowView {
  readonly alpha: number;
  readonly drag: number;
  /** Part of the drag that is friction, 0 to 1. */
  readonly friction: number;
  readonly moment: number;
  readonly upper: LayerView;
  readonly lower: LayerView;
  /** Around the outline from the upper trailing edge over the nose. */
  readonly station: readonly number[];
  readonly pressure: readonly number[];
}

/** What an edge of the cells does to the layer. */
export type EdgeView = EdgeEffect;

export interface PolarPointView {
  readonly alpha: number;
  readonly lift: number;
  readonly drag: number;
  readonly moment: number;
  readonly upperTransition: number;
  /** On the branch along which lift rises from its least to its greatest value. */
  readonly rising: boolean;
}

export interface PolarView {
  readonly reynolds: number;
  readonly covered: boolean;
  readonly points: readonly PolarPointView[];
  /** Incidences at which nothing converged. */
  readonly holes: readonly number[];
}

/** A measured run beside the polar computed at its Reynolds number. */
export interface MeasuredRunView {
  readonly reynolds: number;
  readonly points: readonly MeasuredPoint[];
  readonly polar: PolarView;
  readonly found: MeasuredComparison;
}

export interface OutlineView {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Another shape at the design point. */
export interface SectionShapeView extends OutlineView {
  /** With its flats, where cells make some; and how many. */
  readonly drawn: OutlineView;
  readonly flats: number;
  readonly thickness: number;
  readonly camber: number;
  readonly bare: FlowView;
  readonly covered?: FlowView;
}

/** A section for flat cells against the naive cover of the section there is. */
export interface FlatsView extends OutlineView {
  readonly start: string;
  readonly name: string;
  readonly lift: number;
  readonly reynolds: number;
  readonly thickness: number;
  readonly camber: number;
  readonly naive: OutlineView & { readonly drag: number; readonly moment: number };
  readonly bareDrag: number;
  readonly drag: number;
  readonly moment: number;
  readonly withinMoment: boolean;
  readonly maximumLift?: { readonly naive: number; readonly designed: number };
  readonly checks: readonly { readonly what: string; readonly naive: number; readonly designed: number }[];
  readonly evaluations: number;
  /** Chord stations between which the flats lie. */
  readonly flats: { readonly from: number; readonly to: number };
}

/** A plate, a step or a very thin section at the design point, by its own formulas, with their bands. */
export interface PlateView {
  readonly alpha: number;
  readonly drag: Interval;
  readonly moment: number;
  /** Drag with cells on it. */
  readonly covered?: Interval;
}

export interface SectionView {
  readonly surface: string;
  readonly name: string;
  /** By its points: what measured points are kept under. */
  readonly key: string;
  /** [m] */
  readonly chord: number;
  readonly thickness: number;
  readonly camber: number;
  readonly reynolds: number;
  readonly lift: number;
  /** Relative standard deviation of computed drag at the design Reynolds number; absent for a plate. */
  readonly dragSpread?: number;
  /** Words of the turbulence of the air, growth at transition and its uncertainty; absent for a plate. */
  readonly air?: { readonly words: string; readonly critical: number; readonly spread: number };
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly bare?: FlowView;
  /** In place of a computed boundary layer where none is computed; undefined beyond its stall. */
  readonly plate?: { readonly point: PlateView | undefined; readonly greatest: Interval };
  /** In chords; cell - width of a flat, 0 where cells follow the surface; width - of a cell along the chord. */
  readonly cells?: {
    readonly from: number;
    readonly to: number;
    readonly edge: number;
    readonly cell: number;
    readonly width: number;
  };
  readonly cost?: {
    readonly ratio: number;
    /** How likely the front edge makes the layer turbulent, and drag over bare drag where it does. */
    readonly trip: { readonly likelihood: number; readonly ratio?: number };
    readonly covered: FlowView;
    readonly front: EdgeView;
    readonly rear: EdgeView;
    /** Outline with its flats. */
    readonly x: readonly number[];
    readonly y: readonly number[];
  };
  readonly polars: readonly PolarView[];
  readonly measured: readonly MeasuredRunView[];
  /** What could not be computed, and why. */
  readonly notes: readonly string[];
}
