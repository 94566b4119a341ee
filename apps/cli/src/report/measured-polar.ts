import { type CompareData, type CurveSet, comparedCurves } from '@noonwing/drawing';
import {
  compareMeasured,
  type MeasuredComparison,
  type MeasuredRun,
  risingBranch,
  type SectionPolar,
} from '@noonwing/engine/section/viscous';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';

/** A measured run beside the polar computed at its Reynolds number. */
export interface RunBeside {
  readonly run: MeasuredRun;
  readonly polar: SectionPolar;
  readonly found: MeasuredComparison;
}

/** Compares each run with the polar at its Reynolds number. polarAt - makes it */
export function besideMeasured(
  polarAt: (reynolds: number) => SectionPolar,
  runs: readonly MeasuredRun[],
): readonly RunBeside[] {
  return runs.map((run) => {
    const polar = polarAt(run.reynolds);
    return { run, polar, found: compareMeasured(polar, run) };
  });
}

const moreOrLess = (ratio: number): string =>
  Math.abs(ratio - 1) < 0.005 ? 'as computed' : `${percent(Math.abs(ratio - 1))} ${ratio > 1 ? 'more' : 'less'}`;

/** What one run says, in words. */
function runWords({ run, found }: RunBeside): string {
  const at = `Measured at Reynolds number ${run.reynolds.toFixed(0)}`;
  const { medianRatio, worst, maximumLift, compared, outside } = found;
  const top =
    maximumLift === undefined
      ? ''
      : `; greatest lift ${maximumLift.measured.toFixed(2)}, computed ${maximumLift.computed.toFixed(2)}`;
  if (medianRatio === undefined || worst === undefined)
    return `${at}: no drag at a lift that the computed polar reaches${top}.`;
  const aside = outside === 0 ? '' : `; ${outside} beyond the computed lift`;
  return `${at}: drag at equal lift ${moreOrLess(medianRatio)} in the median of ${compared} points, ${moreOrLess(worst.ratio)} at worst (lift ${worst.lift.toFixed(2)})${aside}${top}.`;
}

export const measuredWords = (runs: readonly RunBeside[]): readonly string[] => runs.map(runWords);

/** For programs. */
export const measuredData = (runs: readonly RunBeside[]) =>
  runs.map(({ run, found }) => ({
    reynolds: jsonQuantity(run.reynolds, 'count'),
    compared: jsonQuantity(found.compared, 'count'),
    outside: jsonQuantity(found.outside, 'count'),
    ...(found.medianRatio === undefined ? {} : { medianDragRatio: jsonQuantity(found.medianRatio, 'ratio') }),
    ...(found.worst === undefined
      ? {}
      : {
          worstDragRatio: jsonQuantity(found.worst.ratio, 'ratio'),
          worstAtLift: jsonQuantity(found.worst.lift, 'ratio'),
        }),
    ...(found.maximumLift === undefined
      ? {}
      : {
          measuredMaximumLift: jsonQuantity(found.maximumLift.measured, 'ratio'),
          computedMaximumLift: jsonQuantity(found.maximumLift.computed, 'ratio'),
        }),
  }));

/** Drag against lift: computed lines, as far as drag was measured, and measured points. */
export function measuredDrawing(name: string, runs: readonly RunBeside[]) {
  const label = ({ run }: RunBeside) => `${Math.round(run.reynolds / 1000)}k`;
  const curves = (points: (one: RunBeside) => CurveSet['points']): readonly CurveSet[] =>
    runs.map((one) => ({ id: label(one), label: label(one), points: points(one) }));
  const most = 1.3 * Math.max(0.02, ...runs.flatMap(({ run }) => run.points.map(({ drag }) => drag ?? 0)));
  const data: CompareData = {
    question: `${name}: what drag was measured, and what is computed?`,
    x: { label: 'lift coefficient', unit: '', decimals: 2 },
    y: { label: 'drag coefficient', unit: '', decimals: 4 },
    a: {
      name: 'computed',
      curves: curves(({ polar }) => risingBranch(polar).flatMap((p) => (p.drag > most ? [] : [[p.lift, p.drag]]))),
    },
    b: {
      name: 'measured',
      curves: curves(({ run }) => run.points.flatMap(({ lift, drag }) => (drag === undefined ? [] : [[lift, drag]]))),
      asPoints: true,
    },
  };
  return comparedCurves(data, { standalone: true, width: 900, height: 460 });
}
