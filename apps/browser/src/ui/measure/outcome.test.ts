import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from '../../core/later-jobs.js';
import type { ComputeResponse } from '../../core/messages.js';
import { createHandler } from '../../core/worker.js';
import { kindOf } from './kinds.js';
import { changeWords, outcomeOf, percentWords, readingSigma } from './outcome.js';
import { recordLines, recordsOf, withRecord } from './record.js';

const example = (name: string) => readFileSync(new URL(`../../../../../examples/${name}`, import.meta.url), 'utf8');
const alondra = example('alondra.yaml');
const handler = createHandler(() => 0, laterJobs);
const units = { units: {}, language: 'en' };

async function verdictOf(design: string) {
  const input = { design, plan: example('alondra.day.yaml'), sections: {} };
  const response = (await handler.answer(
    { kind: 'verdict', input, samples: 0 },
    { report: () => {}, stillWanted: async () => true },
  )) as ComputeResponse;
  if (response.kind !== 'verdict') throw new Error(response.kind);
  return response.view;
}

function withMass(mass: string): string {
  const added = withRecord(alondra, recordLines('mass', { mass }, kindOf('mass')!.keys));
  if (!added.ok) throw new Error(added.reason);
  return added.text;
}

describe('percentWords', () => {
  it('shows one decimal where that is known, none otherwise', () => {
    expect(percentWords(0.0324, 0.0161)).toBe('+3.2 % ± 1.6 %');
    expect(percentWords(-0.17, 0.034)).toBe('−17 % ± 3 %');
    expect(percentWords(0.5)).toBe('+50 %');
  });
});

describe('what a record says', () => {
  it('compares the scale with the sum of masses, and names what changes', async () => {
    const before = await verdictOf(alondra);
    const expected = before.balance!.mass;
    const design = withMass(`${(1.1 * expected).toFixed(4)} kg ± 0.001 kg`);
    const after = await verdictOf(design);
    const record = recordsOf(design)[0]!;
    const outcome = outcomeOf(design, record, after, before, units)!;
    expect(outcome.words).toContain('on the scale, expected');
    expect(outcome.difference).toMatch(/^\+10(\.0)? % ± /);
    expect(readingSigma(design, record)).toBeCloseTo(0.001 / (1.1 * expected), 6);
    const lines = changeWords(before, after);
    expect(lines.some((line) => line.startsWith('level power'))).toBe(true);
    expect(changeWords(after, after)).toEqual([]);
  });

  it('has nothing to say of a record that does not count', async () => {
    const design = withMass('1.4 kg').replace('mass: 1.4 kg', 'mass: 1.4 kg\n    use: no');
    const view = await verdictOf(design);
    expect(outcomeOf(design, recordsOf(design)[0]!, view, undefined, units)).toBeUndefined();
  });
});
