import { factorLu, solveLu } from '../math/linear.js';
import { type Outcome, success } from '../result.js';
import type { LiftingSurface } from '../shape/index.js';
import { influenceMatrices, upwashOnCentreLine } from './influence.js';
import { buildLattice } from './lattice.js';
import type { WingOptions } from './types.js';

/**
 * Downwash per angle of attack that lifting surfaces make in the plane of symmetry, wake straight aft.
 * A rolled-up wake, and a tail above or below the wake, see less than a point in it.
 *
 * surfaces - those that make the downwash (leave the tail out)
 * points - x aft, z up [m]
 * Returns d epsilon / d alpha at each point [1]; negative ahead of the wing, where the flow rises.
 */
export function downwashGradient(
  surfaces: readonly LiftingSurface[],
  points: readonly { readonly x: number; readonly z: number }[],
  options: WingOptions = {},
): Outcome<number[]> {
  const lattice = buildLattice(surfaces, options);
  const n = lattice.mirroredPanels;
  const lu = factorLu(influenceMatrices(lattice, false).symmetric, n);
  if (!lu.ok) return { ...lu, where: 'lifting surfaces' };
  const incidence = Float64Array.from({ length: n }, (_, panel) => lattice.strips.nz[lattice.stripOfPanel[panel]]);
  const circulation = solveLu(lu.value, incidence);
  return success(upwashOnCentreLine(lattice, circulation, points).map((upwash) => -upwash));
}
