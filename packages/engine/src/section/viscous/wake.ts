import { type InviscidFlow, panelAcross, panelAlong } from './inviscid.js';
import { sourceVelocity, vortexVelocity } from './kernels.js';

/** Nodes of the wake from the trailing edge downstream, along an inviscid streamline; directions at the nodes. */
export interface WakeLine {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly s: Float64Array;
  readonly tangentX: Float64Array;
  readonly tangentY: Float64Array;
}

/** Adds the velocity of a panel, given in its own frame, in the section's frame. */
const rotate = (u: number, v: number, tx: number, ty: number, out: Float64Array): void => {
  out[0] += u * tx - v * ty;
  out[1] += u * ty + v * tx;
};

/** Velocity that vorticity and edge source of the section cause at a point off the surface. gamma - at the nodes; out - [u, v], added to. */
export function inducedVelocity(
  flow: InviscidFlow,
  gamma: ArrayLike<number>,
  px: number,
  py: number,
  out: Float64Array,
  scratch: Float64Array,
): void {
  const { count, x, y } = flow.mesh;
  for (let j = 0; j < count - 1; j++) {
    const length = flow.mesh.s[j + 1] - flow.mesh.s[j];
    const tx = (x[j + 1] - x[j]) / length;
    const ty = (y[j + 1] - y[j]) / length;
    vortexVelocity(panelAlong(px, py, x[j], y[j], tx, ty), panelAcross(px, py, x[j], y[j], tx, ty), length, scratch);
    const u = gamma[j] * scratch[0] + gamma[j + 1] * scratch[2];
    const v = gamma[j] * scratch[1] + gamma[j + 1] * scratch[3];
    rotate(u, v, tx, ty, out);
  }
  if (flow.mesh.tailGap > 0) tailVelocity(flow, gamma[0] - gamma[count - 1], px, py, out, scratch);
}

/** Velocity of the open trailing edge for a difference of edge vorticity; added to out. */
export function tailVelocity(
  flow: InviscidFlow,
  difference: number,
  px: number,
  py: number,
  out: Float64Array,
  scratch: Float64Array,
): void {
  const { x, y, count } = flow.mesh;
  const last = count - 1;
  const length = Math.hypot(x[0] - x[last], y[0] - y[last]);
  const tx = (x[0] - x[last]) / length;
  const ty = (y[0] - y[last]) / length;
  const along = panelAlong(px, py, x[last], y[last], tx, ty);
  const across = panelAcross(px, py, x[last], y[last], tx, ty);
  vortexVelocity(along, across, length, scratch);
  const u = flow.tailVortex * (scratch[0] + scratch[2]);
  const v = flow.tailVortex * (scratch[1] + scratch[3]);
  sourceVelocity(along, across, length, scratch);
  rotate(difference * (u + flow.tailSource * scratch[0]), difference * (v + flow.tailSource * scratch[1]), tx, ty, out);
}

/** Spacing that grows evenly from a first step to a whole length. */
function growth(first: number, length: number, steps: number): number {
  let low = 1;
  let high = 3;
  for (let i = 0; i < 60; i++) {
    const ratio = 0.5 * (low + high);
    const sum = ratio === 1 ? first * steps : (first * (ratio ** steps - 1)) / (ratio - 1);
    if (sum < length) low = ratio;
    else high = ratio;
  }
  return 0.5 * (low + high);
}

/**
 * Wake of a section at an incidence: streamline of the inviscid flow from the middle of the trailing edge, one chord long.
 * flow - section; alpha - incidence [rad]; count - nodes [-]
 */
export function wakeLine(flow: InviscidFlow, alpha: number, count = 20): WakeLine {
  const { mesh } = flow;
  const last = mesh.count - 1;
  const c = Math.cos(alpha);
  const s = Math.sin(alpha);
  const gamma = flow.gammaZero.map((value, i) => c * value + s * flow.gammaRight[i]);
  const wake = {
    count,
    x: new Float64Array(count),
    y: new Float64Array(count),
    s: new Float64Array(count),
    tangentX: new Float64Array(count),
    tangentY: new Float64Array(count),
  };
  const first = 0.5 * (mesh.s[1] + mesh.s[last] - mesh.s[last - 1]);
  const ratio = growth(first, 1, count - 1);
  wake.x[0] = 0.5 * (mesh.x[0] + mesh.x[last]);
  wake.y[0] = 0.5 * (mesh.y[0] + mesh.y[last]);
  wake.tangentX[0] = mesh.tailX;
  wake.tangentY[0] = mesh.tailY;
  const velocity = new Float64Array(2);
  const scratch = new Float64Array(4);
  const direction = (px: number, py: number): void => {
    velocity[0] = c;
    velocity[1] = s;
    inducedVelocity(flow, gamma, px, py, velocity, scratch);
    const speed = Math.hypot(velocity[0], velocity[1]) || 1;
    velocity[0] /= speed;
    velocity[1] /= speed;
  };
  let step = first;
  for (let k = 1; k < count; k++) {
    const half = 0.5 * step;
    direction(wake.x[k - 1] + half * wake.tangentX[k - 1], wake.y[k - 1] + half * wake.tangentY[k - 1]);
    wake.x[k] = wake.x[k - 1] + step * velocity[0];
    wake.y[k] = wake.y[k - 1] + step * velocity[1];
    wake.s[k] = wake.s[k - 1] + step;
    direction(wake.x[k], wake.y[k]);
    wake.tangentX[k] = velocity[0];
    wake.tangentY[k] = velocity[1];
    step *= ratio;
  }
  return wake;
}
