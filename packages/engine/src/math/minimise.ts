const goldenSection = (3 - Math.sqrt(5)) / 2;

/**
 * Minimum of a function of one argument inside an interval, by the method of Brent.
 * Finds a local minimum; for a function with one minimum in the interval, that one.
 *
 * @param tolerance - relative tolerance on the argument
 * @returns argument and value at the minimum
 *
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, ch. 5.
 */
export function minimise(
  f: (x: number) => number,
  lower: number,
  upper: number,
  tolerance = 1e-6,
): { readonly argument: number; readonly value: number } {
  let a = Math.min(lower, upper);
  let b = Math.max(lower, upper);
  let x = a + goldenSection * (b - a);
  let w = x;
  let v = x;
  let fx = f(x);
  let fw = fx;
  let fv = fx;
  let step = 0;
  let previousStep = 0;
  for (let iteration = 0; iteration < 100; iteration++) {
    const middle = (a + b) / 2;
    const limit = tolerance * Math.abs(x) + 1e-12;
    if (Math.abs(x - middle) <= 2 * limit - (b - a) / 2) break;
    let golden = true;
    if (Math.abs(previousStep) > limit) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      if (Math.abs(p) < Math.abs((q * previousStep) / 2) && p > q * (a - x) && p < q * (b - x)) {
        previousStep = step;
        step = p / q;
        const u = x + step;
        if (u - a < 2 * limit || b - u < 2 * limit) step = x < middle ? limit : -limit;
        golden = false;
      }
    }
    if (golden) {
      previousStep = (x < middle ? b : a) - x;
      step = goldenSection * previousStep;
    }
    const u = x + (Math.abs(step) >= limit ? step : Math.sign(step) * limit);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      v = w;
      fv = fw;
      w = x;
      fw = fx;
      x = u;
      fx = fu;
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) {
        v = w;
        fv = fw;
        w = u;
        fw = fu;
      } else if (fu <= fv || v === x || v === w) {
        v = u;
        fv = fu;
      }
    }
  }
  return { argument: x, value: fx };
}
