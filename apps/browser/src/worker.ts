import { createHandler } from './core/worker.js';
import { serveWorker } from './serve-worker.js';

/** Rest after an answer before the next edit is rehearsed [ms]: the builder comes first. */
const rest = 300;

const handler = createHandler(() => performance.now());

let waiting: ReturnType<typeof setTimeout> | undefined;
const rehearseAfter = (milliseconds: number): void => {
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    if (handler.rehearse()) rehearseAfter(0);
  }, milliseconds);
};

/** Answers edits: central verdict and hour alone, so that the first load stays small. */
serveWorker({
  answer: async (request, context) => {
    clearTimeout(waiting);
    const answer = await handler.answer(request, context);
    rehearseAfter(rest);
    return answer;
  },
});
