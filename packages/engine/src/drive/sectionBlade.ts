import { smoothGrid } from '../math/smoothGrid.js';
import { type SectionModel, sectionDragAtAngle, tabulate } from '../section/index.js';
import type { TabulatedBladeSection } from './bladeSection.js';

/** Rows of a section without polars: from the tip of a small propeller at rest to the blade of a large one. */
const ESTIMATE_ROWS = { reynoldsFrom: 1e4, reynoldsTo: 1.28e6, rows: 8 } as const;

/** Normal-force coefficient of a section square to the flow, as in the generic blade section. */
const PLATE_DRAG = 1.25;

/**
 * Blade section from the model of a wing section: computed polars, with what is laid over them, or the first estimate of the section.
 * Lift and drag over the whole circle, at the Reynolds numbers of its table.
 *
 * model - of the section; its angles refer to the nose-tail chord, as the angles of a blade do
 */
export function bladeSectionOf(model: SectionModel): TabulatedBladeSection {
  const table = model.kind === 'table' ? model : tabulate(model, ESTIMATE_ROWS);
  const { angleStart, angleStep, angleCount, logReynoldsStart, logReynoldsStep, rows } = table;
  const drag = Float64Array.from({ length: rows * angleCount }, (_, k) =>
    sectionDragAtAngle(
      table,
      angleStart + (k % angleCount) * angleStep,
      Math.exp(logReynoldsStart + Math.floor(k / angleCount) * logReynoldsStep),
    ),
  );
  return {
    kind: 'table',
    zeroLiftAngles: table.zeroLiftAngles,
    liftSlope: table.liftSlopes[rows >> 1],
    angleStart,
    angleStep,
    logReynoldsStart,
    logReynoldsStep,
    lift: table.lift,
    drag: smoothGrid(drag, angleCount, true),
    plateDrag: PLATE_DRAG,
  };
}
