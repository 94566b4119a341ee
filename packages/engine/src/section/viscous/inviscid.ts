import { factorLu, type LuFactors, solveLu } from '../../math/linear.js';
import { type Outcome, success } from '../../result.js';
import { surfaceSourceStream, vortexStream } from './kernels.js';
import type { SectionMesh } from './mesh.js';

/**
 * Inviscid flow about a section: vorticity, linear along each panel, on the surface, whose stream function is constant at every node;
 * the fluid inside is at rest, so that the clockwise vorticity at a node is the speed there, positive on the upper surface.
 * Source: M. Drela, Low-Reynolds-number airfoil design, in T. Mueller (ed.), Low Reynolds Number Aerodynamics, Lecture Notes in
 * Engineering 54, 1989 (open trailing edge, extrapolation at a sharp one); J. Katz, A. Plotkin, Low-Speed Aerodynamics, 2001.
 */
export interface InviscidFlow {
  readonly mesh: SectionMesh;
  readonly lu: LuFactors;
  /** Clockwise vorticity at the nodes at incidence 0 and at 90 degrees. */
  readonly gammaZero: Float64Array;
  readonly gammaRight: Float64Array;
  /** Sources and vorticity on an open trailing edge for each unit of (first - last) node vorticity. */
  readonly tailSource: number;
  readonly tailVortex: number;
}

/** Frame of a panel seen from a point. */
export const panelAlong = (x: number, y: number, x0: number, y0: number, tx: number, ty: number): number =>
  (x - x0) * tx + (y - y0) * ty;
export const panelAcross = (x: number, y: number, x0: number, y0: number, tx: number, ty: number): number =>
  (y - y0) * tx - (x - x0) * ty;

/** Strengths on the open trailing edge: the fluid that leaves it runs on downstream at the speed of the edges. */
function tailStrengths(mesh: SectionMesh): { readonly source: number; readonly vortex: number } {
  if (mesh.tailGap === 0) return { source: 0, vortex: 0 };
  const last = mesh.count - 1;
  const dx = mesh.x[0] - mesh.x[last];
  const dy = mesh.y[0] - mesh.y[last];
  const length = Math.hypot(dx, dy);
  return {
    source: (0.5 * (mesh.tailX * dy - mesh.tailY * dx)) / length,
    vortex: (-0.5 * (mesh.tailX * dx + mesh.tailY * dy)) / length,
  };
}

/** Adds the stream function that the vorticity causes at node i to row i. */
function fillRow(mesh: SectionMesh, a: Float64Array, row: number, tail: { source: number; vortex: number }): void {
  const { count, x, y } = mesh;
  const size = count + 1;
  const at = row * size;
  const pair = new Float64Array(2);
  for (let j = 0; j < count - 1; j++) {
    const length = Math.hypot(x[j + 1] - x[j], y[j + 1] - y[j]);
    const tx = (x[j + 1] - x[j]) / length;
    const ty = (y[j + 1] - y[j]) / length;
    vortexStream(
      panelAlong(x[row], y[row], x[j], y[j], tx, ty),
      panelAcross(x[row], y[row], x[j], y[j], tx, ty),
      length,
      pair,
    );
    a[at + j] += pair[0];
    a[at + j + 1] += pair[1];
  }
  if (mesh.tailGap > 0) {
    const value = tailStream(mesh, x[row], y[row], tail, pair);
    a[at] += value;
    a[at + count - 1] -= value;
  }
  a[at + count] = -1;
}

/** Stream function of the open trailing edge for unit difference of edge vorticity. */
function tailStream(
  mesh: SectionMesh,
  px: number,
  py: number,
  tail: { readonly source: number; readonly vortex: number },
  pair: Float64Array,
): number {
  const last = mesh.count - 1;
  const length = Math.hypot(mesh.x[0] - mesh.x[last], mesh.y[0] - mesh.y[last]);
  const tx = (mesh.x[0] - mesh.x[last]) / length;
  const ty = (mesh.y[0] - mesh.y[last]) / length;
  const along = panelAlong(px, py, mesh.x[last], mesh.y[last], tx, ty);
  const across = panelAcross(px, py, mesh.x[last], mesh.y[last], tx, ty);
  vortexStream(along, across, length, pair);
  return tail.vortex * (pair[0] + pair[1]) + tail.source * surfaceSourceStream(along, across, length);
}

