import type { CompleteSurface } from '@noonwing/design';
import { type SectionGeometry, type SectionModel, sectionMaximumLift, sectionModel } from '@noonwing/engine/section';
import {
  type Covering,
  coveredModel,
  type MeasuredPoint,
  measuredRuns,
  modelAtLift,
  modelPolar,
} from '@noonwing/engine/section/viscous';
import { besides, measuredRunView, polarView, sectionHead, shownRange } from './polar-view.js';
import type { SectionView } from './view-section-types.js';

/** A plate, a step or a very thin section, by its own formulas: what the place shows where no boundary layer is computed. */
export function plateView(
  surface: CompleteSurface,
  geometry: SectionGeometry,
  { lift, reynolds }: { readonly lift: number; readonly reynolds: number },
  points: readonly MeasuredPoint[],
  cells?: Covering & { readonly width: number },
): SectionView {
  const bare = sectionModel(geometry);
  const covered = cells && coveredModel(geometry, cells);
  const point = modelAtLift(bare, lift, reynolds);
  const under = covered && modelAtLift(covered, lift, reynolds);
  const polar = (model: SectionModel, at: number) => modelPolar(model, at, shownRange);
  return {
    ...sectionHead(surface, geometry, { lift, reynolds }),
    ...(cells === undefined ? {} : { cells }),
    plate: {
      point: point && { ...point, ...(under === undefined ? {} : { covered: under.drag }) },
      greatest: sectionMaximumLift(bare, reynolds),
    },
    polars: [
      polarView(polar(bare, reynolds), false),
      ...(covered === undefined ? [] : [polarView(polar(covered, reynolds), true)]),
      ...besides.map((share) => polarView(polar(bare, share * reynolds), false)),
    ],
    measured: measuredRuns(points).map((run) => measuredRunView(run, polar(bare, run.reynolds))),
    notes: [],
  };
}
