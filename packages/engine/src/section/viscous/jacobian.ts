import { INITIAL_SHEAR, laminarDissipation, laminarFriction } from './closure.js';
import { intervalResidual } from './interval.js';
import {
  distanceOf,
  kindAt,
  type LayerState,
  ruleOf,
  sideNodes,
  stagnationLength,
  type ViscousCase,
  wakeGap,
} from './layer.js';
import { DRIVE, fillStation, LAMINAR, type LayerKind, RECORD, TURBULENT, WAKE } from './station.js';
import {
  growthBetween,
  type TransitionRule,
  type TransitionScratch,
  transitionFraction,
  transitionResidual,
  transitionScratch,
} from './transition.js';

/** Numbers kept for each station: three residuals, then derivatives by [third, theta, displacement, speed] upstream and downstream, then by the distance. */
export const LOCAL = 3 + 3 * 8 + 3;
export const UPSTREAM = 3;
export const DOWNSTREAM = 15;
export const BY_DISTANCE = 27;

/** Relative step of the derivatives. */
const STEP = 1e-6;

/** Variants of a station's record: as it is, then with third, theta, displacement, speed a little larger. */
const VARIANTS = 5;

/** Local equations of all stations, linearised. */
export interface LocalSystem {
  readonly rows: Float64Array;
  /** Derivatives of the first wake station by the lower trailing edge, [3][third, theta, displacement, speed]. */
  readonly fromLower: Float64Array;
  readonly records: Float64Array;
  readonly scratch: TransitionScratch;
  readonly vector: Float64Array;
  readonly trial: Float64Array;
}

export const localSystem = (size: number): LocalSystem => ({
  rows: new Float64Array(size * LOCAL),
  fromLower: new Float64Array(12),
  records: new Float64Array(size * VARIANTS * RECORD),
  scratch: transitionScratch(),
  vector: new Float64Array(10),
  trial: new Float64Array(3),
});

/** Step of the third quantity: an amplitude may be zero. */
const thirdStep = (third: number): number => STEP * Math.max(0.01, Math.abs(third));

function fillVariants(c: ViscousCase, state: LayerState, local: LocalSystem, i: number, kind: LayerKind): void {
  const r = local.records;
  const at = i * VARIANTS * RECORD;
  const t = state.theta[i];
  const d = state.displacement[i];
  const u = state.speed[i];
  const s = state.third[i];
  const gap = wakeGap(c, i);
  fillStation(kind, t, d, u, s, gap, c.reynolds, r, at);
  fillStation(kind, t, d, u, s + thirdStep(s), gap, c.reynolds, r, at + RECORD);
  fillStation(kind, t * (1 + STEP), d, u, s, gap, c.reynolds, r, at + 2 * RECORD);
  fillStation(kind, t, d * (1 + STEP), u, s, gap, c.reynolds, r, at + 3 * RECORD);
  fillStation(kind, t, d, u * (1 + STEP), s, gap, c.reynolds, r, at + 4 * RECORD);
}

/** Stores (trial - base) / step as column of derivatives. */
function column(rows: Float64Array, base: number, to: number, trial: Float64Array, step: number): void {
  for (let r = 0; r < 3; r++) rows[to + 4 * r] = (trial[r] - rows[base + r]) / step;
}

