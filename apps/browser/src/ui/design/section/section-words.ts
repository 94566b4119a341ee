import { shareText } from '@noonwing/drawing';
import type { Interval } from '@noonwing/engine/section';
import { fixed } from '../../../core/decimal.js';
import type { EdgeView, FlowView, LayerView, PlateView, SectionView } from '../../../core/view-section-types.js';
import { chanceWords } from '../../measure/chance-words.js';

const degrees = (angle: number): string => `${fixed((180 * angle) / Math.PI, 1)} deg`;
const coefficient = (value: number): string => fixed(value, 4);
const rounded = (reynolds: number): string => fixed(Math.round(reynolds / 1000) * 1000, 0);

/** 90 % of a normal distribution lie within so many standard deviations. */
const NINE_IN_TEN = 1.645;

/** "NACA 3410 at lift 0.62 and Reynolds number 130000" */
export const pointWords = ({ name, lift, reynolds }: Pick<SectionView, 'name' | 'lift' | 'reynolds'>): string =>
  `${name} at lift ${fixed(lift, 2)} and Reynolds number ${rounded(reynolds)}`;

/** Joints and film change drag by 3 % less to 4 % more in the range of models: less than this is not told apart from nothing. */
const surelyTold = 0.04;

const flownWords = ({ lift, reynolds }: SectionView): string =>
  `in level flight (lift ${fixed(lift, 2)}, Reynolds number ${rounded(reynolds)})`;

/** What cells on a plate cost. */
function plateCostWords(view: SectionView, point: PlateView | undefined): string {
  const where = flownWords(view);
  if (point?.covered === undefined)
    return `What covering ${view.surface} costs is not known ${where}: it stalls before.`;
  const change = point.covered.value / point.drag.value - 1;
  return `Covering ${view.name} with cells ${changeWords(change)} of its drag ${where}: drag ${coefficient(point.drag.value)} bare, ${coefficient(point.covered.value)} covered, which is common practice for any section: for plates nothing is measured.`;
}

/** What covering costs at the design point, in one sentence: the first thing that the place says. */
export function costWords(view: SectionView): string {
  const { bare, cells, cost, plate } = view;
  const where = flownWords(view);
  if (cells === undefined) return `No cells lie on ${view.surface}: nothing is covered.`;
  if (plate !== undefined) return plateCostWords(view, plate.point);
  if (cost === undefined || bare === undefined)
    return `What covering ${view.surface} costs could not be computed ${where}.`;
  const change = cost.ratio - 1;
  const drags = `drag ${coefficient(bare.drag)} bare, ${coefficient(cost.covered.drag)} covered`;
  if (Math.abs(change) < surelyTold)
    return `Covering ${view.name} with cells costs no drag that the computation can tell ${where}: ${drags}.${tripWords(view)}`;
  return `Covering ${view.name} with cells ${changeWords(change)} of its drag ${where}: ${drags}.${tripWords(view)}`;
}

/** "costs 14 %", "saves 3 %" */
const changeWords = (change: number): string => `${change > 0 ? 'costs' : 'saves'} ${shareText(Math.abs(change))}`;

/** Chances that leave nothing to be said. */
const sure = 0.05;

/**
 * How likely the front edge trips the layer, which nobody knows, and what is to be expected over both cases, as in the verdict; nothing
 * where it is clear, or where flats change the shape too.
 */
function tripWords({ cells, cost }: SectionView): string {
  const { likelihood, ratio } = cost!.trip;
  const isOpen = likelihood > sure && likelihood < 1 - sure;
  if (!isOpen || ratio === undefined || (cells?.cell ?? 0) > 0) return '';
  const chance = chanceWords(likelihood);
  const expected = `expected over both: it ${changeWords(likelihood * (ratio - 1))}`;
  return cost!.front.trips
    ? ` The chance that its front edge trips the layer is ${chance}; ${expected}.`
    : ` If its front edge trips the layer, chance ${chance}, it ${changeWords(ratio - 1)}; ${expected}.`;
}

