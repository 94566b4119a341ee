import { limitChangeSlices, limitSlices } from '@noonwing/verdict/limits';
import { type LaterJob, refusedAs } from './job.js';

/** What raises the limit speed by less than half a per cent does not help (judgement). */
const leastRise = 1.005;

/** What would raise the limit speed, as plain data. */
export const answer: LaterJob<'stiffenings'>['answer'] = async (_, ready, { central, inSlices, stages }) => {
  const verdict = central(ready);
  const limits = await inSlices(limitSlices(verdict, stages));
  if (limits === undefined) return undefined;
  if (!limits.ok) return refusedAs(limits);
  const found = await inSlices(limitChangeSlices(verdict, limits.value, stages));
  if (found === undefined) return undefined;
  const now = limits.value.report.limits[0]?.low ?? 0;
  const changes = found
    .filter(({ limitSpeed }) => limitSpeed > leastRise * now)
    .map(({ name, mass, limitSpeed, first, perGram }) => ({
      name,
      mass,
      limitSpeed,
      ...(first === undefined ? {} : { first: first.kind }),
      perMass: 1000 * perGram,
    }));
  return { kind: 'stiffenings', view: { changes, tried: found.length } };
};
