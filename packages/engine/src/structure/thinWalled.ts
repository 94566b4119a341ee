import { factorLu, solveLu } from '../math/linear.js';

/** A closed cell of a thin-walled section. */
export interface WallCell {
  /** Enclosed area [m2]. */
  readonly area: number;
  /** Integral of ds / (G t) around it [1/(N/m)] = m / (Pa m). */
  readonly compliance: number;
}

/** Torsion of closed cells in a row, each sharing a wall with the next. */
export interface CellTorsion {
  /** [N m2] */
  readonly stiffness: number;
  /** Shear flow in the outer wall of each cell per twist rate [N/m per rad/m]. */
  readonly flow: readonly number[];
  /** Part of the torque that each cell carries. */
  readonly share: readonly number[];
}

/**
 * Torsional stiffness of closed cells by the flows that give all cells one twist rate.
 *
 * @param cells - from front to back
 * @param shared - compliance ds / (G t) of the wall between each cell and the next
 * Source: Bredt 1896; Megson, Aircraft Structures (multi-cell sections; from memory).
 */
export function cellTorsion(cells: readonly WallCell[], shared: readonly number[]): CellTorsion {
  const n = cells.length;
  if (n === 0 || shared.length !== n - 1)
    throw new RangeError('cells in a row need one shared wall between neighbours');
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    matrix[i * n + i] = cells[i].compliance;
    if (i > 0) matrix[i * n + i - 1] = matrix[(i - 1) * n + i] = -shared[i - 1];
  }
  const lu = factorLu(matrix, n);
  if (!lu.ok) throw new RangeError('the walls of the cells must have stiffness');
  const flow = [
    ...solveLu(
      lu.value,
      Float64Array.from(cells, ({ area }) => 2 * area),
    ),
  ];
  const torque = flow.map((q, i) => 2 * cells[i].area * q);
  const stiffness = torque.reduce((sum, t) => sum + t, 0);
  return { stiffness, flow, share: torque.map((t) => t / stiffness) };
}

/** Torsion constant of a single closed tube with walls of one thickness [m4]. Source: Bredt 1896. */
export const bredtConstant = (enclosedArea: number, perimeter: number, thickness: number): number =>
  (4 * enclosedArea ** 2 * thickness) / perimeter;

/** Torsion constant of a thin open section [m4]: a slit that undoes the closed cell. */
export const openConstant = (length: number, thickness: number): number => (length * thickness ** 3) / 3;

/** A straight wall of a section for shear flow under a vertical force. */
export interface Wall {
  readonly x1: number;
  readonly z1: number;
  readonly x2: number;
  readonly z2: number;
  /** E t [N/m] and G t [N/m]. */
  readonly stretch: number;
  readonly shear: number;
}

/** A closed loop's shear flow under a vertical force, and its shear centre. */
export interface LoopShear {
  /** At the end of each wall, per force [1/m]; positive along the order of the walls. */
  readonly flow: readonly number[];
  /** x where a vertical force does not twist [m]. */
  readonly shearCentre: number;
}

interface OpenFlow {
  /** Flow at the end of each wall and its mean over it, per force. */
  readonly ends: number[];
  readonly means: number[];
}

/** Flow of the loop cut open at its start, bending about its own (horizontal) neutral axis only. */
function openFlow(walls: readonly Wall[]): OpenFlow {
  const length = (w: Wall) => Math.hypot(w.x2 - w.x1, w.z2 - w.z1);
  const stretch = walls.reduce((sum, w) => sum + w.stretch * length(w), 0);
  const mean = walls.reduce((sum, w) => sum + (w.stretch * length(w) * (w.z1 + w.z2)) / 2, 0) / stretch;
  const bending = walls.reduce((sum, w) => {
    const [a, b] = [w.z1 - mean, w.z2 - mean];
    return sum + (w.stretch * length(w) * (a * a + a * b + b * b)) / 3;
  }, 0);
  const ends: number[] = [];
  const means: number[] = [];
  let flow = 0;
  for (const w of walls) {
    const [a, b, l] = [w.z1 - mean, w.z2 - mean, length(w)];
    const factor = (-w.stretch * l) / bending;
    means.push(flow + factor * (a / 3 + b / 6));
    flow += (factor * (a + b)) / 2;
    ends.push(flow);
  }
  return { ends, means };
}

/**
 * Shear flow of one closed loop of thin walls under a vertical force of 1 N through the shear centre.
 *
 * @param walls - in order around the loop, each beginning where the one before ends
 * Valid for sections that bend about a horizontal neutral axis (product of inertia neglected) with plane sections.
 * Source: textbook (Megson, Aircraft Structures, shear of closed sections; from memory).
 */
export function loopShear(walls: readonly Wall[]): LoopShear {
  const { ends, means } = openFlow(walls);
  const length = (w: Wall) => Math.hypot(w.x2 - w.x1, w.z2 - w.z1);
  // No twist: the flow added around the loop makes the integral of q ds / (G t) vanish.
  const twist = walls.reduce((sum, w, i) => sum + (means[i] * length(w)) / w.shear, 0);
  const added = -twist / walls.reduce((sum, w) => sum + length(w) / w.shear, 0);
  // Torque about the origin = force times arm: a flow q along (dx, dz) turns by q (x dz - z dx).
  const torque = walls.reduce((sum, w, i) => sum + (means[i] + added) * (w.x1 * w.z2 - w.x2 * w.z1), 0);
  const force = walls.reduce((sum, w, i) => sum + (means[i] + added) * (w.z2 - w.z1), 0);
  return { flow: ends.map((q) => (q + added) / force), shearCentre: torque / force };
}
