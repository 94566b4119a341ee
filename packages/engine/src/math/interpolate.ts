/**
 * Index i of the interval [xs[i], xs[i + 1]] that holds x, clamped to the first and last interval.
 * @param xs - increasing abscissae, at least two
 */
export function intervalIndex(xs: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle] <= x) low = middle;
    else high = middle;
  }
  return low;
}

/** Piecewise-linear interpolation; constant beyond the ends. */
export function interpolateLinear(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  const last = xs.length - 1;
  if (x <= xs[0]) return ys[0];
  if (x >= xs[last]) return ys[last];
  const i = intervalIndex(xs, x);
  const t = (x - xs[i]) / (xs[i + 1] - xs[i]);
  return ys[i] + t * (ys[i + 1] - ys[i]);
}

/** A cubic through data that keeps their monotony: no overshoot between points. */
export interface MonotoneCubic {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Slopes at the points. */
  readonly slopes: Float64Array;
}

/**
 * Monotone piecewise-cubic interpolant.
 *
 * @param xs - strictly increasing abscissae, at least two
 * @param ys - ordinates
 * @throws RangeError when the abscissae do not increase
 *
 * Source: F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17, 1980;
 * slopes as weighted harmonic means (Fritsch & Butland 1984).
 */
export function monotoneCubic(xs: ArrayLike<number>, ys: ArrayLike<number>): MonotoneCubic {
  const n = xs.length;
  if (n < 2 || ys.length !== n) throw new RangeError('at least two points with as many ordinates are needed');
  const h = new Float64Array(n - 1);
  const d = new Float64Array(n - 1);
  for (let i = 0; i < n - 1; i++) {
    h[i] = xs[i + 1] - xs[i];
    if (!(h[i] > 0)) throw new RangeError(`abscissae must increase (at index ${i + 1})`);
    d[i] = (ys[i + 1] - ys[i]) / h[i];
  }
  const slopes = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    if (d[i - 1] * d[i] > 0) {
      const w1 = 2 * h[i] + h[i - 1];
      const w2 = h[i] + 2 * h[i - 1];
      slopes[i] = (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
    }
  }
  slopes[0] = n === 2 ? d[0] : endSlope(h[0], h[1], d[0], d[1]);
  slopes[n - 1] = n === 2 ? d[0] : endSlope(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
  return { xs: Float64Array.from(xs), ys: Float64Array.from(ys), slopes };
}

/** One-sided three-point slope, limited so that the end interval stays monotone. */
function endSlope(h0: number, h1: number, d0: number, d1: number): number {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  if (d0 * d1 < 0 && Math.abs(slope) > 3 * Math.abs(d0)) return 3 * d0;
  return slope;
}

/** Value of a monotone cubic; constant beyond the ends. */
export function evaluateMonotoneCubic(cubic: MonotoneCubic, x: number): number {
  const { xs, ys, slopes } = cubic;
  const last = xs.length - 1;
  if (x <= xs[0]) return ys[0];
  if (x >= xs[last]) return ys[last];
  const i = intervalIndex(xs, x);
  const h = xs[i + 1] - xs[i];
  const t = (x - xs[i]) / h;
  const s = 1 - t;
  return (
    ys[i] * (1 + 2 * t) * s * s +
    slopes[i] * h * t * s * s +
    ys[i + 1] * t * t * (3 - 2 * t) -
    slopes[i + 1] * h * t * t * s
  );
}

/** Derivative of a monotone cubic; zero beyond the ends. */
export function monotoneCubicSlope(cubic: MonotoneCubic, x: number): number {
  const { xs, ys, slopes } = cubic;
  const last = xs.length - 1;
  if (x < xs[0] || x > xs[last]) return 0;
  const i = intervalIndex(xs, x);
  const h = xs[i + 1] - xs[i];
  const t = (x - xs[i]) / h;
  return (
    (6 * t * (1 - t) * (ys[i + 1] - ys[i])) / h + slopes[i] * (1 - t) * (1 - 3 * t) + slopes[i + 1] * t * (3 * t - 2)
  );
}
