import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from './later-jobs.js';
import type { ComputeInput, ComputeRequest, ComputeResponse } from './messages.js';
import { readyOf } from './ready.js';
import { createHandler } from './worker.js';

const example = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const input = (name: string): ComputeInput => ({
  design: example(`${name}.yaml`),
  plan: example(`${name}.day.yaml`),
  sections: {},
});
const context = { report: () => {}, stillWanted: async () => true };
const ask = async (request: ComputeRequest, handler = createHandler(() => performance.now(), laterJobs)) =>
  (await handler.answer(request, context)) as ComputeResponse;

/** Everything of a view that is a number, with its place; fails on what cannot be copied between threads. */
function numbersOf(value: unknown, place = 'view'): (readonly [string, number])[] {
  if (typeof value === 'number') return [[place, value]];
  if (ArrayBuffer.isView(value)) return [...(value as Float64Array)].map((x, i) => [`${place}[${i}]`, x] as const);
  if (typeof value === 'function') throw new Error(`${place} is a function`);
  if (typeof value !== 'object' || value === null) return [];
  const prototype = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== Array.prototype) throw new Error(`${place} is an engine object`);
  return Object.entries(value).flatMap(([key, part]) => numbersOf(part, `${place}.${key}`));
}

const finite = (view: unknown) => {
  for (const [place, value] of numbersOf(view)) expect(Number.isFinite(value), place).toBe(true);
  expect(structuredClone(view)).toEqual(view);
};

describe('views', () => {
  it.each(['alondra', 'bandeja', 'vigilia'])('of %s hold finite plain data only', async (name) => {
    const handler = createHandler(() => performance.now(), laterJobs);
    const central = await ask({ kind: 'verdict', input: input(name), samples: 0 }, handler);
    const sampled = await ask({ kind: 'verdict', input: input(name), samples: 16 }, handler);
    const hour = await ask({ kind: 'hour', input: input(name), sky: 0, hour: 12, heading: 1 }, handler);
    const power = await ask({ kind: 'power', input: input(name) }, handler);
    const limits = await ask({ kind: 'limits', input: input(name) }, handler);
    const load = await ask({ kind: 'underLoad', input: input(name), airspeed: 7, loadFactor: 1.5 }, handler);
    for (const response of [central, sampled, hour, power, limits, load]) {
      if (response.kind === 'refused') throw new Error(response.reason);
      finite(response.view);
    }
    if (central.kind !== 'verdict' || sampled.kind !== 'verdict' || hour.kind !== 'hour') throw new Error('kind');
    const { view } = central;
    expect(view.times.length).toBe(view.middles.length + 1);
    expect(view.skies.map(({ name: sky }) => sky)).toEqual(['clear', 'thin cloud', 'broken cloud']);
    expect(view.contributions).toEqual([]);
    expect(view.skies[0]!.confidenceText).toBe('');
    expect(sampled.view.contributions.length).toBeGreaterThan(0);
    expect(sampled.view.skies[0]!.confidenceText).not.toBe('');
    // The rows of the ledger that are no part of another add up to the light.
    const { rows, light } = hour.view.ledger!;
    const sum = rows.filter(({ partOf }) => partOf === undefined).reduce((total, { watts }) => total + watts, 0);
    expect(sum).toBeCloseTo(light, 6);
    expect(hour.view.facetLight.length).toBe(view.shape.facets.length);
  });
});

