import type { CompleteAircraft, CompletePlan, Message } from '@noonwing/design';
import type { Problem } from '@noonwing/engine';
import {
  createStages,
  dateHourSlices,
  dateLatitudeSlices,
  type LeverReport,
  leverSlices,
  powerReport,
  type Slices,
  type Stages,
  type Sweep,
  shareUnchanged,
  type Verdict,
  verdict,
  verdictSlices,
} from '@noonwing/verdict';
import type { ComputeInput, ComputeProgress, ComputeRequest, ComputeResponse, Refusal } from './messages.js';
import { type DesignReading, type PlanReading, readingOfDesign, readingOfPlan } from './reading.js';
import type { AssumptionView, LeversView, SweepView } from './view.js';
import { hourView } from './view-hour.js';
import { powerView } from './view-power.js';
import { assumptionView, verdictView } from './view-verdict.js';

/** What a handler can do besides computing; the shape of a job's context in packages/work. */
export interface HandlerContext {
  readonly report: (progress: ComputeProgress) => void;
  readonly stillWanted: () => Promise<boolean>;
}

export interface ComputeHandler {
  /** Undefined: ended early because the answer was no longer wanted. */
  readonly answer: (request: ComputeRequest, context: HandlerContext) => Promise<ComputeResponse | undefined>;
}

interface Ready {
  readonly aircraft: CompleteAircraft;
  readonly plan: CompletePlan;
  readonly assumptions: readonly AssumptionView[];
  readonly sections: ComputeInput['sections'];
}

const refused = (reason: string, where: string, remedy: string): Refusal => ({
  kind: 'refused',
  reason,
  where,
  remedy,
});

/** The first error of a file, as a refusal. */
function unreadable(file: string, messages: readonly Message[]): Refusal {
  const message = messages.find(({ severity }) => severity === 'error');
  if (message === undefined) return refused(`the ${file} cannot be computed with`, file, 'look at its messages');
  return refused(
    `${file}, line ${message.line}: found ${message.found}; expected ${message.expected}`,
    message.path,
    message.hint,
  );
}

/** Computing between two looks at what has arrived [ms]: a browser takes 4 ms for each look. */
const sliceTime = 40;

/** A result without the time that it took. */
type Answer = ComputeResponse extends infer R
  ? R extends unknown
    ? Omit<R, 'milliseconds' | 'stagesRun'>
    : never
  : never;

/**
 * Answers requests and remembers the stages between them: what did not change since the last request is not computed again.
 * now - clock [ms]
 */
