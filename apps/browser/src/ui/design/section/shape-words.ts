import { shareText } from '@noonwing/drawing';
import { fixed } from '../../../core/decimal.js';
import type { FlatsView, MeasuredRunView, SectionShapeView, SectionView } from '../../../core/view-section-types.js';

/** "8 % less drag", "the same drag" */
export function dragChange(before: number, after: number): string {
  const change = after / before - 1;
  if (Math.abs(change) < 0.005) return 'the same drag';
  return `${shareText(Math.abs(change))} ${change < 0 ? 'less' : 'more'} drag`;
}

const coefficient = (value: number): string => fixed(value, 4);

/** Flats that cells make on the section as it is shown; 0 where they follow its curve. */
export const flatsOf = ({ cells }: Pick<SectionView, 'cells'>): number =>
  cells === undefined || !(cells.cell > 0) ? 0 : Math.max(1, Math.round((cells.to - cells.from) / cells.cell));

const flatsText = (count: number): string =>
  count === 0 ? 'cells that follow the curve' : count === 1 ? 'one flat' : `${count} flats`;

/** What lies on both shapes, or on each where that differs. */
function underText(now: number, then: number): string {
  if (now !== then) return ` under ${flatsText(then)}, not ${flatsText(now)},`;
  return ' under the cells';
}

/** What another shape does at the design point, with cells where there are any. */
export function shapeWords(view: SectionView, { bare, covered, thickness, camber, flats }: SectionShapeView): string {
  const now = view.cost?.covered ?? view.bare;
  const then = covered ?? bare;
  const shape = `${shareText(thickness)} thick, camber ${fixed(100 * camber, 1)} %`;
  if (now === undefined) return `${shape}: drag ${coefficient(then.drag)}, moment ${fixed(then.moment, 3)}.`;
  const under = covered === undefined ? '' : underText(flatsOf(view), flats);
  return `${shape}: ${dragChange(now.drag, then.drag)}${under} at lift ${fixed(view.lift, 2)} (${coefficient(then.drag)} against ${coefficient(now.drag)}); moment ${fixed(then.moment, 3)} against ${fixed(now.moment, 3)}.`;
}

/** What the layout for flat cells found, most important first. */
export function flatsWords(view: FlatsView): readonly string[] {
  const { start, naive, drag, moment, bareDrag, maximumLift, checks, withinMoment, evaluations } = view;
  const worst = checks.reduce<(typeof checks)[number] | undefined>(
    (most, one) => (most === undefined || one.designed / one.naive > most.designed / most.naive ? one : most),
    undefined,
  );
  const stall =
    maximumLift === undefined
      ? ''
      : `; greatest lift ${fixed(maximumLift.designed, 2)} against ${fixed(maximumLift.naive, 2)}`;
  return [
    `${dragChange(naive.drag, drag)} than ${start} under the same cells at lift ${fixed(view.lift, 2)}: ${coefficient(drag)} against ${coefficient(naive.drag)}; without cells ${start} has ${coefficient(bareDrag)}.`,
    `Moment ${fixed(moment, 3)} against ${fixed(naive.moment, 3)}${withinMoment ? '' : ' (the limit could not be kept)'}; ${shareText(view.thickness)} thick, camber ${fixed(100 * view.camber, 1)} %${stall}.`,
    `Its flats lie from ${shareText(view.flats.from)} to ${shareText(view.flats.to)} of the chord: the cells belong there.`,
    ...(worst === undefined
      ? []
      : [
          `Least gain among ${checks.length} conditions that the search did not see: ${dragChange(worst.naive, worst.designed)} (${worst.what}).`,
        ]),
    `Computed (${evaluations} shapes), and compared with no measurement of faceted sections.`,
  ];
}

/** A measured run beside the computed polar. */
export function runWords({ reynolds, found }: MeasuredRunView): string {
  const at = `Reynolds number ${fixed(Math.round(reynolds / 1000) * 1000, 0)}`;
  const { medianRatio, worst, compared, outside, maximumLift } = found;
  const top =
    maximumLift === undefined
      ? ''
      : `; greatest lift ${fixed(maximumLift.measured, 2)}, computed ${fixed(maximumLift.computed, 2)}`;
  if (medianRatio === undefined || worst === undefined)
    return `${at}: no drag at a lift that the computed polar reaches${top}.`;
  const aside = outside === 0 ? '' : `; ${outside} beyond the computed lift`;
  return `${at}: measured ${dragChange(1, medianRatio)} than computed in the median of ${compared} points, ${dragChange(1, worst.ratio)} at worst (lift ${fixed(worst.lift, 2)})${aside}${top}.`;
}
