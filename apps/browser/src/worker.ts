import {
  type BrowserScopeLike,
  browserScopePort,
  type FromWorker,
  serve,
  stopped,
  type ToWorker,
} from '@noonwing/work';
import type { ComputeProgress, ComputeRequest, ComputeResponse } from './core/messages.js';
import { createHandler } from './core/worker.js';

const handler = createHandler(() => performance.now());

serve<ComputeRequest, ComputeResponse, ComputeProgress>(
  browserScopePort<FromWorker<ComputeResponse, ComputeProgress>, ToWorker<ComputeRequest>>(
    globalThis as unknown as BrowserScopeLike,
  ),
  async (request, context) => (await handler.answer(request, context)) ?? stopped,
);
