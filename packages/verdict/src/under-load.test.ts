import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages } from './index.js';
import { limits } from './limits.js';
import { type UnderLoad, underLoad } from './under-load.js';

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

function setup(name: 'alondra' | 'bandeja') {
  const stages = createStages();
  const verdict = test.verdictOf(test.designText(name), test.planText(name), test.quick, stages);
  const answer = certain(limits(verdict, stages));
  const at = (airspeed: number, loadFactor: number) => underLoad(verdict, answer, { airspeed, loadFactor }, stages);
  return { stages, verdict, answer, at };
}

const tipRise = ({ surfaces }: UnderLoad) => {
  const { rise } = surfaces[0]!.chords.at(-1)!;
  return (rise[0]! + rise.at(-1)!) / 2;
};

describe('Alondra under load', () => {
  const { at, stages, answer } = setup('alondra');
  const level = certain(at(8, 1));

  it('bends its tips up, the root staying where it is, and a tail is there too', () => {
    const [wing] = level.surfaces;
    expect(wing!.name).toBe('wing');
    expect(level.surfaces.map(({ name }) => name)).toContain('tailplane');
    expect(tipRise(level)).toBeGreaterThan(1e-3);
    expect(tipRise(level)).toBeLessThan(0.05);
    const [root] = wing!.chords;
    const mean = root!.rise.reduce((sum, each) => sum + each, 0) / root!.rise.length;
    expect(mean).toBeCloseTo(0, 9);
    expect(wing!.chords.map(({ share }) => share)[0]).toBe(0);
    expect(wing!.chords.at(-1)!.share).toBe(1);
  });

  it('changes by equal steps of load factor at one airspeed: the problem is linear there', () => {
    const [one, two, three] = [1, 2, 3].map((g) => tipRise(certain(at(12, g))));
    expect(three! - two!).toBeCloseTo(two! - one!, 9);
    expect(two).toBeGreaterThan(one!);
    const down = certain(at(12, -1));
    expect(tipRise(down)).toBeLessThan(0);
  });

  it('is solved once: another state asks for no lattice and no structure', () => {
    stages.clearTrace();
    certain(at(9, 1.5));
    expect(stages.trace().every(({ reused }) => reused)).toBe(true);
  });

  it('strains each cell, most near the root, with a chance that grows with the load and bands in order', () => {
    expect(level.cells.length).toBeGreaterThan(10);
    const hard = certain(at(16, 4));
    const strain = (of: UnderLoad) => Math.max(...of.cells.map((cell) => cell.share));
    expect(strain(hard)).toBeGreaterThan(strain(level));
    for (const { share, chance, span, chord } of hard.cells) {
      expect(share).toBeGreaterThan(0);
      expect(chance.low).toBeLessThanOrEqual(chance.value);
      expect(chance.value).toBeLessThanOrEqual(chance.high);
      expect(span[0]).toBeLessThan(span[1]);
      expect(chord[0]).toBeLessThan(chord[1]);
    }
    const right = hard.cells.filter(({ side }) => side === 'right');
    const left = hard.cells.filter(({ side }) => side === 'left');
    expect(left.map(({ share }) => share)).toEqual(right.map(({ share }) => share));
    expect(hard.chance!.value).toBeGreaterThanOrEqual(Math.max(...hard.cells.map(({ chance }) => chance.value)));
    expect(right[0]!.strain.carried).not.toBe(0);
  });

  it('says what the aircraft cannot give', () => {
    expect(certain(at(8, 6)).warnings.join()).toContain('stalls first');
    expect(level.warnings).toEqual([]);
    expect(answer.report.limits.length).toBeGreaterThan(0);
  });
});

describe('Bandeja under load', () => {
  const { at, answer } = setup('bandeja');

  it('bends along its chord too', () => {
    const tip = certain(at(7, 1)).surfaces[0]!.chords.at(-1)!;
    const straight = (tip.rise[0]! + tip.rise.at(-1)!) / 2;
    expect(Math.abs(tip.rise[4]! - straight)).toBeGreaterThan(1e-4);
  });

  it('is refused beyond divergence', () => {
    const diverges = answer.report.limits.find(({ kind }) => kind === 'divergence')!.airspeed;
    const found = at(1.1 * diverges, 1);
    expect(found).toMatchObject({ ok: false, code: 'under-load' });
    expect(at(0.9 * diverges, 1).ok).toBe(true);
  });
});