/**
 * At a sharp trailing edge the first and last node are one point and their rows are the same. The last one then says that the mean speed
 * of the two surfaces runs on straight to the edge.
 */
function sharpTailRow(mesh: SectionMesh, a: Float64Array): void {
  const { count, s } = mesh;
  const size = count + 1;
  const at = (count - 1) * size;
  a.fill(0, at, at + size);
  const upper = (s[1] - s[0]) / (s[2] - s[1]);
  const lower = (s[count - 1] - s[count - 2]) / (s[count - 2] - s[count - 3]);
  a[at] = 1;
  a[at + 1] = -1 - upper;
  a[at + 2] = upper;
  a[at + count - 1] = -1;
  a[at + count - 2] = 1 + lower;
  a[at + count - 3] = -lower;
}

/**
 * Factors the flow about a mesh.
 * mesh - surface nodes
 * Returns the flow at two incidences, from which any other is a sum, or why there is none (surfaces that cross or touch).
 */
export function inviscidFlow(mesh: SectionMesh): Outcome<InviscidFlow> {
  const { count, x, y } = mesh;
  const size = count + 1;
  const tail = tailStrengths(mesh);
  const a = new Float64Array(size * size);
  for (let i = 0; i < count; i++) fillRow(mesh, a, i, tail);
  if (mesh.tailGap === 0) sharpTailRow(mesh, a);
  a[count * size] = 1;
  a[count * size + count - 1] = 1;
  const lu = factorLu(a, size);
  if (!lu.ok) return lu;
  const right = new Float64Array(size * 2);
  const last = mesh.tailGap === 0 ? count - 1 : count;
  for (let i = 0; i < last; i++) {
    right[2 * i] = -y[i];
    right[2 * i + 1] = x[i];
  }
  const solved = solveLu(lu.value, right, 2);
  const gammaZero = new Float64Array(count);
  const gammaRight = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    gammaZero[i] = solved[2 * i];
    gammaRight[i] = solved[2 * i + 1];
  }
  return success({ mesh, lu: lu.value, gammaZero, gammaRight, tailSource: tail.source, tailVortex: tail.vortex });
}

/** Speed along the surface at the nodes, positive from the trailing edge over the nose to the trailing edge; free stream 1. alpha [rad] */
export function inviscidSpeeds(flow: InviscidFlow, alpha: number, out: Float64Array): void {
  const c = Math.cos(alpha);
  const s = Math.sin(alpha);
  for (let i = 0; i < flow.mesh.count; i++) out[i] = -(c * flow.gammaZero[i] + s * flow.gammaRight[i]);
}

/** Lift, quarter-chord moment (nose up) and pressure drag coefficients of speeds at the nodes. */
export interface PressureForces {
  readonly lift: number;
  readonly moment: number;
  readonly pressureDrag: number;
}

/**
 * Sums pressure 1 - q^2 over the surface, linear between nodes; an open trailing edge carries the mean pressure of its corners.
 * mesh - surface; q - speeds at the nodes (sign does not matter); alpha - incidence [rad]
 */
export function pressureForces(mesh: SectionMesh, q: ArrayLike<number>, alpha: number): PressureForces {
  const { count, x, y } = mesh;
  let fx = 0;
  let fy = 0;
  let moment = 0;
  for (let i = 0; i < count; i++) {
    const j = i + 1 === count ? 0 : i + 1;
    const p = 1 - q[i] * q[i];
    const r = 1 - q[j] * q[j];
    const dx = x[j] - x[i];
    const dy = y[j] - y[i];
    const mean = 0.5 * (p + r);
    // Pressure pushes to the left of the way, into the section.
    fx -= mean * dy;
    fy += mean * dx;
    const mx = 0.5 * (x[i] + x[j]) - 0.25;
    const my = 0.5 * (y[i] + y[j]);
    const tilt = (r - p) / 12;
    moment -= mean * (mx * dx + my * dy) + tilt * (dx * dx + dy * dy);
  }
  const c = Math.cos(alpha);
  const s = Math.sin(alpha);
  return { lift: fy * c - fx * s, pressureDrag: fx * c + fy * s, moment };
}
