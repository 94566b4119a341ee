import type { PlateProperties } from './model-types.js';

/** Corners of a triangle, counter-clockwise [m]. */
export interface Corners {
  readonly x: readonly [number, number, number];
  readonly y: readonly [number, number, number];
}

/** Fields of one plate triangle: all that stiffness, mass and interpolation need. */
export interface TriangleFields {
  readonly corners: Corners;
  readonly area: number;
  /** Gradients of the area coordinates: aft and out. */
  readonly gradX: readonly [number, number, number];
  readonly gradY: readonly [number, number, number];
  /** Direction cosines of the sides 12, 23, 31. */
  readonly cos: readonly [number, number, number];
  readonly sin: readonly [number, number, number];
  /** Amplitude of the parabolic part of the slope along each side, per unknown (3 x 9). */
  readonly bulge: Float64Array;
  /** Mean shear strain along each side, per unknown (3 x 9); zero where rigid in shear. */
  readonly sideShear: Float64Array;
  readonly sheared: boolean;
}

/** Sides: first and second corner. */
const SIDE_FROM = [0, 1, 2] as const;
const SIDE_TO = [1, 2, 0] as const;

/** Bending stiffness for a curvature along a direction [N m]. */
function bendingAlong(plate: PlateProperties, c: number, s: number): number {
  return (
    plate.d11 * c ** 4 +
    plate.d22 * s ** 4 +
    2 * (plate.d12 + 2 * plate.d66) * c * c * s * s +
    4 * (plate.d16 * c * c + plate.d26 * s * s) * c * s
  );
}

/** Ratio of shear to bending flexibility of a side of length L: 12 D / (S L^2); zero where rigid in shear. */
function shearRatio(plate: PlateProperties, c: number, s: number, length: number): number {
  if (plate.shear === undefined) return 0;
  const stiffness = plate.shear.aft * c * c + plate.shear.out * s * s;
  return (12 * bendingAlong(plate, c, s)) / (stiffness * length * length);
}

/**
 * Fields of a triangle with nine unknowns (w, slope aft, slope out at each corner).
 *
 * Slopes vary linearly plus a parabola along each side, whose size follows from the moment's equilibrium along the side and the
 * shear flexibility there. Without shear flexibility this is the discrete Kirchhoff triangle; with it, thick plates are covered,
 * and thin ones do not lock.
 *
 * @param sides - plate at the middles of the sides 12, 23, 31
 * Sources: Batoz, Bathe, Ho, A study of three-node triangular plate bending elements, IJNME 15, 1980; Katili, A new discrete
 * Kirchhoff-Mindlin element based on Mindlin-Reissner plate theory, part I, IJNME 36, 1993 (both from memory).
 */
export function triangleFields(corners: Corners, sides: readonly PlateProperties[]): TriangleFields {
  const { x, y } = corners;
  const double = (x[1] - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (y[1] - y[0]);
  if (!(double > 0)) throw new RangeError('a plate triangle needs an area and counter-clockwise corners');
  const bulge = new Float64Array(27);
  const sideShear = new Float64Array(27);
  const cos: [number, number, number] = [0, 0, 0];
  const sin: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const [i, j] = [SIDE_FROM[k], SIDE_TO[k]];
    const length = Math.hypot(x[j] - x[i], y[j] - y[i]);
    const [c, s] = [(x[j] - x[i]) / length, (y[j] - y[i]) / length];
    const ratio = shearRatio(sides[k], c, s, length);
    const factor = 1.5 / (length * (1 + ratio));
    const row = 9 * k;
    bulge[row + 3 * j] = factor;
    bulge[row + 3 * i] = -factor;
    for (const corner of [i, j]) {
      bulge[row + 3 * corner + 1] = (-factor * length * c) / 2;
      bulge[row + 3 * corner + 2] = (-factor * length * s) / 2;
    }
    for (let a = 0; a < 9; a++) sideShear[row + a] = (2 / 3) * ratio * bulge[row + a];
    cos[k] = c;
    sin[k] = s;
  }
  return {
    corners,
    area: double / 2,
    gradX: [(y[1] - y[2]) / double, (y[2] - y[0]) / double, (y[0] - y[1]) / double],
    gradY: [(x[2] - x[1]) / double, (x[0] - x[2]) / double, (x[1] - x[0]) / double],
    cos,
    sin,
    bulge,
    sideShear,
    sheared: sides.some(({ shear }) => shear !== undefined),
  };
}

type Place = readonly [number, number, number];

