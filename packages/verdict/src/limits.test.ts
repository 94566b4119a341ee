import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, shareUnchanged, verdict as verdictFor } from './index.js';
import { limitChanges } from './limit-changes.js';
import { knownLimit, limits, limitWarnings, steadyLimit } from './limits.js';

const plan = test.planText('bandeja');
/** Without what the example says of its structure. */
const bandeja = test.designText('bandeja').replace(/ {4}structure:[\s\S]*?(?= {4}stations:)/, '');

function certain<T>(outcome: { ok: true; value: T } | { ok: false; reason: string }): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('limits of Bandeja, its structure assumed', () => {
  const stages = createStages();
  const verdict = test.verdictOf(bandeja, plan, test.quick, stages);
  const answer = certain(limits(verdict, stages));

  it('say what was assumed, and that it is flown above its limit speed', () => {
    expect(answer.structure.assumed.join()).toContain('bare foam');
    const [first] = answer.report.limits;
    expect(first!.low).toBeLessThan(verdict.flight!.airspeed);
    const [warning] = limitWarnings(answer);
    expect(warning!.message).toContain(`${knownLimit(answer)!.airspeed.toFixed(1)} m/s`);
    expect(warning!.message).toContain('assumed');
  });

  it('name a change that raises the limit beyond the airspeed flown, with its grams', () => {
    const [best] = limitChanges(verdict, answer, stages);
    expect(best!.name).toContain('glass');
    expect(best!.limitSpeed).toBeGreaterThan(verdict.flight!.airspeed);
    expect(best!.mass).toBeGreaterThan(0.02);
    expect(best!.mass).toBeLessThan(0.2);
  });

  it('do not depend on the drive: an airspeed that it cannot hold has the limits of one that it can', () => {
    const fast = test.verdictOf(bandeja, `${plan}\nairspeed: 60 m/s\n`, test.quick, createStages());
    expect(fast.flight).toBeUndefined();
    const found = certain(limits(fast, createStages()));
    expect(found.undriven).toBe(true);
    expect(found.airspeed).toBeCloseTo(60, 6);
    const divergence = (of: typeof found) => of.report.limits.find(({ kind }) => kind.endsWith('divergence'))?.airspeed;
    expect(divergence(found)).toBeGreaterThan(0);
    expect(divergence(found)! / divergence(answer)!).toBeCloseTo(1, 2);
    expect(limitWarnings(found)).toEqual([]);
  });

  it('offer materials of the design where it describes its wing: its shell once more stiffens, and half the span weighs over half of it', () => {
    const own = createStages();
    const moulded = test.verdictOf(test.designText('vigilia'), test.planText('vigilia'), test.quick, own);
    const changes = limitChanges(moulded, certain(limits(moulded, own)), own);
    const named = (part: string) => changes.find(({ name }) => name.includes(part))!;
    const [inner, whole] = [named('inner half'), named('from root to tip')];
    expect(named('caps of main').mass).toBeGreaterThan(0);
    expect(whole.name).toContain('glass fabric 49 g/m2');
    expect(inner.mass / whole.mass).toBeGreaterThan(0.5);
    expect(inner.mass / whole.mass).toBeLessThan(0.6);
    expect(whole.perGram).toBeGreaterThan(0);
  });

  it('are remembered, and a mass that changes solves no lattice again', () => {
    stages.clearTrace();
    limits(verdict, stages);
    expect(stages.trace().every(({ reused }) => reused)).toBe(true);
    stages.clearTrace();
    const changed = test.aircraftOf(test.edited(bandeja, { 'masses.receiver.mass': '30 g' }));
    const aircraft = shareUnchanged(verdict.prepared.model.complete, changed);
    const heavier = verdictFor(aircraft, test.planOf(plan), {}, stages, test.quick);
    certain(limits(heavier, stages));
    const solved = stages.trace().filter(({ reused }) => !reused);
    expect(solved.map(({ stage }) => stage)).toContain('structural model');
    expect(solved.map(({ stage }) => stage)).not.toContain('wing');
    expect(solved.map(({ stage }) => stage)).not.toContain('aeroelastic wing');
  });
});

describe('limits of Bandeja, its structure described', () => {
  it('rest on its foam and strips, and say what its strength allows', () => {
    const stages = createStages();
    const verdict = test.verdictOf(test.designText('bandeja'), plan, test.quick, stages);
    const answer = certain(limits(verdict, stages));
    expect(answer.structure.assumed).toEqual([]);
    expect(Object.keys(answer.structure.described)).toEqual(['plank']);
    expect(answer.structure.stiffnessSigma).toBeGreaterThan(0.4);
    expect(answer.report.allowed!.up).toBeGreaterThan(4);
    expect(limitWarnings(answer)[0]!.message).not.toContain('assumed');
  });

  it('are a problem that names the spar where that is impossible', () => {
    const stages = createStages();
    const text = test
      .designText('bandeja')
      .replace('height: 6 mm, chord station: 15 %', 'height: 0 mm, chord station: 15 %');
    const found = limits(test.verdictOf(text, plan, test.quick, stages), stages);
    expect(found).toMatchObject({ ok: false, code: 'spar-size' });
  });
});

