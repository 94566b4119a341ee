/** Nodes on [-1, 1] and weights of a quadrature rule. */
export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss-Legendre rule with n points, exact for polynomials of degree 2n - 1.
 * Source: M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 25.4.29; nodes by Newton iteration on P_n.
 */
export function gaussLegendre(n: number): Quadrature {
  if (!(Number.isInteger(n) && n > 0)) throw new RangeError('a rule needs at least one point');
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < (n + 1) >> 1; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let derivative = 1;
    for (let iteration = 0; iteration < 50; iteration++) {
      let p0 = 1;
      let p1 = x;
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      derivative = (n * (x * p1 - p0)) / (x * x - 1);
      const change = p1 / derivative;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = -x;
    nodes[n - 1 - i] = x;
    const weight = 2 / ((1 - x * x) * derivative * derivative);
    weights[i] = weight;
    weights[n - 1 - i] = weight;
  }
  if (n % 2 === 1) nodes[(n - 1) / 2] = 0;
  return { nodes, weights };
}
