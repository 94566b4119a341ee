/**
 * Standard normal quantile.
 *
 * @param p - probability, 0 < p < 1
 * @returns z with P(Z <= z) = p, relative error below 1.2e-9
 *
 * Source: P. J. Acklam, rational approximation of the inverse normal distribution, 2003 (from memory; checked in the
 * tests against tabulated quantiles).
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError('a probability strictly between 0 and 1 is expected');
  const lower = 0.02425;
  if (p < lower) return tailQuantile(Math.sqrt(-2 * Math.log(p)));
  if (p > 1 - lower) return -tailQuantile(Math.sqrt(-2 * Math.log(1 - p)));
  const q = p - 0.5;
  const r = q * q;
  const numerator =
    ((((-3.969683028665376e1 * r + 2.209460984245205e2) * r - 2.759285104469687e2) * r + 1.38357751867269e2) * r -
      3.066479806614716e1) *
      r +
    2.506628277459239;
  const denominator =
    ((((-5.447609879822406e1 * r + 1.615858368580409e2) * r - 1.556989798598866e2) * r + 6.680131188771972e1) * r -
      1.328068155288572e1) *
      r +
    1;
  return (q * numerator) / denominator;
}

function tailQuantile(q: number): number {
  const numerator =
    ((((-7.784894002430293e-3 * q - 3.223964580411365e-1) * q - 2.400758277161838) * q - 2.549732539343734) * q +
      4.374664141464968) *
      q +
    2.938163982698783;
  const denominator =
    (((7.784695709041462e-3 * q + 3.224671290700398e-1) * q + 2.445134137142996) * q + 3.754408661907416) * q + 1;
  return numerator / denominator;
}

/**
 * Point of an additive-recurrence low-discrepancy sequence in [0, 1) per dimension.
 * Independent of a random generator, so that results repeat exactly.
 *
 * @param index - 0, 1, 2 ...
 * @param dimensions - number of coordinates
 * @param into - array that receives the coordinates
 *
 * Source: M. Roberts, The unreasonable effectiveness of quasirandom sequences, 2018 (generalised golden ratio; from
 * memory). Equidistribution follows from Weyl's theorem for rationally independent steps.
 */
export function lowDiscrepancyPoint(index: number, dimensions: number, into: Float64Array): void {
  const ratio = generalisedGoldenRatio(dimensions);
  let step = 1;
  for (let k = 0; k < dimensions; k++) {
    step /= ratio;
    const value = 0.5 + (index + 1) * step;
    into[k] = value - Math.floor(value);
  }
}

/** Positive root of x^(d + 1) = x + 1. */
function generalisedGoldenRatio(dimensions: number): number {
  let x = 1.5;
  for (let iteration = 0; iteration < 40; iteration++) x = (1 + x) ** (1 / (dimensions + 1));
  return x;
}
