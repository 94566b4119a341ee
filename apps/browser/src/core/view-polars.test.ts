import { readFileSync } from 'node:fs';
import { readStoredText } from '@noonwing/design';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { laterJobs } from './later-jobs.js';
import type { ComputeInput } from './messages.js';
import { createHandler, type HandlerContext } from './worker.js';

const text = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const input: ComputeInput = { design: text('alondra.yaml'), plan: text('alondra.day.yaml'), sections: {} };
const context: HandlerContext = { report: () => {}, stillWanted: async () => true };

const ask = async (of: ComputeInput, compute: boolean, wanted = context) => {
  const response = await createHandler(() => performance.now(), laterJobs).answer(
    { kind: 'polars', input: of, compute },
    wanted,
  );
  return response?.kind === 'polars' ? response.view : undefined;
};

afterEach(() => vi.unstubAllGlobals());

describe('polars of a design', () => {
  it('are missing where none are kept; computing goes on where it was broken off', async () => {
    vi.stubGlobal('fetch', async () => {
      throw new Error('offline');
    });
    const own = { ...input, design: input.design.replaceAll('NACA 3410', 'NACA 2409') };
    const found = await ask(own, false);
    expect(found).toMatchObject({ text: '' });
    expect(found?.missing).toContain('NACA 2409, tripped at 60 %');
    const shares: number[] = [];
    const brokenOff = { report: (share: number) => shares.push(share), stillWanted: async () => shares.length < 2 };
    expect(await ask(own, true, brokenOff)).toBeUndefined();
    const again: number[] = [];
    const after = { report: (share: number) => again.push(share), stillWanted: async () => false };
    await ask(own, true, after);
    expect(again[0]).toBeGreaterThan(shares.at(-1)!);
  });

  it('of the examples come with the page, and a verdict by them is another one that says so', async () => {
    vi.stubGlobal('fetch', async () => ({ ok: true, text: async () => text('polars.json') }));
    const found = await ask(input, false);
    expect(found?.missing).toEqual([]);
    expect(Object.keys(readStoredText(found!.text)!.polars)).toHaveLength(5);
    const handler = createHandler(() => performance.now(), laterJobs);
    const verdictOf = async (of: ComputeInput) => {
      const response = await handler.answer({ kind: 'verdict', input: of, samples: 0 }, context);
      if (response?.kind !== 'verdict') throw new Error('no verdict');
      return response.view;
    };
    const plain = await verdictOf(input);
    const flown = await verdictOf({ ...input, polars: found!.text });
    expect(new Set(plain.sections.map(({ basis }) => basis.kind))).toEqual(new Set(['first estimate']));
    expect(new Set(flown.sections.map(({ basis }) => basis.kind))).toEqual(new Set(['computed']));
    // docs/polars.md: less power by computed polars.
    expect(flown.levelPower!.value).toBeLessThan(plain.levelPower!.value);
    expect(structuredClone(flown.sections)).toEqual(flown.sections);
    // A text that is no store is not flown with.
    expect((await verdictOf({ ...input, polars: 'nothing' })).levelPower).toEqual(plain.levelPower);
  });
});
