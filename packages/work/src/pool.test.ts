import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { memoryPort } from './memory.js';
import type { FromWorker, PoolPort, ToWorker } from './messages.js';
import type { Notice } from './pool.js';
import { createPool } from './pool.js';
import { stopped } from './serve.js';
import { nextTurn } from './timers.js';

/** A worker under the test's control: it answers only when told to. */
interface FakeWorker {
  readonly received: ToWorker<string>[];
  readonly say: (message: FromWorker<string, number>) => void;
  readonly die: (reason: string) => void;
  readonly ended: () => boolean;
  readonly currentJob: () => number;
}

function fakeWorkers() {
  const workers: FakeWorker[] = [];
  const connect = (): PoolPort<string, string, number> => {
    let onMessage: (message: FromWorker<string, number>) => void = () => {};
    let onDeath: (reason: string) => void = () => {};
    let ended = false;
    const received: ToWorker<string>[] = [];
    workers.push({
      received,
      say: (message) => onMessage(message),
      die: (reason) => onDeath(reason),
      ended: () => ended,
      currentJob: () => received.findLast((message) => message.kind === 'start')?.job ?? -1,
    });
    return {
      post: (message) => void received.push(message),
      listen: (message, death) => {
        onMessage = message;
        onDeath = death;
      },
      end: () => {
        ended = true;
      },
    };
  };
  return { workers, connect };
}

const answer = (worker: FakeWorker, response: string) =>
  worker.say({ kind: 'done', job: worker.currentJob(), response });

const wait = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

