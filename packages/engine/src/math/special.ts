/** Value of a complex function. */
export interface ComplexNumber {
  readonly re: number;
  readonly im: number;
}

const euler = 0.5772156649015329;

/** Power series, for small arguments. */
function integralsBySeries(x: number): { sine: number; cosine: number } {
  let term = 1;
  let sine = 0;
  let cosine = euler + Math.log(x);
  for (let n = 1; n < 60; n++) {
    term *= x / n;
    const part = term / n;
    if (n % 2 === 1) sine += n % 4 === 1 ? part : -part;
    else cosine += n % 4 === 0 ? part : -part;
    if (part < 1e-17) break;
  }
  return { sine, cosine };
}

/** Continued fraction of E1(i x) by the method of Lentz. */
function exponentialIntegralFraction(x: number): ComplexNumber {
  // b, c, d, h are complex; the fraction is exp(-ix) / (1 + ix - 1 / (3 + ix - 4 / (5 + ix - ...))).
  let bRe = 1;
  let cRe = 1e300;
  let cIm = 0;
  const first = 1 + x * x;
  let dRe = 1 / first;
  let dIm = -x / first;
  let hRe = dRe;
  let hIm = dIm;
  for (let n = 1; n < 400; n++) {
    const a = -n * n;
    bRe += 2;
    const denominatorRe = a * dRe + bRe;
    const denominatorIm = a * dIm + x;
    const size = denominatorRe ** 2 + denominatorIm ** 2;
    dRe = denominatorRe / size;
    dIm = -denominatorIm / size;
    const cSize = cRe * cRe + cIm * cIm;
    [cRe, cIm] = [bRe + (a * cRe) / cSize, x - (a * cIm) / cSize];
    const ratioRe = cRe * dRe - cIm * dIm;
    const ratioIm = cRe * dIm + cIm * dRe;
    [hRe, hIm] = [hRe * ratioRe - hIm * ratioIm, hRe * ratioIm + hIm * ratioRe];
    if (Math.abs(ratioRe - 1) + Math.abs(ratioIm) < 1e-15) break;
  }
  const [cosine, sine] = [Math.cos(x), Math.sin(x)];
  return { re: hRe * cosine + hIm * sine, im: hIm * cosine - hRe * sine };
}

/**
 * Sine integral Si(x) = integral of sin t / t from 0 to x, and cosine integral Ci(x), for x > 0.
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, section 5.2; continued fraction 5.1.22.
 */
export function trigonometricIntegrals(x: number): { readonly sine: number; readonly cosine: number } {
  if (!(x > 0)) throw new RangeError('the trigonometric integrals are taken at positive arguments');
  if (x < 2) return integralsBySeries(x);
  const { re, im } = exponentialIntegralFraction(x);
  return { sine: Math.PI / 2 + im, cosine: -re };
}

/**
 * x times the integral of exp(-i x s) / s^2 from s = 1 to infinity is not needed: this returns the integral itself, E2(i x), x >= 0.
 * Source: Abramowitz and Stegun 1964, eq. 5.1.14: E2(z) = exp(-z) - z E1(z).
 */
export function exponentialIntegral2(x: number): ComplexNumber {
  if (x < 1e-12) return { re: 1, im: 0 };
  const { sine, cosine } = trigonometricIntegrals(x);
  // E1(ix) = -Ci(x) + i (Si(x) - pi / 2).
  return { re: Math.cos(x) + x * (sine - Math.PI / 2), im: -Math.sin(x) + x * cosine };
}

/** Spherical Bessel functions j0 to j4 of an argument of either sign, written to `out`. Source: Abramowitz and Stegun 1964, section 10.1. */
export function sphericalBessel(x: number, out: Float64Array): void {
  const size = Math.abs(x);
  if (size > 3.5) {
    const [sine, cosine] = [Math.sin(x), Math.cos(x)];
    out[0] = sine / x;
    out[1] = (out[0] - cosine) / x;
    for (let n = 2; n < 5; n++) out[n] = ((2 * n - 1) / x) * out[n - 1] - out[n - 2];
    return;
  }
  const half = (-x * x) / 2;
  let lead = 1;
  for (let n = 0; n < 5; n++) {
    let term = 1;
    let sum = 1;
    for (let m = 1; m < 24; m++) {
      term *= half / (m * (2 * n + 2 * m + 1));
      sum += term;
      if (Math.abs(term) < 1e-17) break;
    }
    out[n] = lead * sum;
    lead *= x / (2 * n + 3);
  }
}

/** Bessel functions of order 0 and 1, first and second kind. */
export interface BesselPair {
  readonly j0: number;
  readonly j1: number;
  readonly y0: number;
  readonly y1: number;
}

function besselSeries(x: number): BesselPair {
  const q = (-x * x) / 4;
  const logarithm = Math.log(x / 2) + euler;
  let term = 1;
  let harmonic = 0;
  let [j0, j1, sum0, sum1] = [0, 0, 0, 0];
  for (let m = 0; m < 60; m++) {
    if (m > 0) {
      term *= q / (m * m);
      harmonic += 1 / m;
    }
    j0 += term;
    sum0 += harmonic * term;
    const next = (term * x) / (2 * (m + 1));
    j1 += next;
    sum1 += (2 * harmonic + 1 / (m + 1)) * next;
    if (m > 3 && Math.abs(term) < 1e-18) break;
  }
  return {
    j0,
    j1,
    y0: (2 / Math.PI) * (logarithm * j0 - sum0),
    y1: (2 / Math.PI) * (logarithm * j1 - 1 / x) - sum1 / Math.PI,
  };
}

function besselAsymptotic(x: number): BesselPair {
  const of = (order: number) => {
    const mu = 4 * order * order;
    let [p, q, term] = [1, 0, 1];
    for (let k = 1; k < 40; k++) {
      const next = (term * (mu - (2 * k - 1) ** 2)) / (k * 8 * x);
      if (Math.abs(next) > Math.abs(term)) break;
      term = next;
      const sign = k % 4 < 2 ? 1 : -1;
      if (k % 2 === 1) q += sign * term;
      else p += (k % 4 === 2 ? -1 : 1) * term;
      if (Math.abs(term) < 1e-17) break;
    }
    const phase = x - (order / 2 + 0.25) * Math.PI;
    const scale = Math.sqrt(2 / (Math.PI * x));
    const [sine, cosine] = [Math.sin(phase), Math.cos(phase)];
    return { first: scale * (p * cosine - q * sine), second: scale * (p * sine + q * cosine) };
  };
  const [zero, one] = [of(0), of(1)];
  return { j0: zero.first, j1: one.first, y0: zero.second, y1: one.second };
}

/**
 * Bessel functions J0, J1, Y0, Y1 of a positive argument.
 * Source: Abramowitz and Stegun 1964, eq. 9.1.10, 9.1.11 (series), 9.2.5 to 9.2.10 (asymptotic).
 */
export function besselFunctions(x: number): BesselPair {
  if (!(x > 0)) throw new RangeError('the Bessel functions of the second kind are taken at positive arguments');
  return x < 12 ? besselSeries(x) : besselAsymptotic(x);
}
