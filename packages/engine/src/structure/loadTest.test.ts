import { describe, expect, it } from 'vitest';
import { benchLoad, buildModel, lowestTone } from './index.js';
import { panel, panelFrequencies, uniformPlate } from './panels.js';

const [chord, length, stiffness] = [0.1, 0.6, 2];
const strip = panel(chord, length, uniformPlate(stiffness, 0));
const built = buildModel({ surfaces: [strip], bodies: [], masses: [] }, { corners: 90 });
if (!built.ok) throw new Error(built.reason);
const model = built.value;
const ends = { leadingEdge: 0, trailingEdge: chord };

const answer = (y: number, x: number, force: number, at = y) => {
  const found = benchLoad(model, { surface: 'panel', y, x, force }, { y: at, ...ends });
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

describe('a weight on a held wing', () => {
  it('bends it as a cantilever: P L^3 / 3 E I at the tip, P a^2 (3 L - a) / 6 E I from a weight further in', () => {
    // Source: Gere, Timoshenko, Mechanics of Materials, appendix G. Poisson's ratio 0: a plate strip is a beam of D times its chord; 1 % for the mesh.
    const bending = stiffness * chord;
    const tip = (2 * length ** 3) / (3 * bending);
    expect(answer(length, chord / 2, 2).deflection / tip).toBeCloseTo(1, 2);
    const a = 0.3;
    const inner = (2 * a * a * (3 * length - a)) / (6 * bending);
    expect(answer(a, chord / 2, 2, length).deflection / inner).toBeCloseTo(1, 2);
  });

  it('does not twist where it lies in the middle, nose down where it lies ahead, and by as much the other way behind', () => {
    const [ahead, behind] = [answer(length, 0, 2).twist, answer(length, chord, 2).twist];
    expect(ahead).toBeLessThan(0);
    // The diagonals of the mesh lean one way: a thousandth of the twist is theirs.
    expect(Math.abs(answer(length, chord / 2, 2).twist / ahead)).toBeLessThan(5e-3);
    expect(behind / ahead).toBeCloseTo(-1, 2);
  });

  it('answers in proportion to the weight', () => {
    expect(answer(length, 0, 5).deflection).toBeCloseTo(5 * answer(length, 0, 1).deflection, 12);
  });
});

it('the lowest tone of a held panel is its first natural frequency, and hung free it is higher', () => {
  const held = lowestTone(model, 'middle');
  const free = lowestTone(model, 'free');
  if (!held.ok || !free.ok) throw new Error('tone');
  expect(held.value).toBeCloseTo(panelFrequencies(strip, 1, 90)[0], 6);
  // Half of a free-free beam of twice the length: 22.373 / 4 against 3.516 of the cantilever.
  expect(free.value / held.value).toBeCloseTo(22.373 / 4 / 3.516, 1);
});
