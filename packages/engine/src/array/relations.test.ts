import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Relation, RelationValues } from '../relation.js';
import { arrayRelations } from './relations.js';

const relation = (topic: string): Relation => arrayRelations.find((each) => each.topic === topic)!;

/** Defaults of a relation with some inputs replaced. */
function valuesOf(each: Relation, given: Record<string, number | string> = {}): RelationValues {
  const defaults = Object.fromEntries(each.inputs.map((input) => [input.key, input.default ?? 0]));
  return { ...defaults, ...given };
}

describe('array relations', () => {
  it.each(arrayRelations.map((each) => [each.topic, each] as const))('%s answers its defaults', (_, each) => {
    const answer = each.compute(valuesOf(each)) as Record<string, number>;
    expect(Object.keys(answer).sort()).toEqual(each.outputs.map((output) => output.key).sort());
    for (const value of Object.values(answer)) expect(Number.isFinite(value)).toBe(true);
  });

  it('answers any numbers with finite numbers or a reason', () => {
    const anything = fc.oneof(fc.double(), fc.constantFrom(0, -1, 1e-300, 1e300, Number.NaN, 25, 1000));
    fc.assert(
      fc.property(fc.constantFrom(...arrayRelations), fc.nat(20), anything, (each, index, value) => {
        const input = each.inputs[index % each.inputs.length]!;
        if (input.kind === 'choice') return;
        const answer = each.compute(valuesOf(each, { [input.key]: value })) as Record<string, unknown>;
        if (typeof answer.reason === 'string') return;
        for (const number of Object.values(answer)) expect(Number.isFinite(number)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('asks the same functions as the checks: cell, string, converter, wire', () => {
    expect(relation('cell').compute(valuesOf(relation('cell')))).toMatchObject({ power: expect.closeTo(3.422, 6) });
    expect(
      relation('string').compute(
        valuesOf(relation('string'), { shadedCells: 1, shadedIrradiance: 200, cellsPerBypass: 3 }),
      ),
    ).toMatchObject({ power: expect.closeTo(27.855, 2), secondPower: expect.closeTo(9.776, 2) });
    expect(
      relation('converter').compute(valuesOf(relation('converter'), { power: 40, voltage: 11, topology: 'boost' })),
    ).toMatchObject({ conversionEfficiency: expect.closeTo(0.9735, 4), efficiency: expect.closeTo(0.9735, 4) });
    expect(relation('wire').compute(valuesOf(relation('wire'), { length: 1.5 }))).toMatchObject({
      resistance: expect.closeTo(0.06284, 5),
    });
    expect(
      relation('string-voltage').compute(valuesOf(relation('string-voltage'), { cells: 6, topology: 'buck' })),
    ).toMatchObject({ reason: expect.stringContaining('never') });
    expect(relation('cell').compute(valuesOf(relation('cell'), { ideality: 2.1 }))).toMatchObject({
      remedy: expect.stringContaining('ideality'),
    });
  });
});
