import type { Port } from './messages.js';

/** What a browser's Worker offers, as far as it is used here. */
export interface BrowserWorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: { data: never }) => unknown) | null;
  onerror: ((event: { message?: string }) => unknown) | null;
  onmessageerror: ((event: never) => unknown) | null;
}

/** What the global scope inside a browser's worker offers (`self`). */
export interface BrowserScopeLike {
  postMessage(message: unknown): void;
  close(): void;
  onmessage: ((event: { data: never }) => unknown) | null;
}

/** What a Worker of node:worker_threads offers. */
export interface NodeWorkerLike {
  postMessage(message: unknown): void;
  terminate(): Promise<number>;
  on(event: 'message', listener: (message: unknown) => void): unknown;
  on(event: 'error' | 'messageerror', listener: (error: Error) => void): unknown;
  on(event: 'exit', listener: (code: number) => void): unknown;
}

/** What the parentPort of node:worker_threads offers. */
export interface NodeParentLike {
  postMessage(message: unknown): void;
  close(): void;
  on(event: 'message', listener: (message: unknown) => void): unknown;
}

/** Calls a death only once, and not after the worker was ended on purpose. */
function onceAlive(onDeath: (reason: string) => void, isEnded: () => boolean): (reason: string) => void {
  let told = false;
  return (reason) => {
    if (told || isEnded()) return;
    told = true;
    onDeath(reason);
  };
}

/**
 * A browser's worker as a port of the pool.
 * @param worker - `new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })`
 */
export function browserWorkerPort<Out, In>(worker: BrowserWorkerLike): Port<Out, In> {
  let ended = false;
  return {
    post: (message) => worker.postMessage(message),
    listen: (onMessage, onDeath) => {
      const die = onceAlive(onDeath, () => ended);
      worker.onmessage = (event) => onMessage(event.data);
      // An uncaught error leaves a browser's worker in an unknown state: it counts as dead.
      worker.onerror = (event) => die(event.message ?? 'the worker could not be loaded');
      worker.onmessageerror = () => die('a message of the worker could not be read');
    },
    end: () => {
      ended = true;
      worker.terminate();
    },
  };
}

/**
 * The port inside a browser's worker.
 * @param scope - `self`
 */
export function browserScopePort<Out, In>(scope: BrowserScopeLike): Port<Out, In> {
  return {
    post: (message) => scope.postMessage(message),
    listen: (onMessage) => {
      scope.onmessage = (event) => onMessage(event.data);
    },
    end: () => scope.close(),
  };
}

/**
 * A worker thread of Node as a port of the pool.
 * @param worker - `new Worker(url)` of node:worker_threads
 */
export function nodeWorkerPort<Out, In>(worker: NodeWorkerLike): Port<Out, In> {
  let ended = false;
  return {
    post: (message) => worker.postMessage(message),
    listen: (onMessage, onDeath) => {
      const die = onceAlive(onDeath, () => ended);
      worker.on('message', (message) => onMessage(message as In));
      worker.on('error', (error) => die(error.message));
      worker.on('messageerror', () => die('a message of the worker could not be read'));
      worker.on('exit', (code) => die(`the worker ended with code ${code}`));
    },
    end: () => {
      ended = true;
      void worker.terminate();
    },
  };
}

/**
 * The port inside a worker thread of Node.
 * @param parent - `parentPort` of node:worker_threads, or undefined
 */
export function nodeParentPort<Out, In>(parent: NodeParentLike | null): Port<Out, In> {
  if (parent === null) throw new Error('This file runs only as a worker thread.');
  return {
    post: (message) => parent.postMessage(message),
    listen: (onMessage) => void parent.on('message', (message) => onMessage(message as In)),
    end: () => parent.close(),
  };
}
