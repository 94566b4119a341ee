import { type LeverReport, leverSlices } from '@noonwing/verdict/levers';
import { type LaterJob, refusedAs } from './job.js';
import type { LeversView } from './view.js';

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

export const answer: LaterJob<'levers'>['answer'] = async ({ input, sky }, { plan, sections: files }, tools) => {
  const report = await tools.inSlices(
    leverSlices({ designText: input.design, plan, files, stages: tools.stages, sky }),
  );
  if (report === undefined) return undefined;
  return 'ok' in report ? refusedAs(report) : { kind: 'levers', view: leversView(report) };
};
