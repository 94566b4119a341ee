import { type HalfModel, type NaturalModes, readRow, type StructuralModel } from '../structure/index.js';
import type { SteadyHalf } from './elasticHalf.js';
import type { PanelMotions } from './forces.js';
import { placeOf } from './panelRows.js';

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** How much of a mode's movement each kind makes up, by area and square of displacement. */
interface Kinds {
  bending: number;
  torsion: number;
  chordwise: number;
}

/** A control against its surface: movement as above, its turn summed with and without its sign. */
interface Turned {
  moved: number;
  along: number;
  alone: number;
}

interface Movement {
  readonly surfaces: Map<number, Kinds>;
  readonly controls: Map<string, Turned>;
}

type Place = ReturnType<typeof placeOf>;
type Hinge = NonNullable<NonNullable<Place>['hinge']>;

const addTo = <Key, Value extends object>(into: Map<Key, Value>, key: Key, empty: () => Value): Value => {
  const found = into.get(key) ?? empty();
  into.set(key, found);
  return found;
};

/** Splits displacements at places along the chord into rise, turn and what is left (bending along the chord). */
function addKinds(into: Kinds, x: readonly number[], moved: readonly number[], weight: number): void {
  const count = x.length;
  let [meanX, mean, sxx, sxw] = [0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    meanX += x[k] / count;
    mean += moved[k] / count;
  }
  for (let k = 0; k < count; k++) {
    sxx += (x[k] - meanX) ** 2;
    sxw += (x[k] - meanX) * (moved[k] - mean);
  }
  const slope = sxx > 0 ? sxw / sxx : 0;
  for (let k = 0; k < count; k++) {
    const turned = slope * (x[k] - meanX);
    into.bending += weight * mean * mean;
    into.torsion += weight * turned * turned;
    into.chordwise += weight * (moved[k] - mean - turned) ** 2;
  }
}

/** What moves in a mode: the surfaces without the turn of their controls, and that turn by itself. */
function movementIn(
  { lattice, panels }: SteadyHalf,
  motions: PanelMotions,
  column: number,
  turnOf: (strip: number) => { readonly hinge: Hinge; readonly turn: number } | undefined,
): Movement {
  const { strips, firstPanel, points } = lattice;
  const found: Movement = { surfaces: new Map(), controls: new Map() };
  for (let s = 0; s < strips.count && firstPanel[s] < panels; s++) {
    const count = firstPanel[s + 1] - firstPanel[s];
    const weight = strips.area[s] / count;
    const turned = turnOf(s);
    const x = Array.from({ length: count }, (_, k) => points[3 * (firstPanel[s] + k)]);
    const byTurn = x.map((at) => (turned === undefined ? 0 : turned.turn * Math.max(0, at - turned.hinge.x)));
    const up = strips.nz[s];
    const moved = x.map((_, k) => motions.atControl[(firstPanel[s] + k) * motions.count + column] - up * byTurn[k]);
    addKinds(
      addTo(found.surfaces, strips.surface[s], () => ({ bending: 0, torsion: 0, chordwise: 0 })),
      x,
      moved,
      weight,
    );
    if (turned === undefined) continue;
    const control = addTo(found.controls, turned.hinge.control, () => ({ moved: 0, along: 0, alone: 0 }));
    for (const each of byTurn) control.moved += weight * each * each;
    control.along += strips.area[s] * turned.turn;
    control.alone += strips.area[s] * Math.abs(turned.turn);
  }
  return found;
}

function kindWord({ bending, torsion, chordwise }: Kinds): string {
  if (chordwise > bending && chordwise > torsion) return 'bending along the chord';
  // A turn about mid-chord moves the edges 1.7 times as far as its root mean square.
  return torsion > 0.5 * bending ? 'torsion' : 'bending';
}

/** What moves most in a mode, and how; a control whose ends turn against each other is twisted. */
function movedMost({ surfaces, controls }: Movement, names: readonly { readonly name: string }[]): string {
  let [word, most] = ['body bending', 0];
  for (const [surface, kinds] of surfaces) {
    const size = kinds.bending + kinds.torsion + kinds.chordwise;
    if (size > most) [word, most] = [`${names[surface].name} ${kindWord(kinds)}`, size];
  }
  for (const [name, { moved, along, alone }] of controls)
    if (moved > most) [word, most] = [`${Math.abs(along) > 0.7 * alone ? 'turn' : 'twist'} of the ${name}`, moved];
  return word;
}

/**
 * Words for the motions of a half: heave, pitch, roll, then each natural mode by the surface or control that moves most and how it does.
 */
export function modeWords(
  steady: SteadyHalf,
  model: StructuralModel,
  half: HalfModel,
  { motions, modes }: { readonly motions: PanelMotions; readonly modes: NaturalModes },
): string[] {
  const words = half.rigidCount === 2 ? ['heave', 'pitch'] : half.rigidCount === 1 ? ['roll'] : [];
  const hinges = Array.from(
    { length: steady.lattice.strips.count },
    (_, s) => placeOf(steady.lattice, steady.surfaces, model, s)?.hinge,
  );
  const counted = new Map<string, number>();
  for (let k = 0; k < modes.count; k++) {
    const shape = modes.shapes.subarray(k * half.size, (k + 1) * half.size);
    const turnOf = (strip: number) => {
      const hinge = hinges[strip];
      return hinge && { hinge, turn: readRow(half, ...hinge.jump, shape) };
    };
    const word = movedMost(movementIn(steady, motions, half.rigidCount + k, turnOf), steady.surfaces);
    const number = counted.get(word) ?? 0;
    counted.set(word, number + 1);
    words.push(`${ordinals[number] ?? `${number + 1}th`} ${word}`);
  }
  return words;
}
