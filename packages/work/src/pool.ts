import type { FromWorker, PoolPort } from './messages.js';
import { later } from './timers.js';

/** How a request ended. `replacements` counts the workers that died over it. */
export type JobResult<Response> =
  | { readonly kind: 'done'; readonly response: Response; readonly replacements: number }
  | { readonly kind: 'failed'; readonly reason: string; readonly replacements: number }
  | { readonly kind: 'cancelled' }
  /** A newer request of the same channel took its place. */
  | { readonly kind: 'superseded' };

export interface Job<Response> {
  /** Never rejects. */
  readonly result: Promise<JobResult<Response>>;
  readonly cancel: () => void;
}

/** Something about the workers themselves that the user should be able to see. */
export type Notice =
  | { readonly kind: 'worker replaced'; readonly reason: string }
  | { readonly kind: 'worker ended for not answering'; readonly reason: string };

export interface PoolOptions<Request, Response, Progress> {
  /** How many workers at most; at least 1. */
  readonly size: number;
  /** Starts one worker. */
  readonly connect: () => PoolPort<Request, Response, Progress>;
  readonly onNotice?: (notice: Notice) => void;
  /** How long a worker may go on with an answer that nobody wants while another request waits [ms]; default 100. */
  readonly grace?: number;
}

export interface RunOptions<Progress> {
  /** Of the requests of one channel only the newest counts: an earlier one that has not ended is superseded. */
  readonly channel?: string;
  readonly onProgress?: (progress: Progress) => void;
}

export interface Pool<Request, Response, Progress> {
  readonly run: (request: Request, options?: RunOptions<Progress>) => Job<Response>;
  /** Starts all workers now, so that the first request does not wait for one. */
  readonly warm: () => void;
  /** Cancels what has not ended and ends all workers. */
  readonly end: () => void;
}

interface Task<Request, Response, Progress> {
  readonly number: number;
  readonly request: Request;
  readonly options: RunOptions<Progress>;
  readonly settle: (result: JobResult<Response>) => void;
  settled: boolean;
  replacements: number;
}

interface Slot<Request, Response, Progress> {
  port: PoolPort<Request, Response, Progress>;
  task: Task<Request, Response, Progress> | undefined;
  callOffGrace: (() => void) | undefined;
  /** It was loaded and could take requests. */
  isReady: boolean;
}

/** A request that killed two workers would kill the third as well. */
const greatestReplacements = 1;

/** After so many workers in a row that died before they were ready, another attempt would not help either. */
const greatestFailedStarts = 3;

const defaultGrace = 100;

/**
 * A pool of workers: requests wait for a free one, the newest request of a channel wins, a cancelled request frees its worker,
 * and a worker that dies is replaced, its request tried once more, and the fact told.
 */
