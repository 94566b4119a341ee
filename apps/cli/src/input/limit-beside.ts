import { Worker } from 'node:worker_threads';
import type { KnownLimit } from '@noonwing/verdict';
import type { LimitTask } from './limit-of.js';

/**
 * Starts to look for the limit speed in a second thread, so that a day waits little for it; in this one where no second can be had.
 * @returns the limit; undefined where there is none or none can be computed
 */
export function limitBeside(task: LimitTask): Promise<KnownLimit | undefined> {
  const worker = new Worker(new URL('./limit-thread.js', import.meta.url), { workerData: task });
  return new Promise((resolve) => {
    worker.once('message', resolve);
    worker.once('error', async () => resolve((await import('./limit-of.js')).limitOf(task)));
  });
}
