import type { PoolPort, WorkerPort } from './messages.js';
import type { Handler } from './serve.js';
import { serve } from './serve.js';

/**
 * A port of the pool behind which the handler runs in this same thread: for places without workers, and for tests.
 * Messages arrive in a later turn, as they do between threads, but are not copied.
 */
export function memoryPort<Request, Response, Progress = never>(
  handle: Handler<Request, Response, Progress>,
): PoolPort<Request, Response, Progress> {
  let ended = false;
  const deliver = (action: () => void) => {
    void Promise.resolve().then(() => {
      if (!ended) action();
    });
  };
  type Inner = WorkerPort<Request, Response, Progress>;
  type Outer = PoolPort<Request, Response, Progress>;
  let toWorker: Parameters<Inner['listen']>[0] = () => {};
  let toPool: Parameters<Outer['listen']>[0] = () => {};
  const end = () => {
    ended = true;
  };
  serve<Request, Response, Progress>(
    {
      post: (message) => deliver(() => toPool(message)),
      listen: (onMessage) => {
        toWorker = onMessage;
      },
      end,
    },
    handle,
  );
  return {
    post: (message) => deliver(() => toWorker(message)),
    listen: (onMessage) => {
      toPool = onMessage;
    },
    end,
  };
}
