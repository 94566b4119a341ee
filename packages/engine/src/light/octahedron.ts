import type { Vec3 } from '../math/index.js';

/**
 * A grid over all directions: the sphere is projected on an octahedron, whose lower half is folded out to a square. Nodes lie
 * on both edges, so that values between nodes never need a neighbour across a fold.
 * Source: Engelhardt and Dachsbacher, Octahedron environment maps, Vision, Modelling and Visualization 2008.
 */
export interface DirectionGrid {
  /** Nodes along an edge; odd, so that the fold lies on nodes. */
  readonly edge: number;
  /** Unit vectors, three numbers for each node. */
  readonly directions: Float64Array;
  /** Solid angle of each node [sr]; together 4 pi. */
  readonly weights: Float64Array;
}

/** Direction of a place of the square, -1 to 1 each way. */
function unfold(u: number, v: number): Vec3 {
  const height = 1 - Math.abs(u) - Math.abs(v);
  const [x, y] = height >= 0 ? [u, v] : [(1 - Math.abs(v)) * (u < 0 ? -1 : 1), (1 - Math.abs(u)) * (v < 0 ? -1 : 1)];
  return [x, y, height];
}

/**
 * Grid of edge x edge directions.
 * @param edge - odd, at least 3; 45 gives 2025 directions about 4 degrees apart
 */
export function directionGrid(edge: number): DirectionGrid {
  if (!(edge >= 3) || edge % 2 !== 1)
    throw new RangeError('a grid of directions has an odd number of nodes along its edge');
  const directions = new Float64Array(3 * edge * edge);
  const weights = new Float64Array(edge * edge);
  const place = (i: number) => (2 * i) / (edge - 1) - 1;
  const border = (i: number) => (i === 0 || i === edge - 1 ? 0.5 : 1);
  let sum = 0;
  for (let j = 0, node = 0; j < edge; j++) {
    for (let i = 0; i < edge; i++, node++) {
      const point = unfold(place(i), place(j));
      const length = Math.hypot(...point);
      for (let axis = 0; axis < 3; axis++) directions[3 * node + axis] = point[axis]! / length;
      // Of a small patch of the octahedron's face seen from its middle.
      weights[node] = (border(i) * border(j)) / length ** 3;
      sum += weights[node]!;
    }
  }
  return { edge, directions, weights: weights.map((weight) => (weight * 4 * Math.PI) / sum) };
}

/** The four nodes about a direction and their shares. */
export interface GridPlace {
  readonly nodes: Int32Array;
  readonly shares: Float64Array;
}

export const gridPlace = (): GridPlace => ({ nodes: new Int32Array(4), shares: new Float64Array(4) });

/**
 * Finds the nodes about a direction for bilinear interpolation.
 * @param into - filled and to be used before the next call
 * @param x, y, z - unit vector
 */
export function locate(grid: DirectionGrid, into: GridPlace, x: number, y: number, z: number): void {
  const sum = Math.abs(x) + Math.abs(y) + Math.abs(z);
  let u = x / sum;
  let v = y / sum;
  if (z < 0) {
    const folded = (1 - Math.abs(v)) * (u < 0 ? -1 : 1);
    v = (1 - Math.abs(u)) * (v < 0 ? -1 : 1);
    u = folded;
  }
  const cells = grid.edge - 1;
  const a = ((u + 1) / 2) * cells;
  const b = ((v + 1) / 2) * cells;
  const i = Math.min(cells - 1, Math.max(0, Math.floor(a)));
  const j = Math.min(cells - 1, Math.max(0, Math.floor(b)));
  const [s, t] = [a - i, b - j];
  const node = j * grid.edge + i;
  const { nodes, shares } = into;
  nodes[0] = node;
  nodes[1] = node + 1;
  nodes[2] = node + grid.edge;
  nodes[3] = node + grid.edge + 1;
  shares[0] = (1 - s) * (1 - t);
  shares[1] = s * (1 - t);
  shares[2] = (1 - s) * t;
  shares[3] = s * t;
}
