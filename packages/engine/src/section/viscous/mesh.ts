import { type Outcome, problem, success } from '../../result.js';

/**
 * Surface nodes of a section, from the trailing edge over the upper surface to the nose and back below (anticlockwise): the fluid lies
 * to the right of the way. Chord 1, x aft, y up.
 */
export interface SectionMesh {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Length along the surface from node 0. */
  readonly s: Float64Array;
  /** Unit direction downstream that halves the angle between the two surfaces at the trailing edge. */
  readonly tailX: number;
  readonly tailY: number;
  /** Thickness of the trailing edge square to that direction; 0 where it counts as sharp. */
  readonly tailGap: number;
  /** Node farthest forward. */
  readonly nose: number;
}

/** A trailing edge thinner than this counts as sharp. */
const SHARP_GAP = 2e-5;

/** Natural cubic spline: second derivatives at the knots. */
export function splineSeconds(s: ArrayLike<number>, v: ArrayLike<number>): Float64Array {
  const n = s.length;
  const second = new Float64Array(n);
  const upper = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    const a = s[i] - s[i - 1];
    const b = s[i + 1] - s[i];
    const pivot = 2 * (a + b) - a * upper[i - 1];
    upper[i] = b / pivot;
    second[i] = (6 * ((v[i + 1] - v[i]) / b - (v[i] - v[i - 1]) / a) - a * second[i - 1]) / pivot;
  }
  for (let i = n - 2; i > 0; i--) second[i] -= upper[i] * second[i + 1];
  return second;
}

/** Closed-form curve through outline points, by arc length. */
interface Curve {
  readonly s: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xx: Float64Array;
  readonly yy: Float64Array;
}

function curveThrough(x: readonly number[], y: readonly number[]): Curve {
  const keepX = [x[0]];
  const keepY = [y[0]];
  const s = [0];
  for (let i = 1; i < x.length; i++) {
    const step = Math.hypot(x[i] - keepX[keepX.length - 1], y[i] - keepY[keepY.length - 1]);
    if (step < 1e-7) continue;
    keepX.push(x[i]);
    keepY.push(y[i]);
    s.push(s[s.length - 1] + step);
  }
  return {
    s: Float64Array.from(s),
    x: Float64Array.from(keepX),
    y: Float64Array.from(keepY),
    xx: splineSeconds(s, keepX),
    yy: splineSeconds(s, keepY),
  };
}

/** Cubic spline in the interval from knot i. s - knots; v, vv - values and second derivatives there */
export const cubicAt = (
  s: ArrayLike<number>,
  v: ArrayLike<number>,
  vv: ArrayLike<number>,
  i: number,
  at: number,
): number => {
  const h = s[i + 1] - s[i];
  const b = (at - s[i]) / h;
  const a = 1 - b;
  return a * v[i] + b * v[i + 1] + (((a * a * a - a) * vv[i] + (b * b * b - b) * vv[i + 1]) * h * h) / 6;
};

const slopeAt = (c: Curve, v: Float64Array, vv: Float64Array, i: number, at: number): number => {
  const h = c.s[i + 1] - c.s[i];
  const b = (at - c.s[i]) / h;
  const a = 1 - b;
  return (v[i + 1] - v[i]) / h + ((-(3 * a * a - 1) * vv[i] + (3 * b * b - 1) * vv[i + 1]) * h) / 6;
};

/** Curvature of the curve, smoothed over about one per cent of chord so that rounded coordinates do not scatter nodes. */
function smoothCurvature(c: Curve, samples: number): { readonly at: Float64Array; readonly curvature: Float64Array } {
  const length = c.s[c.s.length - 1];
  const at = new Float64Array(samples + 1);
  const raw = new Float64Array(samples + 1);
  let i = 0;
  for (let k = 0; k <= samples; k++) {
    at[k] = (length * k) / samples;
    while (i < c.s.length - 2 && c.s[i + 1] < at[k]) i++;
    const h = c.s[i + 1] - c.s[i];
    const b = (at[k] - c.s[i]) / h;
    const dx = slopeAt(c, c.x, c.xx, i, at[k]);
    const dy = slopeAt(c, c.y, c.yy, i, at[k]);
    const ddx = (1 - b) * c.xx[i] + b * c.xx[i + 1];
    const ddy = (1 - b) * c.yy[i] + b * c.yy[i + 1];
    raw[k] = Math.abs(dx * ddy - dy * ddx) / Math.max(1e-12, Math.hypot(dx, dy) ** 3);
  }
  // Diffusion with implicit steps keeps the sum and spreads peaks.
  const width = 0.004 / (length / samples);
  const curvature = raw;
  const share = new Float64Array(samples + 1);
  for (let pass = 0; pass < 2; pass++) {
    const k2 = width * width;
    let pivot = 1 + k2;
    share[0] = k2 / pivot;
    curvature[0] /= pivot;
    for (let k = 1; k <= samples; k++) {
      const last = k === samples;
      pivot = 1 + (last ? k2 : 2 * k2) - k2 * share[k - 1];
      share[k] = last ? 0 : k2 / pivot;
      curvature[k] = (curvature[k] + k2 * curvature[k - 1]) / pivot;
    }
    for (let k = samples - 1; k >= 0; k--) curvature[k] += share[k] * curvature[k + 1];
  }
  return { at, curvature };
}

