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
  /** How late the stiffness falls on the way there: 1 steadily, as a plastic that crystallises does; 4 mostly at the end, as a glassy one. */
  readonly softeningExponent?: number;
  /** Share of the modulus along its fibres that they hold, which heat leaves alone; absent: all of it softens. */
  readonly fibreShare?: number;
  /** Of wood: shares of stiffness and of strength that each kelvin above 23 C takes. */
  readonly lostByKelvin?: { readonly modulus: number; readonly strength: number };
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
  // Most layers lie along the span, where nothing has to be turned.
  if (angle === 0) return { q11: q22, q22: q11, q12, q66, q16: 0, q26: 0 };
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

/** Sums of a stack of layers at their heights. Source: classical lamination theory. */
export function stackStiffness(layers: readonly PlacedLayer[]): StackStiffness {
  const a: Sextet = [0, 0, 0, 0, 0, 0];
  const b: Sextet = [0, 0, 0, 0, 0, 0];
  const d: Sextet = [0, 0, 0, 0, 0, 0];
  for (const { material, angle, thickness: t, middle: z, share = 1 } of layers) {
    const stiffness = planeStiffness(material, angle);
    const stretch = share * t;
    addScaled(a, stiffness, stretch);
    addScaled(b, stiffness, stretch * z);
    // What does not stretch with the stack still bends about its own middle.
    addScaled(d, stiffness, stretch * z * z + t ** 3 / 12);
  }
  return { a, b, d, arealMass: arealMassOf(layers) };
}

type Sextet = [number, number, number, number, number, number];

function addScaled(sum: Sextet, { q11, q12, q22, q16, q26, q66 }: PlaneStiffness, factor: number): void {
  sum[0] += factor * q11;
  sum[1] += factor * q12;
  sum[2] += factor * q22;
  sum[3] += factor * q16;
  sum[4] += factor * q26;
  sum[5] += factor * q66;
}

/** Mass of a stack of layers [kg/m2]. */
export const arealMassOf = (layers: readonly Layer[]): number =>
  layers.reduce((sum, { material, thickness }) => sum + material.density * thickness, 0);

/** Membrane shear stiffness of a stack of layers [N/m]. */
export const membraneShear = (layers: readonly Layer[]): number =>
  layers.reduce((sum, { material, angle, thickness, share = 1 }) => {
    return sum + share * thickness * planeStiffness(material, angle).q66;
  }, 0);

/** Inverse of a symmetric 3 x 3. */
function inverse3([m11, m12, m22, m16, m26, m66]: Triple): Triple {
  const c11 = m22 * m66 - m26 * m26;
  const c12 = m16 * m26 - m12 * m66;
  const c16 = m12 * m26 - m16 * m22;
  const scale = 1 / (m11 * c11 + m12 * c12 + m16 * c16);
  return [
    scale * c11,
    scale * c12,
    scale * (m11 * m66 - m16 * m16),
    scale * c16,
    scale * (m12 * m16 - m11 * m26),
    scale * (m11 * m22 - m12 * m12),
  ];
}

/** p' S q for two rows p and q and a symmetric S. */
const between = (
  [p1, p2, p6]: readonly [number, number, number],
  [s11, s12, s22, s16, s26, s66]: Triple,
  [q1, q2, q6]: readonly [number, number, number],
): number =>
  p1 * (s11 * q1 + s12 * q2 + s16 * q6) + p2 * (s12 * q1 + s22 * q2 + s26 * q6) + p6 * (s16 * q1 + s26 * q2 + s66 * q6);

/**
 * Bending stiffness of a stack that is free to stretch: D - B inverse(A) B. An unsymmetric stack bends about its own neutral plane.
 */
export function reducedBending({ a, b, d }: StackStiffness): Triple {
  const inverse = inverse3(a);
  const first = [b[0], b[1], b[3]] as const;
  const second = [b[1], b[2], b[4]] as const;
  const third = [b[3], b[4], b[5]] as const;
  return [
    d[0] - between(first, inverse, first),
    d[1] - between(first, inverse, second),
    d[2] - between(second, inverse, second),
    d[3] - between(first, inverse, third),
    d[4] - between(second, inverse, third),
    d[5] - between(third, inverse, third),
  ];
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
