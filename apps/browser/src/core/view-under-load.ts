import { limitSlices } from '@noonwing/verdict/limits';
import { type UnderLoad, underLoad } from '@noonwing/verdict/under-load';
import { type LaterJob, refusedAs } from './job.js';
import type { UnderLoadView } from './view-limits-types.js';

const underLoadView = (found: UnderLoad): UnderLoadView => ({
  airspeed: found.airspeed,
  loadFactor: found.loadFactor,
  alpha: found.alpha,
  control: found.control,
  surfaces: found.surfaces.map(({ name, chords }) => ({
    name,
    chords: chords.map(({ share, x, rise }) => ({ share, x, rise })),
  })),
  cells: found.cells.map(({ row, surface, side, number, span, chord, strain, share, chance }) => ({
    row,
    surface,
    side,
    number,
    span,
    chord,
    strain: strain.worst,
    assembly: strain.assembly,
    share,
    chance: { ...chance },
  })),
  ...(found.chance === undefined ? {} : { chance: { ...found.chance } }),
  warnings: found.warnings,
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
