/**
 * Lambert W of an exponential, w = W(exp(x)), the real solution of w + ln w = x.
 *
 * Solved for the logarithm of the argument, so that it does not overflow where a shunt resistance is large.
 *
 * @param x - natural logarithm of the argument of W, any finite number
 * @returns w, greater than zero
 * Source: Corless, Gonnet, Hare, Jeffrey and Knuth, On the Lambert W function, Adv. Comput. Math. 5, 1996; Halley
 * iteration (eq. 5.9) written for w + ln w = x.
 */
export function lambertWOfExp(x: number): number {
  if (x < -36) return Math.exp(Math.max(x, -700)); // W(y) = y - y^2, and y^2 is below the last digit
  let w = x > 1 ? x - Math.log(x) : Math.exp(x) / (1 + Math.exp(x));
  for (let iteration = 0; iteration < 30; iteration++) {
    const f = w + Math.log(w) - x;
    const slope = 1 + 1 / w;
    const curvature = -1 / (w * w);
    const step = f / (slope - (f * curvature) / (2 * slope));
    const next = w - step;
    w = next > 0 ? next : w / 2;
    if (Math.abs(step) <= 1e-15 * w) break;
  }
  return w;
}
