import { complexEigenvalues } from '../math/complexEigen.js';
import { type ComplexMatrix, complexZeros, factorComplexLu, solveComplexLu } from '../math/complexLinear.js';
import type { ComplexNumber } from '../math/special.js';
import type { GeneralisedForces } from './forces.js';

/** Generalised mass and stiffness of the motions whose forces are given, row-major count x count. */
export interface FlutterModel {
  readonly mass: Float64Array;
  readonly stiffness: Float64Array;
  readonly forces: GeneralisedForces;
  /** [kg/m3] */
  readonly density: number;
}

/** A motion that neither grows nor dies away. */
export interface FlutterPoint {
  readonly airspeed: number;
  /** [rad/s] */
  readonly frequency: number;
  /** omega / airspeed [1/m]. */
  readonly waveNumber: number;
  /** Whether the motion grows above this airspeed (onset) or below it. */
  readonly onset: boolean;
  /** Amplitudes of the motions, largest 1. */
  readonly shape: ComplexMatrix;
}

/** kappa^2 M + density / 2 A(kappa): at a neutral motion K x = U^2 B x. */
function inertiaAndAir({ mass, forces, density }: FlutterModel, kappa: number): ComplexMatrix {
  const matrix = forces.at(kappa);
  for (let i = 0; i < mass.length; i++) {
    matrix.re[i] = kappa * kappa * mass[i] + (density / 2) * matrix.re[i];
    matrix.im[i] *= density / 2;
  }
  return matrix;
}

/** Squares of airspeed at which some motion of this wave number is neutral: real and positive ones are meant, the others show how far off. */
function neutralSquares(model: FlutterModel, kappa: number): ComplexNumber[] {
  const n = model.forces.count;
  const lu = factorComplexLu(inertiaAndAir(model, kappa), n, true);
  if (!lu.ok) return [];
  const right = { re: model.stiffness, im: new Float64Array(n * n) };
  return complexEigenvalues(solveComplexLu(lu.value, right, n), n);
}

/** Eigenvector of K x = mu B x near mu, by inverse iteration. */
function neutralShape(model: FlutterModel, kappa: number, mu: number): ComplexMatrix {
  const n = model.forces.count;
  const b = inertiaAndAir(model, kappa);
  const shifted = complexZeros(n * n);
  for (let i = 0; i < n * n; i++) {
    shifted.re[i] = model.stiffness[i] - mu * (1 + 1e-9) * b.re[i];
    shifted.im[i] = -mu * (1 + 1e-9) * b.im[i];
  }
  const lu = factorComplexLu(shifted, n, true);
  let x = complexZeros(n);
  x.re.fill(1);
  if (!lu.ok) return x;
  for (let step = 0; step < 4; step++) x = normalised(solveComplexLu(lu.value, x));
  return x;
}

/** Scaled so that the largest component is 1. */
export function normalised({ re, im }: ComplexMatrix): ComplexMatrix {
  let largest = 0;
  for (let i = 1; i < re.length; i++) if (Math.hypot(re[i], im[i]) > Math.hypot(re[largest], im[largest])) largest = i;
  const square = re[largest] ** 2 + im[largest] ** 2;
  if (!(square > 0) || !(square < Infinity)) return { re: re.map(() => 1), im: im.map(() => 0) };
  const [p, q] = [re[largest] / square, -im[largest] / square];
  return { re: re.map((value, i) => value * p - im[i] * q), im: im.map((value, i) => value * p + re[i] * q) };
}

/** Pairs the values of one wave number with those of the next, nearest first, so that each can be followed. */
function paired(from: readonly ComplexNumber[], to: readonly ComplexNumber[]): ComplexNumber[] {
  const left = to.slice();
  return from.map((value) => {
    const scale = Math.hypot(value.re, value.im);
    let best = 0;
    let least = Infinity;
    left.forEach((other, i) => {
      const size = scale + Math.hypot(other.re, other.im);
      const distance = Math.hypot(other.re - value.re, other.im - value.im) / (size > 0 ? size : 1);
      if (distance < least) {
        least = distance;
        best = i;
      }
    });
    return left.splice(best, 1)[0];
  });
}

