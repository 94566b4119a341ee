import { readFileSync } from 'node:fs';
import { createPool, memoryPort, stopped } from '@noonwing/work';
import { describe, expect, it } from 'vitest';
import { type ComputePool, createCompute, shownVerdict } from './compute.js';
import { firstFlightData } from './first-flight.js';
import { laterJobs } from './later-jobs.js';
import type { ComputeInput, ComputeProgress, ComputeRequest, ComputeResponse, Ready } from './messages.js';
import { createHandler } from './worker.js';

const text = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const input = (name = 'alondra'): ComputeInput => ({
  design: text(`${name}.yaml`),
  plan: text(`${name}.day.yaml`),
  sections: {},
});

/** Pools whose answers are given by hand. */
function handPool() {
  const asked: {
    request: ComputeRequest;
    channel: string;
    answer: (view?: unknown) => void;
    fail: () => void;
    progress: (share: number) => void;
  }[] = [];
  const pool: ComputePool = {
    run: (request, options = {}) => {
      let settle: (result: never) => void = () => {};
      const result = new Promise<never>((resolve) => {
        settle = resolve as typeof settle;
      });
      const channel = options.channel ?? '';
      asked.push({
        request,
        channel,
        answer: (view = request) =>
          settle({
            kind: 'done',
            replacements: 0,
            response: { kind: request.kind, view, milliseconds: 1, stagesRun: [] },
          } as never),
        fail: () => settle({ kind: 'failed', reason: 'its worker ended', replacements: 2 } as never),
        progress: (share) => options.onProgress?.(share),
      });
      return { result, cancel: () => settle({ kind: 'cancelled' } as never) };
    },
  };
  return { pool, asked };
}

const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

function client() {
  const [quick, slow, background] = [handPool(), handPool(), handPool()];
  let resume: (() => void) | undefined;
  const compute = createCompute({
    quick: quick.pool,
    slow: slow.pool,
    background: background.pool,
    afterPause: (action) => {
      resume = action;
      return () => {
        resume = undefined;
      };
    },
  });
  const channels = () => compute.store.getState().channels;
  return { compute, quick, slow, background, channels, pause: () => resume?.() };
}

const first: ComputeInput = { design: 'a', plan: 'p', sections: {} };
const second: ComputeInput = { design: 'b', plan: 'p', sections: {} };

