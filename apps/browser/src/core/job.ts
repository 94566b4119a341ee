import type { Slices, Stages, Verdict } from '@noonwing/verdict';
import type { ComputeRequest, ComputeResponse, Ready, Refusal, RequestKind } from './messages.js';

/** A result without the time that it took. */
export type Answer = ComputeResponse extends infer R
  ? R extends unknown
    ? Omit<R, 'milliseconds' | 'stagesRun'>
    : never
  : never;

/** What a job of the worker has besides its request. */
export interface JobTools {
  readonly stages: Stages;
  /** Central verdict of the files, computed at most once. */
  readonly central: (ready: Ready) => Verdict;
  /** Works slice by slice, listening between them; undefined where the answer is no longer wanted. */
  readonly inSlices: <T>(slices: Slices<T>) => Promise<T | undefined>;
}

export type RequestOf<K extends RequestKind> = Extract<ComputeRequest, { kind: K }>;

/** A job that is loaded when it is first asked for. */
export interface LaterJob<K extends RequestKind> {
  /** ready - absent where the request names no files */
  readonly answer: (
    request: RequestOf<K>,
    ready: K extends 'figure' ? undefined : Ready,
    tools: JobTools,
  ) => Promise<Answer | undefined>;
}

/** Kinds that the first verdict does not need. */
export type LaterKind = Exclude<RequestKind, 'verdict' | 'hour'>;

export type LaterJobs = { readonly [K in LaterKind]: () => Promise<LaterJob<K>> };

/** An expected refusal with the way out. */
export const refused = (reason: string, where: string, remedy: string): Refusal => ({
  kind: 'refused',
  reason,
  where,
  remedy,
});

export const refusedAs = ({ reason, where, remedy }: { reason: string; where: string; remedy: string }): Refusal =>
  refused(reason, where, remedy);
