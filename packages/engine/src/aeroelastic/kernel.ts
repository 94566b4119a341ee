import { exponentialIntegral2, sphericalBessel, trigonometricIntegrals } from '../math/special.js';

/** Points of each interval: the five of Gauss and Legendre. */
export const points = 5;
const outer = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3;
const inner = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3;
/** Abscissae on -1 to 1. */
export const abscissae = Float64Array.of(-outer, -inner, 0, inner, outer);
const outerWeight = (322 - 13 * Math.sqrt(70)) / 900;
const innerWeight = (322 + 13 * Math.sqrt(70)) / 900;
const gaussWeights = Float64Array.of(outerWeight, innerWeight, 128 / 225, innerWeight, outerWeight);

/** (2 n + 1) w_j P_n(t_j): [n * points + j]. */
const projection = (() => {
  const table = new Float64Array(points * points);
  for (let j = 0; j < points; j++) {
    let [before, now] = [0, 1];
    for (let n = 0; n < points; n++) {
      table[n * points + j] = (2 * n + 1) * gaussWeights[j] * now;
      [before, now] = [now, ((2 * n + 1) * abscissae[j] * now - n * before) / (n + 1)];
    }
  }
  return table;
})();

const bessel = new Float64Array(points);

/**
 * Weights that integrate f(t) exp(i theta t) from -1 to 1 exactly for polynomials up to the fourth power, from the values at `abscissae`.
 * Written to out[0..4] (real) and out[5..9] (imaginary).
 * Source: L. N. G. Filon, Proc. Royal Society of Edinburgh 49, 1928 (idea); expansion of exp(i theta t) in Legendre polynomials, Abramowitz
 * and Stegun 1964, eq. 10.1.47.
 */
export function oscillatoryWeights(theta: number, out: Float64Array): void {
  sphericalBessel(theta, bessel);
  for (let j = 0; j < points; j++) {
    out[j] =
      projection[j] * bessel[0] - projection[2 * points + j] * bessel[2] + projection[4 * points + j] * bessel[4];
    out[points + j] = projection[points + j] * bessel[1] - projection[3 * points + j] * bessel[3];
  }
}

/**
 * A grid of distances X behind a bound vortex: +-base x 2^k for k = 0 .. levels. Weights of all whole intervals for all wave numbers
 * are made once: [(interval * waves + wave) * 2 points].
 */
export interface WaveGrid {
  readonly base: number;
  readonly levels: number;
  /** omega / airspeed of each column [1/m], positive. */
  readonly waveNumbers: Float64Array;
  /** Intervals -2^(k+1) .. -2^k of the base. */
  readonly upstream: Float64Array;
  /** Intervals 2^k .. 2^(k+1) of the base. */
  readonly downstream: Float64Array;
  /** Intervals -2^k .. 2^k of the base. */
  readonly core: Float64Array;
  /** 2 Si(kappa 2^k base), for the pole in a core. */
  readonly pole: Float64Array;
  /** L^2 x integral of exp(i kappa X) / X^2 from minus infinity to -L = the end of the grid: real and imaginary part of each wave. */
  readonly tail: Float64Array;
}

const scratch = new Float64Array(2 * points);

/** Weights of the interval about `middle` of half length `half`, for every wave number, written to `out` from `offset` on. */
export function intervalWeights(
  waveNumbers: Float64Array,
  middle: number,
  half: number,
  out: Float64Array,
  offset = 0,
): void {
  for (let w = 0; w < waveNumbers.length; w++) {
    const kappa = waveNumbers[w];
    oscillatoryWeights(kappa * half, scratch);
    const cosine = half * Math.cos(kappa * middle);
    const sine = half * Math.sin(kappa * middle);
    const at = offset + w * 2 * points;
    for (let j = 0; j < points; j++) {
      out[at + j] = cosine * scratch[j] - sine * scratch[points + j];
      out[at + points + j] = cosine * scratch[points + j] + sine * scratch[j];
    }
  }
}

/**
 * The grid for a lattice.
 * base - smallest distance that matters, half a panel or half a strip width at most [m]
 * reach - distance beyond which a bound vortex acts as 1 / X^2 [m]
 */
export function waveGrid(waveNumbers: Float64Array, base: number, reach: number): WaveGrid {
  const levels = Math.max(2, Math.ceil(Math.log2(reach / base)));
  const size = waveNumbers.length * 2 * points;
  const table = (intervals: number) => new Float64Array(intervals * size);
  const grid = { upstream: table(levels), downstream: table(levels), core: table(levels + 1) };
  const pole = new Float64Array((levels + 1) * waveNumbers.length);
  for (let k = 0; k <= levels; k++) {
    const near = base * 2 ** k;
    if (k < levels) {
      intervalWeights(waveNumbers, -1.5 * near, near / 2, grid.upstream, k * size);
      intervalWeights(waveNumbers, 1.5 * near, near / 2, grid.downstream, k * size);
    }
    intervalWeights(waveNumbers, 0, near, grid.core, k * size);
    waveNumbers.forEach((kappa, w) => {
      pole[k * waveNumbers.length + w] = 2 * trigonometricIntegrals(kappa * near).sine;
    });
  }
  const end = base * 2 ** levels;
  const tail = new Float64Array(2 * waveNumbers.length);
  waveNumbers.forEach((kappa, w) => {
    const { re, im } = exponentialIntegral2(kappa * end);
    tail[2 * w] = end * re;
    tail[2 * w + 1] = end * im;
  });
  return { base, levels, waveNumbers, ...grid, pole, tail };
}