describe('the client', () => {
  it('passes what the page has read with the central verdict, and nothing where it cannot read it', () => {
    const quick = handPool();
    const ready = { aircraft: {}, plan: {}, assumptions: [], sections: {} } as unknown as Ready;
    const compute = createCompute({
      quick: quick.pool,
      slow: handPool().pool,
      background: handPool().pool,
      afterPause: () => () => {},
      read: ({ design }) => (design === 'b' ? ready : undefined),
    });
    compute.setInput(first);
    compute.setInput(second);
    expect(quick.asked.map(({ request }) => request)).toEqual([
      { kind: 'verdict', input: first, samples: 0 },
      { kind: 'verdict', input: second, read: ready, samples: 0 },
    ]);
  });

  it('asks the slow worker for limits and for the shape under load; of a slider the last place counts', async () => {
    const { compute, quick, slow, channels, pause } = client();
    compute.want({ limits: {}, underLoad: { airspeed: 8, loadFactor: 1 } });
    compute.setInput(first);
    quick.asked[0]!.answer();
    await turn();
    pause();
    expect(slow.asked.map(({ request }) => request)).toEqual([
      { kind: 'limits', input: first },
      { kind: 'underLoad', input: first, airspeed: 8, loadFactor: 1 },
    ]);
    slow.asked[0]!.answer('limits of a');
    compute.want({ underLoad: { airspeed: 9, loadFactor: 1 } });
    compute.want({ underLoad: { airspeed: 10, loadFactor: 1 } });
    await turn();
    pause();
    slow.asked[1]!.answer('of before');
    slow.asked.at(-1)!.answer('of the last place');
    await turn();
    expect(slow.asked).toHaveLength(3);
    expect(channels().underLoad.view).toBe('of the last place');
    expect(channels().limits).toMatchObject({ view: 'limits of a', stale: false });
    compute.setInput(second);
    expect(channels().limits).toMatchObject({ status: { kind: 'waiting' }, stale: true });
    compute.cancel('limits');
    expect(channels().limits.status.kind).toBe('cancelled');
  });

  it('asks all again within a limit speed near the airspeed flown, keeps it at edits, and asks no more when it stays', async () => {
    const { compute, quick, slow, pause } = client();
    const named = { ...first, design: 'name: a' };
    const edited = { ...first, design: 'name: a\nnote: b' };
    const limit = { airspeed: 9, words: 'it bends', assumed: false };
    compute.want({ limits: {} });
    compute.setInput(named);
    quick.asked[0]!.answer();
    await turn();
    pause();
    slow.asked[0]!.answer({ known: limit, airspeed: 10 });
    await turn();
    expect(quick.asked.at(-1)!.request).toMatchObject({ kind: 'verdict', input: { ...named, limit } });
    quick.asked.at(-1)!.answer();
    await turn();
    pause();
    slow.asked.at(-1)!.answer({ known: limit, airspeed: 9 });
    await turn();
    expect(quick.asked).toHaveLength(2);
    compute.setInput(edited);
    expect(quick.asked.at(-1)!.request).toMatchObject({ input: { ...edited, limit } });
    compute.setInput({ ...first, design: 'name: another' });
    expect('limit' in (quick.asked.at(-1)!.request as { input: object }).input).toBe(false);
  });

  it('asks for the central verdict first, and for the rest after a pause', async () => {
    const { compute, quick, slow, channels, pause } = client();
    compute.want({ samples: { count: 128 }, levers: { sky: 0 } });
    compute.setInput(first);
    expect(quick.asked.map(({ request }) => request.kind)).toEqual(['verdict']);
    expect(slow.asked).toEqual([]);
    expect(channels().samples.status.kind).toBe('waiting');
    quick.asked[0]!.answer();
    await turn();
    pause();
    expect(slow.asked.map(({ channel }) => channel)).toEqual(['main samples', 'main levers']);
    slow.asked[0]!.progress(0.5);
    expect(channels().samples.status).toEqual({ kind: 'running', share: 0.5 });
  });

  it('drops answers to older files, and calls the older view stale while it runs', async () => {
    const { compute, quick, channels } = client();
    compute.setInput(first);
    quick.asked[0]!.answer('first');
    await turn();
    expect(channels().verdict).toMatchObject({ view: 'first', stale: false });
    compute.setInput(second);
    expect(channels().verdict).toMatchObject({ view: 'first', stale: true, status: { kind: 'running' } });
    compute.setInput(first);
    quick.asked[1]!.answer('second');
    await turn();
    expect(channels().verdict).toMatchObject({ view: 'first', stale: true });
    quick.asked[2]!.answer('third');
    await turn();
    expect(channels().verdict).toMatchObject({ view: 'third', stale: false });
  });

  it('asks nothing again for the same texts and wishes', () => {
    const { compute, quick } = client();
    compute.setInput(first);
    compute.setInput({ ...first });
    compute.want({ hour: { sky: 0, hour: 12, heading: 0 } });
    compute.want({ hour: { sky: 0, hour: 12, heading: 0 } });
    expect(quick.asked.map(({ request }) => request.kind)).toEqual(['verdict', 'hour']);
  });

  it('says failure and cancel, and asks again when told', async () => {
    const { compute, quick, slow, channels, pause } = client();
    compute.want({ power: {} });
    compute.setInput(first);
    quick.asked[0]!.answer();
    await turn();
    pause();
    slow.asked[0]!.fail();
    await turn();
    expect(channels().power.status).toEqual({ kind: 'failed', reason: 'its worker ended' });
    compute.again('power');
    compute.cancel('power');
    await turn();
    expect(channels().power.status.kind).toBe('cancelled');
    expect(slow.asked).toHaveLength(2);
  });

  it('does not let a waiting channel wait for ever when the central verdict fails', async () => {
    const { compute, quick, channels } = client();
    compute.want({ samples: { count: 8 } });
    compute.setInput(first);
    quick.asked[0]!.fail();
    await turn();
    expect(channels().samples.status.kind).toBe('idle');
  });
});

