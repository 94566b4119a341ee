import { displacementRow, slopeRows, type TriangleFields, triangleFields } from './element.js';
import type { HalfModel, MeshNode, PointRow, StructuralModel, SurfaceMesh } from './model-types.js';

/** Row of a node itself. */
export const nodeRow = ({ dofs }: Pick<MeshNode, 'dofs'>): PointRow => ({
  dofs: Int32Array.from(dofs),
  w: Float64Array.of(1, 0, 0),
  slopeX: Float64Array.of(0, 1, 0),
  slopeY: Float64Array.of(0, 0, 1),
});

/** Row of a point that is rigidly joined to another, `dx` aft and `dy` out of it. */
export const offsetRow = (row: PointRow, dx: number, dy: number): PointRow => ({
  ...row,
  w: row.w.map((value, i) => value + dx * row.slopeX[i] + dy * row.slopeY[i]),
});

/** The three nodes of a triangle. */
const cornersOf = (mesh: SurfaceMesh, t: number): readonly [MeshNode, MeshNode, MeshNode] => [
  mesh.nodes[mesh.triangles[3 * t]],
  mesh.nodes[mesh.triangles[3 * t + 1]],
  mesh.nodes[mesh.triangles[3 * t + 2]],
];

/** Fields of a triangle of the mesh. */
export function fieldsOf(mesh: SurfaceMesh, t: number): TriangleFields {
  const [a, b, c] = cornersOf(mesh, t);
  return triangleFields({ x: [a.x, b.x, c.x], y: [a.y, b.y, c.y] }, mesh.plates[t].plate);
}

/** Unknowns of a triangle in the order of its rows. */
export const triangleDofs = (mesh: SurfaceMesh, t: number): Int32Array =>
  Int32Array.from(cornersOf(mesh, t).flatMap(({ dofs }) => dofs));

/** Area coordinates of a point in a triangle; negative ones outside. */
function areaCoordinates(mesh: SurfaceMesh, t: number, x: number, y: number): [number, number, number] {
  const [a, b, c] = cornersOf(mesh, t);
  const double = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y);
  const first = ((b.x - x) * (c.y - y) - (c.x - x) * (b.y - y)) / double;
  const second = ((c.x - x) * (a.y - y) - (a.x - x) * (c.y - y)) / double;
  return [first, second, 1 - first - second];
}

export interface Located {
  readonly triangle: number;
  readonly at: readonly [number, number, number];
  /** From the place in the triangle to the point, where it lies outside [m]. */
  readonly dx: number;
  readonly dy: number;
}

/** Coordinates pushed back into the triangle, and how far the point lies from there. */
function clamped(mesh: SurfaceMesh, triangle: number, x: number, y: number): Located {
  const raw = areaCoordinates(mesh, triangle, x, y).map((value) => Math.max(0, value));
  const sum = raw[0] + raw[1] + raw[2];
  const at = [raw[0] / sum, raw[1] / sum, raw[2] / sum] as const;
  const corners = cornersOf(mesh, triangle);
  const px = corners.reduce((total, node, i) => total + at[i] * node.x, 0);
  const py = corners.reduce((total, node, i) => total + at[i] * node.y, 0);
  return { triangle, at, dx: x - px, dy: y - py };
}

/**
 * Triangle that holds a point of a surface; for a point off the surface the nearest one, by a rigid arm.
 * @param control - look only at triangles of this control ('' for the fixed part); absent: any
 */
export function locate(mesh: SurfaceMesh, x: number, y: number, control?: string): Located {
  const count = mesh.triangles.length / 3;
  let best: Located | undefined;
  let distance = Number.POSITIVE_INFINITY;
  for (let t = 0; t < count; t++) {
    if (control !== undefined && mesh.controlOf[t] !== control) continue;
    const right = Math.max(0, mesh.bounds[4 * t] - x, x - mesh.bounds[4 * t + 1]);
    const ahead = Math.max(0, mesh.bounds[4 * t + 2] - y, y - mesh.bounds[4 * t + 3]);
    if (right * right + ahead * ahead > distance * distance) continue;
    const found = clamped(mesh, t, x, y);
    const away = Math.hypot(found.dx, found.dy);
    if (away < distance - 1e-12) [best, distance] = [found, away];
    if (distance < 1e-9) break;
  }
  if (best === undefined) throw new RangeError(`surface ${mesh.name} has no triangles of control ${control}`);
  return best;
}

/** Row of a place found by `locate`. */
export function locatedRow(mesh: SurfaceMesh, { triangle, at, dx, dy }: Located): PointRow {
  const fields = fieldsOf(mesh, triangle);
  const slopes = slopeRows(fields, at);
  const row = {
    dofs: triangleDofs(mesh, triangle),
    w: displacementRow(fields, at),
    slopeX: slopes.slice(0, 9),
    slopeY: slopes.slice(9),
  };
  return dx === 0 && dy === 0 ? row : offsetRow(row, dx, dy);
}

/**
 * Displacement and slopes at any point of a surface as sparse rows of the unknowns of the whole model.
 *
 * @param surface - its name; throws where there is none of it
 * @param x - aft of the datum [m]
 * @param y - to the right, along the surface [m]; for the left side use its mirror image
 */
export function pointRow(model: StructuralModel, surface: string, x: number, y: number): PointRow {
  const mesh = model.surfaces.find(({ name }) => name === surface);
  if (mesh === undefined) throw new RangeError(`the structural model has no surface ${surface}`);
  return locatedRow(mesh, locate(mesh, x, y));
}

/**
 * Adds a force to the loads of a half model.
 *
 * @param loads - row-major size x columns, changed
 * @param force - upwards, of the right half; one in the plane of symmetry with half its value [N]
 */
export function addForce(
  half: Pick<HalfModel, 'indexOf'>,
  loads: Float64Array,
  row: Pick<PointRow, 'dofs' | 'w'>,
  force: number,
  column = 0,
  columns = 1,
): void {
  addWeighted(half, loads, row.dofs, row.w, force, column, columns);
}

/** Adds weights times an amount at unknowns of the whole model: with a slope's weights it adds a couple. */
export function addWeighted(
  half: Pick<HalfModel, 'indexOf'>,
  loads: Float64Array,
  dofs: Int32Array,
  weights: Float64Array,
  amount: number,
  column = 0,
  columns = 1,
): void {
  for (let i = 0; i < dofs.length; i++) {
    const index = half.indexOf[dofs[i]];
    if (index >= 0) loads[index * columns + column] += weights[i] * amount;
  }
}

/**
 * Value of a row for a displacement of a half model; what is held is zero.
 * @param displacement - row-major size x columns
 */
export function readRow(
  half: Pick<HalfModel, 'indexOf'>,
  dofs: ArrayLike<number>,
  weights: Float64Array,
  displacement: Float64Array,
  column = 0,
  columns = 1,
): number {
  let sum = 0;
  for (let i = 0; i < dofs.length; i++) {
    const index = half.indexOf[dofs[i]];
    if (index >= 0) sum += weights[i] * displacement[index * columns + column];
  }
  return sum;
}
