import { intervalIndex } from '../../math/interpolate.js';
import { factorLu, solveLu } from '../../math/linear.js';
import { leadingEdgeIndex } from '../outline.js';
import { cubicAt, splineSeconds } from './mesh.js';

/** Outline of a model as it was made: its designed outline with what measurement found beside it, smoothed. Chord 1. */
export interface BuiltOutline {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Scatter of the measured points about it (root mean square), upper and lower surface. */
  readonly scatter: readonly [number, number];
  /** Terms of the smooth deviation, upper and lower surface. */
  readonly terms: readonly [number, number];
  /** Thickness of the trailing edge. */
  readonly tailGap: number;
}

/** Fewest and most terms of the deviation of a surface. */
const FEWEST = 3;
const MOST = 10;
/** Measured points nearer than this to either end are left out: there a probe rounds the corner. */
const NEAR_NOSE = 0.004;
const NEAR_TAIL = 0.992;

interface Points {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Both surfaces from the nose to the trailing edge. */
function surfaces({ x, y }: Points): readonly [Points, Points] {
  const nose = leadingEdgeIndex(x, y);
  return [
    { x: x.slice(0, nose + 1).reverse(), y: y.slice(0, nose + 1).reverse() },
    { x: x.slice(nose), y: y.slice(nose) },
  ];
}

/** Ordinate of a surface over the root of the chord station, in which a round nose is smooth. */
function ordinateOver({ x, y }: Points): (station: number) => number {
  const t: number[] = [];
  const v: number[] = [];
  x.forEach((station, i) => {
    const root = Math.sqrt(Math.max(0, station));
    if (t.length > 0 && root <= t[t.length - 1] + 1e-6) return;
    t.push(root);
    v.push(y[i]);
  });
  const seconds = splineSeconds(t, v);
  return (station) => {
    const root = Math.sqrt(Math.max(0, station));
    return cubicAt(t, v, seconds, intervalIndex(t, root), root);
  };
}

/** Terms of the deviation at a station: Chebyshev polynomials of the root of the station, zero at the nose. */
function termsAt(station: number, count: number): Float64Array {
  const root = Math.sqrt(Math.max(0, station));
  const z = 2 * root - 1;
  const out = new Float64Array(count);
  let [before, here] = [1, z];
  for (let k = 0; k < count; k++) {
    out[k] = root * (k === 0 ? 1 : here);
    if (k > 0) [before, here] = [here, 2 * z * here - before];
  }
  return out;
}

interface Deviation {
  readonly terms: number;
  readonly scatter: number;
  readonly at: (station: number) => number;
}

/** Least squares with a given number of terms; undefined where the points do not decide it. */
function fitWith(stations: readonly number[], offsets: readonly number[], terms: number): Deviation | undefined {
  const matrix = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  const rows = stations.map((station) => termsAt(station, terms));
  rows.forEach((row, p) => {
    for (let i = 0; i < terms; i++) {
      right[i] += row[i] * offsets[p];
      for (let j = 0; j < terms; j++) matrix[i * terms + j] += row[i] * row[j];
    }
  });
  const lu = factorLu(matrix, terms);
  if (!lu.ok) return undefined;
  const weights = solveLu(lu.value, right);
  const sum = (row: Float64Array): number => row.reduce((total, value, i) => total + value * weights[i], 0);
  const square = rows.reduce((total, row, p) => total + (offsets[p] - sum(row)) ** 2, 0);
  return {
    terms,
    scatter: Math.sqrt(square / stations.length),
    at: (station) => sum(termsAt(station, terms)),
  };
}

/**
 * Smooth deviation of a surface: the fewest terms whose score by generalised cross-validation lies within one standard error of the best.
 * Source: P. Craven, G. Wahba, Numerische Mathematik 31, 1979 (score); L. Breiman, J. Friedman, R. Olshen, C. Stone, Classification and
 * Regression Trees, 1984 (one standard error).
 */
function deviationOf(design: Points, measured: Points): Deviation {
  const shape = ordinateOver(design);
  const used = measured.x.flatMap((x, i) => (x > NEAR_NOSE && x < NEAR_TAIL ? [i] : []));
  if (used.length < 2 * MOST) throw new RangeError('builtOutline: twenty measured points on each surface are needed');
  const stations = used.map((i) => measured.x[i]);
  const offsets = used.map((i) => measured.y[i] - shape(measured.x[i]));
  const fits: Deviation[] = [];
  for (let terms = FEWEST; terms <= MOST; terms++) {
    const fit = fitWith(stations, offsets, terms);
    if (fit !== undefined) fits.push(fit);
  }
  const score = (fit: Deviation): number => fit.scatter / (1 - fit.terms / used.length);
  const most = Math.min(...fits.map(score)) * (1 + 1 / Math.sqrt(2 * used.length));
  const chosen = fits.find((fit) => score(fit) <= most);
  if (chosen === undefined) throw new RangeError('builtOutline: the measured points do not decide the deviation');
  return chosen;
}

/**
 * Outline of a model as built, smooth enough for a boundary layer: points of a measured outline scatter by one or two hundredths of a per
 * cent of the chord, which trips a computed laminar layer, while what a model really differs by is smooth.
 * design, measured - outlines / chord, trailing edge over the upper surface to the nose and back below, in the same frame
 * Throws where a surface has fewer than twenty measured points.
 */
export function builtOutline(design: Points, measured: Points): BuiltOutline {
  const [upper, lower] = surfaces(design);
  const [measuredUpper, measuredLower] = surfaces(measured);
  const above = deviationOf(upper, measuredUpper);
  const below = deviationOf(lower, measuredLower);
  const x = [...upper.x].reverse().concat(lower.x.slice(1));
  const y = upper.x
    .map((station, i) => upper.y[i] + above.at(station))
    .reverse()
    .concat(lower.x.slice(1).map((station, i) => lower.y[i + 1] + below.at(station)));
  return {
    x,
    y,
    scatter: [above.scatter, below.scatter],
    terms: [above.terms, below.terms],
    tailGap: y[0] - y[y.length - 1],
  };
}