/** Curvatures (w_xx, w_yy, 2 w_xy of the bending slopes) per unknown, 3 x 9, at area coordinates. */
export function curvatureRows(fields: TriangleFields, at: Place): Float64Array {
  const { gradX, gradY, cos, sin, bulge } = fields;
  const rows = new Float64Array(27);
  for (let i = 0; i < 3; i++) {
    rows[3 * i + 1] += gradX[i];
    rows[9 + 3 * i + 2] += gradY[i];
    rows[18 + 3 * i + 1] += gradY[i];
    rows[18 + 3 * i + 2] += gradX[i];
  }
  for (let k = 0; k < 3; k++) {
    const [i, j] = [SIDE_FROM[k], SIDE_TO[k]];
    const px = 4 * (at[i] * gradX[j] + at[j] * gradX[i]);
    const py = 4 * (at[i] * gradY[j] + at[j] * gradY[i]);
    for (let a = 0; a < 9; a++) {
      const amount = bulge[9 * k + a];
      rows[a] += cos[k] * px * amount;
      rows[9 + a] += sin[k] * py * amount;
      rows[18 + a] += (cos[k] * py + sin[k] * px) * amount;
    }
  }
  return rows;
}

/** Shear strains aft and out per unknown at a corner: what both sides that meet there demand. */
function cornerShear(fields: TriangleFields, corner: number): Float64Array {
  const { cos, sin, sideShear } = fields;
  const [a, b] = [corner, (corner + 2) % 3];
  const determinant = cos[a] * sin[b] - sin[a] * cos[b];
  const rows = new Float64Array(18);
  for (let i = 0; i < 9; i++) {
    const [first, second] = [sideShear[9 * a + i], sideShear[9 * b + i]];
    rows[i] = (sin[b] * first - sin[a] * second) / determinant;
    rows[9 + i] = (cos[a] * second - cos[b] * first) / determinant;
  }
  return rows;
}

/** Shear strains (aft, out) per unknown, 2 x 9, at area coordinates. */
export function shearRows(fields: TriangleFields, at: Place): Float64Array {
  const rows = new Float64Array(18);
  if (!fields.sheared) return rows;
  for (let i = 0; i < 3; i++) {
    const corner = cornerShear(fields, i);
    for (let a = 0; a < 18; a++) rows[a] += at[i] * corner[a];
  }
  return rows;
}

/** Slopes of the deflected surface (aft, out) per unknown, 2 x 9: bending slope plus shear strain. */
export function slopeRows(fields: TriangleFields, at: Place): Float64Array {
  const { cos, sin, bulge } = fields;
  const rows = shearRows(fields, at);
  for (let i = 0; i < 3; i++) {
    rows[3 * i + 1] += at[i];
    rows[9 + 3 * i + 2] += at[i];
  }
  for (let k = 0; k < 3; k++) {
    const parabola = 4 * at[SIDE_FROM[k]] * at[SIDE_TO[k]];
    for (let a = 0; a < 9; a++) {
      rows[a] += cos[k] * parabola * bulge[9 * k + a];
      rows[9 + a] += sin[k] * parabola * bulge[9 * k + a];
    }
  }
  return rows;
}

/**
 * Displacement per unknown (9): the cubic with the corners' displacements and slopes.
 * Source: Bazeley, Cheung, Irons, Zienkiewicz, Triangular elements in bending, 1965 (from memory).
 */
export function displacementRow(fields: TriangleFields, at: Place): Float64Array {
  const { x, y } = fields.corners;
  const row = new Float64Array(9);
  const middle = 0.5 * at[0] * at[1] * at[2];
  for (let i = 0; i < 3; i++) {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3];
    const [a, b, c] = [at[i], at[j], at[k]];
    row[3 * i] += a + a * a * (b + c) - a * (b * b + c * c);
    const towardsJ = a * a * b + middle;
    const towardsK = a * a * c + middle;
    const aft = (x[j] - x[i]) * towardsJ + (x[k] - x[i]) * towardsK;
    const out = (y[j] - y[i]) * towardsJ + (y[k] - y[i]) * towardsK;
    row[3 * i + 1] += aft;
    row[3 * i + 2] += out;
    if (!fields.sheared) continue;
    const shear = cornerShear(fields, i);
    for (let n = 0; n < 9; n++) row[n] += aft * shear[n] + out * shear[9 + n];
  }
  return row;
}

