import type { HalfModel, NaturalModes, StructuralModel } from '../structure/index.js';
import type { SteadyHalf } from './elasticHalf.js';
import type { PanelMotions } from './forces.js';

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** How much of a mode's movement each kind makes up, by area and square of displacement. */
interface Kinds {
  bending: number;
  torsion: number;
  chordwise: number;
}

/** Splits the movement of each strip into rise, turn and what is left (bending along the chord). */
function kindsOf(steady: SteadyHalf, motions: PanelMotions, mode: number): Map<number, Kinds> {
  const { lattice, panels } = steady;
  const { strips, firstPanel, points } = lattice;
  const bySurface = new Map<number, Kinds>();
  for (let s = 0; s < strips.count && firstPanel[s] < panels; s++) {
    const count = firstPanel[s + 1] - firstPanel[s];
    const at = (k: number) => motions.atControl[(firstPanel[s] + k) * motions.count + mode];
    const x = (k: number) => points[3 * (firstPanel[s] + k)];
    let [meanX, mean, sxx, sxw] = [0, 0, 0, 0];
    for (let k = 0; k < count; k++) {
      meanX += x(k) / count;
      mean += at(k) / count;
    }
    for (let k = 0; k < count; k++) {
      sxx += (x(k) - meanX) ** 2;
      sxw += (x(k) - meanX) * (at(k) - mean);
    }
    const slope = sxx > 0 ? sxw / sxx : 0;
    const weight = strips.area[s] / count;
    const kinds = bySurface.get(strips.surface[s]) ?? { bending: 0, torsion: 0, chordwise: 0 };
    for (let k = 0; k < count; k++) {
      const turned = slope * (x(k) - meanX);
      kinds.bending += weight * mean * mean;
      kinds.torsion += weight * turned * turned;
      kinds.chordwise += weight * (at(k) - mean - turned) ** 2;
    }
    bySurface.set(strips.surface[s], kinds);
  }
  return bySurface;
}

/** Root mean square turn of each control against its surface in a mode, over that of the mode's slopes. */
function controlTurn(model: StructuralModel, half: HalfModel, modes: NaturalModes, mode: number) {
  const shape = (dof: number) => {
    const index = half.indexOf[dof];
    return index < 0 ? 0 : modes.shapes[mode * half.size + index];
  };
  return model.controls.map((control) => {
    let [turn, carried] = [0, 0];
    control.y.forEach((_, i) => {
      const [a, b] = [shape(control.surfaceSlope[i]), shape(control.controlSlope[i])];
      turn += (b - a) ** 2;
      carried += a * a;
    });
    return { name: control.name, share: turn / (turn + carried || 1) };
  });
}

function kindWord(kinds: Kinds): string {
  const { bending, torsion, chordwise } = kinds;
  if (chordwise > bending && chordwise > torsion) return 'bending along the chord';
  // A turn about mid-chord moves the edges 1.7 times as far as its root mean square.
  return torsion > 0.5 * bending ? 'torsion' : 'bending';
}

/**
 * Words for the motions of a half: heave, pitch, roll, then each natural mode by the surface that moves most and how it does.
 */
export function modeWords(
  steady: SteadyHalf,
  model: StructuralModel,
  half: HalfModel,
  { motions, modes }: { readonly motions: PanelMotions; readonly modes: NaturalModes },
): string[] {
  const words = half.rigidCount === 2 ? ['heave', 'pitch'] : half.rigidCount === 1 ? ['roll'] : [];
  const counted = new Map<string, number>();
  for (let k = 0; k < modes.count; k++) {
    const kinds = kindsOf(steady, motions, half.rigidCount + k);
    let best: { surface: number; kinds: Kinds; size: number } | undefined;
    for (const [surface, of] of kinds) {
      const size = of.bending + of.torsion + of.chordwise;
      if (best === undefined || size > best.size) best = { surface, kinds: of, size };
    }
    const turned = controlTurn(model, half, modes, k).find(({ share }) => share > 0.7);
    const name = best === undefined ? 'body' : steady.surfaces[best.surface].name;
    const word =
      turned !== undefined
        ? `turn of the ${turned.name}`
        : `${name} ${best === undefined ? 'bending' : kindWord(best.kinds)}`;
    const number = counted.get(word) ?? 0;
    counted.set(word, number + 1);
    words.push(`${ordinals[number] ?? `${number + 1}th`} ${word}`);
  }
  return words;
}