const growthStep = 1e-3;

/** Root of [p^2 M + K - q A(Im p / U)] x = 0 near a guess. */
export interface Root {
  readonly p: ComplexNumber;
  readonly shape: ComplexMatrix;
}

/**
 * A root of the motion at an airspeed, from a guess close to it: p^2 by inverse iteration at a frozen wave number, then the wave number that
 * fits its frequency (secant). Undefined where that does not converge or the motion no longer oscillates.
 * Source: H. J. Hassig, Journal of Aircraft 8(11), 1971 (p-k method; equations from memory).
 */
export function followRoot(model: FlutterModel, airspeed: number, guess: Root): Root | undefined {
  let root: Root | undefined = guess;
  let [kappa, before, missBefore] = [guess.p.im / airspeed, Number.NaN, 0];
  for (let step = 0; step < 25; step++) {
    root = rootAt(model, airspeed, kappa, root);
    if (root === undefined) return undefined;
    const miss = root.p.im / airspeed - kappa;
    if (Math.abs(miss) < 1e-9 * (kappa + 1e-3)) return root;
    const slope = (miss - missBefore) / (kappa - before);
    const next: number = Number.isFinite(slope) && Math.abs(slope) > 0.1 ? kappa - miss / slope : kappa + miss;
    [before, missBefore] = [kappa, miss];
    kappa = next > 0 ? next : kappa / 3;
    if (kappa * airspeed < 1e-5) return undefined;
  }
  return undefined;
}

/** Eigenvalue p of the frozen problem nearest to the guess. */
function rootAt(model: FlutterModel, airspeed: number, kappa: number, guess: Root): Root | undefined {
  const { mass, stiffness, density, forces } = model;
  const n = forces.count;
  const air = forces.at(kappa);
  const pressure = (density / 2) * airspeed * airspeed;
  let { re: pRe, im: pIm } = guess.p;
  let shape = guess.shape;
  for (let step = 0; step < 20; step++) {
    const square = { re: pRe * pRe - pIm * pIm, im: 2 * pRe * pIm };
    const matrix = complexZeros(n * n);
    for (let i = 0; i < n * n; i++) {
      matrix.re[i] = square.re * mass[i] + stiffness[i] - pressure * air.re[i];
      matrix.im[i] = square.im * mass[i] - pressure * air.im[i];
    }
    const lu = factorComplexLu(matrix, n, true);
    if (!lu.ok) return undefined;
    const next = solveComplexLu(lu.value, timesMass(mass, shape));
    // (K - qA + s M) y = M x with y = x / (s - s0): the shift follows from the component along x.
    const [along, size] = [product(shape, next), product(shape, shape).re];
    const length = along.re ** 2 + along.im ** 2;
    if (!(length > 0) || !(length < Infinity)) return { p: { re: pRe, im: pIm }, shape };
    const correction = { re: (size * along.re) / length, im: (-size * along.im) / length };
    const corrected = squareRootOf(square.re - correction.re, square.im - correction.im);
    const change = Math.hypot(corrected.re - pRe, corrected.im - pIm);
    pRe = corrected.re;
    pIm = corrected.im;
    shape = normalised(next);
    if (change < 1e-11 * Math.hypot(pRe, pIm)) return { p: { re: pRe, im: pIm }, shape };
  }
  return undefined;
}

/** The root with positive imaginary part. */
function squareRootOf(re: number, im: number): ComplexNumber {
  const size = Math.hypot(re, im);
  const imaginary = Math.sqrt(Math.max(0, (size - re) / 2));
  return { re: imaginary > 0 ? im / (2 * imaginary) : Math.sqrt(Math.max(0, re)), im: imaginary };
}

function timesMass(mass: Float64Array, { re, im }: ComplexMatrix): ComplexMatrix {
  const n = re.length;
  const result = complexZeros(n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      result.re[i] += mass[i * n + j] * re[j];
      result.im[i] += mass[i * n + j] * im[j];
    }
  return result;
}

