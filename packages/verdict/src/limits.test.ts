import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { createStages, limitChanges, limits, limitWarnings, shareUnchanged, verdict as verdictFor } from './index.js';

const plan = test.planText('bandeja');
const bandeja = test.designText('bandeja');

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
    expect(warning!.message).toContain(`${first!.low.toFixed(1)} m/s`);
    expect(warning!.message).toContain('assumed');
  });

  it('name a change that raises the limit beyond the airspeed flown, with its grams', () => {
    const [best] = limitChanges(verdict, answer, stages);
    expect(best!.name).toContain('glass');
    expect(best!.limitSpeed).toBeGreaterThan(verdict.flight!.airspeed);
    expect(best!.mass).toBeGreaterThan(0.02);
    expect(best!.mass).toBeLessThan(0.2);
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

describe('limits of an aircraft of which only the level power is known', () => {
  it('are not made up', () => {
    const stages = createStages();
    const found = limits(test.verdictOf(test.statedDesign, test.midsummer, test.quick, stages), stages);
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.remedy).toContain('describe');
  });
});
