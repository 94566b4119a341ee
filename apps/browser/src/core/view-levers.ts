import { describesStructure, type Verdict } from '@noonwing/verdict';
import { type LeverReport, leverSlices } from '@noonwing/verdict/levers';
import { type LaterJob, refusedAs } from './job.js';
import type { LeversView } from './view.js';

/** Names of levers with their edits and payoff, without anything of the engine. */
const leversView = ({ sky, base, levers: found, measurements }: LeverReport): LeversView => ({
  sky,
  base: { ...base },
  levers: found.map(({ key, label, edits, text, after, payoff, limit, problem }) => ({
    key,
    label: limit === undefined ? label : `${label}, which lowers the limit speed to ${limit.airspeed.toFixed(1)} m/s`,
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

export const answer: LaterJob<'levers'>['answer'] = async (
  { input, sky },
  { aircraft, plan, sections: files },
  tools,
) => {
  const { stages } = tools;
  const { steadyLimit } = await import('@noonwing/verdict/limits');
  const limitOf = describesStructure(aircraft) ? { limitOf: (of: Verdict) => steadyLimit(of, stages) } : {};
  const report = await tools.inSlices(leverSlices({ designText: input.design, plan, files, stages, sky, ...limitOf }));
  if (report === undefined) return undefined;
  return 'ok' in report ? refusedAs(report) : { kind: 'levers', view: leversView(report) };
};
