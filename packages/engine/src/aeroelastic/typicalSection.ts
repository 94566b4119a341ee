import { type ComplexMatrix, complexZeros } from '../math/complexLinear.js';
import type { ComplexNumber } from '../math/special.js';
import { type FlutterModel, flutterPoints } from './flutter.js';
import { jonesFunction, theodorsenFunction } from './theodorsen.js';

/**
 * A section on two springs, in the usual ratios: lengths in semichords, elastic axis `axis` aft of mid-chord, balance point `balance`
 * aft of mid-chord, mass ratio m / (pi rho b^2), square of the radius of gyration about the elastic axis, plunge / pitch frequency.
 */
export interface TypicalSection {
  readonly axis: number;
  readonly balance: number;
  readonly massRatio: number;
  readonly gyrationSquared: number;
  readonly frequencyRatio: number;
}

/** Airspeed / (semichord x pitch frequency), and frequency / pitch frequency. */
export interface SectionFlutter {
  readonly speed: number;
  readonly frequency: number;
}

/**
 * Divergence of a typical section: the lift at the quarter chord twists it faster than its spring holds it.
 * Returns airspeed / (semichord x pitch frequency); undefined where the elastic axis is ahead of the quarter chord.
 * Source: D. H. Hodges, G. A. Pierce, Introduction to Structural Dynamics and Aeroelasticity, 2nd ed. 2011, section 5.2 (numbering from memory).
 */
export function sectionDivergence({ axis, massRatio, gyrationSquared }: TypicalSection): number | undefined {
  const arm = 1 + 2 * axis;
  return arm > 0 ? Math.sqrt((massRatio * gyrationSquared) / arm) : undefined;
}

/**
 * Flutter of a typical section with steady aerodynamics: where both frequencies meet.
 * Source: S. J. Pines, Proc. US National Congress of Applied Mechanics, 1958 (from memory); Hodges and Pierce 2011, section 5.2.
 */
export function steadySectionFlutter(section: TypicalSection): SectionFlutter | undefined {
  const { axis, massRatio: mu, gyrationSquared: r2, frequencyRatio } = section;
  const offset = section.balance - axis;
  const sigma2 = frequencyRatio ** 2;
  const a = r2 - offset * offset;
  // B(y) = b0 + b1 y, C(y) = c0 + c1 y with y = speed squared; flutter where B^2 = 4 A C.
  const [b0, b1] = [r2 * (1 + sigma2), (-2 / mu) * (0.5 + axis + offset)];
  const [c0, c1] = [sigma2 * r2, (-2 * sigma2 * (0.5 + axis)) / mu];
  const [p, q, r] = [b1 * b1, 2 * b0 * b1 - 4 * a * c1, b0 * b0 - 4 * a * c0];
  const root = q * q - 4 * p * r;
  if (!(p > 0) || !(root >= 0)) return undefined;
  const y = [(-q - Math.sqrt(root)) / (2 * p), (-q + Math.sqrt(root)) / (2 * p)].find(
    (value) => value > 0 && b0 + b1 * value > 0,
  );
  if (y === undefined) return undefined;
  return { speed: Math.sqrt(y), frequency: Math.sqrt((b0 + b1 * y) / (2 * a)) };
}

/**
 * Generalised forces of a section of unit semichord per unit span on plunge (up, in semichords) and pitch about its elastic axis (nose up),
 * over dynamic pressure. `lag` is Theodorsen's function or an approximation of it.
 * Source: T. Theodorsen, NACA TR 496, 1935.
 */
export function sectionForces(axis: number, k: number, lag: (k: number) => ComplexNumber): ComplexMatrix {
  const c = lag(k);
  // Per motion (plunge up h, pitch theta): downwash angle at three-quarter chord w = -i k h + (1 + i k (1/2 - a)) theta.
  const wash = [
    { re: 0, im: -k },
    { re: 1, im: k * (0.5 - axis) },
  ];
  // Apparent mass: of lift and of moment about the axis, over pi rho b^2 U^2 with unit semichord and airspeed.
  const lift = [
    { re: k * k, im: 0 },
    { re: k * k * axis, im: k },
  ];
  const moment = [
    { re: k * k * axis, im: 0 },
    { re: k * k * (1 / 8 + axis * axis), im: -k * (0.5 - axis) },
  ];
  const matrix = complexZeros(4);
  for (let j = 0; j < 2; j++) {
    const circulatory = { re: c.re * wash[j].re - c.im * wash[j].im, im: c.re * wash[j].im + c.im * wash[j].re };
    // Dynamic pressure is 1/2 in these units: twice the force.
    matrix.re[j] = 2 * Math.PI * (lift[j].re + 2 * circulatory.re);
    matrix.im[j] = 2 * Math.PI * (lift[j].im + 2 * circulatory.im);
    matrix.re[2 + j] = 2 * Math.PI * (moment[j].re + 2 * (0.5 + axis) * circulatory.re);
    matrix.im[2 + j] = 2 * Math.PI * (moment[j].im + 2 * (0.5 + axis) * circulatory.im);
  }
  return matrix;
}

/** A typical section ready for the flutter search: semichord, density and pitch frequency 1. */
export function sectionModel(section: TypicalSection, lag: 'theodorsen' | 'jones' = 'theodorsen'): FlutterModel {
  const { axis, balance, massRatio, gyrationSquared, frequencyRatio } = section;
  const mass = Math.PI * massRatio;
  // Plunge is upwards, pitch nose up: a balance point aft of the axis goes down as the nose goes up.
  const coupling = -mass * (balance - axis);
  const lagOf = lag === 'theodorsen' ? theodorsenFunction : jonesFunction;
  return {
    mass: Float64Array.of(mass, coupling, coupling, mass * gyrationSquared),
    stiffness: Float64Array.of(mass * frequencyRatio ** 2, 0, 0, mass * gyrationSquared),
    forces: { count: 2, highestWaveNumber: 100, at: (k) => sectionForces(axis, k, lagOf) },
    density: 1,
  };
}

/**
 * Lowest flutter speed of a typical section in unsteady flow; undefined where there is none below `highest`.
 * Source: T. Theodorsen, NACA TR 496, 1935; R. T. Jones, NACA TR 681, 1940.
 */
export function sectionFlutter(
  section: TypicalSection,
  lag: 'theodorsen' | 'jones' = 'theodorsen',
  highest = 50,
): SectionFlutter | undefined {
  const onset = flutterPoints(sectionModel(section, lag), { lowest: 0.01, highest: 5 }, highest).find(
    (point) => point.onset,
  );
  return onset && { speed: onset.airspeed, frequency: onset.frequency };
}