/** Interval of one kind of layer. */
function plainInterval(
  state: LayerState,
  local: LocalSystem,
  p: number,
  i: number,
  kind: LayerKind,
  x1: number,
  x2: number,
  growth: number,
): void {
  const { rows, records, trial } = local;
  const base = i * LOCAL;
  const a = p * VARIANTS * RECORD;
  const b = i * VARIANTS * RECORD;
  const [t1, u1, s1] = [state.theta[p], state.speed[p], state.third[p]];
  const [t2, u2, s2] = [state.theta[i], state.speed[i], state.third[i]];
  const d1 = state.displacement[p];
  const d2 = state.displacement[i];
  intervalResidual(kind, records, a, records, b, t1, t2, u1, u2, s1, s2, x1, x2, rows, base);
  const up = base + UPSTREAM;
  const down = base + DOWNSTREAM;
  const h1 = thirdStep(s1);
  const h2 = thirdStep(s2);
  intervalResidual(kind, records, a + RECORD, records, b, t1, t2, u1, u2, s1 + h1, s2, x1, x2, trial, 0);
  column(rows, base, up, trial, h1);
  intervalResidual(kind, records, a + 2 * RECORD, records, b, t1 * (1 + STEP), t2, u1, u2, s1, s2, x1, x2, trial, 0);
  column(rows, base, up + 1, trial, t1 * STEP);
  intervalResidual(kind, records, a + 3 * RECORD, records, b, t1, t2, u1, u2, s1, s2, x1, x2, trial, 0);
  column(rows, base, up + 2, trial, d1 * STEP);
  intervalResidual(kind, records, a + 4 * RECORD, records, b, t1, t2, u1 * (1 + STEP), u2, s1, s2, x1, x2, trial, 0);
  column(rows, base, up + 3, trial, u1 * STEP);
  intervalResidual(kind, records, a, records, b + RECORD, t1, t2, u1, u2, s1, s2 + h2, x1, x2, trial, 0);
  column(rows, base, down, trial, h2);
  intervalResidual(kind, records, a, records, b + 2 * RECORD, t1, t2 * (1 + STEP), u1, u2, s1, s2, x1, x2, trial, 0);
  column(rows, base, down + 1, trial, t2 * STEP);
  intervalResidual(kind, records, a, records, b + 3 * RECORD, t1, t2, u1, u2, s1, s2, x1, x2, trial, 0);
  column(rows, base, down + 2, trial, d2 * STEP);
  intervalResidual(kind, records, a, records, b + 4 * RECORD, t1, t2, u1, u2 * (1 + STEP), s1, s2, x1, x2, trial, 0);
  column(rows, base, down + 3, trial, u2 * STEP);
  const h = STEP * x1;
  intervalResidual(kind, records, a, records, b, t1, t2, u1, u2, s1, s2, x1 + h, x2 + h, trial, 0);
  for (let r = 0; r < 3; r++) rows[base + BY_DISTANCE + r] = kind === WAKE ? 0 : (trial[r] - rows[base + r]) / h;
  rows[base + 2] -= growth;
}

/** Interval in which the layer becomes turbulent. */
function transitionInterval(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  p: number,
  i: number,
  x1: number,
  x2: number,
  rule: TransitionRule,
): void {
  const { rows, vector: v, trial } = local;
  const base = i * LOCAL;
  v[0] = state.third[p];
  v[1] = state.theta[p];
  v[2] = state.displacement[p];
  v[3] = state.speed[p];
  v[4] = state.third[i];
  v[5] = state.theta[i];
  v[6] = state.displacement[i];
  v[7] = state.speed[i];
  v[8] = x1;
  v[9] = x2;
  const residual = (out: Float64Array, to: number): void => {
    const fraction = transitionFraction(v, c.reynolds, rule, local.scratch);
    transitionResidual(v, fraction, c.reynolds, rule, local.scratch, out, to);
  };
  residual(rows, base);
  for (let k = 0; k < 8; k++) {
    const kept = v[k];
    const step = k % 4 === 0 ? thirdStep(kept) : STEP * kept;
    v[k] = kept + step;
    residual(trial, 0);
    column(rows, base, base + (k < 4 ? UPSTREAM + k : DOWNSTREAM + k - 4), trial, step);
    v[k] = kept;
  }
  const h = STEP * x1;
  v[8] = x1 + h;
  v[9] = x2 + h;
  residual(trial, 0);
  for (let r = 0; r < 3; r++) rows[base + BY_DISTANCE + r] = (trial[r] - rows[base + r]) / h;
}

/** Shape factor of the layer that starts at a stagnation point, by this closure; and its momentum thickness squared x du/dx / viscosity. */
export const STAGNATION = ((): { readonly shape: number; readonly growth: number } => {
  // Similar flow with u = k x: friction = (H + 2) m, friction - dissipation = (H - 1) m.
  let low = 2.1;
  let high = 2.5;
  for (let k = 0; k < 60; k++) {
    const h = 0.5 * (low + high);
    if (laminarFriction(h) > ((h + 2) * laminarDissipation(h)) / 3) low = h;
    else high = h;
  }
  const shape = 0.5 * (low + high);
  return { shape, growth: laminarDissipation(shape) / 3 };
})();

/** Station next to the stagnation point: a similar layer. */
function firstStation(c: ViscousCase, state: LayerState, local: LocalSystem, i: number, x: number): void {
  const { rows } = local;
  const base = i * LOCAL;
  rows.fill(0, base, base + LOCAL);
  const [t, d, u] = [state.theta[i], state.displacement[i], state.speed[i]];
  rows[base] = Math.log((t * t * u * c.reynolds) / (x * STAGNATION.growth));
  rows[base + DOWNSTREAM + 1] = 2 / t;
  rows[base + DOWNSTREAM + 3] = 1 / u;
  rows[base + BY_DISTANCE] = -1 / x;
  rows[base + 1] = d / t / STAGNATION.shape - 1;
  rows[base + DOWNSTREAM + 4 + 1] = -d / (t * t * STAGNATION.shape);
  rows[base + DOWNSTREAM + 4 + 2] = 1 / (t * STAGNATION.shape);
  rows[base + 2] = state.third[i];
  rows[base + DOWNSTREAM + 8] = 1;
}