export function createPool<Request, Response, Progress = never>(
  poolOptions: PoolOptions<Request, Response, Progress>,
): Pool<Request, Response, Progress> {
  type OwnTask = Task<Request, Response, Progress>;
  type OwnSlot = Slot<Request, Response, Progress>;
  const { connect, onNotice = () => {}, grace = defaultGrace } = poolOptions;
  const size = Math.max(1, Math.floor(poolOptions.size) || 1);
  const slots: OwnSlot[] = [];
  const waiting: OwnTask[] = [];
  let nextNumber = 1;
  let failedStarts = 0;
  let hasEnded = false;

  const settle = (task: OwnTask, result: JobResult<Response>) => {
    if (task.settled) return;
    task.settled = true;
    task.settle(result);
  };

  const release = (slot: OwnSlot) => {
    slot.callOffGrace?.();
    slot.callOffGrace = undefined;
    slot.task = undefined;
  };

  const receive = (slot: OwnSlot, message: FromWorker<Response, Progress>) => {
    if (message.kind === 'ready') {
      slot.isReady = true;
      failedStarts = 0;
      return;
    }
    const task = slot.task;
    // What arrives for an earlier job of this worker no longer matters.
    if (task === undefined || task.number !== message.job) return;
    if (message.kind === 'progress') {
      if (!task.settled) task.options.onProgress?.(message.progress);
      return;
    }
    const { replacements } = task;
    if (message.kind === 'done') settle(task, { kind: 'done', response: message.response, replacements });
    else if (message.kind === 'failed') settle(task, { kind: 'failed', reason: message.reason, replacements });
    else settle(task, { kind: 'cancelled' });
    release(slot);
    assign();
  };

  const die = (slot: OwnSlot, reason: string) => {
    const at = slots.indexOf(slot);
    if (at < 0) return;
    slots.splice(at, 1);
    slot.port.end();
    const task = slot.task;
    release(slot);
    if (!slot.isReady) failedStarts += 1;
    onNotice({ kind: 'worker replaced', reason });
    if (task !== undefined && !task.settled) {
      // A worker that could not even start says nothing about the request.
      if (slot.isReady) task.replacements += 1;
      if (task.replacements > greatestReplacements) {
        const { replacements } = task;
        settle(task, { kind: 'failed', reason: `its worker ended ${replacements} times: ${reason}`, replacements });
      } else waiting.unshift(task);
    }
    if (failedStarts >= greatestFailedStarts) failWaiting(`no worker can be started: ${reason}`);
    assign();
  };

  const failWaiting = (reason: string) => {
    failedStarts = 0;
    for (const task of waiting.splice(0)) settle(task, { kind: 'failed', reason, replacements: task.replacements });
  };

  const startWorker = (): OwnSlot | undefined => {
    try {
      const slot: OwnSlot = { port: connect(), task: undefined, callOffGrace: undefined, isReady: false };
      slots.push(slot);
      slot.port.listen(
        (message) => receive(slot, message),
        (reason) => die(slot, reason),
      );
      return slot;
    } catch (error) {
      if (slots.length === 0)
        failWaiting(`no worker can be started: ${error instanceof Error ? error.message : error}`);
      return undefined;
    }
  };

  const hand = (slot: OwnSlot, task: OwnTask) => {
    slot.task = task;
    try {
      slot.port.post({ kind: 'start', job: task.number, request: task.request });
    } catch (error) {
      const reason = `the request cannot be sent to a worker: ${error instanceof Error ? error.message : error}`;
      settle(task, { kind: 'failed', reason, replacements: task.replacements });
      release(slot);
    }
  };

  /** While a request waits, workers on unwanted answers get a last moment, then are ended. */
  const pressUnwanted = () => {
    for (const slot of slots) {
      if (slot.task?.settled !== true || slot.callOffGrace !== undefined) continue;
      slot.callOffGrace = later(grace, () => {
        slots.splice(slots.indexOf(slot), 1);
        slot.port.end();
        release(slot);
        onNotice({ kind: 'worker ended for not answering', reason: 'its answer was no longer wanted' });
        assign();
      });
    }
  };

  const assign = () => {
    if (hasEnded) return;
    while (waiting.length > 0) {
      const free = slots.find((slot) => slot.task === undefined) ?? (slots.length < size ? startWorker() : undefined);
      if (free === undefined) break;
      const task = waiting.shift();
      if (task !== undefined) hand(free, task);
    }
    if (waiting.length > 0) pressUnwanted();
  };

  const abandon = (task: OwnTask, result: JobResult<Response>) => {
    if (task.settled) return;
    settle(task, result);
    const at = waiting.indexOf(task);
    if (at >= 0) waiting.splice(at, 1);
    const slot = slots.find((one) => one.task === task);
    slot?.port.post({ kind: 'cancel', job: task.number });
    assign();
  };

  const unsettled = () => [...waiting, ...slots.flatMap((slot) => (slot.task ? [slot.task] : []))];

  const run = (request: Request, options: RunOptions<Progress> = {}): Job<Response> => {
    const { channel } = options;
    const older = channel === undefined ? [] : unsettled().filter((task) => task.options.channel === channel);
    let settleResult: (result: JobResult<Response>) => void = () => {};
    const result = new Promise<JobResult<Response>>((resolve) => {
      settleResult = resolve;
    });
    const number = nextNumber++;
    const task: OwnTask = { number, request, options, settle: settleResult, settled: false, replacements: 0 };
    if (hasEnded) settle(task, { kind: 'cancelled' });
    else waiting.push(task);
    for (const one of older) abandon(one, { kind: 'superseded' });
    assign();
    return { result, cancel: () => abandon(task, { kind: 'cancelled' }) };
  };

  const warm = () => {
    while (!hasEnded && slots.length < size && startWorker() !== undefined);
  };

  const end = () => {
    hasEnded = true;
    for (const task of unsettled()) settle(task, { kind: 'cancelled' });
    waiting.length = 0;
    for (const slot of slots.splice(0)) {
      release(slot);
      slot.port.end();
    }
  };

  return { run, warm, end };
}
