/**
 * Plain data of the plate-and-beam model of the half aircraft. Geometry frame: x aft from the datum, y to the right wing [m];
 * w is the displacement upwards [m]. A nose-up turn of a chord is a negative slope dw/dx.
 */

/** Which half of the motion: both wings alike, or opposed; or held at the root (bench). */
export type Symmetry = 'symmetric' | 'antisymmetric' | 'clamped';

/** A quantity as a linear combination of unknowns: sum of weights[i] * u[dofs[i]]. */
export interface PointRow {
  readonly dofs: Int32Array;
  /** Displacement upwards per unknown. */
  readonly w: Float64Array;
  /** Slope of the deflected surface aft, dw/dx (nose-up turn is its negative). */
  readonly slopeX: Float64Array;
  /** Slope towards the right tip, dw/dy. */
  readonly slopeY: Float64Array;
}

/** A corner of the mesh. Three unknowns each; the control's side of a hinge line has its own slope aft. */
export interface MeshNode {
  readonly x: number;
  readonly y: number;
  /** Unknowns w, slope aft, slope to the right. */
  readonly dofs: readonly [number, number, number];
}

/** Triangles of one lifting surface; a control's triangles carry its name. */
export interface SurfaceMesh {
  readonly name: string;
  readonly nodes: readonly MeshNode[];
  /** Three node indices for each triangle. */
  readonly triangles: Int32Array;
  /** Control that a triangle belongs to, or the empty string. */
  readonly controlOf: readonly string[];
  /** Lower and upper bounds of each triangle [x0, x1, y0, y1], for the search of points. */
  readonly bounds: Float64Array;
  /** Plate stiffness of each triangle at its three mid-sides, for strains. */
  readonly plates: readonly PlateElement[];
}

/** What an element was built from, kept for strains and heat. */
export interface PlateElement {
  /** At the middles of sides 12, 23, 31. */
  readonly plate: readonly [PlateProperties, PlateProperties, PlateProperties];
}

/**
 * Plate per unit width at one place. 1 is aft (x), 2 towards the tip (y).
 * Moments M1 = d11 k1 + d12 k2 + d16 k12 ... with k12 = 2 w_xy [N m].
 */
export interface PlateProperties {
  readonly d11: number;
  readonly d12: number;
  readonly d22: number;
  readonly d16: number;
  readonly d26: number;
  readonly d66: number;
  /** Transverse shear stiffness aft and towards the tip [N/m]; absent: rigid in shear. */
  readonly shear?: { readonly aft: number; readonly out: number };
  /** [kg/m2] */
  readonly arealMass: number;
  /** Free curvature in both directions for a top that is 1 K warmer than the bottom [1/(m K)], positive: edges down. */
  readonly heatCurvature: number;
}

/** A stiffness or mass matrix with its rigid-body motions, restricted to one symmetry. */
export interface HalfModel {
  readonly symmetry: Symmetry;
  readonly size: number;
  /** Unknown of the whole model behind each unknown of this one. */
  readonly dofs: Int32Array;
  /** Unknown of this model for each of the whole model, -1 where held. */
  readonly indexOf: Int32Array;
  /** Row-major, size x size, of the half aircraft [N/m, N, N m]. */
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
  /**
   * Rigid motions, row-major rigidCount x size: symmetric heave (w = 1) and pitch about the balance point (nose up, per radian),
   * antisymmetric roll (right wing down, per radian), clamped none.
   */
  readonly rigid: Float64Array;
  readonly rigidCount: number;
  /** Unknowns that are held (statically determinate) while solving a balanced load. */
  readonly supports: Int32Array;
}

export interface StructuralModel {
  readonly surfaces: readonly SurfaceMesh[];
  readonly bodies: readonly BodyLine[];
  readonly controls: readonly ControlHinge[];
  readonly wires: readonly WireLine[];
  readonly dofCount: number;
  /** Unknowns that lie in the plane of symmetry, by what is held in each half. */
  readonly planeOfSymmetry: { readonly w: Int32Array; readonly slopeX: Int32Array; readonly slopeY: Int32Array };
  /** Row-major, dofCount x dofCount, of the half aircraft. */
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
  /** Of the half aircraft [kg], its balance point aft of the datum [m]. */
  readonly totalMass: number;
  readonly balancePoint: number;
}

/** Nodes of a fuselage, boom or pod; where it crosses a surface its rows are those of the surface. */
export interface BodyLine {
  readonly name: string;
  readonly y: number;
  readonly x: Float64Array;
  readonly rows: readonly PointRow[];
}

/** A bracing wire: rise of its wing end against the other as a row of the unknowns, and its tension for each metre of it [N/m]. */
export interface WireLine {
  readonly name: string;
  readonly surface: string;
  readonly dofs: Int32Array;
  readonly weights: Float64Array;
  readonly pull: number;
  /** [N] */
  readonly breaks: number;
}

/** A hinged control: its turn against the surface at each hinge node is slope(control side) - slope(surface side). */
export interface ControlHinge {
  readonly surface: string;
  readonly name: string;
  /** Hinge nodes from inboard to outboard: y [m], and the unknowns of the slopes on both sides. */
  readonly y: Float64Array;
  readonly surfaceSlope: Int32Array;
  readonly controlSlope: Int32Array;
  /** Torsional stiffness of the linkage at the horn [N m/rad] and the y where it acts [m]. */
  readonly linkageStiffness: number;
  readonly hornY: number;
}

/** Answer of a balanced static solution. */
export interface StaticSolution {
  /** Elastic displacement, row-major size x columns, free of rigid motion (orthogonal to it in the sense of the masses). */
  readonly displacement: Float64Array;
  /** Rigid accelerations that the loads cause, rigidCount x columns, in the units of `rigid` [m/s2, rad/s2]. */
  readonly acceleration: Float64Array;
}

/** Free vibrations of one symmetry, elastic only, lowest first. */
export interface NaturalModes {
  /** [rad/s] */
  readonly frequencies: Float64Array;
  /** Row-major count x size, generalised mass 1 kg (of the half aircraft). */
  readonly shapes: Float64Array;
  readonly count: number;
  readonly size: number;
}
