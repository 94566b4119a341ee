import { type CompareData, comparedCurves, type Point } from '@noonwing/drawing';
import type { FlatsDesign } from '@noonwing/engine/section/flats';
import type { FlatsRequest } from '../input/section.js';
import { jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';

const coefficient = (value: number): string => value.toFixed(4);
const degrees = (radians: number): string => ((180 * radians) / Math.PI).toFixed(1);

/** Gain in words: "22 % less drag" or "3 % more drag". */
export const gainWords = (naive: number, designed: number): string => {
  const gain = 1 - designed / naive;
  if (Math.abs(gain) < 0.005) return 'the same drag';
  return `${percent(Math.abs(gain))} ${gain > 0 ? 'less' : 'more'} drag`;
};

/** What the layout found, most important first. */
export function flatsFindings(request: FlatsRequest, design: FlatsDesign): readonly string[] {
  const { naive, designed, bare, checks, corners, angles, row, section, withinMoment, evaluations, maximumLift } =
    design;
  const mm = (share: number) => `${(1000 * share * request.chord).toFixed(0)} mm`;
  const worst = checks.reduce<number>((most, one) => Math.max(most, one.designed / one.naive), 0);
  const least = checks.filter((one) => one.designed / one.naive === worst)[0];
  const turns =
    angles.length === 0 ? '' : `; it turns by ${angles.map(degrees).join(', ')} deg at the corners between them`;
  return [
    `At lift ${request.lift.toFixed(2)} and Reynolds number ${request.reynolds.toFixed(0)} it has ${gainWords(naive.drag, designed.drag)} than ${request.geometry.name} under the same cells: ${coefficient(designed.drag)} against ${coefficient(naive.drag)}; ${request.geometry.name} without cells has ${coefficient(bare.drag)}.`,
    `Moment ${designed.moment.toFixed(3)} (${request.geometry.name} under cells ${naive.moment.toFixed(3)}, without ${bare.moment.toFixed(3)})${withinMoment ? '' : '; the limit could not be kept'}. Thickness ${percent(section.maximumThickness)}, camber ${percent(section.maximumCamber)}${maximumLift === undefined ? '' : `; greatest lift ${maximumLift.designed.toFixed(2)} against ${maximumLift.naive.toFixed(2)}`}.`,
    `${row.count} flats of ${mm(row.cell)} from ${mm(corners[0]!.x)} to ${mm(corners[corners.length - 1]!.x)} behind the nose${turns}.`,
    ...(least === undefined
      ? []
      : [
          `Least gain among ${checks.length} conditions that the search did not see: ${gainWords(least.naive, least.designed)} (${least.what}).`,
        ]),
    `Both drags are computed (${evaluations} tries): their difference is surer than either, but has been compared with no measurement of faceted sections.`,
  ];
}

export const checkRows = ({ checks }: FlatsDesign): readonly (readonly string[])[] =>
  checks.map(({ what, naive, designed }) => [
    what,
    coefficient(naive),
    coefficient(designed),
    gainWords(naive, designed),
  ]);

export function flatsData(request: FlatsRequest, design: FlatsDesign) {
  const ratio = (value: number) => jsonQuantity(value, 'ratio');
  return {
    start: request.geometry.name,
    reynolds: jsonQuantity(request.reynolds, 'count'),
    lift: ratio(request.lift),
    air: request.air,
    bareDrag: ratio(design.bare.drag),
    naiveDrag: ratio(design.naive.drag),
    designedDrag: ratio(design.designed.drag),
    moment: ratio(design.designed.moment),
    ...(design.maximumLift === undefined
      ? {}
      : { maximumLift: ratio(design.maximumLift.designed), naiveMaximumLift: ratio(design.maximumLift.naive) }),
    withinMoment: design.withinMoment,
    thickness: ratio(design.section.maximumThickness),
    camber: ratio(design.section.maximumCamber),
    corners: design.corners.map(({ x, y }) => ({ station: ratio(x), ordinate: ratio(y) })),
    turns: design.angles.map((angle) => jsonQuantity(angle, 'angle')),
    evaluations: jsonQuantity(design.evaluations, 'count'),
    checks: design.checks.map(({ what, naive, designed }) => ({
      what,
      naiveDrag: ratio(naive),
      designedDrag: ratio(designed),
    })),
  };
}

/** Both outlines: start under cells, and designed. */
export function flatsDrawing(request: FlatsRequest, { naive, designed }: FlatsDesign) {
  const sides = ({ x, y }: { readonly x: readonly number[]; readonly y: readonly number[] }) => {
    const nose = x.indexOf(Math.min(...x));
    const points = x.map((each, i): Point => [100 * each, 100 * y[i]!]);
    return [
      { id: 'upper', label: 'upper side', points: points.slice(0, nose + 1) },
      { id: 'lower', label: 'lower side', points: points.slice(nose) },
    ];
  };
  const data: CompareData = {
    question: `What shape has ${request.geometry.name} for flat cells?`,
    x: { label: 'along the chord', unit: '%' },
    y: { label: 'height', unit: '%', decimals: 1 },
    a: { name: 'for flat cells', curves: sides(designed.outline) },
    b: { name: 'start under cells', curves: sides(naive.outline) },
  };
  return comparedCurves(data, { standalone: true, width: 900, height: 420 });
}