describe('computed polars', () => {
  const none = { text: '', missing: ['NACA 3410'] };
  const all = { text: 'polars', missing: [] };

  it('are looked for after the central verdict, computed once edits rest, and all is asked again with them', async () => {
    const { compute, quick, background, channels, pause } = client();
    compute.want({ polars: {}, newPolars: {} });
    compute.setInput(first);
    expect(background.asked).toHaveLength(0);
    quick.asked[0]!.answer('by the estimate');
    await turn();
    expect(background.asked.map(({ request }) => request)).toEqual([{ kind: 'polars', input: first, compute: false }]);
    background.asked[0]!.answer(none);
    await turn();
    expect(background.asked).toHaveLength(1);
    pause();
    expect(background.asked[1]!.request).toEqual({ kind: 'polars', input: first, compute: true });
    background.asked[1]!.progress(0.4);
    expect(channels().newPolars.status).toEqual({ kind: 'running', share: 0.4 });
    background.asked[1]!.answer(all);
    await turn();
    const flown = { ...first, polars: 'polars' };
    expect(quick.asked.at(-1)!.request).toEqual({ kind: 'verdict', input: flown, samples: 0 });
    expect(compute.store.getState()).toMatchObject({ polars: 'polars', before: 'by the estimate' });
    // They are there now: nothing is asked a third time.
    quick.asked.at(-1)!.answer('by computation');
    await turn();
    background.asked.at(-1)!.answer(all);
    await turn();
    pause();
    await turn();
    expect(quick.asked).toHaveLength(2);
    expect(channels().newPolars.status).toEqual({ kind: 'idle' });
  });

  it('stay at an edit, which breaks off their computing, and are not taken to another aircraft', async () => {
    const { compute, quick, background, channels, pause } = client();
    const named = (name: string, rest: string): ComputeInput => ({ ...first, design: `name: ${name}\n${rest}` });
    compute.want({ polars: {}, newPolars: {} });
    compute.setInput(named('a', '1'));
    quick.asked[0]!.answer();
    await turn();
    background.asked[0]!.answer({ ...all, missing: ['NACA 0007'] });
    await turn();
    quick.asked[1]!.answer();
    await turn();
    background.asked[1]!.answer({ ...all, missing: ['NACA 0007'] });
    await turn();
    pause();
    expect(channels().newPolars.status.kind).toBe('running');
    compute.setInput(named('a', '2'));
    expect(channels().newPolars.status.kind).toBe('waiting');
    expect(quick.asked.at(-1)!.request).toMatchObject({ input: { polars: 'polars' } });
    expect(compute.store.getState().before).toBeUndefined();
    compute.setInput(named('b', '1'));
    expect(quick.asked.at(-1)!.request).toEqual({ kind: 'verdict', input: named('b', '1'), samples: 0 });
  });

  it('are not computed once that was stopped', async () => {
    const { compute, quick, background, pause } = client();
    compute.want({ polars: {}, newPolars: {} });
    compute.setInput(first);
    quick.asked[0]!.answer();
    await turn();
    background.asked[0]!.answer(none);
    await turn();
    pause();
    compute.want({ newPolars: null });
    compute.setInput(second);
    quick.asked[1]!.answer();
    await turn();
    background.asked.at(-1)!.answer(none);
    await turn();
    pause();
    expect(background.asked.map(({ request }) => request)).toMatchObject([
      { compute: false },
      { compute: true },
      { compute: false },
    ]);
  });
});

describe('client and handler together', () => {
  it('give the verdict with its uncertainty, refuse a damaged file with its line, and recover', async () => {
    const makePool = () => {
      const handler = createHandler(() => 0, laterJobs);
      return createPool<ComputeRequest, ComputeResponse, ComputeProgress>({
        size: 1,
        connect: () => memoryPort(async (request, context) => (await handler.answer(request, context)) ?? stopped),
      });
    };
    const [quick, slow] = [makePool(), makePool()];
    const compute = createCompute({
      quick,
      slow,
      background: slow,
      afterPause: (action) => {
        const timer = setTimeout(action, 1);
        return () => clearTimeout(timer);
      },
    });
    const until = (done: () => boolean) =>
      new Promise<void>((resolve) => {
        const check = () => (done() ? resolve() : void setTimeout(check, 5));
        check();
      });
    const channels = () => compute.store.getState().channels;
    compute.want({ samples: { count: 8 }, power: { bank: 0, points: 5 }, hour: { sky: 0, hour: 12, heading: 0 } });
    compute.setInput(input());
    await until(() => channels().samples.view !== undefined && channels().power.view !== undefined);
    expect(shownVerdict(compute.store.getState())!.samples).toBe(8);
    compute.setInput({ ...input(), design: input().design.replace('chord: 230 mm', 'chord: broad') });
    await until(() => channels().verdict.status.kind === 'refused');
    expect(channels().verdict).toMatchObject({
      stale: true,
      status: { refusal: { reason: expect.stringContaining('line'), where: expect.stringContaining('chord') } },
    });
    expect(shownVerdict(compute.store.getState())).toBeDefined();
    compute.setInput(input('bandeja'));
    await until(() => channels().verdict.status.kind === 'idle' && channels().power.status.kind === 'idle');
    expect(shownVerdict(compute.store.getState())!.aircraft).toBe('Bandeja');

    const page = firstFlightData(shownVerdict(compute.store.getState())!, channels().power.view);
    expect(page.balance!.inside).toBe(
      page.balance!.point >= page.balance!.forward && page.balance!.point <= page.balance!.aft,
    );
    expect(page.speeds!.flown).toBeGreaterThan(page.speeds!.stall);
    expect(page.throttle!.level).toBeGreaterThan(0);
    expect(page.against).toContain('the aircraft was not weighed ready to fly');
    expect(page.onlyAssumed.length).toBeGreaterThan(5);
    compute.end();
    quick.end();
    slow.end();
  });
});
