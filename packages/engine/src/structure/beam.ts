/** Stiffness and mass of a beam at one place. */
export interface BeamProperties {
  /** [N m2] */
  readonly bending: number;
  /** [N m2] */
  readonly torsion: number;
  /** k G A [N]; absent: rigid in shear. */
  readonly shear?: number;
  /** [kg/m] */
  readonly linearMass: number;
  /** Mass moment of inertia about its own axis [kg m]; 0 where absent. */
  readonly polarInertia?: number;
}

/** Unknowns of a beam element: w1, slope1, w2, slope2 along the beam, and the turns about its axis at both ends. */
export interface BeamElement {
  /** 4 x 4 */
  readonly bending: Float64Array;
  /** Of the turn between the ends [N m/rad]. */
  readonly torsion: number;
  /** 4 x 4 */
  readonly mass: Float64Array;
  /** Mass moment of inertia about the axis [kg m2]. */
  readonly polar: number;
}

/**
 * Beam element of length l, exact for loads at its ends; with shear flexibility after Timoshenko.
 * Source: textbook (e.g. Przemieniecki, Theory of Matrix Structural Analysis, 1968, ch. 5 and 11; from memory).
 */
export function beamElement(l: number, at: BeamProperties): BeamElement {
  const phi = at.shear === undefined ? 0 : (12 * at.bending) / (at.shear * l * l);
  const k = at.bending / (l ** 3 * (1 + phi));
  const [a, b, c] = [6 * l, (4 + phi) * l * l, (2 - phi) * l * l];
  const bending = Float64Array.from([12, a, -12, a, a, b, -a, c, -12, -a, 12, -a, a, c, -a, b], (value) => k * value);
  const m = (at.linearMass * l) / 420;
  const [d, e, f, g] = [22 * l, 13 * l, 4 * l * l, 3 * l * l];
  const mass = Float64Array.from([156, d, 54, -e, d, f, e, -g, 54, e, 156, -d, -e, -g, -d, f], (value) => m * value);
  return { bending, torsion: at.torsion / l, mass, polar: (at.polarInertia ?? 0) * l };
}

/** Nodal forces of a uniform load w [N/m] on the element: force, moment, force, moment. */
export const uniformLoad = (l: number, w: number): readonly [number, number, number, number] => [
  (w * l) / 2,
  (w * l * l) / 12,
  (w * l) / 2,
  (-w * l * l) / 12,
];

/** Properties between two places. */
export function betweenBeams(a: BeamProperties, b: BeamProperties, share: number): BeamProperties {
  const mix = (p: number, q: number) => p + (q - p) * share;
  return {
    bending: mix(a.bending, b.bending),
    torsion: mix(a.torsion, b.torsion),
    linearMass: mix(a.linearMass, b.linearMass),
    polarInertia: mix(a.polarInertia ?? 0, b.polarInertia ?? 0),
    ...(a.shear === undefined || b.shear === undefined ? {} : { shear: mix(a.shear, b.shear) }),
  };
}
