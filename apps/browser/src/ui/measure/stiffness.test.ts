import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from '../../core/later-jobs.js';
import type { ComputeResponse } from '../../core/messages.js';
import { createHandler } from '../../core/worker.js';
import { isStiffness, kindOf, recordKinds } from './kinds.js';
import { recordLines, recordsOf, withRecord } from './record.js';
import { limitChangeWords, readingsOf, readingWords } from './stiffness-words.js';

const example = (file: string) => readFileSync(new URL(`../../../../../examples/${file}`, import.meta.url), 'utf8');
const said = { units: {}, language: 'en' } as const;
const handler = createHandler(() => 0, laterJobs);

async function limitsOf(design: string) {
  const input = { design, plan: example('bandeja.day.yaml'), sections: {} };
  const context = { report: () => {}, stillWanted: async () => true };
  const response = (await handler.answer({ kind: 'limits', input }, context)) as ComputeResponse;
  if (response.kind !== 'limits') throw new Error(response.kind);
  return response.view;
}

function added(design: string, what: 'strip bend' | 'load test', values: Readonly<Record<string, string>>): string {
  const found = withRecord(design, recordLines(what, values, kindOf(what)!.keys));
  if (!found.ok) throw new Error(found.reason);
  return found.text;
}

const strip = { width: '50 mm', thickness: '9 mm', span: '300 mm', mass: '100 g', deflection: '16 mm' };

describe('readings of stiffness', () => {
  it('of a strip correct the foam of Bandeja, say so, and lower its limit speed', async () => {
    const design = added(example('bandeja.yaml'), 'strip bend', { material: 'extruded polystyrene foam', ...strip });
    const [before, after] = [await limitsOf(example('bandeja.yaml')), await limitsOf(design)];
    const [reading] = readingsOf(after, 'strip bend', 'extruded polystyrene foam');
    expect(readingWords(reading!)).toMatch(
      /^11\.\d MPa by a bent strip, expected 15\.0 MPa: stiffness of extruded polystyrene foam 7\d % ± \d+ % of what is described$/,
    );
    expect(after.materials.find(({ name }) => name === 'extruded polystyrene foam')!.measured).toBeCloseTo(
      reading!.factor!,
      12,
    );
    expect(readingsOf(after, 'load test')).toEqual([]);
    expect(limitChangeWords(before, after, said)).toMatch(
      /^Limit speed 7\.\d+ m\/s without it, \d\.\d+ m\/s, the lower/,
    );
    expect(limitChangeWords(undefined, { limits: [] }, said)).toContain('No limit speed');
  });

  it('that lie far from what was expected ask for a second look, and what is wrong is said', () => {
    const reading = { record: 'load test', of: 'bending', source: 'a, expected b', factor: 0.5, spread: 0.1 } as const;
    expect(readingWords({ ...reading, surprise: 3.2 })).toBe(
      'a, expected b: bending stiffness 50 % ± 5 % of what is described; far from what was expected (3.2 standard deviations): read it again',
    );
    expect(readingWords({ record: 'load test', of: 'torsion', source: '', problem: 'the other way' })).toBe(
      'the other way',
    );
  });

  it('of two materials stand beside each other; of one the last counts', () => {
    let design = added(example('bandeja.yaml'), 'strip bend', { material: 'balsa', ...strip });
    design = added(design, 'strip bend', { material: 'birch plywood', ...strip });
    design = added(design, 'strip bend', { material: 'balsa', ...strip });
    expect(recordsOf(design).map(({ counts }) => counts)).toEqual([false, true, true]);
    expect(recordKinds.filter(({ what }) => isStiffness(what))).toHaveLength(3);
  });
});