describe('pool', () => {
  it('hands waiting requests to free workers in order, never two to one, never more workers than its size', async () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 2, connect });
    const jobs = ['a', 'b', 'c'].map((request) => pool.run(request));
    expect(workers).toHaveLength(2);
    expect(workers.map((worker) => worker.received.length)).toEqual([1, 1]);
    answer(workers[1]!, 'B');
    expect(workers[1]!.received.at(-1)).toMatchObject({ kind: 'start', request: 'c' });
    answer(workers[1]!, 'C');
    answer(workers[0]!, 'A');
    const results = await Promise.all(jobs.map((job) => job.result));
    expect(results.map((result) => result.kind === 'done' && result.response)).toEqual(['A', 'B', 'C']);
    pool.end();
    expect(workers.every((worker) => worker.ended())).toBe(true);
  });

  it('lets the newest request of a channel win, and leaves other channels alone', async () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 1, connect });
    const other = pool.run('other', { channel: 'levers' });
    const first = pool.run('1', { channel: 'verdict' });
    const second = pool.run('2', { channel: 'verdict' });
    const third = pool.run('3', { channel: 'verdict' });
    expect(await first.result).toEqual({ kind: 'superseded' });
    expect(await second.result).toEqual({ kind: 'superseded' });
    answer(workers[0]!, 'O');
    answer(workers[0]!, 'T');
    expect(await other.result).toMatchObject({ kind: 'done', response: 'O' });
    expect(await third.result).toMatchObject({ kind: 'done', response: 'T' });
    expect(workers[0]!.received.map((message) => message.kind)).toEqual(['start', 'start']);
    pool.end();
  });

  it('tells a running worker that its answer is no longer wanted, and drops a late answer', async () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 1, connect });
    const seen: number[] = [];
    const first = pool.run('1', { channel: 'verdict', onProgress: (part) => seen.push(part) });
    const worker = workers[0]!;
    worker.say({ kind: 'progress', job: 1, progress: 0.25 });
    const second = pool.run('2', { channel: 'verdict' });
    expect(await first.result).toEqual({ kind: 'superseded' });
    expect(worker.received.at(-1)).toEqual({ kind: 'cancel', job: 1 });
    worker.say({ kind: 'progress', job: 1, progress: 0.5 });
    worker.say({ kind: 'done', job: 1, response: 'late' });
    answer(worker, 'new');
    expect(await second.result).toMatchObject({ kind: 'done', response: 'new' });
    expect(seen).toEqual([0.25]);
    pool.end();
  });

  it('ends a worker that goes on with an unwanted answer while another request waits', async () => {
    const { workers, connect } = fakeWorkers();
    const notices: Notice[] = [];
    const pool = createPool<string, string, number>({
      size: 1,
      connect,
      grace: 5,
      onNotice: (notice) => notices.push(notice),
    });
    pool.run('1').cancel();
    await wait(20);
    expect(workers[0]!.ended(), 'nothing waits: it may finish').toBe(false);
    const second = pool.run('2');
    await wait(20);
    expect(workers[0]!.ended()).toBe(true);
    answer(workers[1]!, 'done');
    expect(await second.result).toMatchObject({ kind: 'done' });
    expect(notices.map((notice) => notice.kind)).toEqual(['worker ended for not answering']);
    pool.end();
  });

  it('replaces a dead worker, says so, and tries its request once more', async () => {
    const { workers, connect } = fakeWorkers();
    const notices: Notice[] = [];
    const pool = createPool<string, string, number>({ size: 1, connect, onNotice: (notice) => notices.push(notice) });
    const job = pool.run('a');
    const later = pool.run('b');
    workers[0]!.say({ kind: 'ready' });
    workers[0]!.die('out of memory');
    expect(workers[1]!.received).toEqual([{ kind: 'start', job: 1, request: 'a' }]);
    answer(workers[1]!, 'A');
    expect(await job.result).toEqual({ kind: 'done', response: 'A', replacements: 1 });
    answer(workers[1]!, 'B');
    expect(await later.result).toEqual({ kind: 'done', response: 'B', replacements: 0 });
    expect(notices).toEqual([{ kind: 'worker replaced', reason: 'out of memory' }]);
    pool.end();
  });

  it('gives up a request that ends two workers, and goes on with the next', async () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 1, connect });
    const poison = pool.run('poison');
    const next = pool.run('b');
    for (const number of [0, 1]) {
      workers[number]!.say({ kind: 'ready' });
      workers[number]!.die('stack');
    }
    expect(await poison.result).toEqual({
      kind: 'failed',
      reason: 'its worker ended 2 times: stack',
      replacements: 2,
    });
    answer(workers[2]!, 'B');
    expect(await next.result).toMatchObject({ kind: 'done' });
    pool.end();
  });

  it('does not start workers for ever that cannot be loaded', async () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 1, connect });
    const jobs = [pool.run('a'), pool.run('b')];
    for (let number = 0; number < 3; number += 1) workers[number]!.die('file not found');
    for (const job of jobs) {
      expect(await job.result).toMatchObject({
        kind: 'failed',
        reason: 'no worker can be started: file not found',
      });
    }
    expect(workers).toHaveLength(3);
    pool.end();
  });

  it('fails with a reason where a worker cannot be made or a request cannot be sent', async () => {
    const none = createPool<string, string>({
      size: 2,
      connect: () => {
        throw new Error('workers are not available here');
      },
    });
    expect(await none.run('a').result).toMatchObject({
      kind: 'failed',
      reason: 'no worker can be started: workers are not available here',
    });
    const { connect } = fakeWorkers();
    const deaf = createPool<string, string, number>({
      size: 1,
      connect: () => ({
        ...connect(),
        post: () => {
          throw new Error('could not be cloned');
        },
      }),
    });
    expect(await deaf.run('a').result).toMatchObject({ kind: 'failed', replacements: 0 });
  });

  it('settles everything when it ends, and takes nothing afterwards', async () => {
    const { connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 1, connect });
    const jobs = [pool.run('a'), pool.run('b')];
    pool.end();
    jobs.push(pool.run('c'));
    for (const job of jobs) expect(await job.result).toEqual({ kind: 'cancelled' });
  });

  it('starts its workers ahead when asked to', () => {
    const { workers, connect } = fakeWorkers();
    const pool = createPool<string, string, number>({ size: 3, connect });
    pool.warm();
    expect(workers).toHaveLength(3);
    pool.end();
    pool.warm();
    expect(workers).toHaveLength(3);
  });

  it('settles every request exactly once, whatever happens in whatever order', async () => {
    const action = fastCheck.constantFrom('run', 'run in channel', 'answer', 'fail', 'die', 'cancel');
    const property = fastCheck.asyncProperty(fastCheck.array(action, { maxLength: 40 }), async (actions) => {
      const { workers, connect } = fakeWorkers();
      const pool = createPool<string, string, number>({ size: 2, connect, grace: 10_000 });
      const jobs: ReturnType<typeof pool.run>[] = [];
      actions.forEach((name, step) => {
        const worker = workers.filter((one) => !one.ended())[step % 2];
        worker?.say({ kind: 'ready' });
        if (name === 'run') jobs.push(pool.run(`${step}`));
        else if (name === 'run in channel') jobs.push(pool.run(`${step}`, { channel: 'one' }));
        else if (name === 'cancel') jobs[step % Math.max(1, jobs.length)]?.cancel();
        else if (name === 'answer' && worker) answer(worker, 'x');
        else if (name === 'fail' && worker) worker.say({ kind: 'failed', job: worker.currentJob(), reason: 'x' });
        else if (name === 'die') worker?.die('x');
        expect(workers.filter((one) => !one.ended()).length).toBeLessThanOrEqual(2);
      });
      pool.end();
      const results = await Promise.all(jobs.map((job) => job.result));
      expect(results).toHaveLength(jobs.length);
      expect(workers.every((worker) => worker.ended())).toBe(true);
    });
    await fastCheck.assert(property, { numRuns: 200 });
  });
});

describe('serving in the same thread', () => {
  it('answers, reports progress, and turns an exception into a reason', async () => {
    const connect = () =>
      memoryPort<number, number, string>((request, { report }) => {
        if (request < 0) throw new RangeError('negative');
        report(`half of ${request}`);
        return request * 2;
      });
    const pool = createPool<number, number, string>({ size: 1, connect });
    const seen: string[] = [];
    expect(await pool.run(4, { onProgress: (text) => seen.push(text) }).result).toEqual({
      kind: 'done',
      response: 8,
      replacements: 0,
    });
    expect(seen).toEqual(['half of 4']);
    expect(await pool.run(-1).result).toMatchObject({ kind: 'failed', reason: 'negative' });
    pool.end();
  });

  it('stops a handler whose answer is no longer wanted', async () => {
    let steps = 0;
    const connect = () =>
      memoryPort<number, number>(async (request, { stillWanted }) => {
        for (let step = 0; step < request; step += 1) {
          steps += 1;
          if (!(await stillWanted())) return stopped;
        }
        return request;
      });
    const pool = createPool<number, number>({ size: 1, connect });
    const long = pool.run(1e9, { channel: 'one' });
    await nextTurn();
    await nextTurn();
    expect(await pool.run(2, { channel: 'one' }).result).toMatchObject({ kind: 'done', response: 2 });
    expect(await long.result).toEqual({ kind: 'superseded' });
    expect(steps).toBeLessThan(100);
    pool.end();
  });
});