export function createHandler(now: () => number): ComputeHandler {
  const stages = createStages();
  let aircraft: CompleteAircraft | undefined;
  let plan: CompletePlan | undefined;
  let sections: ComputeInput['sections'] = {};
  let central: { readonly ready: Ready; readonly verdict: Verdict } | undefined;
  let last: { design: DesignReading; plan: PlanReading; sections: ComputeInput['sections']; ready: Ready } | undefined;

  const prepare = (input: ComputeInput): Ready | Refusal => {
    const [design, day] = [readingOfDesign(input.design), readingOfPlan(input.plan)];
    if (design.aircraft === undefined) return unreadable('design', design.messages);
    if (day.complete === undefined) return unreadable('day plan', day.messages);
    sections = shareUnchanged(sections, input.sections);
    if (last?.design === design && last.plan === day && last.sections === sections) return last.ready;
    aircraft = shareUnchanged(aircraft, design.aircraft);
    plan = shareUnchanged(plan, day.complete);
    const assumptions = [
      ...design.assumptions.map((one) => assumptionView('design', one)),
      ...day.assumptions.map((one) => assumptionView('day', one)),
    ];
    const ready = { aircraft, plan, assumptions, sections };
    last = { design, plan: day, sections, ready };
    return ready;
  };

  const centralOf = (ready: Ready): Verdict => {
    if (central?.ready !== ready) {
      const found = verdict(ready.aircraft, ready.plan, ready.sections, stages, { samples: 0, contributions: false });
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

  const sampled = ({ aircraft, plan, sections }: Ready, samples: number, context: HandlerContext) =>
    inSlices(verdictSlices(aircraft, plan, sections, stages, { samples }), context);

  const compute = async (request: ComputeRequest, context: HandlerContext): Promise<Answer | undefined> => {
    if (request.kind === 'figure') return figureOf(request);
    const ready = prepare(request.input);
    if ('kind' in ready) return ready;
    switch (request.kind) {
      case 'verdict': {
        const found = request.samples === 0 ? centralOf(ready) : await sampled(ready, request.samples, context);
        return found && { kind: 'verdict', view: verdictView(found, ready.assumptions) };
      }
      case 'hour':
        return { kind: 'hour', view: hourView(centralOf(ready), request.sky, request.hour, request.heading) };
      case 'power':
        return powerOf(centralOf(ready), request);
      case 'levers': {
        const { plan, sections: files } = ready;
        const slices = leverSlices({ designText: request.input.design, plan, files, stages, sky: request.sky });
        const report = await inSlices(slices, context);
        if (report === undefined) return undefined;
        return 'ok' in report
          ? refused(report.reason, report.where, report.remedy)
          : { kind: 'levers', view: leversView(report) };
      }
      case 'bench': {
        // Loaded when first asked for: most visits measure nothing.
        const { benchView } = await import('./view-bench.js');
        const found = benchView(centralOf(ready), request.trace);
        return 'kind' in found ? found : { kind: 'bench', view: found };
      }
      case 'sweep':
        return sweepOf(ready, request, stages, (slices) => inSlices(slices, context));
    }
  };

  return {
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

function powerOf(found: Verdict, request: Extract<ComputeRequest, { kind: 'power' }>): Answer {
  const bank = request.bank ?? found.flight?.bank ?? found.prepared.conditions.bank;
  const report = powerReport(found.prepared, bank, request.points);
  return report.ok
    ? { kind: 'power', view: powerView(report.value) }
    : refused(report.reason, report.where, report.remedy);
}

/** Names of levers with their edits and payoff, without anything of the engine. */
const leversView = ({ sky, base, levers: found, measurements }: LeverReport): LeversView => ({
  sky,
  base: { ...base },
  levers: found.map(({ key, label, edits, text, after, payoff, problem }) => ({
    key,
    label,
    edits,
    ...(text === undefined ? {} : { text }),
    ...(after === undefined ? {} : { after }),
    ...(payoff === undefined ? {} : { payoff }),
    ...(problem === undefined
      ? {}
      : { problem: { reason: problem.reason, where: problem.where, remedy: problem.remedy } }),
  })),
  measurements: measurements.map((one) => ({ ...one })),
});

async function sweepOf(
  ready: Ready,
  request: Extract<ComputeRequest, { kind: 'sweep' }>,
  stages: Stages,
  run: (slices: Slices<Sweep | Problem>) => Promise<Sweep | Problem | undefined>,
): Promise<Answer | undefined> {
  const { aircraft, plan, sections: files } = ready;
  const asked = { aircraft, plan, files, stages, sky: request.sky };
  const found = await run(request.sweep === 'date and hour' ? dateHourSlices(asked) : dateLatitudeSlices(asked));
  if (found === undefined) return undefined;
  if ('ok' in found) return refused(found.reason, found.where, found.remedy);
  return { kind: 'sweep', view: sweepView(request.sweep, found, ready.plan) };
}

function sweepView(kind: SweepView['kind'], found: Sweep, plan: CompletePlan): SweepView {
  const newYear = Date.UTC(plan.date.year, 0, 1) / 1000;
  return {
    kind,
    sky: found.sky,
    days: found.dates.map((midnight) => Math.round((midnight + plan.utcOffset - newYear) / 86_400) + 1),
    across: found.across,
    solarRatio: found.ratio,
    ...(found.carried === undefined ? {} : { carried: found.carried.map((seconds) => seconds / 3600) }),
  };
}

/** One relation on its own; the relations are loaded when first asked for. */
async function figureOf(request: Extract<ComputeRequest, { kind: 'figure' }>): Promise<Answer> {
  const { allRelations } = await import('@noonwing/engine/relations');
  const relation = allRelations.find(({ topic }) => topic === request.topic);
  if (relation === undefined) return refused(`there is no topic "${request.topic}"`, 'topic', 'choose one of the list');
  const values: Record<string, number | string> = {};
  for (const input of relation.inputs) {
    const value = request.values[input.key] ?? input.default;
    if (value === undefined) return refused(`${input.help} is missing`, input.key, 'give it a value');
    values[input.key] = value;
  }
  const result = relation.compute(values);
  if ('reason' in result && typeof result.reason === 'string') {
    return refused(result.reason, request.topic, String(result.remedy));
  }
  const numbers = result as Readonly<Record<string, number>>;
  const outputs = relation.outputs.map(({ key, kind, help }) => ({ key, kind, help, value: numbers[key] ?? 0 }));
  return { kind: 'figure', view: { title: relation.title, outputs } };
}
