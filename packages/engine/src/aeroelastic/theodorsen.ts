import { besselFunctions, type ComplexNumber } from '../math/special.js';

/**
 * Theodorsen's function C(k) = H1 / (H1 + i H0), Hankel functions of the second kind: the lag of the lift of an oscillating section.
 * reducedFrequency - omega x semichord / airspeed, zero or positive
 * Source: T. Theodorsen, NACA TR 496, 1935.
 */
export function theodorsenFunction(reducedFrequency: number): ComplexNumber {
  if (!(reducedFrequency > 0)) return { re: 1, im: 0 };
  const { j0, j1, y0, y1 } = besselFunctions(reducedFrequency);
  const [p, q] = [j1 + y0, y1 - j0];
  const size = p * p + q * q;
  return { re: (j1 * p + y1 * q) / size, im: -(y1 * y0 + j1 * j0) / size };
}

/**
 * Jones's approximation of Theodorsen's function by two lags.
 * Source: R. T. Jones, NACA TR 681, 1940.
 */
export function jonesFunction(reducedFrequency: number): ComplexNumber {
  if (!(reducedFrequency > 0)) return { re: 1, im: 0 };
  const lag = (share: number, rate: number) => {
    // share / (1 - i rate / k)
    const ratio = rate / reducedFrequency;
    const size = 1 + ratio * ratio;
    return { re: share / size, im: (share * ratio) / size };
  };
  const [a, b] = [lag(0.165, 0.0455), lag(0.335, 0.3)];
  return { re: 1 - a.re - b.re, im: -a.im - b.im };
}

/**
 * Sears's function: lift of a section in a sinusoidal gust over its quasi-steady lift, phase referred to mid-chord.
 * Source: W. R. Sears, J. Aeronautical Sciences 8(3), 1941: S = (J0 - i J1) C + i J1.
 */
export function searsFunction(reducedFrequency: number): ComplexNumber {
  if (!(reducedFrequency > 0)) return { re: 1, im: 0 };
  const { j0, j1 } = besselFunctions(reducedFrequency);
  const { re, im } = theodorsenFunction(reducedFrequency);
  return { re: j0 * re + j1 * im, im: j0 * im - j1 * re + j1 };
}
