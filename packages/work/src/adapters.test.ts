import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BrowserScopeLike, BrowserWorkerLike } from './adapters.js';
import { browserScopePort, browserWorkerPort, nodeParentPort, nodeWorkerPort } from './adapters.js';
import type { FromWorker, PoolPort, ToWorker, WorkerPort } from './messages.js';
import type { Notice } from './pool.js';
import { createPool } from './pool.js';
import { serve } from './serve.js';
import { nextTurn } from './timers.js';

const workerSource = `
import { parentPort } from 'node:worker_threads';
import { nodeParentPort, serve, stopped } from './work.mjs';
serve(nodeParentPort(parentPort), async (request, { report, stillWanted }) => {
  if (request === 'die') process.exit(7);
  if (request === 'throw') throw new Error('not today');
  if (request === 'uncopied') return () => 0;
  if (request === 'endless') for (;;) if (!(await stillWanted())) return stopped;
  if (request === 'deaf') for (;;) {}
  report(0.5);
  return request.toUpperCase();
});`;

describe('worker threads of Node', () => {
  let folder = '';
  let workerPath = '';

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'noonwing-work-'));
    const entry = fileURLToPath(new URL('./index.ts', import.meta.url));
    await build({
      configFile: false,
      logLevel: 'silent',
      build: { outDir: folder, minify: false, lib: { entry, formats: ['es'], fileName: () => 'work.mjs' } },
    });
    workerPath = join(folder, 'worker.mjs');
    writeFileSync(workerPath, workerSource);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const connect = (): PoolPort<string, string, number> => nodeWorkerPort(new Worker(pathToFileURL(workerPath)));

  it('answer, report, stop when unwanted, fail with a reason', async () => {
    const pool = createPool<string, string, number>({ size: 2, connect });
    const seen: number[] = [];
    const job = pool.run('noon', { onProgress: (part) => seen.push(part) });
    expect(await job.result).toEqual({ kind: 'done', response: 'NOON', replacements: 0 });
    expect(seen).toEqual([0.5]);
    expect(await pool.run('throw').result).toMatchObject({ kind: 'failed', reason: 'not today' });
    expect(await pool.run('uncopied').result).toMatchObject({
      kind: 'failed',
      reason: expect.stringContaining('the answer cannot be sent'),
    });
    const endless = pool.run('endless', { channel: 'one' });
    const newer = pool.run('wing', { channel: 'one' });
    expect(await endless.result).toEqual({ kind: 'superseded' });
    expect(await newer.result).toMatchObject({ response: 'WING' });
    pool.end();
  });

  it('are replaced when they die and when they do not listen', async () => {
    const notices: Notice[] = [];
    const pool = createPool<string, string, number>({
      size: 1,
      connect,
      grace: 20,
      onNotice: (notice) => notices.push(notice),
    });
    const dying = pool.run('die');
    expect(await dying.result).toMatchObject({ kind: 'failed', replacements: 2 });
    expect(notices).toEqual([
      { kind: 'worker replaced', reason: 'the worker ended with code 7' },
      { kind: 'worker replaced', reason: 'the worker ended with code 7' },
    ]);
    pool.run('deaf', { channel: 'one' });
    expect(await pool.run('sun', { channel: 'one' }).result).toMatchObject({ response: 'SUN' });
    pool.end();
  });

  it('that cannot be loaded end in a reason', async () => {
    const missing = () => nodeWorkerPort<ToWorker<string>, FromWorker<string, never>>(new Worker(`${workerPath}.none`));
    const pool = createPool<string, string>({ size: 1, connect: missing });
    const result = await pool.run('a').result;
    expect(result).toMatchObject({ kind: 'failed', reason: expect.stringContaining('no worker can be started') });
    pool.end();
  });

  it('have no parent in the main thread', () => {
    expect(() => nodeParentPort(null)).toThrow('only as a worker thread');
  });
});

/** A browser's worker and the scope inside it, joined back to back. */
function browserPair() {
  const worker: BrowserWorkerLike & { terminated: boolean } = {
    terminated: false,
    postMessage: (message) => queueMicrotask(() => scope.onmessage?.({ data: structuredClone(message) as never })),
    terminate: () => {
      worker.terminated = true;
    },
    onmessage: null,
    onerror: null,
    onmessageerror: null,
  };
  const scope: BrowserScopeLike = {
    postMessage: (message) => queueMicrotask(() => worker.onmessage?.({ data: structuredClone(message) as never })),
    close: () => {},
    onmessage: null,
  };
  return { worker, scope };
}

describe("a browser's workers", () => {
  it('answer through both adapters, and a fault replaces the worker', async () => {
    const pairs: ReturnType<typeof browserPair>[] = [];
    const pool = createPool<string, string>({
      size: 1,
      connect: () => {
        const pair = browserPair();
        pairs.push(pair);
        const inner: WorkerPort<string, string, never> = browserScopePort(pair.scope);
        queueMicrotask(() => serve(inner, (request) => (request === 'hang' ? new Promise(() => {}) : `${request}!`)));
        return browserWorkerPort(pair.worker);
      },
    });
    expect(await pool.run('sky').result).toMatchObject({ kind: 'done', response: 'sky!' });
    const hanging = pool.run('hang');
    pairs[0]!.worker.onerror?.({ message: 'out of memory' });
    expect(pairs[0]!.worker.terminated).toBe(true);
    await nextTurn();
    pairs[1]!.worker.onmessageerror?.(undefined as never);
    expect(await hanging.result).toMatchObject({ kind: 'failed', replacements: 2 });
    expect(await pool.run('sun').result).toMatchObject({ kind: 'done', response: 'sun!' });
    pool.end();
  });
});