/** conj(a) . b */
export function product(a: ComplexMatrix, b: ComplexMatrix): ComplexNumber {
  let [re, im] = [0, 0];
  for (let i = 0; i < a.re.length; i++) {
    re += a.re[i] * b.re[i] + a.im[i] * b.im[i];
    im += a.re[i] * b.im[i] - a.im[i] * b.re[i];
  }
  return { re, im };
}

/** Where a curve of U^2 over the wave number crosses the real axis, between two wave numbers. */
function refineCrossing(
  model: FlutterModel,
  from: { kappa: number; mu: ComplexNumber },
  to: { kappa: number; mu: ComplexNumber },
): { kappa: number; mu: number } | undefined {
  let [a, b] = [from, to];
  for (let step = 0; step < 60; step++) {
    const share = a.mu.im / (a.mu.im - b.mu.im);
    // Bisection now and then, so that a flat end does not stall the secant.
    const kappa = a.kappa + (step % 3 === 2 ? 0.5 : Math.min(0.98, Math.max(0.02, share))) * (b.kappa - a.kappa);
    const t = (kappa - a.kappa) / (b.kappa - a.kappa);
    const expected = { re: a.mu.re + t * (b.mu.re - a.mu.re), im: a.mu.im + t * (b.mu.im - a.mu.im) };
    const mu = paired([expected], neutralSquares(model, kappa))[0];
    if (Math.abs(mu.im) < 1e-10 * Math.abs(mu.re) || Math.abs(b.kappa - a.kappa) < 1e-12 * kappa)
      return { kappa, mu: mu.re };
    if (mu.im > 0 === a.mu.im > 0) a = { kappa, mu };
    else b = { kappa, mu };
  }
  return undefined;
}

/** Wave numbers of a search: close together at low values, evenly spaced in ratio. */
const searchSteps = 120;

/**
 * Every neutral oscillation between two wave numbers, lowest airspeed first: at each wave number the airspeeds at which it could be neutral
 * are the eigenvalues of K x = U^2 (kappa^2 M + density / 2 A) x; where one of them crosses the real axis it is.
 * Nothing is missed for want of a starting guess. Whether it is an onset follows from the root's growth beside it.
 *
 * highestAirspeed - of interest [m/s]
 * Source: R. L. Bisplinghoff, H. Ashley, R. L. Halfman, Aeroelasticity, 1955, section 9-5 (idea of the search over reduced frequencies; numbering from memory).
 */
export function flutterPoints(
  model: FlutterModel,
  range: { readonly lowest: number; readonly highest: number },
  highestAirspeed: number,
): FlutterPoint[] {
  const found: FlutterPoint[] = [];
  const ratio = (range.highest / range.lowest) ** (1 / searchSteps);
  let kappa = range.highest;
  let before = neutralSquares(model, kappa);
  for (let step = 0; step < searchSteps; step++) {
    const next = kappa / ratio;
    const now = paired(before, neutralSquares(model, next));
    for (let i = 0; i < Math.min(before.length, now.length); i++) {
      const [a, b] = [before[i], now[i]];
      if (a.im > 0 === b.im > 0 || !(a.re > 0 || b.re > 0)) continue;
      const crossing = refineCrossing(model, { kappa, mu: a }, { kappa: next, mu: b });
      if (crossing === undefined || !(crossing.mu > 0) || crossing.mu > highestAirspeed ** 2) continue;
      const point = describe(model, crossing);
      if (point !== undefined) found.push(point);
    }
    before = now;
    kappa = next;
  }
  return found.sort((a, b) => a.airspeed - b.airspeed);
}

function describe(model: FlutterModel, at: { kappa: number; mu: number }): FlutterPoint | undefined {
  const airspeed = Math.sqrt(at.mu);
  const frequency = at.kappa * airspeed;
  const shape = neutralShape(model, at.kappa, at.mu);
  const guess: Root = { p: { re: 0, im: frequency }, shape };
  const above = followRoot(model, airspeed * (1 + growthStep), guess);
  const below = followRoot(model, airspeed * (1 - growthStep), guess);
  if (above === undefined || below === undefined) return undefined;
  return { airspeed, frequency, waveNumber: at.kappa, onset: above.p.re > below.p.re, shape };
}
