import type { FromWorker, WorkerPort } from './messages.js';
import { nextTurn } from './timers.js';

/** Returned by a handler that ended early because its answer was no longer wanted. */
export const stopped: unique symbol = Symbol('stopped');

/** What a handler can do besides computing. */
export interface JobContext<Progress> {
  readonly report: (progress: Progress) => void;
  /** Lets messages arrive, then tells whether the answer is still wanted. Long work asks every 10 ms or so. */
  readonly stillWanted: () => Promise<boolean>;
}

export type Handler<Request, Response, Progress> = (
  request: Request,
  context: JobContext<Progress>,
) => Response | typeof stopped | Promise<Response | typeof stopped>;

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/**
 * Answers the requests that arrive at a worker's port. An exception in the handler ends its job with a reason, not the worker.
 * @param port - the worker's end of the line
 * @param handle - computes one answer; returns `stopped` where `stillWanted` said no
 */
export function serve<Request, Response, Progress = never>(
  port: WorkerPort<Request, Response, Progress>,
  handle: Handler<Request, Response, Progress>,
): void {
  const unwanted = new Set<number>();
  const running = new Set<number>();

  type JobMessage = Exclude<FromWorker<Response, Progress>, { kind: 'ready' }>;

  const send = (message: JobMessage) => {
    try {
      port.post(message);
    } catch (error) {
      port.post({ kind: 'failed', job: message.job, reason: `the answer cannot be sent: ${reasonOf(error)}` });
    }
  };

  const work = async (job: number, request: Request) => {
    running.add(job);
    const context: JobContext<Progress> = {
      report: (progress) => send({ kind: 'progress', job, progress }),
      stillWanted: async () => {
        await nextTurn();
        return !unwanted.has(job);
      },
    };
    let ending: JobMessage;
    try {
      const response = await handle(request, context);
      ending = response === stopped ? { kind: 'stopped', job } : { kind: 'done', job, response };
    } catch (error) {
      ending = { kind: 'failed', job, reason: reasonOf(error) };
    }
    running.delete(job);
    unwanted.delete(job);
    send(ending);
  };

  port.listen(
    (message) => {
      if (message.kind === 'start') void work(message.job, message.request);
      else if (running.has(message.job)) unwanted.add(message.job);
    },
    () => {},
  );
  port.post({ kind: 'ready' });
}
