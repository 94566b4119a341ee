import type { BasisSolutions, Strips } from './types.js';

const sweeps = 200;
const tolerance = 1e-7;

/** Incidence that no convergent relief needs [rad]: beyond it the strips of a folded or overlapping surface drive each other apart. */
const diverged = 3;

/** Incidence taken off stalled strips [rad]; `coupled` is false where each strip had to be limited for itself. */
export interface Relief {
  readonly incidence: Float64Array;
  readonly coupled: boolean;
}

/** Each strip limited for itself, without regard to the others. */
function limitSeparately(
  strips: Strips,
  { attached, lower, upper }: { attached: Float64Array; lower: Float64Array; upper: Float64Array },
  lift: Float64Array,
): Relief {
  const incidence = new Float64Array(strips.mirroredCount);
  for (let i = 0; i < incidence.length; i++) {
    lift[i] = Math.min(upper[i], Math.max(lower[i], attached[i]));
    const excess = (lift[i] - attached[i]) / (2 * Math.PI);
    incidence[i] = Math.min(1, Math.max(-1, excess));
  }
  return { incidence, coupled: false };
}

/**
 * Incidence taken off each strip so that no strip lifts more than its section can: cl = attached + R x, with x = 0 where cl lies inside
 * its limits and cl at the limit elsewhere (a linear complementarity problem, solved by projected Gauss-Seidel).
 * A stalled strip hands lift over to its neighbours through their downwash, as in flight.
 *
 * attached - strip lift coefficients of the linear solution
 * lower, upper - limits
 * Returns the added incidence [rad] (negative at the upper limit), or undefined where every strip is inside. `lift` receives the result.
 * Where the strips do not settle (surfaces that fold or overlap), each is limited for itself.
 * Source: the idea is that of decambering (Mukherjee and Gopalarathnam, J. Aircraft 43(3), 2006, from memory), here with a flat-topped curve.
 */
export function relieveStall(
  strips: Strips,
  response: BasisSolutions,
  limits: { attached: Float64Array; lower: Float64Array; upper: Float64Array },
  lift: Float64Array,
): Relief | undefined {
  const { attached, lower, upper } = limits;
  const n = strips.mirroredCount;
  let inside = true;
  for (let i = 0; i < n; i++) {
    lift[i] = attached[i];
    if (attached[i] > upper[i] || attached[i] < lower[i]) inside = false;
  }
  if (inside) return undefined;
  const incidence = new Float64Array(n);
  for (let sweep = 0; sweep < sweeps; sweep++) {
    let change = 0;
    for (let j = 0; j < n; j++) {
      const own = (2 * response.circulation[j * n + j]) / strips.chord[j];
      const without = lift[j] - own * incidence[j];
      const limited = Math.min(upper[j], Math.max(lower[j], without));
      const step = (limited - without) / own - incidence[j];
      if (step === 0) continue;
      incidence[j] += step;
      change = Math.max(change, Math.abs(step));
      for (let i = 0; i < n; i++) lift[i] += (step * 2 * response.circulation[j * n + i]) / strips.chord[i];
    }
    if (change < tolerance) return { incidence, coupled: true };
    if (!(change < diverged)) break;
  }
  return limitSeparately(strips, limits, lift);
}
