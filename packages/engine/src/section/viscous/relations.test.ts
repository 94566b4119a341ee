import { describe, expect, it } from 'vitest';
import { sectionFlowRelation } from './relations.js';

const defaults = Object.fromEntries(sectionFlowRelation.inputs.map((input) => [input.key, input.default ?? 0]));
const ask = (changes: Record<string, number> = {}) => sectionFlowRelation.compute({ ...defaults, ...changes });

describe('section flow as a relation', () => {
  it('answers every output, finite', () => {
    const answer = ask() as Record<string, number>;
    for (const { key } of sectionFlowRelation.outputs) expect(Number.isFinite(answer[key]), key).toBe(true);
    expect(answer.separation!).toBeLessThan(answer.reattachment!);
  });
  it('a trip ahead of separation moves transition there', () => {
    expect((ask({ trip: 0.3 }) as Record<string, number>).upperTransition).toBeCloseTo(0.3, 2);
  });
  it.each([
    ['thickness', 0.9],
    ['camber', 0.5],
    ['reynolds', 100],
    ['incidence', 1],
  ])('refuses %s %s', (key, value) => {
    expect(ask({ [key]: value })).toHaveProperty('reason');
  });
});
