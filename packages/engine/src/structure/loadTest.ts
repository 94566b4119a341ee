import { type Outcome, success } from '../result.js';
import { halfModel, naturalModes, prepareStatic, solveStatic } from './half.js';
import type { StructuralModel } from './model-types.js';
import { addForce, pointRow, readRow } from './rows.js';

/** A weight on the right wing of an aircraft that is held in its plane of symmetry. */
export interface BenchLoad {
  readonly surface: string;
  /** Along the surface, and aft of the datum [m]. */
  readonly y: number;
  readonly x: number;
  /** Downwards [N]. */
  readonly force: number;
}

/** A chord at which the bench is read: along the surface, ends aft of the datum [m]. */
export interface BenchChord {
  readonly y: number;
  readonly leadingEdge: number;
  readonly trailingEdge: number;
}

/** What the weight does there. */
export interface BenchAnswer {
  /** Of the middle of the chord, downwards [m]. */
  readonly deflection: number;
  /** Of the chord, nose up [rad]. */
  readonly twist: number;
}

/**
 * Deflection and twist that a weight adds to a wing held at the middle. What the wing's own weight does is there before and after.
 * Source: the model's own static solution with every node of the plane of symmetry held.
 */
export function benchLoad(model: StructuralModel, load: BenchLoad, chord: BenchChord): Outcome<BenchAnswer> {
  const half = halfModel(model, 'clamped');
  const system = prepareStatic(half);
  if (!system.ok) return system;
  const loads = new Float64Array(half.size);
  addForce(half, loads, pointRow(model, load.surface, load.x, load.y), -load.force);
  const { displacement } = solveStatic(system.value, loads);
  const riseAt = (x: number) => {
    const row = pointRow(model, load.surface, x, chord.y);
    return readRow(half, row.dofs, row.w, displacement);
  };
  const [front, back] = [riseAt(chord.leadingEdge), riseAt(chord.trailingEdge)];
  return success({
    deflection: -(front + back) / 2,
    twist: (front - back) / (chord.trailingEdge - chord.leadingEdge),
  });
}

/**
 * Lowest tone of the aircraft, both wings alike [rad/s].
 * held - 'middle': in its plane of symmetry, on a bench; 'free': hung on something soft
 */
export function lowestTone(model: StructuralModel, held: 'middle' | 'free'): Outcome<number> {
  const modes = naturalModes(halfModel(model, held === 'middle' ? 'clamped' : 'symmetric'), 2);
  return modes.ok ? success(modes.value.frequencies[0]) : modes;
}
