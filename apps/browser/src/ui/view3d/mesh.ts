import type { Vector } from './frames.js';

/** Triangles in the frame of geometry, counter-clockwise seen from outside. */
export interface Mesh {
  /** x, y, z of each vertex [m] */
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

export const emptyMesh: Mesh = { positions: new Float32Array(0), indices: new Uint32Array(0) };

/** Several meshes as one. */
export function joinMeshes(meshes: readonly Mesh[]): Mesh {
  const positions = new Float32Array(meshes.reduce((sum, mesh) => sum + mesh.positions.length, 0));
  const indices = new Uint32Array(meshes.reduce((sum, mesh) => sum + mesh.indices.length, 0));
  let vertex = 0;
  let index = 0;
  for (const mesh of meshes) {
    positions.set(mesh.positions, 3 * vertex);
    for (const each of mesh.indices) indices[index++] = each + vertex;
    vertex += mesh.positions.length / 3;
  }
  return { positions, indices };
}

/** The same on the other side of the plane of symmetry, still facing outward. */
export function mirrorMesh(mesh: Mesh): Mesh {
  const positions = mesh.positions.slice();
  for (let i = 1; i < positions.length; i += 3) positions[i] = -positions[i]!;
  const indices = mesh.indices.slice();
  for (let i = 0; i < indices.length; i += 3) [indices[i + 1], indices[i + 2]] = [indices[i + 2]!, indices[i + 1]!];
  return { positions, indices };
}

/**
 * A sheet between rows of points. Its front is on the side of (along the row) x (from row to row).
 * rows - all of one length; turned - the front on the other side
 */
export function sheet(rows: readonly (readonly Vector[])[], turned = false): Mesh {
  const across = rows[0]?.length ?? 0;
  if (rows.length < 2 || across < 2) return emptyMesh;
  const positions = Float32Array.from(rows.flatMap((row) => row.flatMap((point) => [...point])));
  const indices: number[] = [];
  for (let i = 0; i + 1 < rows.length; i++) {
    for (let j = 0; j + 1 < across; j++) {
      const [a, b, c, d] = [i * across + j, i * across + j + 1, (i + 1) * across + j + 1, (i + 1) * across + j];
      indices.push(...(turned ? [a, c, b, a, d, c] : [a, b, c, a, c, d]));
    }
  }
  return { positions, indices: Uint32Array.from(indices) };
}

const corner = ({ positions, indices }: Mesh, i: number): Vector => {
  const at = 3 * indices[i]!;
  return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
};

const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Vector areas of the triangles [m2]: outward normal times area. */
export function triangleAreas(mesh: Mesh): readonly Vector[] {
  return Array.from({ length: mesh.indices.length / 3 }, (_, t) => {
    const a = corner(mesh, 3 * t);
    const [x, y, z] = cross(minus(corner(mesh, 3 * t + 1), a), minus(corner(mesh, 3 * t + 2), a));
    return [x / 2, y / 2, z / 2] as const;
  });
}

/** Area of all triangles [m2]. */
export const meshArea = (mesh: Mesh): number => triangleAreas(mesh).reduce((sum, v) => sum + Math.hypot(...v), 0);

/** Volume inside a closed mesh [m3]; negative where its faces look inward. Source: divergence theorem. */
export function meshVolume(mesh: Mesh): number {
  return triangleAreas(mesh).reduce((sum, area, t) => sum + dot(corner(mesh, 3 * t), area) / 3, 0);
}
