/** What a structural material does; 1 is its main direction (fibre, grain, length of the sheet). */
export interface StructuralMaterial {
  readonly name: string;
  /** Young's modulus along and across [Pa]. */
  readonly modulus: number;
  readonly modulusAcross: number;
  /** In-plane shear modulus [Pa]. */
  readonly shearModulus: number;
  /** Shear through the thickness [Pa]; matters for foams. */
  readonly throughShear: number;
  readonly poisson: number;
  /** [kg/m3] */
  readonly density: number;
  /** Characteristic strengths [Pa]. */
  readonly tension: number;
  readonly compression: number;
  readonly shearStrength: number;
  /** Linear thermal expansion [1/K]. */
  readonly expansion: number;
  /** Temperature at which a tenth of the stiffness is left [K]; absent: does not soften in the sun. */
  readonly softensAt?: number;
}

/** A layer of a stack. */
export interface Layer {
  readonly material: StructuralMaterial;
  /** [m] */
  readonly thickness: number;
  /** Main direction from the span towards aft [rad]; 0 along the span. */
  readonly angle: number;
  /** Part of its membrane stiffness that takes part (gaps, soft glue); default 1. */
  readonly share?: number;
}

/** Plane-stress stiffness in axes 1 aft, 2 along the span: q11, q12, q22, q16, q26, q66 [Pa]. */
export interface PlaneStiffness {
  readonly q11: number;
  readonly q12: number;
  readonly q22: number;
  readonly q16: number;
  readonly q26: number;
  readonly q66: number;
}

/**
 * Stiffness of a layer in the axes of the surface.
 * @param angle - main direction from the span towards aft [rad]
 * Source: Jones, Mechanics of Composite Materials, 2nd ed. 1999, ch. 2 (from memory).
 */
export function planeStiffness(material: StructuralMaterial, angle: number): PlaneStiffness {
  const minor = (material.poisson * material.modulusAcross) / material.modulus;
  const scale = 1 / (1 - material.poisson * minor);
  const q11 = material.modulus * scale;
  const q22 = material.modulusAcross * scale;
  const q12 = material.poisson * material.modulusAcross * scale;
  const q66 = material.shearModulus;
  // Turned from the main direction: s is the part along the aft axis, c along the span.
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const cross = c * c * s * s;
  const across = q11 * s ** 4 + 2 * (q12 + 2 * q66) * cross + q22 * c ** 4;
  const along = q11 * c ** 4 + 2 * (q12 + 2 * q66) * cross + q22 * s ** 4;
  const coupled = (q11 + q22 - 4 * q66) * cross + q12 * (s ** 4 + c ** 4);
  const shear = (q11 + q22 - 2 * q12 - 2 * q66) * cross + q66 * (s ** 4 + c ** 4);
  const q16 = (q11 - q12 - 2 * q66) * s ** 3 * c + (q12 - q22 + 2 * q66) * s * c ** 3;
  const q26 = (q11 - q12 - 2 * q66) * s * c ** 3 + (q12 - q22 + 2 * q66) * s ** 3 * c;
  return { q11: across, q22: along, q12: coupled, q66: shear, q16, q26 };
}

/** Symmetric 3 x 3: 11, 12, 22, 16, 26, 66. */
export type Triple = readonly [number, number, number, number, number, number];

/** A layer at its height: middle and thickness [m]. */
export interface PlacedLayer extends Layer {
  readonly middle: number;
}

/** Membrane, coupling and bending stiffness of a stack about z = 0. */
export interface StackStiffness {
  readonly a: Triple;
  readonly b: Triple;
  readonly d: Triple;
  readonly arealMass: number;
}

const asTriple = (q: PlaneStiffness): Triple => [q.q11, q.q12, q.q22, q.q16, q.q26, q.q66];

/** Sums of a stack of layers at their heights. Source: classical lamination theory. */
export function stackStiffness(layers: readonly PlacedLayer[]): StackStiffness {
  const a = [0, 0, 0, 0, 0, 0];
  const b = [0, 0, 0, 0, 0, 0];
  const d = [0, 0, 0, 0, 0, 0];
  let arealMass = 0;
  for (const layer of layers) {
    const { thickness: t, middle: z, share = 1 } = layer;
    arealMass += layer.material.density * t;
    asTriple(planeStiffness(layer.material, layer.angle)).forEach((q, i) => {
      a[i] += share * q * t;
      b[i] += share * q * t * z;
      // What does not stretch with the stack still bends about its own middle.
      d[i] += share * q * t * z * z + (q * t ** 3) / 12;
    });
  }
  const triple = (v: number[]) => [v[0], v[1], v[2], v[3], v[4], v[5]] as const;
  return { a: triple(a), b: triple(b), d: triple(d), arealMass };
}

type Matrix3 = readonly (readonly [number, number, number])[];
const asMatrix = ([m11, m12, m22, m16, m26, m66]: Triple): Matrix3 => [
  [m11, m12, m16],
  [m12, m22, m26],
  [m16, m26, m66],
];

function inverse3(m: Matrix3): Matrix3 {
  const cofactor = (i: number, j: number) => {
    const [r, s] = [0, 1, 2].filter((k) => k !== i);
    const [p, q] = [0, 1, 2].filter((k) => k !== j);
    return ((i + j) % 2 === 0 ? 1 : -1) * (m[r][p] * m[s][q] - m[r][q] * m[s][p]);
  };
  const determinant = [0, 1, 2].reduce((sum, j) => sum + m[0][j] * cofactor(0, j), 0);
  return [0, 1, 2].map(
    (i) => [0, 1, 2].map((j) => cofactor(j, i) / determinant) as unknown as readonly [number, number, number],
  );
}

/**
 * Bending stiffness of a stack that is free to stretch: D - B inverse(A) B. An unsymmetric stack bends about its own neutral plane.
 */
export function reducedBending({ a, b, d }: StackStiffness): Triple {
  const [inverse, coupling] = [inverse3(asMatrix(a)), asMatrix(b)];
  const product = (p: Matrix3, q: Matrix3): Matrix3 =>
    p.map(
      (row) =>
        [0, 1, 2].map((j) => row[0] * q[0][j] + row[1] * q[1][j] + row[2] * q[2][j]) as unknown as readonly [
          number,
          number,
          number,
        ],
    );
  const taken = product(product(coupling, inverse), coupling);
  const full = asMatrix(d);
  const left = (i: number, j: number) => full[i][j] - taken[i][j];
  return [left(0, 0), left(0, 1), left(1, 1), left(0, 2), left(1, 2), left(2, 2)];
}

/** Height of the neutral plane for bending along the span [m]. */
export const neutralHeight = ({ a, b }: StackStiffness): number => b[2] / a[2];

/**
 * Sandwich of two like faces on a core: bending stiffness per width and shear stiffness per width.
 * Source: Zenkert, An Introduction to Sandwich Construction, 1995 (from memory).
 */
export function sandwich(
  face: { readonly modulus: number; readonly thickness: number },
  core: { readonly modulus: number; readonly shearModulus: number; readonly thickness: number },
): { readonly bending: number; readonly shear: number } {
  const apart = core.thickness + face.thickness;
  return {
    bending:
      (face.modulus * face.thickness * apart ** 2) / 2 +
      (face.modulus * face.thickness ** 3) / 6 +
      (core.modulus * core.thickness ** 3) / 12,
    shear: (core.shearModulus * apart ** 2) / core.thickness,
  };
}
