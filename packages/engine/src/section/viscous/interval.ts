import { LAG } from './closure.js';
import {
  DISPLACEMENT,
  DISSIPATION,
  DRIVE,
  ENERGY,
  FRICTION,
  LAMINAR,
  type LayerKind,
  SHAPE,
  THICKNESS,
} from './station.js';

/** Weight of the downstream end: one half where the shape changes little, towards one where it jumps, so that no wiggle can stand. */
const downstreamWeight = (h1: number, h2: number): number => {
  const change = Math.log((h2 - 1) / (h1 - 1));
  return 1 - 0.5 * Math.exp(-change * change);
};

/**
 * Residuals of momentum, kinetic energy, and amplification (laminar) or shear-stress lag between two stations; in logarithms, exact for
 * powers of the distance, so that the way out of a stagnation point needs no fine steps.
 *
 * kind - of the layer between; r1, at1, r2, at2 - records of both stations; theta, u, s, x - momentum thickness, speed, third
 * quantity (logarithm of amplitude or root of the shear stress) and distance from stagnation at both; out, to - three residuals
 * Source: M. Drela, M. Giles, AIAA J. 25(10), 1987, eqs. (5), (6), (23) with zero Mach number (numbering from memory).
 */
export function intervalResidual(
  kind: LayerKind,
  r1: Float64Array,
  at1: number,
  r2: Float64Array,
  at2: number,
  theta1: number,
  theta2: number,
  u1: number,
  u2: number,
  s1: number,
  s2: number,
  x1: number,
  x2: number,
  out: Float64Array,
  to: number,
): void {
  const logU = Math.log(u2 / u1);
  const logX = Math.log(x2 / x1);
  const w = downstreamWeight(r1[at1 + SHAPE], r2[at2 + SHAPE]);
  const v = 1 - w;
  const friction = v * r1[at1 + FRICTION] * x1 + w * r2[at2 + FRICTION] * x2;
  const dissipation = v * r1[at1 + DISSIPATION] * x1 + w * r2[at2 + DISSIPATION] * x2;
  const displacement = v * r1[at1 + DISPLACEMENT] + w * r2[at2 + DISPLACEMENT];
  out[to] = Math.log(theta2 / theta1) + (displacement + 2) * logU - friction * logX;
  out[to + 1] = r2[at2 + ENERGY] - r1[at1 + ENERGY] + (1 - displacement) * logU + (friction - dissipation) * logX;
  if (kind === LAMINAR) {
    out[to + 2] = s2 - s1 - 0.5 * (r1[at1 + DRIVE] + r2[at2 + DRIVE]) * (x2 - x1);
    return;
  }
  const pull1 = (r1[at1 + DRIVE] - s1) / r1[at1 + THICKNESS];
  const pull2 = (r2[at2 + DRIVE] - s2) / r2[at2 + THICKNESS];
  out[to + 2] = 2 * Math.log(s2 / s1) - LAG * (x2 - x1) * (v * pull1 + w * pull2);
}
