import {
  type BrowserScopeLike,
  browserScopePort,
  type FromWorker,
  serve,
  stopped,
  type ToWorker,
} from '@noonwing/work';
import type { DayAnswer, DayRequest } from './answer.js';
import { createComputer } from './compute.js';

const computer = createComputer(() => performance.now());

/** Progress below this share is not worth a message. */
const shareStep = 0.04;

serve<DayRequest, DayAnswer, number>(
  browserScopePort<FromWorker<DayAnswer, number>, ToWorker<DayRequest>>(globalThis as unknown as BrowserScopeLike),
  async (request, { report, stillWanted }) => {
    if (!(await stillWanted())) return stopped;
    let told = 0;
    return computer.answer(request, (share) => {
      if (share < told + shareStep) return;
      told = share;
      report(share);
    });
  },
);