/** Middles of the sides 12, 23, 31: exact for quadratics, and where the plate's properties are taken. */
export const SIDE_MIDDLES: readonly Place[] = [
  [0.5, 0.5, 0],
  [0, 0.5, 0.5],
  [0.5, 0, 0.5],
];

function addBending(k: Float64Array, b: Float64Array, p: PlateProperties, weight: number): void {
  for (let i = 0; i < 9; i++) {
    const [b1, b2, b3] = [weight * b[i], weight * b[9 + i], weight * b[18 + i]];
    const m1 = p.d11 * b1 + p.d12 * b2 + p.d16 * b3;
    const m2 = p.d12 * b1 + p.d22 * b2 + p.d26 * b3;
    const m3 = p.d16 * b1 + p.d26 * b2 + p.d66 * b3;
    for (let j = 0; j < 9; j++) k[9 * i + j] += m1 * b[j] + m2 * b[9 + j] + m3 * b[18 + j];
  }
}

function addShear(k: Float64Array, g: Float64Array, shear: { aft: number; out: number }, weight: number): void {
  for (let i = 0; i < 9; i++) {
    const [q1, q2] = [weight * shear.aft * g[i], weight * shear.out * g[9 + i]];
    for (let j = 0; j < 9; j++) k[9 * i + j] += q1 * g[j] + q2 * g[9 + j];
  }
}

/** Stiffness of the triangle, 9 x 9. */
export function triangleStiffness(fields: TriangleFields, sides: readonly PlateProperties[]): Float64Array {
  const k = new Float64Array(81);
  for (let q = 0; q < 3; q++) {
    const weight = fields.area / 3;
    addBending(k, curvatureRows(fields, SIDE_MIDDLES[q]), sides[q], weight);
    const { shear } = sides[q];
    if (shear !== undefined) addShear(k, shearRows(fields, SIDE_MIDDLES[q]), shear, weight);
  }
  return k;
}

/** Points and weights exact to the sixth power. Source: Dunavant, IJNME 21, 1985, degree 6 (from memory; tested). */
const SIXTH: readonly (readonly [number, number, number])[] = [
  [0.116786275726379, 0.50142650965818, 0.24928674517091],
  [0.050844906370207, 0.873821971016996, 0.063089014491502],
  [0.082851075618374, 0.053145049844817, 0.310352451033784],
];

function sixthPoints(): readonly { readonly at: Place; readonly weight: number }[] {
  const points: { at: Place; weight: number }[] = [];
  SIXTH.forEach(([weight, a, b], index) => {
    const c = 1 - a - b;
    points.push({ at: [a, b, c], weight }, { at: [b, c, a], weight }, { at: [c, a, b], weight });
    if (index === 2) points.push({ at: [b, a, c], weight }, { at: [a, c, b], weight }, { at: [c, b, a], weight });
  });
  return points;
}
export const TRIANGLE_POINTS = sixthPoints();

/** A property given at the middles of the sides, linear between. */
export const atPlace = (sides: readonly number[], at: Place): number =>
  sides[0] * (1 - 2 * at[2]) + sides[1] * (1 - 2 * at[0]) + sides[2] * (1 - 2 * at[1]);

/** Mass matrix of the triangle for displacements w, 9 x 9. @param arealMass - at the middles of the sides [kg/m2] */
export function triangleMass(fields: TriangleFields, arealMass: readonly number[]): Float64Array {
  const m = new Float64Array(81);
  for (const { at, weight } of TRIANGLE_POINTS) {
    const row = displacementRow(fields, at);
    const share = weight * fields.area * Math.max(0, atPlace(arealMass, at));
    for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) m[9 * i + j] += share * row[i] * row[j];
  }
  return m;
}

/** Nodal forces (9) of free curvatures: the loads that would bend a free plate to them. @param heat - free curvature at the sides [1/m] */
export function triangleHeat(
  fields: TriangleFields,
  sides: readonly PlateProperties[],
  heat: readonly number[],
): Float64Array {
  const force = new Float64Array(9);
  for (let q = 0; q < 3; q++) {
    const b = curvatureRows(fields, SIDE_MIDDLES[q]);
    const p = sides[q];
    // A warmer top bends the edges down: w_xx negative.
    const free = (-heat[q] * fields.area) / 3;
    for (let i = 0; i < 9; i++) {
      force[i] += free * (b[i] * (p.d11 + p.d12) + b[9 + i] * (p.d12 + p.d22) + b[18 + i] * (p.d16 + p.d26));
    }
  }
  return force;
}
