import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from '../../../core/later-jobs.js';
import type { ComputeRequest } from '../../../core/messages.js';
import type { FlatsView, SectionView } from '../../../core/view-section-types.js';
import { createHandler } from '../../../core/worker.js';
import { layerData, measuredData, polarData, pressureData, questions, stretchesOf } from './section-data.js';
import { cautionWords, costWords, edgeWords, layerWords, plateWords } from './section-words.js';
import { flatsWords, runWords, shapeWords } from './shape-words.js';

const example = (file: string) => readFileSync(new URL(`../../../../../../examples/${file}`, import.meta.url), 'utf8');
const input = { design: example('alondra.yaml'), plan: example('alondra.day.yaml'), sections: {} };
const request: ComputeRequest = { kind: 'section', input, edge: 0.0003, rigid: true };
const handlerNow = () => createHandler(() => performance.now(), laterJobs);

async function viewOfDemo(): Promise<SectionView> {
  const found = await handlerNow().answer(request, { report: () => {}, stillWanted: async () => true });
  if (found?.kind !== 'section') throw new Error(found?.kind === 'refused' ? found.reason : 'no section');
  return found.view;
}

it('answers for a plate by its own formulas, not by a boundary layer that promises lift it has not', async () => {
  const files = { design: example('bandeja.yaml'), plan: example('bandeja.day.yaml'), sections: {} };
  const found = await handlerNow().answer(
    { ...request, input: files },
    { report: () => {}, stillWanted: async () => true },
  );
  if (found?.kind !== 'section') throw new Error('no section');
  const { view } = found;
  expect(structuredClone(view)).toEqual(view);
  expect(view.bare).toBeUndefined();
  expect(view.plate!.greatest.value).toBeLessThan(0.7);
  const { drag, covered } = view.plate!.point!;
  expect(drag.high / drag.low).toBeGreaterThan(2);
  expect(covered!.value).toBeGreaterThan(drag.value);
  expect(costWords(view)).toMatch(/^Covering .* costs 7\.5 % of its drag in level flight .* common practice/);
  expect(plateWords(view)).toHaveLength(3);
  expect(cautionWords(view).join(' ')).not.toContain('disturbances');
  expect(view.polars.every(({ points, holes }) => points.length === 21 && holes.length === 0)).toBe(true);
});

describe('section of the demo', () => {
  it('says first what covering costs, with layers and polars as plain data', async () => {
    const view = await viewOfDemo();
    expect(structuredClone(view)).toEqual(view);
    expect(costWords(view)).toMatch(/^Covering .* with cells costs [1-9].* of its drag/);
    const { cost } = view;
    const near = { ...view, cost: { ...cost!, ratio: 0.975 } };
    expect(costWords(near)).toMatch(/costs no drag that the computation can tell/);
    // What is not sure is said with what it would cost: 0.3 of 20 %.
    const curved = { ...near, cells: { ...view.cells!, cell: 0 } };
    const trip = (likelihood: number, trips = false) =>
      costWords({
        ...curved,
        cost: { ...near.cost, front: { ...near.cost.front, trips }, trip: { likelihood, ratio: 1.2 } },
      });
    expect(trip(0.3)).toMatch(
      / If its front edge trips the layer, chance about 3 in 10, it costs 20 %; expected over both: it costs 6.0 %\.$/,
    );
    expect(trip(0.7, true)).toMatch(
      / The chance that its front edge trips the layer is about 7 in 10; expected over both: it costs 14 %\.$/,
    );
    expect(trip(0.01)).toMatch(/covered\.$/);
    expect(edgeWords('Front', near.cost.front, 0.3)).toContain('chance to trip about 3 in 10');
    expect(view.cost!.trip.likelihood).toBeGreaterThan(0);
    expect(view.cost!.trip.likelihood).toBeLessThan(0.05);
    expect(view.cost!.trip.ratio).toBeGreaterThan(1);
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
    const edge = { station: 0.1, height: 2e-3, kind: 'up' as const, stepReynolds: 500, trips: true, growth: 0 };
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

describe('another shape, flats and measured points', () => {
  const free = { report: () => {}, stillWanted: async () => true };
  const measured = [0.2, 0.5, 0.8].map((lift, i) => ({ reynolds: 120_000, incidence: 0.03 * i, lift, drag: 0.03 }));

  it('lays measured points over the polar at their Reynolds number, and says the difference', async () => {
    const found = await handlerNow().answer({ ...request, measured } as ComputeRequest, free);
    if (found?.kind !== 'section') throw new Error('no section');
    const [run] = found.view.measured;
    expect(runWords(run!)).toMatch(
      /^Reynolds number 120000: measured \d+ % more drag than computed in the median of 3/,
    );
    const { a, b } = measuredData(found.view, questions[0]!);
    expect(b.curves[0]!.points).toEqual([
      [0.2, 0.03],
      [0.5, 0.03],
      [0.8, 0.03],
    ]);
    expect(a.curves[0]!.points.length).toBeGreaterThan(4);
    // No moment was measured: none is drawn.
    expect(measuredData(found.view, questions[2]!).b.curves[0]!.points).toEqual([]);
  });

  it('gives the same drag for the same shape, and less for cells that follow the curve', async () => {
    const morph = { thickness: 1, shift: 0, bow: 0, lead: 0 };
    const ask = async (flats: number) => {
      const found = await handlerNow().answer({ kind: 'sectionShape', input, edge: 0.0003, morph, flats }, free);
      if (found?.kind !== 'sectionShape') throw new Error('no shape');
      return found.view;
    };
    const view = await viewOfDemo();
    const [flat, curved] = [await ask(1), await ask(0)];
    // Its points are those of the common grid, not of the formula: the mesh differs, and drag by less than one per cent.
    expect(flat.bare.drag / view.bare!.drag).toBeCloseTo(1, 2);
    expect(Math.abs(flat.covered!.drag / view.cost!.covered.drag - 1)).toBeLessThan(0.01);
    expect(curved.covered!.drag).toBeLessThan(flat.covered!.drag);
    expect(shapeWords(view, curved)).toMatch(/less drag under cells that follow the curve, not one flat, at lift/);
  });

  it('gives up a search for flat cells that is no longer wanted', async () => {
    let looks = 0;
    const wish = { edge: 0.0003, cell: 0.06, count: 3, leastMoment: -0.08, leastThickness: 0.09 };
    const answer = await handlerNow().answer(
      { kind: 'flats', input, ...wish },
      { report: () => {}, stillWanted: async () => ++looks < 3 },
    );
    expect(answer).toBeUndefined();
    expect(looks).toBe(3);
  });

  it('says what a layout gains, and where it gains least', () => {
    const flats: FlatsView = {
      start: 'NACA 3410',
      name: 'NACA 3410 for flat cells',
      lift: 0.6,
      reynolds: 150_000,
      thickness: 0.1,
      camber: 0.03,
      x: [],
      y: [],
      naive: { x: [], y: [], drag: 0.015, moment: -0.06 },
      bareDrag: 0.0113,
      drag: 0.012,
      moment: -0.08,
      withinMoment: false,
      checks: [
        { what: 'finer mesh', naive: 0.015, designed: 0.012 },
        { what: 'calmer air', naive: 0.01, designed: 0.011 },
      ],
      evaluations: 100,
      flats: { from: 0.1, to: 0.85 },
    };
    const words = flatsWords(flats).join(' ');
    expect(words).toContain('20 % less drag than NACA 3410 under the same cells');
    expect(words).toContain('the limit could not be kept');
    expect(words).toContain('10 % more drag (calmer air)');
    expect(words).toContain('from 10 % to 85 % of the chord');
  });
});
