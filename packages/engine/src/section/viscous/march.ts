import { INITIAL_SHEAR } from './closure.js';
import { DOWNSTREAM, LOCAL, type LocalSystem, lineariseStation, lineariseWake, STAGNATION } from './jacobian.js';
import {
  distanceOf,
  type LayerState,
  ruleOf,
  sideNodes,
  stagnationLength,
  type ViscousCase,
  wakeGap,
} from './layer.js';
import { DRIVE, fillStation, RECORD, TURBULENT } from './station.js';
import { type TransitionRule, transitionFraction } from './transition.js';

/**
 * First layers of a case: marched downstream in the inviscid speeds. Where a layer would separate, its shape factor is given instead and
 * the speed follows (inverse mode), because the direct problem has no solution there.
 * Source of the inverse mode: D. Catherall, K. Mangler, The integration of the two-dimensional laminar boundary-layer equations past the
 * point of vanishing skin friction, J. Fluid Mech. 26, 1966.
 */

/** Shape factors above which the march is inverse. */
const LAMINAR_LIMIT = 3.7;
const TURBULENT_LIMIT = 2.4;
/** Growth of the given shape factor of a laminar layer for each momentum thickness of way, and its limit (judgement: order of measured bubbles). */
const LAMINAR_GROWTH = 0.02;
const LAMINAR_MOST = 4.5;
/** Decay of that of a turbulent layer. */
const TURBULENT_DECAY = 0.05;

type Linearise = () => void;

/** Solves a small dense system in place by elimination with pivoting; false where it is singular. */
function solveSmall(a: Float64Array, n: number): boolean {
  const w = n + 1;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let r = k + 1; r < n; r++) if (Math.abs(a[r * w + k]) > Math.abs(a[pivot * w + k])) pivot = r;
    if (!(Math.abs(a[pivot * w + k]) > 1e-300)) return false;
    for (let j = 0; j < w; j++) {
      const kept = a[k * w + j];
      a[k * w + j] = a[pivot * w + j];
      a[pivot * w + j] = kept;
    }
    for (let r = 0; r < n; r++) {
      if (r === k) continue;
      const factor = a[r * w + k] / a[k * w + k];
      for (let j = k; j < w; j++) a[r * w + j] -= factor * a[k * w + j];
    }
  }
  for (let k = 0; k < n; k++) a[k * w + n] /= a[k * w + k];
  return true;
}

/**
 * Newton iteration of one station with the stations before it fixed.
 * shape - given shape factor (inverse mode), or 0 for a given speed
 * Returns whether it converged.
 */
function solveStation(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  i: number,
  shape: number,
  lineariseHere: Linearise,
): boolean {
  const n = shape > 0 ? 4 : 3;
  const w = n + 1;
  const a = new Float64Array(n * w);
  const gap = wakeGap(c, i);
  for (let pass = 0; pass < 40; pass++) {
    lineariseHere();
    const base = i * LOCAL;
    a.fill(0);
    for (let r = 0; r < 3; r++) {
      for (let k = 0; k < n; k++) a[r * w + k] = local.rows[base + DOWNSTREAM + 4 * r + k];
      a[r * w + n] = -local.rows[base + r];
    }
    if (n === 4) {
      a[3 * w + 1] = -shape;
      a[3 * w + 2] = 1;
      a[3 * w + 4] = shape * state.theta[i] + gap - state.displacement[i];
    }
    if (!solveSmall(a, n)) return false;
    const change = [a[n], a[w + n], a[2 * w + n], n === 4 ? a[3 * w + n] : 0];
    let relax = 1;
    const relative = [change[1] / state.theta[i], change[2] / state.displacement[i], change[3] / state.speed[i]];
    if (state.kind[i] !== 0) relative.push(change[0] / state.third[i]);
    for (const value of relative) if (Math.abs(value) * relax > 0.3) relax = 0.3 / Math.abs(value);
    if (!(relax > 0)) return false;
    state.third[i] += relax * change[0];
    state.theta[i] += relax * change[1];
    state.displacement[i] = Math.max(1.03 * state.theta[i] + gap, state.displacement[i] + relax * change[2]);
    state.speed[i] = Math.max(1e-3, state.speed[i] + relax * change[3]);
    if (relax === 1 && relative.every((value) => Math.abs(value) < 1e-6)) return true;
  }
  return false;
}

/** Start of a station: what stands upstream of it. */
function takeFrom(state: LayerState, p: number, i: number, speed: number): void {
  state.theta[i] = state.theta[p];
  state.displacement[i] = state.displacement[p];
  state.third[i] = state.third[p];
  state.speed[i] = speed;
}

/** Direct solution of a station, or inverse where that fails or would separate. Returns false where neither converges. */
function directOrInverse(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  i: number,
  start: () => void,
  shapes: { readonly limit: number; readonly target: number },
  lineariseHere: Linearise,
): boolean {
  start();
  const gap = wakeGap(c, i);
  const direct = solveStation(c, state, local, i, 0, lineariseHere);
  if (direct && (state.displacement[i] - gap) / state.theta[i] <= shapes.limit) return true;
  start();
  state.displacement[i] = shapes.target * state.theta[i] + gap;
  return solveStation(c, state, local, i, shapes.target, lineariseHere);
}

