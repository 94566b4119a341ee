import type { SmoothGrid } from '../math/smoothGrid.js';

/**
 * Plain data of a wing section. Chord 1, x aft from the leading edge, y (ordinate) up; angles in radians, positive nose up.
 */
export interface SectionGeometry {
  readonly name: string;
  /** A sharp or square leading edge separates at small incidence and loses its suction. */
  readonly leadingEdge: 'round' | 'sharp';
  /** Outline: trailing edge, upper surface, leading edge, lower surface, trailing edge. */
  readonly outlineX: readonly number[];
  readonly outlineY: readonly number[];
  /** Chord stations of the ordinates below, 0 to 1, denser at both ends. */
  readonly stations: readonly number[];
  readonly upper: readonly number[];
  readonly lower: readonly number[];
  /** Mean of upper and lower ordinate. */
  readonly camber: readonly number[];
  /** Upper minus lower ordinate. */
  readonly thickness: readonly number[];
  readonly maximumThickness: number;
  readonly maximumThicknessStation: number;
  /** Camber of the greatest magnitude, with its sign. */
  readonly maximumCamber: number;
  readonly maximumCamberStation: number;
  /** Greatest thickness measured across the mean line rather than across the chord. */
  readonly thicknessAcrossMeanLine: number;
  /** Enclosed area / chord^2. */
  readonly area: number;
  readonly leadingEdgeRadius: number;
  readonly trailingEdgeThickness: number;
  /** Depth / chord of a backward-facing step in a surface, 0 where there is none. */
  readonly step: number;
  readonly thinAirfoil: ThinAirfoil;
}

/** Linear inviscid properties of the mean line. */
export interface ThinAirfoil {
  /** Angle of attack of zero lift [rad]. */
  readonly zeroLiftAngle: number;
  /** Moment coefficient about the quarter chord, the same at every lift. */
  readonly moment: number;
  /** Angle of attack at which the stagnation point lies on the leading edge [rad]. */
  readonly idealAngle: number;
  /** Lift coefficient at the ideal angle. */
  readonly idealLift: number;
  /** Fourier coefficients A1 and A2 of the mean-line slope. */
  readonly a1: number;
  readonly a2: number;
}

/** State of the surface, as far as it changes the boundary layer. */
export interface SectionOptions {
  /** Forced transition on both surfaces at the chord station (trip, rough paint, tape); absent for a clean section. */
  readonly transitionAt?: number;
  /** Chord stations between which solar cells are laid on the upper surface, and their height over the skin / chord; absent for none. */
  readonly cells?: { readonly from: number; readonly to: number; readonly edge?: number };
  /** Flat cells in place of the curve: chord stations between which they lie edge to edge, and the width of one along the chord / chord. */
  readonly flats?: { readonly from: number; readonly to: number; readonly width: number };
  /** Own factor on profile drag (measured, or from another solver) with its relative standard deviation. */
  readonly dragFactor?: number;
  readonly dragFactorSpread?: number;
}

/** First viscous estimate: formulas with global constants, evaluated from a few numbers of the section. */
export interface SectionEstimate {
  readonly kind: 'estimate';
  readonly name: string;
  readonly leadingEdge: 'round' | 'sharp';
  /** Angle of attack of zero lift, attached flow, no deflection [rad]. */
  readonly zeroLiftAngle: number;
  /** Moment coefficient about the quarter chord at zero lift, no deflection. */
  readonly moment: number;
  /** Lift-curve slope at high Reynolds number [1/rad]. */
  readonly liftSlope: number;
  /** Thickness / chord. */
  readonly thickness: number;
  /** Camber / chord. */
  readonly camber: number;
  /** Lift coefficient about which drag is least at high Reynolds number. */
  readonly designLift: number;
  /** Forced transition station, or 1 where free. */
  readonly transitionAt: number;
  readonly dragFactor: number;
  /** Relative standard deviation that options (cells, own factor, step) add to the profile drag. */
  readonly addedSpread: number;
  /** Drag added by a backward-facing step. */
  readonly stepDrag: number;
}

/**
 * Polars over Reynolds number: what a boundary-layer solver or a wind tunnel gives. Rows by Reynolds number; every grid is uniform,
 * so that a look-up needs no search. Attached range by lift coefficient, whole circle by angle of attack.
 */
export interface SectionPolarTable {
  readonly kind: 'table';
  readonly name: string;
  readonly leadingEdge: 'round' | 'sharp';
  readonly thickness: number;
  /** At the middle of the Reynolds range [rad], [-], [1/rad]. */
  readonly zeroLiftAngle: number;
  readonly moment: number;
  readonly liftSlope: number;
  /** Natural logarithm of the first Reynolds number and the step between rows. */
  readonly logReynoldsStart: number;
  readonly logReynoldsStep: number;
  readonly rows: number;
  readonly liftStart: number;
  readonly liftStep: number;
  readonly liftCount: number;
  /** Natural logarithm of the drag coefficient and its relative standard deviation; columns by lift coefficient. */
  readonly logDrag: SmoothGrid;
  readonly dragSpread: SmoothGrid;
  readonly angleStart: number;
  readonly angleStep: number;
  readonly angleCount: number;
  /** Lift and moment coefficients; columns by angle of attack, the whole circle. */
  readonly lift: SmoothGrid;
  readonly momentAtAngle: SmoothGrid;
  /** By row. */
  readonly maximumLift: Float64Array;
  readonly minimumLift: Float64Array;
  readonly maximumLiftSpread: Float64Array;
  readonly zeroLiftAngles: Float64Array;
  readonly liftSlopes: Float64Array;
}

/** What a wing or a blade needs to know of its section. */
export type SectionModel = SectionEstimate | SectionPolarTable;

/** A value with the interval that should hold the truth nine times in ten. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What a trailing-edge deflection does to a section, per radian (trailing edge down positive). */
export interface FlapEffect {
  /** Change of the zero-lift angle [rad/rad], negative: zero lift moves to lower angles. */
  readonly zeroLiftShift: number;
  /** Change of the quarter-chord moment coefficient at constant lift [1/rad], negative. */
  readonly moment: number;
  /** Ideal (inviscid, sealed) effectiveness before the real-flap factor. */
  readonly idealEffectiveness: number;
  /** Relative standard deviation of both. */
  readonly spread: number;
}
