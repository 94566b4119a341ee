import { evaluateMonotoneCubic, type MonotoneCubic, monotoneCubic } from '../../math/interpolate.js';
import { sectionDragCoefficient, sectionLift, sectionMoment } from '../model.js';
import { type PolarArrays, smoothTable, type TableGrid } from '../table.js';
import type { SectionEstimate, SectionPolarTable } from '../types.js';

const DEGREE = Math.PI / 180;

/** One incidence of a polar. Angles in radians, moment about the quarter chord, transition as chord stations. */
export interface PolarPoint {
  readonly alpha: number;
  readonly lift: number;
  readonly drag: number;
  readonly moment: number;
  readonly upperTransition: number;
  readonly lowerTransition: number;
}

/** Polar at one Reynolds number, by rising incidence; incidences at which nothing converged are listed, not filled. */
export interface SectionPolar {
  readonly reynolds: number;
  readonly points: readonly PolarPoint[];
  readonly holes: readonly number[];
}

/** Part of a polar between least and greatest lift, along which lift rises. */
export function risingBranch(polar: SectionPolar): readonly PolarPoint[] {
  if (polar.points.length === 0) return [];
  let top = 0;
  polar.points.forEach((point, i) => {
    if (point.lift > polar.points[top].lift) top = i;
  });
  let bottom = top;
  for (let i = top; i >= 0; i--) {
    if (polar.points[i].lift < polar.points[bottom].lift) bottom = i;
    else if (polar.points[i].lift > polar.points[bottom].lift + 0.05) break;
  }
  const branch: PolarPoint[] = [];
  for (const point of polar.points.slice(bottom, top + 1)) {
    if (branch.length === 0 || point.lift > branch[branch.length - 1].lift + 1e-4) branch.push(point);
  }
  return branch;
}

/** Logarithm of drag over lift along a rising branch of two points at least. */
const dragCurve = (branch: readonly PolarPoint[]): MonotoneCubic =>
  monotoneCubic(
    branch.map((point) => point.lift),
    branch.map((point) => Math.log(point.drag)),
  );

/**
 * Drag at a lift on the rising branch of a polar, by a cubic of the logarithm of drag that does not overshoot; undefined outside it.
 * polar - at one Reynolds number; lift - [-]
 */
export function polarDragAtLift(polar: SectionPolar, lift: number): number | undefined {
  const branch = risingBranch(polar);
  const last = branch.length - 1;
  if (last < 1 || lift < branch[0].lift || lift > branch[last].lift) return undefined;
  return Math.exp(evaluateMonotoneCubic(dragCurve(branch), lift));
}

/**
 * Relative standard deviation of computed drag: how far measured sections lie from it (section/viscous/README.md), for transition that
 * is known as well as in a quiet tunnel.
 */
export const computedDragSpread = (reynolds: number): number =>
  Math.hypot(0.09, (0.17 * 1e5) / Math.max(3e4, reynolds));

/** Relative standard deviation of computed maximum lift, from the same comparison. */
export const COMPUTED_LIFT_SPREAD = 0.07;

/** Width over which the computed polar passes into the law of separated flow. */
const FADE = 12 * DEGREE;

const smooth = (t: number): number => {
  const x = Math.min(1, Math.max(0, t));
  return x * x * (3 - 2 * x);
};

/** Value at an angle: of the polar inside its range, fading to the law of separated flow outside. */
function faded(angle: number, polar: MonotoneCubic, law: (angle: number) => number): number {
  const { xs } = polar;
  const inside = evaluateMonotoneCubic(polar, angle);
  const away = Math.max(xs[0] - angle, angle - xs[xs.length - 1]);
  return away <= 0 ? inside : inside + smooth(away / FADE) * (law(angle) - inside);
}

/** Half the range of lift about the design lift over which the attached line is laid: where a wing flies. */
const ATTACHED_RANGE = 0.45;

/**
 * Attached lift slope and zero-lift angle of a polar by least squares about the design lift: even about zero for a symmetric section,
 * whose line must not lean on one of its sides.
 */
function attachedLine(
  points: readonly PolarPoint[],
  designLift: number,
): { readonly slope: number; readonly zero: number } {
  const near = points.filter(({ lift }) => Math.abs(lift - designLift) < ATTACHED_RANGE);
  const use = near.length >= 3 ? near : points;
  const n = use.length;
  const meanA = use.reduce((sum, p) => sum + p.alpha, 0) / n;
  const meanL = use.reduce((sum, p) => sum + p.lift, 0) / n;
  const cross = use.reduce((sum, p) => sum + (p.alpha - meanA) * (p.lift - meanL), 0);
  const square = use.reduce((sum, p) => sum + (p.alpha - meanA) ** 2, 0);
  const slope = square > 0 ? cross / square : 2 * Math.PI;
  return { slope, zero: meanA - meanL / slope };
}

/** Lifts and angles of a table. */
type PolarGrid = Pick<TableGrid, 'liftFrom' | 'liftTo' | 'liftCount' | 'angleCount'>;

export const POLAR_GRID: PolarGrid = { liftFrom: -1.2, liftTo: 2.2, liftCount: 137, angleCount: 721 };

