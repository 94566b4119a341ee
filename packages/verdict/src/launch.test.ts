import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages } from './index.js';
import type { LineAnswer } from './launch.js';
import { lineWords } from './launch-words.js';
import { limits } from './limits.js';
import { forwardText, jointText, throwText } from './load-words.js';

const said = {
  speed: (value: number) => `${value.toFixed(1)} m/s`,
  force: (value: number) => `${value.toFixed(0)} N`,
  length: (value: number) => `${(1000 * value).toFixed(0)} mm`,
  way: (value: number) => `${value.toFixed(1)} m`,
  degrees: (value: number) => `${((180 * value) / Math.PI).toFixed(0)} deg`,
  fine: (value: number) => `${((180 * value) / Math.PI).toFixed(2)} deg`,
};

function lineOf(text: string): LineAnswer {
  const stages = createStages();
  const found = limits(test.verdictOf(text, test.planText('alondra'), test.quick, stages), stages);
  if (!found.ok) throw new Error(found.reason);
  return found.value.line;
}

const alondra = test.designText('alondra');
const bare = alondra.replace(/ {4}structure:[\s\S]*?(?= {4}stations:)/, '');

describe('launch on a line', () => {
  const described = lineOf(alondra);

  it('of a described wing loads it by less than half of what breaks it there, which is less than in a pull-up', () => {
    expect(described.by).toBe('climb');
    expect(described.greatest).toBeCloseTo((described.climb - 1) * described.weight, 9);
    expect(described.climb * described.reserve).toBeLessThan(10);
    expect(described.assumed.join()).not.toContain('not described');
    expect(lineWords(described, said)[0]).toContain('weak link');
  });

  it('of a wing that is not described is told with what is assumed', () => {
    const line = lineOf(bare);
    expect(line.greatest).toBeCloseTo(2 * line.weight, 6);
    expect(line.assumed.join()).toContain('its strength is not described');
    expect(lineWords(line, said).at(-1)).toContain('not described');
  });

  it('judges the line and the hook that the design states', () => {
    const stated = (more: string) => lineWords(lineOf(`${alondra}\nlaunch:\n${more}`), said).join(' ');
    const strong = stated('  kind: winch\n  pull: 100 N\n');
    expect(strong).toContain('The winch may pull with at most');
    expect(strong).toContain('100 N: too much');
    expect(strong).not.toContain('bungee');
    expect(stated('  kind: bungee\n  pull: 20 N\n  way: 8 m\n')).toContain('20 N, which is within that');
    const hook = (x: number) => stated(`  hook: {x: ${x} mm, z: -80 mm}\n`);
    expect(hook(72)).toContain('pulls the nose up hard');
    expect(hook(-100)).toContain('climbs little');
    expect(hook(40)).toContain('within the usual');
  });

  it('is not made for one where its limit speed leaves no room', () => {
    const slow = { ...described, by: 'speed' as const, greatest: 0.1 * described.weight, limitSpeed: 7 };
    expect(lineWords(slow, said)[0]).toContain('not made for a line');
    expect(lineWords(slow, said).join()).not.toContain('bungee that pulls');
  });

  it('needs a longer bungee where the pull that it takes is too hard', () => {
    const weak = { ...described, greatest: 0.4 * described.weight };
    expect(lineWords(weak, said).join()).toContain('or more');
  });
});

describe('what loads do, in words', () => {
  it('names place and play of a joint, and no play where there is none', () => {
    const joint = {
      surface: 'wing',
      name: 'middle',
      y: 0,
      kept: { bending: 0.5, torsion: 0.7 },
      breaks: 20,
      crushes: 40,
    };
    expect(jointText({ ...joint, kink: 0 }, said)).toMatch(/^wing, joint middle, at the root: .*40\.0 N m\.$/);
    expect(jointText({ ...joint, y: 0.8, kink: 0.01 }, said)).toContain('800 mm out');
    expect(jointText({ ...joint, kink: 0.01 }, said)).toContain('kink by 0.57 deg');
  });

  it('says how hard a throw is and that it breaks where it does, and what bending forward takes', () => {
    const thrown = { speed: 9, way: 1.2, needs: 33.75, bears: 20, y: 0, reason: 'spar breaks' };
    expect(throwText(thrown, said)).toContain('pushed with 3.4 g');
    expect(throwText(thrown, said)).toContain('they bear 2.0 g, which is less (at the root, spar breaks)');
    expect(throwText({ ...thrown, bears: 1e3 }, said)).toContain('more than 50 g');
    const forward = { tilt: 0.2, without: 12, loadFactor: 15, y: 1, reason: 'spar breaks' };
    expect(forwardText(forward, { up: 9 }, said)).toContain('stands 11 deg above the path');
    expect(forwardText(forward, { up: 9 }, said)).toContain('with it the wing bears 9.0 g, without it 12.0 g');
  });
});
