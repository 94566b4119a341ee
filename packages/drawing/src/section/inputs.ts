import type { Point } from '../model.js';

/** What a boundary layer does between two chord stations, in percent of the chord. */
export interface LayerStretch {
  readonly kind: 'laminar' | 'bubble' | 'turbulent' | 'separated';
  readonly from: number;
  readonly to: number;
}

/** A wing section with what its boundary layer does on both sides. */
export interface LayerPictureData {
  /** "NACA 3410 at lift 0.62 and Reynolds number 130000" */
  readonly what: string;
  /** From the leading to the trailing edge, x and y in percent of the chord. */
  readonly upper: readonly Point[];
  readonly lower: readonly Point[];
  readonly above: readonly LayerStretch[];
  readonly below: readonly LayerStretch[];
  /** Cells on the upper side, in percent of the chord. */
  readonly cells?: { readonly from: number; readonly to: number };
}
