export interface RootOptions {
  /** Absolute tolerance on the argument. */
  readonly tolerance?: number;
  readonly maximumIterations?: number;
}

/**
 * Root of a continuous function inside a bracket by the method of Brent.
 *
 * @param f - function of one argument
 * @param lower - one end of the bracket
 * @param upper - other end of the bracket
 * @returns the root, or undefined when f has the same sign at both ends or is not finite there
 *
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4.
 */
export function brentRoot(
  f: (x: number) => number,
  lower: number,
  upper: number,
  options: RootOptions = {},
): number | undefined {
  const { tolerance = 1e-12, maximumIterations = 100 } = options;
  let a = lower;
  let b = upper;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0)) return undefined;
  let c = a;
  let fc = fa;
  let step = b - a;
  let previousStep = step;
  for (let iteration = 0; iteration < maximumIterations; iteration++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const limit = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= limit || fb === 0) return b;
    if (Math.abs(previousStep) >= limit && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fc;
        const t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(limit * q), Math.abs(previousStep * q))) {
        previousStep = step;
        step = p / q;
      } else {
        step = half;
        previousStep = half;
      }
    } else {
      step = half;
      previousStep = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > limit ? step : Math.sign(half) * limit;
    fb = f(b);
    if (fb * fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      previousStep = step;
    }
  }
  return b;
}
