import {
  type BrowserWorkerLike,
  browserWorkerPort,
  createPool,
  type FromWorker,
  type Notice,
  type Pool,
  type ToWorker,
} from '@noonwing/work';
import { type Compute, type ComputeOptions, createCompute } from '../../core/compute.js';
import type { ComputeProgress, ComputeRequest, ComputeResponse } from '../../core/messages.js';

/** Pause in the edits after which what takes longer is asked for [ms]; common practice, no source. */
const pause = 250;
/** A worker that goes on with an unwanted answer is let finish this long: ending it would lose what it remembers [ms]. */
const grace = 4000;

/** What happened to a worker, and that nothing is lost by it. */
function noticeText(notice: Notice): string {
  return notice.kind === 'worker replaced'
    ? `A background worker ended (${notice.reason}). It is replaced, its question is asked again, and what you wrote is kept.`
    : `A background worker did not stop in time (${notice.reason}) and was replaced.`;
}

type WorkerPool = Pool<ComputeRequest, ComputeResponse, ComputeProgress>;

// Each address is written out where it is used: only so does the bundler see it.
const makeQuick = () => new Worker(new URL('../../worker.ts', import.meta.url), { type: 'module', name: 'noonwing' });
const makeSlow = () =>
  new Worker(new URL('../../slow-worker.ts', import.meta.url), { type: 'module', name: 'noonwing, longer work' });

const poolOf = (make: () => Worker, onNotice: (text: string) => void): WorkerPool =>
  createPool<ComputeRequest, ComputeResponse, ComputeProgress>({
    size: 1,
    grace,
    connect: () =>
      browserWorkerPort<ToWorker<ComputeRequest>, FromWorker<ComputeResponse, ComputeProgress>>(
        make() as unknown as BrowserWorkerLike,
      ),
    onNotice: (notice) => onNotice(noticeText(notice)),
  });

const makeBackground = () =>
  new Worker(new URL('../../slow-worker.ts', import.meta.url), { type: 'module', name: 'noonwing, polars' });

/** One worker for work that may take longer. onNotice - told in words when it had to be replaced */
export const startSlowPool = (onNotice: (text: string) => void = () => {}): WorkerPool => poolOf(makeSlow, onNotice);

/** Does something after a time [ms]; returns what calls it off. */
export const afterTime = (milliseconds: number) => (action: () => void) => {
  const timer = setTimeout(action, milliseconds);
  return () => clearTimeout(timer);
};

/** Three workers: one answers edits at once and is never busy with anything else, one does what takes longer, one computes polars. */
export function startComputing(): { readonly compute: Compute; readonly compare: Compute } {
  let tell: (text: string) => void = () => {};
  const quick = poolOf(makeQuick, (text) => tell(text));
  const slow = startSlowPool((text) => tell(text));
  const background = poolOf(makeBackground, (text) => tell(text));
  // The page reads a file at every edit; a worker need not read it again, once the page can.
  let read: NonNullable<ComputeOptions['read']> = () => undefined;
  const afterPause = afterTime(pause);
  const compute = createCompute({ quick, slow, background, afterPause, read: (input) => read(input) });
  const compare = createCompute({ quick: slow, slow, background, name: 'compare', afterPause });
  tell = compute.notice;
  quick.warm();
  // The first verdict waits for nothing that it does not need.
  const stop = compute.store.subscribe(({ channels }) => {
    if (channels.verdict.view === undefined) return;
    stop();
    slow.warm();
    void import('../../core/ready.js').then(({ readyOf }) => {
      read = (input) => {
        const ready = readyOf(input);
        return 'kind' in ready ? undefined : ready;
      };
    });
  });
  return { compute, compare };
}
