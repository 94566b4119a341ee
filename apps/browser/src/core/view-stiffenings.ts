import { limitChangeSlices, usefulChanges } from '@noonwing/verdict/limit-changes';
import { limitSlices } from '@noonwing/verdict/limits';
import { type LaterJob, refusedAs } from './job.js';

/** What would raise the limit speed, as plain data. */
export const answer: LaterJob<'stiffenings'>['answer'] = async (_, ready, { central, inSlices, stages }) => {
  const verdict = central(ready);
  const limits = await inSlices(limitSlices(verdict, stages));
  if (limits === undefined) return undefined;
  if (!limits.ok) return refusedAs(limits);
  const found = await inSlices(limitChangeSlices(verdict, limits.value, stages));
  if (found === undefined) return undefined;
  const changes = usefulChanges(found, limits.value).map(({ name, mass, limitSpeed, first, perGram }) => ({
    name,
    mass,
    limitSpeed,
    ...(first === undefined ? {} : { first: first.kind }),
    perMass: 1000 * perGram,
  }));
  return { kind: 'stiffenings', view: { changes, tried: found.length } };
};
