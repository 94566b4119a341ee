import type { Outcome } from '@noonwing/engine';
import { designForFlats, type FlatsDesign, type FlatsInput } from '@noonwing/engine/section/flats';
import type { Slices } from '@noonwing/verdict';
import { type LaterJob, refusedAs } from './job.js';
import { rootSection, usualCritical } from './view-section.js';

function* shares(input: FlatsInput): Slices<Outcome<FlatsDesign>> {
  const work = designForFlats(input);
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    yield next.value.share;
  }
}

/** The section of the wing's root laid out for flat cells, at the lift and Reynolds number of level flight. */
export const answer: LaterJob<'flats'>['answer'] = async (request, ready, { central, inSlices }) => {
  const { edge, cell, count, leastMoment, leastThickness } = request;
  const root = rootSection(ready, central);
  if ('kind' in root) return root;
  const { geometry, chord, point } = root;
  const input: FlatsInput = {
    start: geometry,
    cell: cell / chord,
    count,
    edge: edge / chord,
    ...point,
    critical: usualCritical,
    leastMoment,
    leastThickness,
  };
  const found = await inSlices(shares(input));
  if (found === undefined) return undefined;
  if (!found.ok) return refusedAs(found);
  const { corners, section, naive, designed, bare, checks, evaluations, withinMoment, maximumLift } = found.value;
  return {
    kind: 'flats',
    view: {
      ...point,
      start: geometry.name,
      name: section.name,
      x: section.outlineX,
      y: section.outlineY,
      thickness: section.maximumThickness,
      camber: section.maximumCamber,
      naive: { ...naive.outline, drag: naive.drag, moment: naive.moment },
      bareDrag: bare.drag,
      drag: designed.drag,
      moment: designed.moment,
      withinMoment,
      ...(maximumLift === undefined ? {} : { maximumLift }),
      checks,
      evaluations,
      flats: { from: corners[0]!.x, to: corners[corners.length - 1]!.x },
    },
  };
};