/** Root of the shear stress with which a trailing-edge node enters the wake; a laminar one becomes turbulent there. */
function rootAtTail(
  c: ViscousCase,
  kind: number,
  third: number,
  t: number,
  d: number,
  u: number,
  local: LocalSystem,
): number {
  if (kind !== LAMINAR) return third;
  fillStation(TURBULENT, t, d, u, 0, 0, c.reynolds, local.scratch.records, 0);
  return INITIAL_SHEAR * local.scratch.records[DRIVE];
}

/** First station of the wake: both layers and the dead fluid of an open trailing edge together. */
function firstWakeStation(c: ViscousCase, state: LayerState, local: LocalSystem): void {
  const { rows, fromLower, trial } = local;
  const n = c.mesh.count;
  const base = n * LOCAL;
  const kinds = [kindAt(c, state, 0), kindAt(c, state, n - 1)];
  const v = local.vector;
  const nodes = [0, n - 1, n];
  const load = (k: number): void => {
    for (let m = 0; m < 3; m++) {
      v[3 * m] = state.third[nodes[m]];
      v[3 * m + 1] = state.theta[nodes[m]];
      v[3 * m + 2] = state.displacement[nodes[m]];
    }
    v[9] = k;
  };
  const residual = (out: Float64Array, to: number): void => {
    const theta = v[1] + v[4];
    const a = rootAtTail(c, kinds[0], v[0], v[1], v[2], state.speed[0], local);
    const b = rootAtTail(c, kinds[1], v[3], v[4], v[5], state.speed[n - 1], local);
    out[to] = Math.log(v[7] / theta);
    out[to + 1] = (v[8] - v[2] - v[5] - c.mesh.tailGap) / state.displacement[n];
    out[to + 2] = 2 * Math.log(v[6] / ((v[1] * a + v[4] * b) / theta));
  };
  rows.fill(0, base, base + LOCAL);
  fromLower.fill(0);
  load(0);
  residual(rows, base);
  for (let k = 0; k < 9; k++) {
    const kept = v[k];
    const step = k % 3 === 0 ? thirdStep(kept) : STEP * kept;
    v[k] = kept + step;
    residual(trial, 0);
    v[k] = kept;
    const target = k < 3 ? base + UPSTREAM + k : base + DOWNSTREAM + k - 6;
    if (k >= 3 && k < 6) for (let r = 0; r < 3; r++) fromLower[4 * r + k - 3] = (trial[r] - rows[base + r]) / step;
    else column(rows, base, target, trial, step);
  }
}

/** Linearises the equations of one surface station; `before` is the station upstream of it. */
export function lineariseStation(
  c: ViscousCase,
  state: LayerState,
  local: LocalSystem,
  side: 0 | 1,
  i: number,
  at: number,
  rule: TransitionRule,
): void {
  const [first, , step] = sideNodes(c, state, side);
  const kind = kindAt(c, state, i);
  fillVariants(c, state, local, i, kind);
  const x = distanceOf(c, state, at, i);
  if (i === first) {
    firstStation(c, state, local, i, x);
    return;
  }
  const p = i - step;
  const before = distanceOf(c, state, at, p);
  if (i === state.turbulentFrom[side]) transitionInterval(c, state, local, p, i, before, x, rule);
  else plainInterval(state, local, p, i, kind, before, x, kind === LAMINAR ? growthBetween(rule, before, x) : 0);
}

/** Linearises the equations of one station of the wake. */
export function lineariseWake(c: ViscousCase, state: LayerState, local: LocalSystem, i: number, at: number): void {
  fillVariants(c, state, local, i, WAKE);
  if (i === c.mesh.count) firstWakeStation(c, state, local);
  else plainInterval(state, local, i - 1, i, WAKE, distanceOf(c, state, at, i - 1), distanceOf(c, state, at, i), 0);
}

/** Residuals and derivatives of all stations at a state. */
export function linearise(c: ViscousCase, state: LayerState, local: LocalSystem): void {
  const at = stagnationLength(c, state);
  for (const side of [0, 1] as const) {
    const [first, last, step] = sideNodes(c, state, side);
    const rule = ruleOf(c, at, side);
    for (let i = first; ; i += step) {
      lineariseStation(c, state, local, side, i, at, rule);
      if (i === last) break;
    }
  }
  for (let i = c.mesh.count; i < c.influence.size; i++) lineariseWake(c, state, local, i, at);
}
