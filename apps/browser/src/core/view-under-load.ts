import { limitSlices } from '@noonwing/verdict/limits';
import { type UnderLoad, underLoad } from '@noonwing/verdict/under-load';
import { type LaterJob, refusedAs } from './job.js';
import type { UnderLoadView } from './view-limits-types.js';

const underLoadView = (found: UnderLoad): UnderLoadView => ({
  ...found,
  cells: found.cells.map(({ strain, ...cell }) => ({ ...cell, strain: strain.worst, assembly: strain.assembly })),
});

export const answer: LaterJob<'underLoad'>['answer'] = async (request, ready, { central, inSlices, stages }) => {
  const verdict = central(ready);
  const limits = await inSlices(limitSlices(verdict, stages));
  if (limits === undefined) return undefined;
  if (!limits.ok) return refusedAs(limits);
  const { airspeed, loadFactor } = request;
  const found = underLoad(verdict, limits.value, { airspeed, loadFactor }, stages);
  return found.ok ? { kind: 'underLoad', view: underLoadView(found.value) } : refusedAs(found);
};