describe('limits of Alondra with a bracing wire below each half', () => {
  const braced = (wire: string) =>
    test.designText('alondra').replace('    structure:\n', `    structure:\n      wires:\n        front: ${wire}\n`);
  const limitsOf = (text: string) => {
    const stages = createStages();
    return certain(limits(test.verdictOf(text, test.planText('alondra'), test.quick, stages), stages));
  };
  const wire = '{material: steel wire, diameter: 0.5 mm, at: 60 %, x: 80 mm, z: -120 mm}';
  const [bare, held] = [limitsOf(test.designText('alondra')), limitsOf(braced(wire))];

  it('bears more, and its limit speed rises', () => {
    expect(held.report.allowed!.up).toBeGreaterThan(1.3 * bare.report.allowed!.up);
    expect(held.report.limits[0]!.low).toBeGreaterThan(bare.report.limits[0]!.low);
    expect(limitWarnings(held).filter(({ code }) => code === 'slack-wire')).toEqual([]);
  });

  it('parts first where wire or fittings bear little', () => {
    const weak = limitsOf(braced(wire.replace('}', ', breaks at: 5 N}')));
    expect(weak.report.allowed!.reason).toBe('wire front of wing parts');
    expect(weak.report.allowed!.up).toBeLessThan(bare.report.allowed!.up);
  });

  it('is as without one that lift slackens, and says so', () => {
    const above = limitsOf(braced(wire.replace('-120 mm', '200 mm')));
    expect(limitWarnings(above).find(({ code }) => code === 'slack-wire')!.message).toContain('not counted');
    // Its few grams lie in the middle of the wing.
    expect(above.report.allowed!.up / bare.report.allowed!.up).toBeCloseTo(1, 1);
  });
});

describe('a day within its limit speed', () => {
  const stages = createStages();
  const text = test.edited(test.designText('alondra'), { 'flight.airspeed': '12 m/s' });
  const aircraft = test.aircraftOf(text);
  const flownWithin = (airspeed: number) =>
    verdictFor(aircraft, test.planOf(test.planText('alondra')), {}, stages, {
      ...test.quick,
      limit: { airspeed, words: 'it bends', assumed: false },
    });

  it('is flown no faster, takes less power, and says so', () => {
    const free = flownWithin(30);
    const held = flownWithin(10);
    expect(free.flight!.airspeed).toBeCloseTo(12, 6);
    expect(free.warnings.map(({ code }) => code)).not.toContain('limit-speed');
    expect(held.flight!.airspeed).toBeCloseTo(10, 6);
    expect(held.levelPower!.value).toBeLessThan(free.levelPower!.value);
    const said = held.warnings.find(({ code }) => code === 'limit-speed')!.message;
    expect(said).toContain('held at its limit speed of 10.0 m/s');
    expect(said).toContain('12.0 m/s');
  });

  it('stays clear of the stall, and is then above the limit, which is a problem', () => {
    const soft = flownWithin(4);
    const { stallSpeed } = soft.flight!.chosen!;
    expect(soft.flight!.airspeed).toBeGreaterThan(1.2 * stallSpeed);
    expect(soft.problems.find(({ code }) => code === 'limit-speed')!.reason).toContain('above its limit speed');
  });

  it('does not move its own limit: the limits are those of the airspeed that is wanted', () => {
    const [free, held] = [30, 10].map((limit) => certain(limits(flownWithin(limit), stages)));
    expect(held!.report.limits[0]!.low).toBeCloseTo(free!.report.limits[0]!.low, 2);
    expect(held!.airspeed).toBeCloseTo(10, 6);
  });

  it('looks for no flutter where it must be quick, and says that', () => {
    const verdict = flownWithin(30);
    const quick = steadyLimit(verdict, stages)!;
    expect(quick.without).toBe('flutter');
    const all = certain(limits(verdict, stages));
    const steady = all.report.limits.find(({ kind }) => !kind.includes('flutter'))!;
    // It is solved as warm as it flies at noon.
    expect(quick.warmTop).toBeGreaterThan(300);
    expect(quick.airspeed).toBeLessThan(steady.low);
    expect(quick.airspeed).toBeGreaterThan(0.93 * steady.low);
    expect(knownLimit(all)!.airspeed).toBeLessThanOrEqual(quick.airspeed);
  });
});

describe('limits of an aircraft of which only the level power is known', () => {
  it('are not made up', () => {
    const stages = createStages();
    const found = limits(test.verdictOf(test.statedDesign, test.midsummer, test.quick, stages), stages);
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.remedy).toContain('describe');
  });
});
