import {
  type BrowserScopeLike,
  browserScopePort,
  type FromWorker,
  serve,
  stopped,
  type ToWorker,
} from '@noonwing/work';
import type { ComputeProgress, ComputeRequest, ComputeResponse } from './core/messages.js';
import type { ComputeHandler } from './core/worker.js';

/** Lets this worker answer. */
export const serveWorker = (handler: Pick<ComputeHandler, 'answer'>): void =>
  serve<ComputeRequest, ComputeResponse, ComputeProgress>(
    browserScopePort<FromWorker<ComputeResponse, ComputeProgress>, ToWorker<ComputeRequest>>(
      globalThis as unknown as BrowserScopeLike,
    ),
    async (request, context) => (await handler.answer(request, context)) ?? stopped,
  );