interface Row {
  readonly reynolds: number;
  readonly branch: readonly PolarPoint[];
  /** Logarithm of drag over lift along the branch; lift and moment over incidence. */
  readonly drag: MonotoneCubic;
  readonly lift: MonotoneCubic;
  readonly moment: MonotoneCubic;
  readonly slope: number;
  readonly zero: number;
}

function rowOf(polar: SectionPolar, designLift: number): Row {
  const branch = risingBranch(polar);
  if (branch.length < 4) throw new RangeError('polarTable: every polar needs a rising branch');
  const overIncidence = (part: 'lift' | 'moment') =>
    monotoneCubic(
      polar.points.map(({ alpha }) => alpha),
      polar.points.map((point) => point[part]),
    );
  return {
    reynolds: polar.reynolds,
    branch,
    drag: dragCurve(branch),
    lift: overIncidence('lift'),
    moment: overIncidence('moment'),
    ...attachedLine(branch, designLift),
  };
}

/** Logarithm of drag at a lift: of the polar inside its branch; beyond it the estimate's rise is laid on the end. */
function logDrag({ branch, drag, reynolds }: Row, estimate: SectionEstimate, lift: number): number {
  const last = branch[branch.length - 1];
  if (lift >= branch[0].lift && lift <= last.lift) return evaluateMonotoneCubic(drag, lift);
  const end = lift < branch[0].lift ? branch[0] : last;
  const ratio = sectionDragCoefficient(estimate, lift, reynolds) / sectionDragCoefficient(estimate, end.lift, reynolds);
  return Math.log(end.drag) + Math.max(0, Math.log(ratio));
}

/**
 * Polar table from computed polars, extended through stall to the whole circle with the laws of the estimate.
 * estimate - first estimate of the same section, for what lies beyond the polars and for its options (cells, own factor)
 * polars - at Reynolds numbers that rise evenly in their logarithm, two at least, each with a rising branch
 * grid - lifts and angles of the table
 */
export const polarTable = (
  estimate: SectionEstimate,
  polars: readonly SectionPolar[],
  grid: PolarGrid = POLAR_GRID,
): SectionPolarTable => smoothTable(polarArrays(estimate, polars, grid));

/** The same as plain arrays, to be changed before they are read. */
export function polarArrays(estimate: SectionEstimate, polars: readonly SectionPolar[], grid: PolarGrid): PolarArrays {
  if (polars.length < 2) throw new RangeError('polarTable: two polars are needed');
  const rows = polars.map((polar) => rowOf(polar, estimate.designLift));
  const { liftCount, angleCount } = grid;
  const liftStep = (grid.liftTo - grid.liftFrom) / (liftCount - 1);
  const angleStep = (2 * Math.PI) / (angleCount - 1);
  const cover = (value: (row: Row, column: number) => number, columns: number): Float64Array => {
    const values = new Float64Array(rows.length * columns);
    for (let k = 0, i = 0; i < rows.length; i++)
      for (let column = 0; column < columns; column++, k++) values[k] = value(rows[i], column);
    return values;
  };
  const middle = rows[rows.length >> 1];
  const logStart = Math.log(rows[0].reynolds);
  const atAngle =
    (part: 'lift' | 'moment', law: (row: Row, angle: number) => number) =>
    (row: Row, column: number): number =>
      faded(-Math.PI + column * angleStep, row[part], (angle) => law(row, angle));
  const factor = Math.log(estimate.dragFactor);
  return {
    kind: 'table',
    name: estimate.name,
    leadingEdge: estimate.leadingEdge,
    thickness: estimate.thickness,
    zeroLiftAngle: middle.zero,
    moment: evaluateMonotoneCubic(
      monotoneCubic(
        middle.branch.map((point) => point.lift),
        middle.branch.map((point) => point.moment),
      ),
      0,
    ),
    liftSlope: middle.slope / 0.87,
    logReynoldsStart: logStart,
    logReynoldsStep: (Math.log(rows[rows.length - 1].reynolds) - logStart) / (rows.length - 1),
    rows: rows.length,
    liftStart: grid.liftFrom,
    liftStep,
    liftCount,
    logDrag: cover((row, k) => factor + logDrag(row, estimate, grid.liftFrom + k * liftStep), liftCount),
    dragSpread: cover((row) => Math.hypot(computedDragSpread(row.reynolds), estimate.addedSpread), liftCount),
    angleStart: -Math.PI,
    angleStep,
    angleCount,
    lift: cover(
      atAngle('lift', (row, angle) => sectionLift(estimate, angle, row.reynolds)),
      angleCount,
    ),
    momentAtAngle: cover(
      atAngle('moment', (row, angle) => sectionMoment(estimate, angle, row.reynolds)),
      angleCount,
    ),
    maximumLift: cover((row) => row.branch[row.branch.length - 1].lift, 1),
    minimumLift: cover((row) => Math.min(-0.1, row.branch[0].lift), 1),
    maximumLiftSpread: cover(() => COMPUTED_LIFT_SPREAD, 1),
    zeroLiftAngles: cover((row) => row.zero, 1),
    liftSlopes: cover((row) => row.slope, 1),
  };
}
