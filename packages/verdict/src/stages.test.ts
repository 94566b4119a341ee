import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createStages, shareUnchanged } from './stages.js';

describe('stages', () => {
  it('runs once for the same inputs and says that it reused the result', () => {
    const stages = createStages();
    const input = { a: 1 };
    let runs = 0;
    const ask = () => stages.run('lattice', [input, 3], () => ++runs);
    expect(ask()).toBe(1);
    expect(ask()).toBe(1);
    expect(stages.trace()).toEqual([
      { stage: 'lattice', reused: false },
      { stage: 'lattice', reused: true },
    ]);
  });
  it('runs again when an input is another object, even an equal one', () => {
    const stages = createStages();
    let runs = 0;
    stages.run('x', [{ a: 1 }], () => ++runs);
    stages.run('x', [{ a: 1 }], () => ++runs);
    expect(runs).toBe(2);
  });
  it('forgets the least recently used result', () => {
    const stages = createStages(2);
    let runs = 0;
    for (const key of [1, 2, 1, 3, 1, 2]) stages.run('x', [key], () => ++runs);
    expect(runs).toBe(4);
  });
});

describe('shareUnchanged', () => {
  it('keeps the previous objects for unchanged parts and new ones on the path of a change', () => {
    const previous = { wing: { span: 2, stations: [1, 2] }, battery: { x: 0.1 } };
    const next = { wing: { span: 2, stations: [1, 2] }, battery: { x: 0.2 } };
    const shared = shareUnchanged(previous, next);
    expect(shared.wing).toBe(previous.wing);
    expect(shared.battery).not.toBe(previous.battery);
    expect(shared).toEqual(next);
  });
  it('equals the next version for any data, and is the previous object when nothing changed', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (previous, next) => {
        expect(shareUnchanged(previous, next)).toEqual(next);
        const copy = structuredClone(previous);
        if (typeof previous === 'object' && previous !== null) expect(shareUnchanged(previous, copy)).toBe(previous);
      }),
    );
  });
});
