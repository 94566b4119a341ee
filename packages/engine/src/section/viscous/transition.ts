import { INITIAL_SHEAR } from './closure.js';
import { intervalResidual } from './interval.js';
import { ridgeLoss } from './ridge.js';
import { DRIVE, fillStation, LAMINAR, RECORD, TURBULENT } from './station.js';

/** What makes a side turbulent: amplification, a trip, and jumps of amplification at surface steps. Distances are from the stagnation point. */
export interface TransitionRule {
  /** Logarithm of amplitude at which the layer becomes turbulent. */
  readonly critical: number;
  /** Distance of a trip, Infinity where there is none. */
  readonly trip: number;
  /** How far the trip stands up / chord: it takes momentum from the layer. */
  readonly tripHeight: number;
  /** Its drag coefficient on the mean pressure of the flow over its height. */
  readonly tripDrag: number;
  /** Surface steps: where, by how much each raises the logarithm of amplitude, and over what length. */
  readonly steps: readonly { readonly distance: number; readonly growth: number; readonly length: number }[];
}

/** Growth that surface steps have added up to a distance. */
function addedGrowth(rule: TransitionRule, distance: number): number {
  let sum = 0;
  for (const step of rule.steps) {
    const t = Math.min(1, Math.max(0, (distance - step.distance) / step.length));
    sum += step.growth * t * t * (3 - 2 * t);
  }
  return sum;
}

/** Growth by surface steps between two distances. */
export const growthBetween = (rule: TransitionRule, from: number, to: number): number =>
  rule.steps.length === 0 ? 0 : addedGrowth(rule, to) - addedGrowth(rule, from);

/** Scratch of one solver: records and residuals of the two parts of an interval in which the layer becomes turbulent. */
export interface TransitionScratch {
  readonly records: Float64Array;
  readonly parts: Float64Array;
}
export const transitionScratch = (): TransitionScratch => ({
  records: new Float64Array(4 * RECORD),
  parts: new Float64Array(6),
});

/**
 * Where between two stations the layer becomes turbulent, as fraction of the interval; above 1 where it does not.
 * v - [s1, theta1, displacement1, u1, s2, theta2, displacement2, u2, x1, x2], s1 the logarithm of amplitude
 */
export function transitionFraction(
  v: Float64Array,
  reynolds: number,
  rule: TransitionRule,
  scratch: TransitionScratch,
): number {
  const x1 = v[8];
  const dx = v[9] - x1;
  const r = scratch.records;
  fillStation(LAMINAR, v[1], v[2], v[3], 0, 0, reynolds, r, 0);
  const rate = r[DRIVE];
  // The far end may already be turbulent, with a fuller profile; growth is therefore never taken below that of the near end.
  const excess = (f: number): number => {
    const theta = v[1] + f * (v[5] - v[1]);
    fillStation(LAMINAR, theta, v[2] + f * (v[6] - v[2]), v[3] + f * (v[7] - v[3]), 0, 0, reynolds, r, RECORD);
    return (
      v[0] +
      0.5 * f * dx * (rate + Math.max(rate, r[RECORD + DRIVE])) +
      growthBetween(rule, x1, x1 + f * dx) -
      rule.critical
    );
  };
  const natural = firstCrossing(excess, v[0] - rule.critical);
  return Math.min(natural, forcedFraction(v, rule));
}

/** Fraction of an interval at which its trip stands; 0 where the trip lies before it. */
const forcedFraction = (v: Float64Array, rule: TransitionRule): number =>
  Math.max(0, (rule.trip - v[8]) / (v[9] - v[8]));

/** First fraction at which a function passes zero upwards, or 2. atZero - its value at 0 */
function firstCrossing(excess: (f: number) => number, atZero: number): number {
  if (atZero >= 0) return 0;
  let low = 0;
  let below = atZero;
  for (let k = 1; k <= 3; k++) {
    const f = k / 3;
    const value = excess(f);
    if (value >= 0) return refine(excess, low, below, f, value);
    low = f;
    below = value;
  }
  return 2;
}

/** Root between two fractions by the secant that keeps its bracket (Illinois rule). */
function refine(excess: (f: number) => number, low: number, below: number, high: number, above: number): number {
  let [a, fa, b, fb] = [low, below, high, above];
  for (let i = 0; i < 40 && b - a > 1e-14; i++) {
    const f = a - (fa * (b - a)) / (fb - fa);
    const value = excess(f);
    if (Math.abs(value) < 1e-13) return f;
    if (value < 0) {
      a = f;
      fa = value;
      fb *= 0.5;
    } else {
      b = f;
      fb = value;
      fa *= 0.5;
    }
  }
  return a - (fa * (b - a)) / (fb - fa);
}

/** Momentum thickness just ahead of a ridge in an interval, and how many times that it is behind: both shares of the interval grow evenly. */
function aroundRidge(v: Float64Array, f: number, ridge: TransitionRule | undefined): readonly [number, number] {
  if (ridge === undefined) return [v[1] + f * (v[5] - v[1]), 1];
  const loss = ridgeLoss(ridge.tripHeight, v[1], ridge.tripDrag);
  const own = v[1] * (1 - f);
  const b = loss - own - f * v[5];
  const theta = 0.5 * (Math.sqrt(b * b + 4 * own * loss) - b);
  return [theta, 1 + loss / theta];
}

/**
 * Residuals of an interval in which the layer becomes turbulent at a fraction: laminar up to there, turbulent behind; momentum and
 * energy are the sums of both parts.
 * v - as in `transitionFraction`, s2 the root of the shear stress; rule - of its side; out, to - three residuals
 */
export function transitionResidual(
  v: Float64Array,
  fraction: number,
  reynolds: number,
  rule: TransitionRule,
  scratch: TransitionScratch,
  out: Float64Array,
  to: number,
): void {
  // Held off both ends: neither part may vanish.
  const f = Math.min(1 - 1e-4, Math.max(1e-4, fraction));
  const x1 = v[8];
  const x2 = v[9];
  const x = x1 + f * (x2 - x1);
  const isTripped = rule.tripHeight > 0 && fraction === forcedFraction(v, rule);
  const [theta, ratio] = aroundRidge(v, f, isTripped ? rule : undefined);
  const displacement = v[2] + f * (v[6] / ratio - v[2]);
  const u = v[3] + f * (v[7] - v[3]);
  const r = scratch.records;
  const p = scratch.parts;
  const behind = ratio * theta;
  fillStation(LAMINAR, v[1], v[2], v[3], 0, 0, reynolds, r, 0);
  fillStation(LAMINAR, theta, displacement, u, 0, 0, reynolds, r, RECORD);
  fillStation(TURBULENT, behind, ratio * displacement, u, 0, 0, reynolds, r, 2 * RECORD);
  const root = INITIAL_SHEAR * r[2 * RECORD + DRIVE];
  fillStation(TURBULENT, behind, ratio * displacement, u, root, 0, reynolds, r, 2 * RECORD);
  fillStation(TURBULENT, v[5], v[6], v[7], v[4], 0, reynolds, r, 3 * RECORD);
  intervalResidual(LAMINAR, r, 0, r, RECORD, v[1], theta, v[3], u, v[0], 0, x1, x, p, 0);
  intervalResidual(TURBULENT, r, 2 * RECORD, r, 3 * RECORD, behind, v[5], u, v[7], root, v[4], x, x2, p, 3);
  out[to] = p[0] + p[3];
  out[to + 1] = p[1] + p[4];
  out[to + 2] = p[5];
}
