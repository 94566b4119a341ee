/** What a pool says to a worker. `job` numbers a request within its pool. */
export type ToWorker<Request> =
  | { readonly kind: 'start'; readonly job: number; readonly request: Request }
  | { readonly kind: 'cancel'; readonly job: number };

/** What a worker says to its pool: ready once, when it can take requests; exactly one of done, stopped and failed ends each job. */
export type FromWorker<Response, Progress> =
  | { readonly kind: 'ready' }
  | { readonly kind: 'progress'; readonly job: number; readonly progress: Progress }
  | { readonly kind: 'done'; readonly job: number; readonly response: Response }
  | { readonly kind: 'stopped'; readonly job: number }
  | { readonly kind: 'failed'; readonly job: number; readonly reason: string };

/**
 * One end of a line between two threads: what every kind of worker has in common.
 * `post` may throw where a message cannot be copied to another thread.
 */
export interface Port<Out, In> {
  readonly post: (message: Out) => void;
  /** Called once, before anything is posted. `onDeath` is called at most once, and not after `end`. */
  readonly listen: (onMessage: (message: In) => void, onDeath: (reason: string) => void) => void;
  /** Ends the worker at once, whatever it is doing. */
  readonly end: () => void;
}

/** The pool's end of the line to a worker. */
export type PoolPort<Request, Response, Progress> = Port<ToWorker<Request>, FromWorker<Response, Progress>>;

/** The worker's end of the line to its pool. */
export type WorkerPort<Request, Response, Progress> = Port<FromWorker<Response, Progress>, ToWorker<Request>>;
