import { describe, expect, it } from 'vitest';
import { sectionControlRelation } from './controlRelation.js';
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

describe('a control as a relation', () => {
  const usual = Object.fromEntries(sectionControlRelation.inputs.map((input) => [input.key, input.default ?? 0]));
  const control = (changes: Record<string, number> = {}) => sectionControlRelation.compute({ ...usual, ...changes });

  it('answers every output: the air pushes back, and a tripped layer follows further', () => {
    const answer = control() as Record<string, number>;
    for (const { key } of sectionControlRelation.outputs) expect(Number.isFinite(answer[key]), key).toBe(true);
    expect(answer.turning!).toBeLessThan(1);
    expect(answer.hingeMoment!).toBeLessThan(0);
    expect(answer.incidence!).toBeLessThan(0);
    expect(answer.trippedIncidence!).toBeLessThan(answer.incidence!);
  });

  it.each([
    ['thickness', 0.3],
    ['hinge', 0.2],
    ['reynolds', 100],
    ['deflection', 1],
    ['lift', 3],
  ])('refuses %s %s', (key, value) => {
    expect(control({ [key]: value })).toHaveProperty('reason');
  });
});
