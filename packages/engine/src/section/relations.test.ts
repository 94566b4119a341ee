import { describe, expect, it } from 'vitest';
import type { Relation, RelationValues } from '../relation.js';
import { sectionRelations } from './relations.js';

const defaults = (relation: Relation): RelationValues =>
  Object.fromEntries(relation.inputs.map((input) => [input.key, input.default as number | string]));

describe.each(sectionRelations.map((relation) => [relation.topic, relation] as const))('%s', (_, relation) => {
  it('answers with every output from its defaults', () => {
    const result = relation.compute(defaults(relation));
    for (const output of relation.outputs) {
      expect(Number.isFinite((result as Record<string, number>)[output.key]), output.key).toBe(true);
    }
  });
  it('has a default for every input', () => {
    for (const input of relation.inputs) expect(input.default).toBeDefined();
  });
  it('gives a reason for every number that makes no sense', () => {
    for (const input of relation.inputs.filter((i) => i.kind !== 'choice')) {
      const result = relation.compute({ ...defaults(relation), [input.key]: Number.NaN });
      expect(result, input.key).toHaveProperty('remedy');
    }
  });
});

describe('section relation', () => {
  it('says where the section stalls', () => {
    const relation = sectionRelations[0];
    const result = relation.compute({ ...defaults(relation), lift: 3 });
    expect('reason' in result && result.reason).toContain('stalls');
  });
});
