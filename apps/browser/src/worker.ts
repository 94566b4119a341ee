import { createHandler } from './core/worker.js';
import { serveWorker } from './serve-worker.js';

/** Answers edits: central verdict and hour alone, so that the first load stays small. */
serveWorker(createHandler(() => performance.now()));
