import { describe, expect, it } from 'vitest';
import { apply } from '../../core/commands.js';
import type { Work } from '../../core/state.js';
import { byGroup, differences, valuesOf } from './differences.js';
import { otherTexts, swapCommands } from './swap.js';

const a =
  'noonwing: design 1\nname: A\nbattery: {cell: lithium-ion 18650 3.4 Ah, x: 20 mm}\nsurfaces:\n  wing:\n    role: wing\n    stations:\n      - {y: 0 mm, chord: 200 mm}\n      - {y: 600 mm, chord: 150 mm}\n';
const b = a
  .replace('name: A', 'name: B')
  .replace('x: 20 mm', 'x:   25 mm')
  .replace('chord: 150 mm', 'chord: 150   mm')
  .replace('x:   25 mm}', 'x: 25 mm, z: -10 mm}');

describe('what differs in two files', () => {
  it('is named by path with both values; blanks and order do not count', () => {
    expect(differences('design', a, b)).toEqual([
      { path: 'name', mine: 'A', other: 'B' },
      { path: 'battery.x', mine: '20 mm', other: '25 mm' },
      { path: 'battery.z', other: '-10 mm' },
    ]);
    expect(differences('design', a, a)).toEqual([]);
  });

  it('is the same from the other side with the values exchanged', () => {
    const there = differences('design', b, a);
    const here = differences('design', a, b);
    const key = ({ path, mine, other }: (typeof here)[number]) => `${path} ${mine} ${other}`;
    expect(there.map(({ path, mine, other }) => `${path} ${other} ${mine}`).sort()).toEqual(here.map(key).sort());
  });

  it('reaches into lists, counted from one', () => {
    expect(valuesOf('design', a).get('surfaces.wing.stations[2].chord')).toBe('150 mm');
  });

  it('is grouped in its order', () => {
    expect(byGroup(differences('design', a, b)).map(({ group, rows }) => [group, rows.length])).toEqual([
      ['single values', 1],
      ['battery', 2],
    ]);
  });

  it('can be taken over value by value until nothing differs', () => {
    let work: Work = {
      projects: { p: { id: 'p', name: 'p', files: { 'a.yaml': a }, design: 'a.yaml' } },
      current: 'p',
      pending: {},
    };
    for (const { path, other } of differences('design', a, b)) {
      const edit = other === undefined ? { path } : { path, text: other };
      work = apply(work, { kind: 'set values', edits: [edit] }).work;
    }
    expect(differences('design', work.projects.p!.files['a.yaml']!, b)).toEqual([]);
  });

  it('survives files that cannot be read', () => {
    expect(differences('design', 'a: [', b).length).toBeGreaterThanOrEqual(0);
    expect(valuesOf('day', '').size).toBe(0);
  });
});

describe('exchanging the two', () => {
  const plan = 'noonwing: day 1\nplace: 40.7 N 0.9 E\ndate: 2026-06-21\n';
  const start: Work = {
    projects: {
      p: { id: 'p', name: 'p', files: { 'a.yaml': a, 'd.day.yaml': plan }, design: 'a.yaml', plan: 'd.day.yaml' },
      q: { id: 'q', name: 'q', files: { 'b.yaml': b }, design: 'b.yaml' },
    },
    current: 'p',
    pending: {},
  };
  const run = (work: Work) =>
    swapCommands({ work }, work.compare!, 5).reduce((at, command) => {
      const { work: after, result } = apply(at, command);
      expect(result).toMatchObject({ ok: true });
      return after;
    }, work);

  it('opens the other design and puts the open one beside it; twice is where it began', () => {
    const work: Work = { ...start, compare: { kind: 'design', project: 'q', design: 'b.yaml' } };
    const once = run(work);
    expect(once.current).toBe('q');
    expect(once.compare).toEqual({ kind: 'design', project: 'p', design: 'a.yaml', plan: 'd.day.yaml' });
    expect(otherTexts({ work: once }, once.compare!)).toEqual({ design: a, plan });
    const twice = run(once);
    expect([twice.current, twice.compare]).toEqual(['p', work.compare]);
  });

  it('brings a remembered state back and remembers what was there', () => {
    const work: Work = {
      ...start,
      compare: { kind: 'remembered', label: 'then', design: b, plan, sections: {}, at: 1 },
    };
    const once = run(work);
    expect(once.projects.p!.files['a.yaml']).toBe(b);
    expect(once.compare).toMatchObject({ kind: 'remembered', design: a, at: 5 });
    expect(run(once).projects.p!.files['a.yaml']).toBe(a);
  });
});
