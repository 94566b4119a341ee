import {
  type BrowserWorkerLike,
  browserWorkerPort,
  createPool,
  type FromWorker,
  type Notice,
  type ToWorker,
} from '@noonwing/work';
import { type Compute, createCompute } from '../../core/compute.js';
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

/** One worker, known by a name to the tools of the browser. onNotice - told in words when it had to be replaced */
export const startPool = (name: string, onNotice: (text: string) => void = () => {}) =>
  createPool<ComputeRequest, ComputeResponse, ComputeProgress>({
    size: 1,
    grace,
    connect: () =>
      browserWorkerPort<ToWorker<ComputeRequest>, FromWorker<ComputeResponse, ComputeProgress>>(
        new Worker(new URL('../../worker.ts', import.meta.url), {
          type: 'module',
          name,
        }) as unknown as BrowserWorkerLike,
      ),
    onNotice: (notice) => onNotice(noticeText(notice)),
  });

const afterPause = (action: () => void) => {
  const timer = setTimeout(action, pause);
  return () => clearTimeout(timer);
};

/** Two workers: one answers edits at once and is never busy with anything else, one does what takes longer. */
export function startComputing(): { readonly compute: Compute; readonly compare: Compute } {
  let tell: (text: string) => void = () => {};
  const quick = startPool('noonwing', (text) => tell(text));
  const slow = startPool('noonwing', (text) => tell(text));
  const compute = createCompute({ quick, slow, afterPause });
  const compare = createCompute({ quick: slow, slow, name: 'compare', afterPause });
  tell = compute.notice;
  quick.warm();
  slow.warm();
  return { compute, compare };
}
