import type { CompleteSurface } from '@noonwing/design';
import type { SectionGeometry } from '@noonwing/engine/section';
import {
  compareMeasured,
  type MeasuredRun,
  risingBranch,
  type SectionPolar,
  sectionKey,
} from '@noonwing/engine/section/viscous';
import type { MeasuredRunView, PolarView, SectionView } from './view-section-types.js';

const degree = Math.PI / 180;

/** Reynolds numbers beside that of the design point, as shares of it. */
export const besides = [0.5, 2];

/** Incidences that polars of the place are drawn over [rad]. */
export const shownRange = { step: degree, lowest: -5 * degree, highest: 15 * degree } as const;

/** What the place says of every section first: where it is, its size and outline, and its design point. */
export const sectionHead = (
  surface: CompleteSurface,
  geometry: SectionGeometry,
  { lift, reynolds }: Pick<SectionView, 'lift' | 'reynolds'>,
) => ({
  key: sectionKey(geometry),
  surface: surface.name,
  name: geometry.name,
  chord: surface.stations[0]!.chord.value,
  thickness: geometry.maximumThickness,
  camber: geometry.maximumCamber,
  lift,
  reynolds,
  x: geometry.outlineX,
  y: geometry.outlineY,
});

/** A polar as the page shows it. covered - with cells */
export function polarView(polar: SectionPolar, covered: boolean): PolarView {
  const rising = new Set(risingBranch(polar));
  return {
    reynolds: polar.reynolds,
    covered,
    points: polar.points.map((point) => ({
      alpha: point.alpha,
      lift: point.lift,
      drag: point.drag,
      moment: point.moment,
      upperTransition: point.upperTransition,
      rising: rising.has(point),
    })),
    holes: polar.holes,
  };
}

/** A measured run beside the polar at its Reynolds number. */
export const measuredRunView = (run: MeasuredRun, polar: SectionPolar): MeasuredRunView => ({
  reynolds: run.reynolds,
  points: run.points,
  polar: polarView(polar, false),
  found: compareMeasured(polar, run),
});
