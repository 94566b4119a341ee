import { leverSlices } from '@noonwing/verdict/levers';
import { type LaterJob, refusedAs } from './job.js';
import { leverView, limitOption } from './lever-view.js';

export const answer: LaterJob<'levers'>['answer'] = async (
  { input, sky },
  { aircraft, plan, sections: files },
  { stages, inSlices },
) => {
  const limitOf = await limitOption(aircraft, stages);
  const report = await inSlices(leverSlices({ designText: input.design, plan, files, stages, sky, ...limitOf }));
  if (report === undefined) return undefined;
  if ('ok' in report) return refusedAs(report);
  const { base, measurements } = report;
  return {
    kind: 'levers',
    view: {
      sky: report.sky,
      base: { ...base },
      levers: report.levers.map((lever) => leverView(lever, aircraft)),
      measurements: measurements.map((one) => ({ ...one })),
    },
  };
};
