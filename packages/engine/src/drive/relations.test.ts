import { describe, expect, test } from 'vitest';
import { driveRelations } from './relations.js';

const defaults = (inputs: (typeof driveRelations)[number]['inputs']) =>
  Object.fromEntries(inputs.map((input) => [input.key, input.default ?? 1]));

describe.each(driveRelations.map((relation) => [relation.topic, relation] as const))('%s', (_, relation) => {
  test('answers with its defaults: every output, all finite', () => {
    const result = relation.compute(defaults(relation.inputs));
    expect('reason' in result ? result.reason : undefined).toBeUndefined();
    expect(Object.keys(result).sort()).toEqual(relation.outputs.map((output) => output.key).sort());
    expect(Object.values(result).every((value) => Number.isFinite(value))).toBe(true);
  });

  test('every zero, negative or missing number gives a reason or finite outputs', () => {
    for (const input of relation.inputs) {
      for (const value of [0, -1, Number.NaN]) {
        const result = relation.compute({ ...defaults(relation.inputs), [input.key]: value });
        const fine = 'reason' in result || Object.values(result).every((output) => Number.isFinite(output));
        expect(fine, `${input.key} = ${value}`).toBe(true);
      }
    }
  });
});
