/** The aircraft of a view: balance and shape, in the frame of design files (x aft from the datum, y to the right wing, z up). */

export interface BeamLoadView {
  readonly name: string;
  readonly x: number;
  readonly mass: number;
  /** About the balance point [kg m]; the loads' moments sum to zero. */
  readonly moment: number;
  readonly weighed: boolean;
  /** Where its mass comes from, in a word. */
  readonly source: string;
}

/** Balance as a loaded beam; stations in m aft of the datum. */
export interface BalanceView {
  readonly mass: number;
  readonly massSigma: number;
  readonly balancePoint: { readonly x: number; readonly y: number; readonly z: number };
  readonly balanceSigma: number;
  /** Mass that is not weighed, growth included [kg]. */
  readonly assumedMass: number;
  readonly loads: readonly BeamLoadView[];
  readonly noseMoment: number;
  readonly neutralPoint: number;
  readonly staticMargin: number;
  readonly staticMarginSigma: number;
  readonly meanChord: number;
  readonly meanChordStart: number;
  readonly range: {
    readonly forward: number;
    readonly aft: number;
    readonly width: number;
    /** Standard uncertainty of `forward` by what the pitch controls turn. */
    readonly forwardSigma: number;
  };
  readonly battery?: {
    readonly x: number;
    readonly mass: number;
    /** Station for the aimed static margin, inside the span that it may move in. */
    readonly to?: number;
    /** Station without regard to that span. */
    readonly wanted?: number;
    readonly balancePointThere?: number;
    readonly ballast?: { readonly mass: number; readonly x: number };
    readonly problem?: string;
  };
  readonly cellEffect?: { readonly mass: number; readonly shift: number; readonly batteryMove?: number };
  /** What each pitch control turns and loses, in words. */
  readonly controls: readonly string[];
}

/** How a surface is bent, for pictures: rises square to its span [m]. */
export interface SurfaceBend {
  /** Shares of the span at which it is known, root to tip. */
  readonly shares: readonly number[];
  /** For each of them at equal shares of the chord, from the leading to the trailing edge. */
  readonly rises: readonly (readonly number[])[];
}

export interface SurfaceShape {
  readonly name: string;
  readonly role: string;
  readonly mirrored: boolean;
  /** In the frame of design files, absolute [m]; `leadingEdge` is x. */
  readonly stations: readonly {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly chord: number;
    readonly twist: number;
  }[];
  readonly controls: readonly {
    readonly name: string;
    readonly kind: string;
    readonly from: number;
    readonly to: number;
    readonly hinge: number;
  }[];
  /** Greatest thickness and camber of its sections over the chord, mean of the stations; absent where no section is known. */
  readonly profile?: { readonly thickness: number; readonly camber: number };
  /** Absent where it is shown as built. */
  readonly bend?: SurfaceBend;
}

/** One patch of cells for pictures. */
export interface FacetShape {
  readonly row: string;
  readonly surface: string;
  readonly side: 'right' | 'left';
  readonly face?: 'upper' | 'lower';
  readonly cells: number;
  readonly centre: readonly [number, number, number];
  /** Outward normal, forward-right-down body axes. */
  readonly normal: readonly [number, number, number];
  /** Of the cells on it [m2]. */
  readonly area: number;
}

/** The aircraft for 3-D view, three-view and plan view. */
export interface ShapeView {
  readonly surfaces: readonly SurfaceShape[];
  readonly bodies: readonly {
    readonly name: string;
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly length: number;
    readonly width: number;
    readonly height: number;
    readonly pair: boolean;
  }[];
  readonly rows: readonly {
    readonly name: string;
    readonly on: string;
    readonly side: 'both' | 'right' | 'left';
    readonly face: 'upper' | 'lower' | 'both';
    readonly from: number;
    readonly to: number;
    readonly chordStation: number;
    readonly cells: number;
  }[];
  readonly cell?: { readonly length: number; readonly width: number };
  readonly facets: readonly FacetShape[];
  /** Every mass of the sum, cells and lamination included. */
  readonly masses: readonly {
    readonly name: string;
    readonly mass: number;
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly weighed: boolean;
  }[];
  readonly battery?: {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly movesFrom?: number;
    readonly movesTo?: number;
  };
  readonly motor?: {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly propellerDiameter: number;
    readonly count: number;
  };
  /** Wing area, span [m2, m]; 0 without an airframe. */
  readonly wingArea: number;
  readonly span: number;
}
