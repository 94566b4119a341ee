import { type Outcome, success } from '../result.js';
import { type HalfModel, type NaturalModes, naturalModes, type StructuralModel } from '../structure/index.js';
import type { SteadyHalf } from './elasticHalf.js';
import type { FlutterModel } from './flutter.js';
import { generalisedForces, type PanelMotions } from './forces.js';
import { modeWords } from './modeWords.js';
import { type OscillatingInfluence, oscillatingInfluence } from './oscillatingInfluence.js';
import { heldPanels, type PanelRows, panelRows } from './panelRows.js';

/** Reduced frequencies by the mean semichord at which forces are computed: close where they change, up to what 8 panels along the chord resolve. */
const reducedFrequencies = [0.02, 0.05, 0.1, 0.18, 0.3, 0.45, 0.65, 0.9, 1.3, 1.8];

/** Modes kept of each half: their number is shown to suffice in docs/aeroelastic-convergence.md. */
export const keptModes = 14;

/** Influence of the oscillating lattice of a wing at the wave numbers that matter: once per geometry. */
export function wingInfluence(steady: SteadyHalf, chord: number, lateral = true) {
  const waves = Float64Array.from(reducedFrequencies, (k) => (2 * k) / chord);
  return oscillatingInfluence(steady.lattice, waves, lateral);
}

/** A flutter model with words for its motions. */
export interface ModalModel extends FlutterModel {
  /** Rigid motions come first. */
  readonly rigidCount: number;
  readonly words: readonly string[];
  /** In vacuo [rad/s]; 0 for rigid motions. */
  readonly frequencies: Float64Array;
  readonly motions: PanelMotions;
  readonly modes: NaturalModes;
  readonly rows: PanelRows;
}

/** Rigid motions of the whole aircraft on the panels: heave and pitch about the balance point, or roll to the right. */
function rigidOnPanels(steady: SteadyHalf, model: StructuralModel, half: HalfModel, motions: PanelMotions): void {
  if (half.symmetry === 'clamped') return;
  const { lattice, panels } = steady;
  const { ends, points, strips, stripOfPanel } = lattice;
  const m = motions.count;
  for (let p = 0; p < panels; p++) {
    const strip = stripOfPanel[p];
    const up = strips.nz[strip];
    const bound = (ends[6 * p] + ends[6 * p + 3]) / 2;
    const aft = points[3 * p];
    if (half.symmetry === 'antisymmetric') {
      const roll = strips.ny[strip] * strips.z[strip] - up * strips.y[strip];
      motions.atForce[p * m] = roll;
      motions.atControl[p * m] = roll;
      continue;
    }
    motions.atForce.set([up, up * (model.balancePoint - bound)], p * m);
    motions.atControl.set([up, up * (model.balancePoint - aft)], p * m);
    motions.slope[p * m + 1] = -up;
  }
}

function motionsOf(
  steady: SteadyHalf,
  model: StructuralModel,
  half: HalfModel,
  { rows, modes }: { rows: PanelRows; modes: NaturalModes },
): PanelMotions {
  const { panels } = steady;
  const count = half.rigidCount + modes.count;
  const zeros = () => new Float64Array(panels * count);
  const motions = { count, atForce: zeros(), atControl: zeros(), slope: zeros() };
  rigidOnPanels(steady, model, half, motions);
  const fill = (into: Float64Array, from: Float64Array) => {
    for (let p = 0; p < panels; p++)
      for (let k = 0; k < modes.count; k++) {
        let sum = 0;
        for (let i = 0; i < half.size; i++) sum += from[p * half.size + i] * modes.shapes[k * half.size + i];
        into[p * count + half.rigidCount + k] = sum;
      }
  };
  fill(motions.atForce, rows.force);
  fill(motions.atControl, rows.control);
  fill(motions.slope, rows.slope);
  return motions;
}

/** Masses of the rigid motions, R' M R. */
function rigidMass({ rigid, rigidCount, mass, size }: HalfModel): Float64Array {
  const result = new Float64Array(rigidCount * rigidCount);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) {
      const value = mass[i * size + j];
      if (value === 0) continue;
      for (let a = 0; a < rigidCount; a++)
        for (let b = 0; b < rigidCount; b++)
          result[a * rigidCount + b] += rigid[a * size + i] * value * rigid[b * size + j];
    }
  return result;
}

/**
 * Motions of half an aircraft for the flutter search: rigid ones and its lowest natural modes, with the forces of the air on them.
 *
 * influence - of the same lattice and symmetry, from `wingInfluence`
 * kept - elastic modes
 */
export function modalModel(
  steady: SteadyHalf,
  influence: OscillatingInfluence,
  structure: { readonly model: StructuralModel; readonly half: HalfModel },
  { density, kept = keptModes }: { readonly density: number; readonly kept?: number },
): Outcome<ModalModel> {
  const { model, half } = structure;
  const modes = naturalModes(half, kept);
  if (!modes.ok) return modes;
  const rows = panelRows(heldPanels(steady.lattice, steady.surfaces, model), half, steady.panels);
  const motions = motionsOf(steady, model, half, { rows, modes: modes.value });
  const forces = generalisedForces(steady.lattice, influence, motions);
  if (!forces.ok) return forces;
  const [count, r] = [motions.count, half.rigidCount];
  const mass = new Float64Array(count * count);
  const stiffness = new Float64Array(count * count);
  const rigid = rigidMass(half);
  for (let a = 0; a < r; a++) for (let b = 0; b < r; b++) mass[a * count + b] = rigid[a * r + b];
  const frequencies = new Float64Array(count);
  for (let k = 0; k < modes.value.count; k++) {
    mass[(r + k) * (count + 1)] = 1;
    frequencies[r + k] = modes.value.frequencies[k];
    stiffness[(r + k) * (count + 1)] = frequencies[r + k] ** 2;
  }
  const words = modeWords(steady, model, half, { motions, modes: modes.value });
  return success({
    mass,
    stiffness,
    forces: forces.value,
    density,
    rigidCount: r,
    words,
    frequencies,
    motions,
    modes: modes.value,
    rows,
  });
}
