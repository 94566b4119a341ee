import type { CompleteSurface } from '@noonwing/design';
import { type SectionGeometry, type SectionModel, sectionMaximumLift, sectionModel } from '@noonwing/engine/section';
import {
  type Covering,
  compareMeasured,
  type MeasuredPoint,
  measuredRuns,
  modelAtLift,
  modelPolar,
} from '@noonwing/engine/section/viscous';
import { besides, polarView, sectionHead, shownRange } from './polar-view.js';
import type { SectionView } from './view-section-types.js';

/** The same section with cells on it. */
function coveredModel(geometry: SectionGeometry, { from, to, edge, cell }: Covering): SectionModel {
  const flats = cell > 0 ? { flats: { from, to, width: cell } } : {};
  return sectionModel(geometry, { cells: { from, to, edge }, ...flats });
}

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
    measured: measuredRuns(points).map(({ reynolds: at, points: rising, returning }) => {
      const beside = polar(bare, at);
      return {
        reynolds: at,
        points: rising,
        polar: polarView(beside, false),
        found: compareMeasured(beside, { reynolds: at, points: rising, returning }),
      };
    }),
    notes: [],
  };
}