/** Node density along the surface: even, denser with the root of curvature and near the trailing edge. */
function nodeStations(c: Curve, count: number): Float64Array {
  const samples = 3000;
  const { at, curvature } = smoothCurvature(c, samples);
  const length = at[samples];
  const total = new Float64Array(samples + 1);
  let before = 0;
  for (let k = 0; k <= samples; k++) {
    const tail = Math.min(at[k], length - at[k]);
    const density = 1 + 0.45 * Math.sqrt(curvature[k]) + 1.5 * Math.exp(-tail / 0.025);
    if (k > 0) total[k] = total[k - 1] + 0.5 * (before + density) * (at[k] - at[k - 1]);
    before = density;
  }
  const stations = new Float64Array(count);
  let k = 0;
  for (let i = 0; i < count; i++) {
    const want = (total[samples] * i) / (count - 1);
    while (k < samples - 1 && total[k + 1] < want) k++;
    const t = (want - total[k]) / (total[k + 1] - total[k]);
    stations[i] = at[k] + t * (at[k + 1] - at[k]);
  }
  stations[count - 1] = length;
  return stations;
}

/** Unit tangent of the first or last interval, pointing downstream. */
function tailDirection(x: Float64Array, y: Float64Array): readonly [number, number] {
  const n = x.length;
  const la = Math.hypot(x[0] - x[1], y[0] - y[1]);
  const lb = Math.hypot(x[n - 1] - x[n - 2], y[n - 1] - y[n - 2]);
  const tx = (x[0] - x[1]) / la + (x[n - 1] - x[n - 2]) / lb;
  const ty = (y[0] - y[1]) / la + (y[n - 1] - y[n - 2]) / lb;
  const l = Math.hypot(tx, ty);
  return [tx / l, ty / l];
}

/** Mesh of nodes that are already where they should be, trailing edge, upper surface, nose, lower surface. */
export function meshOfNodes(x: Float64Array, y: Float64Array): SectionMesh {
  const count = x.length;
  const s = new Float64Array(count);
  let nose = 0;
  for (let i = 1; i < count; i++) {
    s[i] = s[i - 1] + Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    if (x[i] < x[nose]) nose = i;
  }
  const [tailX, tailY] = tailDirection(x, y);
  const gap = Math.abs((x[0] - x[count - 1]) * tailY - (y[0] - y[count - 1]) * tailX);
  return { count, x, y, s, tailX, tailY, tailGap: gap < SHARP_GAP ? 0 : gap, nose };
}

/**
 * Surface nodes spread over an outline by its curvature.
 *
 * x, y - outline / chord, trailing edge over the upper surface to the nose and back below [-]
 * count - nodes [-], 40 to 400
 * Returns the mesh, or why the outline cannot carry one.
 */
export function sectionMesh(x: readonly number[], y: readonly number[], count = 140): Outcome<SectionMesh> {
  if (x.length !== y.length) throw new RangeError('sectionMesh: as many ordinates as stations are needed');
  const refuse = (reason: string) =>
    problem({ code: 'section.mesh', reason, where: 'outline', remedy: 'give a round section with at least 15 points' });
  if (x.length < 15 || !x.every(Number.isFinite) || !y.every(Number.isFinite)) {
    return refuse('the outline has too few points');
  }
  const curve = curveThrough(x, y);
  if (curve.s.length < 15) return refuse('the outline has too few points that differ');
  const stations = nodeStations(curve, Math.max(40, Math.min(400, Math.round(count))));
  const xs = new Float64Array(stations.length);
  const ys = new Float64Array(stations.length);
  let k = 0;
  for (let i = 0; i < stations.length; i++) {
    while (k < curve.s.length - 2 && curve.s[k + 1] < stations[i]) k++;
    xs[i] = cubicAt(curve.s, curve.x, curve.xx, k, stations[i]);
    ys[i] = cubicAt(curve.s, curve.y, curve.yy, k, stations[i]);
  }
  return success(meshOfNodes(xs, ys));
}
