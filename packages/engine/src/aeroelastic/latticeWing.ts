import { type Outcome, success } from '../result.js';
import { trapezoidalWing } from '../shape/index.js';
import { buildLattice, type Lattice } from '../wing/lattice.js';
import { cantileverMode } from './beamModes.js';
import { type FlutterPoint, flutterPoints } from './flutter.js';
import { generalisedForces, type PanelMotions } from './forces.js';
import { oscillatingInfluence } from './oscillatingInfluence.js';
import { stripWingModel, type UniformWing } from './stripWing.js';

/** Cantilever bending and sine torsion of a uniform wing on the panels of a lattice, `each` of both, as in `stripWingModel`. */
function uniformMotions(wing: UniformWing, lattice: Lattice, each: number): PanelMotions {
  const n = lattice.mirroredPanels;
  const count = 2 * each;
  const zeros = () => new Float64Array(n * count);
  const motions = { count, atForce: zeros(), atControl: zeros(), slope: zeros() };
  const axis = wing.axis * wing.chord;
  for (let i = 0; i < each; i++) {
    const mode = cantileverMode(i + 1);
    for (let p = 0; p < n; p++) {
      const y = lattice.strips.y[lattice.stripOfPanel[p]] / wing.semispan;
      const [rise, turn] = [mode.value(y), Math.sin((i + 0.5) * Math.PI * y)];
      const bound = (lattice.ends[6 * p] + lattice.ends[6 * p + 3]) / 2;
      motions.atForce[p * count + i] = rise;
      motions.atControl[p * count + i] = rise;
      motions.atForce[p * count + each + i] = turn * (axis - bound);
      motions.atControl[p * count + each + i] = turn * (axis - lattice.points[3 * p]);
      motions.slope[p * count + each + i] = -turn;
    }
  }
  return motions;
}

/**
 * Flutter of a uniform cantilever wing (with its mirror image) by the oscillating lattice: lowest onset, undefined where there is none.
 * panels - of the half wing; each - bending and torsion modes
 */
export function latticeWingFlutter(
  wing: UniformWing,
  density: number,
  panels: { readonly chordwise: number; readonly spanwise: number },
  each = 3,
): Outcome<FlutterPoint | undefined> {
  const { semispan, chord } = wing;
  const span = 2 * semispan;
  const lattice = buildLattice([trapezoidalWing({ span, aspectRatio: span / chord })], { panels });
  const waves = Float64Array.from([0.02, 0.05, 0.1, 0.18, 0.3, 0.45, 0.65, 0.9, 1.3], (k) => (2 * k) / chord);
  const { symmetric } = oscillatingInfluence(lattice, waves, false);
  const forces = generalisedForces(lattice, symmetric, uniformMotions(wing, lattice, each));
  if (!forces.ok) return forces;
  const model = { ...stripWingModel(wing, density, each), forces: forces.value };
  const onset = flutterPoints(model, { lowest: 0.04 / chord, highest: 2.6 / chord }, 1000).find((point) => point.onset);
  return success(onset);
}