/** What one edge of the cells does to the layer. likelihood - that it trips it, where that is known */
export function edgeWords(
  which: 'Front' | 'Rear',
  { station, stepReynolds, trips, growth }: EdgeView,
  likelihood?: number,
): string {
  const at = `${which} edge at ${shareText(station)} of the chord`;
  if (stepReynolds < 0.5) return `${at}: flush, it does nothing.`;
  const chance = likelihood === undefined ? '' : `, chance to trip ${chanceWords(likelihood)}`;
  const step = `Reynolds number of the step ${fixed(stepReynolds, 0)}${chance}`;
  if (trips)
    return `${at}: ${step}; it makes the layer turbulent there (from about 400; published values lie between 200 and 900).`;
  return growth > 0
    ? `${at}: ${step}, too low to trip at once; disturbances grow by ${fixed(growth, 1)} more there.`
    : `${at}: it lies in turbulent flow.`;
}

/** The layer of one side. */
export function layerWords(side: 'Above' | 'Below', layer: LayerView): string {
  const { transition, separation, reattachment } = layer;
  const laminar =
    transition >= 0.995 ? 'laminar to the trailing edge' : `laminar to ${shareText(transition)} of the chord`;
  if (separation === undefined) return `${side}: ${laminar}; attached.`;
  return reattachment === undefined
    ? `${side}: ${laminar}; it separates at ${shareText(separation)} and stays so.`
    : `${side}: ${laminar}; a bubble from ${shareText(separation)} to ${shareText(reattachment)}.`;
}

/** A plate by its own formulas: drag and greatest lift with their bands, and why no boundary layer is shown. */
export function plateWords({ plate }: SectionView): readonly string[] {
  if (plate === undefined) return [];
  const { point, greatest } = plate;
  const between = ({ low, high }: Interval, show: (value: number) => string) =>
    `nine times in ten between ${show(low)} and ${show(high)}`;
  return [
    ...(point === undefined
      ? []
      : [
          `Bare, at ${degrees(point.alpha)}: drag ${coefficient(point.drag.value)} (${between(point.drag, coefficient)}); moment ${fixed(point.moment, 3)}.`,
        ]),
    `Greatest lift ${fixed(greatest.value, 2)} (${between(greatest, (value) => fixed(value, 2))}).`,
    'A plate, a step or a section under 5 % of thickness: the boundary layer is not computed, as it would promise lift that plates do not have. The formulas of plates answer here, as in the verdict; their bands are wide.',
  ];
}

/** Drag of the bare section with its band. */
export function dragWords(bare: FlowView, dragSpread: number): string {
  const factor = Math.exp(NINE_IN_TEN * dragSpread);
  return `Bare, at ${degrees(bare.alpha)}: drag ${coefficient(bare.drag)} (nine times in ten between ${coefficient(bare.drag / factor)} and ${coefficient(bare.drag * factor)}), ${shareText(bare.friction)} of it friction; moment ${fixed(bare.moment, 3)}.`;
}

/** What a result does not know. */
export const cautionWords = ({ air, cells, chord, polars }: SectionView): readonly string[] => [
  ...(cells === undefined
    ? []
    : [
        cells.cell > 0
          ? `Cells stay flat, ${fixed(1000 * cells.cell * chord, 0)} mm along the chord: the upper side becomes flats between them.`
          : 'Cells follow the curve, as in the verdict: no flats between them.',
      ]),
  ...(air === undefined
    ? []
    : [
        `Air ${air.words}: disturbances grow to N ${air.critical} ± ${air.spread} before the layer is turbulent (judgement).`,
        'The change by cells is a difference of two computed drags; roughness of tape and waves of the film are not in it.',
      ]),
  ...polars
    .filter(({ holes }) => holes.length > 0)
    .map(
      ({ reynolds, covered, holes }) =>
        `${covered ? 'With cells' : 'Bare'} at Reynolds number ${rounded(reynolds)} it did not converge, and is left out, at ${holes.map(degrees).join(', ')}.`,
    ),
];

/** Name of a polar. */
/** A Reynolds number as curves are named by it: 117k. */
export const thousands = (reynolds: number): string => `${Math.round(reynolds / 1000)}k`;
