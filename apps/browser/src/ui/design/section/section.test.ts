import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from '../../../core/later-jobs.js';
import type { ComputeRequest } from '../../../core/messages.js';
import type { SectionView } from '../../../core/view-section-types.js';
import { createHandler } from '../../../core/worker.js';
import { layerData, polarData, pressureData, questions, stretchesOf } from './section-data.js';
import { cautionWords, costWords, edgeWords, layerWords } from './section-words.js';

const example = (file: string) => readFileSync(new URL(`../../../../../../examples/${file}`, import.meta.url), 'utf8');
const input = { design: example('alondra.yaml'), plan: example('alondra.day.yaml'), sections: {} };
const request: ComputeRequest = { kind: 'section', input, edge: 0.0003 };
const handlerNow = () => createHandler(() => performance.now(), laterJobs);

async function viewOfDemo(): Promise<SectionView> {
  const found = await handlerNow().answer(request, { report: () => {}, stillWanted: async () => true });
  if (found?.kind !== 'section') throw new Error(found?.kind === 'refused' ? found.reason : 'no section');
  return found.view;
}

describe('section of the demo', () => {
  it('says first what covering costs, with layers and polars as plain data', async () => {
    const view = await viewOfDemo();
    expect(structuredClone(view)).toEqual(view);
    expect(costWords(view)).toMatch(/^Covering .* with cells (costs|saves) .* of its drag|costs no drag/);
    expect(view.cost!.ratio).toBeGreaterThan(0.7);
    expect(view.cost!.ratio).toBeLessThan(1.6);
    expect(view.polars.map(({ covered }) => covered)).toEqual([false, true, false, false]);
    for (const question of questions) {
      const { a, b } = polarData(view, question);
      expect(a.curves.length).toBe(3);
      expect(b.curves.length).toBe(1);
      for (const { points } of [...a.curves, ...b.curves]) expect(points.flat().every(Number.isFinite)).toBe(true);
    }
    // At a positive lift the upper side sucks more than the lower one, over the chord.
    const [above, below] = pressureData(view).a.curves.map(({ points }) =>
      points.slice(1).reduce((sum, [x, y], i) => sum + Math.abs(x - points[i]![0]) * 0.5 * (y + points[i]![1]), 0),
    );
    expect((above! - below!) / 100).toBeCloseTo(view.lift, 1);
    const layers = layerData(view)!;
    expect(layers.above.at(-1)!.to).toBe(100);
    expect(cautionWords(view).join(' ')).toMatch(/outdoors/);
  }, 30_000);

  it('stops where nobody wants the answer any more', async () => {
    const late = { report: () => {}, stillWanted: async () => false };
    expect(await handlerNow().answer(request, late)).toBeUndefined();
  }, 30_000);
});

describe('words of a layer', () => {
  const base = { transition: 0.5, openAtTail: false };
  it('name a bubble, and a separation that stays', () => {
    expect(layerWords('Above', { ...base, separation: 0.4, reattachment: 0.6 })).toContain(
      'a bubble from 40 % to 60 %',
    );
    expect(layerWords('Above', { ...base, separation: 0.4 })).toContain('stays so');
    expect(layerWords('Below', { ...base, transition: 1 })).toBe('Below: laminar to the trailing edge; attached.');
  });

  it('stretches follow each other without a gap from nose to tail', () => {
    for (const layer of [
      base,
      { ...base, separation: 0.4, reattachment: 0.6 },
      { ...base, separation: 0.4 },
      { ...base, separation: 0.8 },
      { ...base, transition: 1 },
    ]) {
      const all = stretchesOf(layer);
      expect(all[0]!.from).toBe(0);
      expect(all.at(-1)!.to).toBe(100);
      for (let i = 1; i < all.length; i++) expect(all[i]!.from).toBe(all[i - 1]!.to);
    }
    expect(stretchesOf({ ...base, separation: 0.8 }).map(({ kind }) => kind)).toEqual([
      'laminar',
      'turbulent',
      'separated',
    ]);
  });

  it('a step trips, adds growth, is flush or lies in turbulent flow', () => {
    const edge = { station: 0.1, stepReynolds: 500, trips: true, growth: 0 };
    expect(edgeWords('Front', edge)).toContain('makes the layer turbulent there');
    expect(edgeWords('Front', { ...edge, trips: false, growth: 1.2 })).toContain('grow by 1.2 more');
    expect(edgeWords('Rear', { ...edge, stepReynolds: 0, trips: false })).toContain('flush');
    expect(edgeWords('Rear', { ...edge, trips: false })).toContain('turbulent flow');
  });

  it('where no cells lie, nothing is covered', () => {
    const bare = { surface: 'wing', name: 'NACA 3410', lift: 0.5, reynolds: 1e5 } as SectionView;
    expect(costWords(bare)).toBe('No cells lie on wing: nothing is covered.');
  });
});
