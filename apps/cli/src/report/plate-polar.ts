import { type CurveSet, comparedCurves, type Drawing } from '@noonwing/drawing';
import {
  type Interval,
  type SectionModel,
  sectionDragAtLift,
  sectionMaximumLift,
  sectionModel,
} from '@noonwing/engine/section';
import {
  coveredModel,
  type MeasuredRun,
  type ModelPoint,
  modelAtLift,
  modelPolar,
  risingBranch,
  type SectionPolar,
} from '@noonwing/engine/section/viscous';
import type { PolarRequest } from '../input/polar.js';
import { jsonBand, jsonQuantity } from '../output/json.js';
import { percent } from '../output/numbers.js';
import type { TextTable } from '../output/table.js';
import { besideMeasured, measuredData, measuredDrawing, measuredWords, type RunBeside } from './measured-polar.js';

/** A section that no boundary layer is computed for: what its model says. */
export interface PlateAnswer {
  readonly bare: SectionModel;
  readonly polar: SectionPolar;
  readonly point?: ModelPoint;
  /** With cells, at the same lift. */
  readonly covered?: ModelPoint;
  readonly greatest: Interval;
  readonly measured: readonly RunBeside[];
  readonly notes: readonly string[];
}

/** Answer for a plate, a step or a very thin section. runs, notes - what was measured, and what was found in its file */
export function platePolar(request: PolarRequest, runs: readonly MeasuredRun[], notes: readonly string[]): PlateAnswer {
  const { geometry, covering, reynolds, lift } = request;
  const bare = sectionModel(geometry);
  const point = modelAtLift(bare, lift, reynolds);
  const under = covering && modelAtLift(coveredModel(geometry, covering), lift, reynolds);
  const greatest = sectionMaximumLift(bare, reynolds);
  return {
    bare,
    polar: modelPolar(bare, reynolds),
    ...(point === undefined ? {} : { point }),
    ...(under === undefined ? {} : { covered: under }),
    greatest,
    measured: besideMeasured((of) => modelPolar(bare, of), runs),
    notes,
  };
}

const degrees = (radians: number): string => `${((180 * radians) / Math.PI).toFixed(1)} deg`;
const coefficient = (value: number): string => value.toFixed(4);
const bandWords = ({ value, low, high }: Interval): string =>
  `${coefficient(value)} (${coefficient(low)} to ${coefficient(high)})`;

export function plateFindings({ geometry, lift }: PolarRequest, answer: PlateAnswer): readonly string[] {
  const { polar, point, covered, greatest, measured, notes } = answer;
  const branch = risingBranch(polar);
  const best = branch.reduce((a, b) => (b.lift / b.drag > a.lift / a.drag ? b : a));
  const cost = point && covered && covered.drag.value / point.drag.value - 1;
  return [
    ...(cost === undefined
      ? []
      : [
          `Covering it with cells costs ${percent(cost)} of its drag at lift ${lift.toFixed(2)}: ${bandWords(covered!.drag)}; common practice for any section, nothing is measured for plates.`,
        ]),
    ...(point === undefined
      ? [`It stalls before it reaches lift ${lift.toFixed(2)}: ask for less with --lift.`]
      : [
          `At lift ${lift.toFixed(2)}, ${degrees(point.alpha)}: drag ${bandWords(point.drag)}, moment ${point.moment.toFixed(3)}.`,
        ]),
    `Best lift / drag ${(best.lift / best.drag).toFixed(0)} at lift ${best.lift.toFixed(2)}; greatest lift ${greatest.value.toFixed(2)} (${greatest.low.toFixed(2)} to ${greatest.high.toFixed(2)}).`,
    `${beyondWords(geometry.leadingEdge)} These are the plates' own formulas, as every verdict uses them; their bands are wide.`,
    ...measuredWords(measured),
    ...notes,
  ];
}

/** Why no boundary layer is computed. */
const beyondWords = (nose: 'round' | 'sharp'): string =>
  nose === 'sharp'
    ? 'The flow leaves a sharp nose or a step at once, which the boundary layer is not computed for.'
    : 'Under 5 % of thickness, or with a step, the boundary layer is not computed: it would promise lift that plates do not have.';

export const plateTable = ({ polar }: PlateAnswer): TextTable => ({
  head: ['incidence', 'lift', 'drag', 'moment'],
  rows: polar.points
    .filter((_, i) => i % 2 === 0)
    .map((p) => [degrees(p.alpha), p.lift.toFixed(3), coefficient(p.drag), p.moment.toFixed(3)]),
});

const pointData = ({ alpha, drag, moment }: ModelPoint) => ({
  incidence: jsonQuantity(alpha, 'angle'),
  drag: jsonBand(drag, 'ratio'),
  moment: jsonQuantity(moment, 'ratio'),
});

/** For programs. */
export const plateData = (
  { geometry }: PolarRequest,
  { polar, point, covered, greatest, measured, notes }: PlateAnswer,
) => ({
  section: geometry.name,
  reynolds: jsonQuantity(polar.reynolds, 'count'),
  basis: 'plate formulas',
  ...(point === undefined ? {} : { designPoint: pointData(point) }),
  ...(covered === undefined ? {} : { covered: pointData(covered) }),
  greatestLift: jsonBand(greatest, 'ratio'),
  points: polar.points.map((p) => ({
    incidence: jsonQuantity(p.alpha, 'angle'),
    lift: jsonQuantity(p.lift, 'ratio'),
    drag: jsonQuantity(p.drag, 'ratio'),
    moment: jsonQuantity(p.moment, 'ratio'),
  })),
  ...(measured.length === 0 ? {} : { measured: measuredData(measured) }),
  notes,
});

/** Drag against lift with its band, or beside what was measured. */
export function plateDrawing({ geometry }: PolarRequest, { bare, polar, measured }: PlateAnswer): Drawing {
  if (measured.length > 0) return measuredDrawing(geometry.name, measured);
  const branch = risingBranch(polar);
  const curve = (id: string, of: (band: Interval) => number): CurveSet => ({
    id,
    label: id,
    points: branch.map(({ lift }) => [lift, of(sectionDragAtLift(bare, lift, polar.reynolds))]),
  });
  return comparedCurves(
    {
      question: `What drag does ${geometry.name} have at Reynolds number ${polar.reynolds.toFixed(0)}?`,
      x: { label: 'lift coefficient', unit: '', decimals: 2 },
      y: { label: 'drag coefficient', unit: '', decimals: 4 },
      a: { name: 'best estimate', curves: [curve('drag', ({ value }) => value)] },
      b: { name: 'nine in ten between', curves: [curve('least', ({ low }) => low), curve('most', ({ high }) => high)] },
    },
    { standalone: true, width: 720 },
  );
}
