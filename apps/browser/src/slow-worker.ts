import { laterJobs } from './core/later-jobs.js';
import { createHandler } from './core/worker.js';
import { serveWorker } from './serve-worker.js';

/** Answers everything that may take longer. A bundle of its own, loaded once the first verdict stands there. */
serveWorker(createHandler(() => performance.now(), laterJobs));
