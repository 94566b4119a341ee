import { compassDeviation, wirePairField } from '@noonwing/engine/array';
import { describe, expect, it } from 'vitest';
import * as test from '../test/support.js';
import { wiringPlan } from './wiring.js';

const plan = (name: test.ExampleName, changes: Readonly<Record<string, string>> = {}) => {
  const { prepared } = test.verdictOf(test.edited(test.designText(name), changes), test.planText(name));
  return wiringPlan(prepared.model, prepared.plan)!;
};

describe('wiring plan', () => {
  it.each(test.exampleNames)('of %s names every string and output with wire, loss and fuse', (name) => {
    const made = plan(name);
    expect(made.strings.length).toBeGreaterThan(0);
    for (const run of [...made.strings, ...made.outputs]) {
      expect(run.lossShare).toBeLessThan(0.06);
      expect(run.loss).toBeCloseTo(run.resistance * run.current ** 2, 9);
      expect(run.gauge).toBeGreaterThanOrEqual(10);
    }
    for (const output of made.outputs) expect(output.fuse!).toBeGreaterThan(output.current);
    expect(test.unreal(made)).toEqual([]);
  });

  it('fuses strings only where three or more could feed one', () => {
    expect(plan('alondra').strings[0]!.fuse).toBeUndefined();
    const { fuse, current } = plan('alondra', { 'array.strings.all.parallel': '4' }).strings[0]!;
    expect(fuse!).toBeGreaterThanOrEqual((1.56 * current) / 4);
  });

  // The autopilot of Alondra lies 5 mm beside the run as drawn: once it was told that a pair disturbs it more than a loop.
  it.each(['vigilia', 'alondra'] as const)(
    'keeps the compass of %s quieter with the return beside the wire',
    (name) => {
      for (const { paired, apart } of plan(name).compass) expect(paired).toBeLessThan(apart / 2);
      expect(plan(name).compass.length).toBeGreaterThan(0);
    },
  );

  it('counts the current of rows in series once at the compass', () => {
    // Bandeja has two rows on each half in one string; each was taken for a circuit of its own, twice the field.
    const { compass, strings } = plan('bandeja');
    const [{ paired, clearance }] = compass as [(typeof compass)[number]];
    const together = strings.reduce((sum, { current }) => sum + current, 0);
    // No more than all currents in one long pair at the least distance that the plan takes.
    expect(paired).toBeLessThan(1.1 * wirePairField(together, 0.04, 0.01));
    const there = compassDeviation(wirePairField(together, clearance, 0.01), 2.4e-5);
    expect(there).toBeCloseTo((2 * Math.PI) / 180, 9);
  });

  it('warns of a diode over too many cells, and of a burst above the rating of the input', () => {
    const codes = plan('alondra', {
      'array.strings.all.cells per diode': '16',
      'array.converters.tracker.input voltage high': '11 V',
    }).warnings.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['diode-span', 'string-above-input-rating']));
    expect(plan('alondra').warnings).toEqual([]);
  });
});
