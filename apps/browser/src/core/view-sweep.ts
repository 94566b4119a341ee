import type { CompletePlan } from '@noonwing/design';
import { dateHourSlices, dateLatitudeSlices, type Sweep } from '@noonwing/verdict/sweep';
import { type LaterJob, refusedAs } from './job.js';
import type { SweepView } from './view.js';

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

export const answer: LaterJob<'sweep'>['answer'] = async (request, ready, tools) => {
  const { aircraft, plan, sections: files } = ready;
  const asked = { aircraft, plan, files, stages: tools.stages, sky: request.sky };
  const slices = request.sweep === 'date and hour' ? dateHourSlices(asked) : dateLatitudeSlices(asked);
  const found = await tools.inSlices(slices);
  if (found === undefined) return undefined;
  return 'ok' in found ? refusedAs(found) : { kind: 'sweep', view: sweepView(request.sweep, found, plan) };
};