describe('long answers', () => {
  const long: readonly ComputeRequest[] = [
    { kind: 'verdict', input: input('alondra'), samples: 40 },
    { kind: 'levers', input: input('alondra'), sky: 0 },
    { kind: 'limits', input: input('alondra') },
    { kind: 'stiffenings', input: input('alondra') },
    { kind: 'sweep', input: input('alondra'), sky: 0, sweep: 'date and hour' },
    { kind: 'sweep', input: input('alondra'), sky: 0, sweep: 'date and latitude' },
  ];
  /** A clock on which every slice takes a second, so that the handler listens after each. */
  const ticking = () => {
    let seconds = 0;
    return () => 1000 * seconds++;
  };

  it.each(long)('stop between slices when nobody wants them, and the worker goes on: %#', async (request) => {
    const handler = createHandler(ticking(), laterJobs);
    let listened = 0;
    const shares: number[] = [];
    const context = { report: (share: number) => shares.push(share), stillWanted: async () => ++listened < 4 };
    expect(await handler.answer(request, context)).toBeUndefined();
    expect(listened).toBe(4);
    expect(shares.length).toBe(4);
    expect(shares.every((share) => share >= 0 && share < 0.5)).toBe(true);
    const next = await ask({ kind: 'verdict', input: input('alondra'), samples: 0 }, handler);
    expect(next).toMatchObject({ kind: 'verdict' });
  });

  it('answer the same in slices as at once', async () => {
    const request = long[0]!;
    const [sliced, atOnce] = [
      await ask(request, createHandler(ticking(), laterJobs)),
      await ask(
        request,
        createHandler(() => 0, laterJobs),
      ),
    ];
    if (sliced.kind !== 'verdict' || atOnce.kind !== 'verdict') throw new Error('both answer');
    expect(sliced.view).toEqual(atOnce.view);
  });
});

describe('the quick worker', () => {
  it('answers verdict and hour without what is loaded later, and nothing else', async () => {
    const handler = createHandler(() => 0);
    expect((await ask({ kind: 'verdict', input: input('alondra'), samples: 0 }, handler)).kind).toBe('verdict');
    const hour = { kind: 'hour', input: input('alondra'), sky: 0, hour: 12, heading: 0 } as const;
    expect((await ask(hour, handler)).kind).toBe('hour');
    await expect(ask({ kind: 'power', input: input('alondra') }, handler)).rejects.toThrow('does not answer "power"');
  });

  it.each(['alondra', 'vigilia'])(
    'takes %s as the page has read it, and runs only what an edit reaches',
    async (name) => {
      const handler = createHandler(() => 0);
      const files = input(name);
      const edited = { ...files, design: files.design.replace(/(battery:[\s\S]*?\n {2}x: ).*/, '$1-12.3 mm') };
      expect(edited.design).not.toBe(files.design);
      // Passed between threads, as pages and workers do it.
      const asRead = (of: ComputeInput) =>
        structuredClone({ kind: 'verdict', input: of, read: readyOf(of), samples: 0 });
      await ask({ kind: 'verdict', input: files, samples: 0 }, handler);
      const passed = await ask(asRead(edited) as ComputeRequest, handler);
      const read = await ask(
        { kind: 'verdict', input: edited, samples: 0 },
        createHandler(() => 0),
      );
      if (passed.kind !== 'verdict' || read.kind !== 'verdict') throw new Error('refused');
      expect(passed.view).toEqual(read.view);
      expect(passed.stagesRun.length).toBeGreaterThan(0);
      expect(passed.stagesRun.filter((stage) => /^(shape|wing|array|cells and their shade)$/.test(stage))).toEqual([]);
      // The hour asks by the same texts: nothing is read or computed again.
      const hour = await ask({ kind: 'hour', input: { ...edited }, sky: 0, hour: 12, heading: 0 }, handler);
      expect(hour).toMatchObject({ kind: 'hour', stagesRun: [] });
    },
  );
});

describe('a rehearsal', () => {
  it('imagines edits after the first answer, ends, and leaves the answer as it was', async () => {
    const handler = createHandler(() => 0);
    expect(handler.rehearse()).toBe(false);
    const request = { kind: 'verdict', input: input('alondra'), samples: 0 } as const;
    const before = await ask(request, handler);
    let steps = 0;
    while (handler.rehearse()) steps += 1;
    expect(steps).toBeGreaterThan(5);
    const after = await ask(request, handler);
    if (before.kind !== 'verdict' || after.kind !== 'verdict') throw new Error('refused');
    expect(after.view).toEqual(before.view);
  });
});
