import { readFileSync } from 'node:fs';
import { completeDesign, editDesignBy, readDesign } from '@noonwing/design';
import { describe, expect, it } from 'vitest';
import { laterJobs } from './later-jobs.js';
import { balanceOf } from './lever-view.js';
import type { ComputeInput } from './messages.js';
import { createHandler } from './worker.js';

const example = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const input: ComputeInput = { design: example('alondra.yaml'), plan: example('alondra.day.yaml'), sections: {} };

describe('what restoring the balance takes', () => {
  const { aircraft } = completeDesign(readDesign(input.design).design!);
  const at = aircraft.battery!.x.value;
  const why = 'restores the static margin';

  it('is the way of the battery from where it is, and ballast that comes to what there is', () => {
    const found = balanceOf(
      [
        { path: 'battery.x', text: `${1000 * at + 12} mm`, why },
        { path: 'masses.balance ballast ahead.mass', text: '9.3 g weighed', why },
        { path: 'masses.balance ballast ahead.x', text: '-300 mm', why },
      ],
      aircraft,
    );
    expect(found!.battery).toBeCloseTo(0.012, 9);
    expect(found!.ballast).toBeCloseTo(0.0093, 9);
  });

  it('is nothing where no edit is about it', () => {
    expect(balanceOf([{ path: 'array.rows.top.cells', text: '18', why: 'the change' }], aircraft)).toBeUndefined();
  });
});

describe('layouts', () => {
  it('are ranked by the energy of the day, each with its strings, and their edits lead to their text', async () => {
    const handler = createHandler(() => performance.now(), laterJobs);
    const shares: number[] = [];
    const context = { report: (share: number) => shares.push(share), stillWanted: async () => true };
    const answer = await handler.answer({ kind: 'layouts', input, sky: 0 }, context);
    if (answer?.kind !== 'layouts') throw new Error('no layouts');
    const { layouts, base } = answer.view;
    expect(structuredClone(answer.view)).toEqual(answer.view);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const built = layouts.find(({ edits }) => edits.length === 0)!;
    expect(built.after!.income).toBeCloseTo(base.income, 6);
    // 16 cells of 0.5134 V when 30 K hotter than the data sheet.
    expect(built.strings).toEqual([{ count: 1, cells: 16, parallel: 1, voltage: expect.closeTo(8.214, 3) }]);
    const others = layouts.filter(({ edits, text }) => edits.length > 0 && text !== undefined);
    expect(others.length).toBeGreaterThan(1);
    for (const { edits, text, strings, after } of others) {
      const written = editDesignBy(input.design, edits);
      expect(written.ok && written.text).toBe(text);
      expect(strings.length).toBeGreaterThan(0);
      expect(after!.income).toBeLessThan(1.002 * layouts[0]!.after!.income);
    }
  });
});
