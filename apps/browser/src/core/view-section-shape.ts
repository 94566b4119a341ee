import { sectionFromPoints } from '@noonwing/engine/section';
import { morphedOutline } from '@noonwing/engine/section/flats';
import {
  type Covering,
  coveringCost,
  facetedOutline,
  preparedOutline,
  solveAtLift,
} from '@noonwing/engine/section/viscous';
import { type LaterJob, refusedAs } from './job.js';
import { coveringOf, flowView, rootSection, usualCritical } from './view-section.js';

/** The section of the wing's root in another shape, at the same lift and Reynolds number. */
export const answer: LaterJob<'sectionShape'>['answer'] = async (request, ready, { central }) => {
  const { edge, morph, flats } = request;
  const root = rootSection(ready, central);
  if ('kind' in root) return root;
  const { x, y } = morphedOutline(root.geometry, morph);
  const made = sectionFromPoints({ name: root.geometry.name, x, y });
  if (!made.ok) return refusedAs(made);
  const point = { ...root.point, critical: usualCritical };
  const prepared = preparedOutline(x, y);
  if (!prepared.ok) return refusedAs(prepared);
  const bare = solveAtLift(prepared.value, point.lift, point);
  if (!bare.ok) return refusedAs(bare);
  const cells = coveringOf(ready, root.surface, edge);
  const covering: Covering | undefined = cells && {
    ...cells,
    cell: flats === 0 ? 0 : (cells.to - cells.from) / flats,
  };
  const cost = covering && coveringCost(x, y, covering, point);
  if (cost !== undefined && !cost.ok) return refusedAs(cost);
  const { maximumThickness: thickness, maximumCamber: camber } = made.value;
  return {
    kind: 'sectionShape',
    view: {
      x,
      y,
      drawn: covering === undefined ? { x, y } : facetedOutline(x, y, covering),
      flats: covering === undefined ? 0 : flats,
      thickness,
      camber,
      bare: flowView(bare.value),
      ...(cost === undefined ? {} : { covered: flowView(cost.value.covered) }),
    },
  };
};
