/** What the page shows of a wing section: plain data as in `view.ts`. Lengths / chord, angles [rad]. */

import type { EdgeEffect } from '@noonwing/engine/section/viscous';

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

export interface SectionView {
  readonly surface: string;
  readonly name: string;
  /** [m] */
  readonly chord: number;
  readonly thickness: number;
  readonly camber: number;
  readonly reynolds: number;
  readonly lift: number;
  /** Relative standard deviation of computed drag at the design Reynolds number. */
  readonly dragSpread: number;
  /** Words of the turbulence of the air, growth at transition and its uncertainty. */
  readonly air: { readonly words: string; readonly critical: number; readonly spread: number };
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly bare?: FlowView;
  readonly cells?: { readonly from: number; readonly to: number; readonly edge: number; readonly cell: number };
  readonly cost?: {
    readonly ratio: number;
    readonly covered: FlowView;
    readonly front: EdgeView;
    readonly rear: EdgeView;
    /** Outline with its flats. */
    readonly x: readonly number[];
    readonly y: readonly number[];
  };
  readonly polars: readonly PolarView[];
  /** What could not be computed, and why. */
  readonly notes: readonly string[];
}
