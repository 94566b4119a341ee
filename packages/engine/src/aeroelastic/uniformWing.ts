import { brentRoot } from '../math/index.js';
import { glauertFlap } from '../section/index.js';

/**
 * Dynamic pressure at which a uniform straight wing held at its root diverges (strip theory) [Pa].
 * torsionStiffness - GJ [N m2]; semispan, chord, arm - from the aerodynamic centre aft to the elastic axis, positive [m]; liftSlope [1/rad]
 * bothEnds - held at both ends, as across a wind tunnel of width `semispan`
 * Returns undefined where the elastic axis is ahead of the aerodynamic centre: lift then untwists the wing.
 * Source: D. H. Hodges, G. A. Pierce, Introduction to Structural Dynamics and Aeroelasticity, 2nd ed. 2011, eq. 4.45 to 4.57.
 */
export function uniformDivergence(wing: {
  readonly torsionStiffness: number;
  readonly semispan: number;
  readonly chord: number;
  readonly arm: number;
  readonly liftSlope: number;
  readonly bothEnds?: boolean;
}): number | undefined {
  const { torsionStiffness, semispan, chord, arm, liftSlope, bothEnds = false } = wing;
  if (!(arm > 0)) return undefined;
  const wave = (bothEnds ? Math.PI : Math.PI / 2) / semispan;
  return (wave * wave * torsionStiffness) / (arm * chord * liftSlope);
}

/**
 * Lift of a uniform flexible wing over that of the rigid one, and twist of its tip over the root's incidence.
 * share - dynamic pressure / that of divergence, 0 to below 1
 * Source: Hodges and Pierce 2011, eq. 4.53 to 4.57.
 */
export function uniformAmplification(share: number): { readonly lift: number; readonly tipTwist: number } {
  if (!(share > 0)) return { lift: 1, tipTwist: 0 };
  if (!(share < 1)) throw new RangeError('at and beyond divergence there is no equilibrium');
  const x = (Math.PI / 2) * Math.sqrt(share);
  return { lift: Math.tan(x) / x, tipTwist: 1 / Math.cos(x) - 1 };
}

/** Determinant of the equations of a swept wing; zero at divergence. Lengths in semispans along the axis, loads in units of GJ. */
function sweptDeterminant(load: number, e: number, tangent: number, stiffnessRatio: number): number {
  // z''' + load e z' + load (tangent / stiffnessRatio) z = 0 with z(0) = 0; two independent starts, fourth-order steps.
  const [p, r] = [load * e, (load * tangent) / stiffnessRatio];
  const steps = 200;
  const h = 1 / steps;
  const rate = ([z, s, c]: readonly number[]) => [s, c, -p * s - r * z];
  const moved = (state: readonly number[], by: number, along: readonly number[]) =>
    state.map((value, i) => value + by * along[i]);
  const end = [
    [0, 1, 0],
    [0, 0, 1],
  ].map((start) => {
    let state: readonly number[] = start;
    for (let i = 0; i < steps; i++) {
      const k1 = rate(state);
      const k2 = rate(moved(state, h / 2, k1));
      const k3 = rate(moved(state, h / 2, k2));
      const k4 = rate(moved(state, h, k3));
      state = state.map((value, j) => value + (h / 6) * (k1[j] + 2 * k2[j] + 2 * k3[j] + k4[j]));
    }
    return { slope: state[1], free: state[2] + p * state[0] };
  });
  return end[0].slope * end[1].free - end[1].slope * end[0].free;
}

/**
 * Divergence of a uniform swept wing over that of the same wing without sweep (dynamic pressures, strip theory).
 * sweep - of the elastic axis, aft positive [rad]; stiffnessRatio - EI / GJ; arm - aerodynamic centre to elastic axis / length along the axis
 * Returns undefined where bending takes off incidence faster than lift twists the wing: no divergence below 100 times the unswept one.
 * Source: F. W. Diederich, B. Budiansky, NACA TN 1680, 1948 (equations from memory), solved without their approximation.
 */
export function sweptDivergenceRatio(sweep: number, stiffnessRatio: number, arm: number): number | undefined {
  const unswept = (Math.PI / 2) ** 2 / arm;
  const determinant = (ratio: number) =>
    sweptDeterminant(ratio * unswept * Math.cos(sweep) ** 2, arm, Math.tan(sweep), stiffnessRatio);
  let below = 0.02;
  for (let above = 0.05; above < 100; above *= 1.06) {
    const root = brentRoot(determinant, below, above, { tolerance: 1e-9 });
    if (root !== undefined) return root;
    below = above;
  }
  return undefined;
}

/** Lift and moment of a sealed flap in thin-airfoil theory, per radian, moment about the quarter chord. Source: Glauert, ARC R&M 1095, 1927. */
export function thinFlapDerivatives(chordFraction: number): { readonly lift: number; readonly moment: number } {
  const { effectiveness, moment } = glauertFlap(chordFraction);
  return { lift: 2 * Math.PI * effectiveness, moment };
}

/**
 * Reversal of a control over the full span of a uniform wing, as dynamic pressure over that of divergence (strip theory):
 * section - of a section on a spring; roll - both sides opposed; lift - both sides together. Undefined where divergence comes first.
 * chordFraction - of the control; arm - aerodynamic centre to elastic axis / chord
 * Source: closed forms of the torsion equation with a full-span control, derived and checked against the series (ours).
 */
export function uniformReversal(
  chordFraction: number,
  arm: number,
): { readonly section: number | undefined; readonly roll: number | undefined; readonly lift: number | undefined } {
  const { lift, moment } = thinFlapDerivatives(chordFraction);
  const section = -(lift * arm) / moment;
  const ratio = moment / (arm * lift);
  const x = (share: number) => (Math.PI / 2) * Math.sqrt(share);
  const roll = (share: number) => 1 - (1 + ratio) * (1 - (2 * (1 / Math.cos(x(share)) - 1)) / x(share) ** 2);
  const heave = (share: number) => 1 - (1 + ratio) * (1 - Math.tan(x(share)) / x(share));
  const found = (f: (share: number) => number) => brentRoot(f, 1e-4, 1 - 1e-9, { tolerance: 1e-12 });
  return { section: section < 1 ? section : undefined, roll: found(roll), lift: found(heave) };
}
