import { parentPort, workerData } from 'node:worker_threads';
import { type LimitTask, limitOf } from './limit-of.js';

// Runs beside the samples of the verdict, which take as long.
parentPort?.postMessage(limitOf(workerData as LimitTask));