/** Root of the equilibrium shear stress at a station. */
export function equilibriumRoot(c: ViscousCase, state: LayerState, local: LocalSystem, i: number): number {
  const r = local.scratch.records;
  fillStation(TURBULENT, state.theta[i], state.displacement[i], state.speed[i], 0, 0, c.reynolds, r, 3 * RECORD);
  return r[3 * RECORD + DRIVE];
}

/** Loads the two ends of an interval for the search of transition. */
export function loadInterval(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  at: number,
  p: number,
  i: number,
): Float64Array {
  const v = local.vector;
  v[0] = state.third[p];
  v[1] = state.theta[p];
  v[2] = state.displacement[p];
  v[3] = state.speed[p];
  v[4] = state.third[i];
  v[5] = state.theta[i];
  v[6] = state.displacement[i];
  v[7] = state.speed[i];
  v[8] = distanceOf(c, state, at, p);
  v[9] = distanceOf(c, state, at, i);
  return v;
}

function marchStation(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  side: 0 | 1,
  i: number,
  p: number,
  at: number,
  rule: TransitionRule,
): void {
  const sign = side === 0 ? -1 : 1;
  const outer = Math.max(0.02, sign * c.inviscid[i]);
  const dx = distanceOf(c, state, at, i) - distanceOf(c, state, at, p);
  const h = state.displacement[p] / state.theta[p];
  const here = () => lineariseStation(c, state, local, side, i, at, rule);
  if (state.turbulentFrom[side] < 0) {
    const target = Math.min(LAMINAR_MOST, Math.max(h, 3.4) + (LAMINAR_GROWTH * dx) / state.theta[p]);
    const solved = directOrInverse(
      c,
      state,
      local,
      i,
      () => takeFrom(state, p, i, outer),
      { limit: LAMINAR_LIMIT, target },
      here,
    );
    if (!solved) takeFrom(state, p, i, outer);
    if (transitionFraction(loadInterval(c, state, local, at, p, i), c.reynolds, rule, local.scratch) > 1) return;
    state.turbulentFrom[side] = i;
    state.kind[i] = TURBULENT;
  }
  const start = (): void => {
    takeFrom(state, p, i, outer);
    if (i === state.turbulentFrom[side]) state.third[i] = INITIAL_SHEAR * equilibriumRoot(c, state, local, p);
  };
  state.kind[i] = TURBULENT;
  const target = Math.max(1.8, Math.min(h, 4) - (TURBULENT_DECAY * dx) / state.theta[p]);
  if (!directOrInverse(c, state, local, i, start, { limit: TURBULENT_LIMIT, target }, here)) start();
}

/** Point of the surface where the inviscid speed changes its sign: node before it. */
function inviscidStagnation(c: ViscousCase): number {
  let best = c.mesh.nose;
  let away = Infinity;
  for (let i = 1; i < c.mesh.count - 2; i++) {
    if (c.inviscid[i] <= 0 && c.inviscid[i + 1] > 0 && Math.abs(i - c.mesh.nose) < away) {
      best = i;
      away = Math.abs(i - c.mesh.nose);
    }
  }
  return best;
}

/** Marches all layers of a case in its inviscid speeds; fills the state. */
export function marchLayers(c: ViscousCase, state: LayerState, local: LocalSystem): void {
  const n = c.mesh.count;
  state.stagnation = inviscidStagnation(c);
  state.turbulentFrom[0] = -1;
  state.turbulentFrom[1] = -1;
  state.kind.fill(0);
  for (let i = 0; i < c.influence.size; i++) {
    const sign = i <= state.stagnation ? -1 : 1;
    state.speed[i] = Math.max(1e-4, sign * c.inviscid[i]);
  }
  const at = stagnationLength(c, state);
  for (const side of [0, 1] as const) {
    const [first, last, step] = sideNodes(c, state, side);
    const rule = ruleOf(c, at, side);
    const x = distanceOf(c, state, at, first);
    state.theta[first] = Math.sqrt((STAGNATION.growth * x) / (state.speed[first] * c.reynolds));
    state.displacement[first] = STAGNATION.shape * state.theta[first];
    state.third[first] = 0;
    for (let i = first + step; ; i += step) {
      marchStation(c, state, local, side, i, i - step, at, rule);
      if (i === last) break;
    }
  }
  state.theta[n] = state.theta[0] + state.theta[n - 1];
  state.displacement[n] = state.displacement[0] + state.displacement[n - 1] + c.mesh.tailGap;
  const root = (i: number, side: 0 | 1): number =>
    state.turbulentFrom[side] < 0 ? INITIAL_SHEAR * equilibriumRoot(c, state, local, i) : state.third[i];
  state.third[n] = (state.theta[0] * root(0, 0) + state.theta[n - 1] * root(n - 1, 1)) / state.theta[n];
  state.kind.fill(2, n);
  for (let i = n + 1; i < c.influence.size; i++) {
    const h = (state.displacement[i - 1] - wakeGap(c, i - 1)) / state.theta[i - 1];
    const dx = c.wake.s[i - n] - c.wake.s[i - 1 - n];
    const start = (): void => {
      takeFrom(state, i - 1, i, Math.max(0.05, c.inviscid[i]));
      state.displacement[i] += wakeGap(c, i) - wakeGap(c, i - 1);
    };
    const target = Math.max(1.02, 1 + (h - 1) * Math.exp((-TURBULENT_DECAY * dx) / state.theta[i - 1]));
    const here = () => lineariseWake(c, state, local, i, at);
    if (!directOrInverse(c, state, local, i, start, { limit: TURBULENT_LIMIT, target }, here)) start();
  }
}
