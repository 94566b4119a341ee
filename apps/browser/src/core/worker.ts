import { centralVerdict, createStages, type Slices, shareUnchanged, type Verdict } from '@noonwing/verdict';
import type { Answer, JobTools, LaterJob, LaterJobs, LaterKind, RequestOf } from './job.js';
import type {
  ComputeInput,
  ComputeProgress,
  ComputeRequest,
  ComputeResponse,
  Ready,
  Refusal,
  RequestKind,
} from './messages.js';
import { sameData } from './patch.js';
import { readyOf } from './ready.js';
import { imagined, rehearsals } from './rehearsal.js';
import { verdictView } from './view-verdict.js';

/** What a handler can do besides computing; the shape of a job's context in packages/work. */
export interface HandlerContext {
  readonly report: (progress: ComputeProgress) => void;
  readonly stillWanted: () => Promise<boolean>;
}

export interface ComputeHandler {
  /** Undefined: ended early because the answer was no longer wanted. */
  readonly answer: (request: ComputeRequest, context: HandlerContext) => Promise<ComputeResponse | undefined>;
  /** Computes the next imagined edit of the files asked about last; false where there is none (any more). */
  readonly rehearse: () => boolean;
}

const limitOf = ({ limit }: Pick<ComputeInput, 'limit'>) => (limit === undefined ? {} : { limit });

/** Computing between two looks at what has arrived [ms]: a browser takes 4 ms for each look. */
const sliceTime = 40;

/**
 * Answers requests and remembers the stages between them: what did not change since the last request is not computed again.
 * now - clock [ms]
 * later - what else than verdict and hour this worker answers; a request that it was not made for is a fault of the program
 */
export function createHandler(now: () => number, later: Partial<LaterJobs> = {}): ComputeHandler {
  const stages = createStages();
  let last: { readonly input: ComputeInput; readonly ready: Ready } | undefined;
  let central: { readonly ready: Ready; readonly verdict: Verdict } | undefined;

  const prepare = async (input: ComputeInput, read: Ready | Refusal = readyOf(input)): Promise<Ready | Refusal> => {
    if ('kind' in read) return read;
    // Loaded by the worker that is first given polars: the first verdict stands without.
    const computed = input.polars && (await import('./read-polars.js')).computedFrom(input.polars);
    const sections = computed ? { ...read.sections, computed } : read.sections;
    // Parts that did not change are recognised by what they hold, and the stages by these parts.
    const ready = shareUnchanged(last?.ready, { ...read, sections, ...limitOf(input) });
    last = { input, ready };
    return ready;
  };

  /** Files of a request. Those of the last one are known by their texts. */
  const filesOf = async (request: RequestOf<Exclude<RequestKind, 'figure'>>): Promise<Ready | Refusal> => {
    if (last !== undefined && sameData(last.input, request.input)) return last.ready;
    return prepare(request.input, request.kind === 'verdict' ? request.read : undefined);
  };

  const centralOf = (ready: Ready): Verdict => {
    if (central?.ready !== ready) {
      const found = centralVerdict(ready.aircraft, ready.plan, ready.sections, stages, limitOf(ready));
      central = { ready, verdict: found };
    }
    return central.verdict;
  };

  /** Works slice by slice, listening between them; undefined where the answer is no longer wanted. */
  const inSlices = async <T>(slices: Slices<T>, context: HandlerContext): Promise<T | undefined> => {
    for (let listened = now(); ; ) {
      const next = slices.next();
      if (next.done === true) return next.value;
      if (now() - listened < sliceTime) continue;
      context.report(next.value);
      if (!(await context.stillWanted())) return undefined;
      listened = now();
    }
  };

  const sampled = async (ready: Ready, samples: number, context: HandlerContext) => {
    const { aircraft, plan, sections } = ready;
    // Loaded by the worker that is asked for it: the first verdict stands without.
    const { verdictSlices } = await import('@noonwing/verdict/verdict');
    return inSlices(verdictSlices(aircraft, plan, sections, stages, { samples, ...limitOf(ready) }), context);
  };

  const laterAnswer = async (request: RequestOf<LaterKind>, ready: Ready | undefined, context: HandlerContext) => {
    const load = later[request.kind];
    if (load === undefined) throw new Error(`this worker does not answer "${request.kind}"`);
    const job = (await load()) as LaterJob<LaterKind>;
    const tools: JobTools = { stages, central: centralOf, inSlices: (slices) => inSlices(slices, context) };
    return job.answer(request, ready as Ready, tools);
  };

  const compute = async (request: ComputeRequest, context: HandlerContext): Promise<Answer | undefined> => {
    if (request.kind === 'figure') return laterAnswer(request, undefined, context);
    const ready = await filesOf(request);
    if ('kind' in ready) return ready;
    switch (request.kind) {
      case 'verdict': {
        const found = request.samples === 0 ? centralOf(ready) : await sampled(ready, request.samples, context);
        return found && { kind: 'verdict', view: verdictView(found, ready.assumptions) };
      }
      case 'hour': {
        // Loaded when the first verdict stands, which needs no hour.
        const { hourView } = await import('./view-hour.js');
        return { kind: 'hour', view: hourView(centralOf(ready), request.sky, request.hour, request.heading) };
      }
      default:
        return laterAnswer(request, ready, context);
    }
  };

  let rehearsed = 0;
  const rehearse = (): boolean => {
    if (last === undefined || rehearsed === rehearsals) return false;
    const { ready } = last;
    const next = imagined(ready.aircraft, rehearsed++);
    const found = centralVerdict(next, ready.plan, ready.sections, stages, limitOf(ready));
    verdictView(found, ready.assumptions);
    return true;
  };

  return {
    rehearse,
    answer: async (request, context) => {
      const began = now();
      stages.clearTrace();
      const answer = await compute(request, context);
      if (answer === undefined) return undefined;
      const stagesRun = stages.trace().flatMap(({ stage, reused }) => (reused ? [] : [stage]));
      return { ...answer, stagesRun, milliseconds: now() - began };
    },
  };
}
