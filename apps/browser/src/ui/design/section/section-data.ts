import type { CompareData, CurveSet, LayerPictureData, LayerStretch, Point } from '@noonwing/drawing';
import type { FlowView, LayerView, PolarPointView, SectionView } from '../../../core/view-section-types.js';
import { pointWords, thousands } from './section-words.js';

const percent = (share: number): number => 100 * share;
const degrees = (angle: number): number => (180 * angle) / Math.PI;

/** A question that a chart answers. */
export interface PolarQuestion {
  readonly id: string;
  readonly title: string;
  readonly tab: string;
  readonly x: CompareData['x'];
  readonly y: CompareData['y'];
  readonly point: (one: PolarPointView) => Point;
  /** Only where lift rises. */
  readonly rising?: boolean;
}

const lift = { label: 'lift coefficient', unit: '', decimals: 2 };
const incidence = { label: 'incidence', unit: 'deg', decimals: 1 };

export const questions: readonly PolarQuestion[] = [
  {
    id: 'section-drag',
    title: 'What drag at what lift?',
    tab: 'Drag',
    x: lift,
    y: { label: 'drag coefficient', unit: '', decimals: 4 },
    point: (one) => [one.lift, one.drag],
    rising: true,
  },
  {
    id: 'section-lift',
    title: 'What lift at what incidence?',
    tab: 'Lift',
    x: incidence,
    y: lift,
    point: (one) => [degrees(one.alpha), one.lift],
  },
  {
    id: 'section-moment',
    title: 'What pitching moment?',
    tab: 'Moment',
    x: incidence,
    y: { label: 'moment coefficient about the quarter chord', unit: '', decimals: 3 },
    point: (one) => [degrees(one.alpha), one.moment],
  },
  {
    id: 'section-transition',
    title: 'Where does the upper side become turbulent?',
    tab: 'Transition',
    x: lift,
    y: { label: 'laminar above to', unit: '%', decimals: 0 },
    point: (one) => [one.lift, percent(one.upperTransition)],
    rising: true,
  },
];

/** Curves of one question: bare solid, with cells dashed. */
export function polarData(view: SectionView, question: PolarQuestion): CompareData {
  const curves = (covered: boolean): readonly CurveSet[] =>
    view.polars
      .filter((polar) => polar.covered === covered)
      .map((polar) => ({
        id: String(Math.round(polar.reynolds)),
        label: thousands(polar.reynolds),
        points: polar.points.filter((one) => !question.rising || one.rising).map(question.point),
      }));
  return {
    question: question.title,
    x: question.x,
    y: question.y,
    a: { name: 'bare', curves: curves(false) },
    b: { name: 'with cells', curves: curves(true) },
  };
}

/** Curves of one question: computed lines as far as was measured, measured points. */
export function measuredData({ measured }: SectionView, question: PolarQuestion): CompareData {
  const most = 1.3 * Math.max(0.02, ...measured.flatMap(({ points }) => points.map(({ drag }) => drag ?? 0)));
  const whole = { drag: Number.NaN, moment: Number.NaN, alpha: Number.NaN, upperTransition: Number.NaN, rising: true };
  return {
    question: question.title,
    x: question.x,
    y: question.y,
    a: {
      name: 'computed',
      curves: measured.map(({ reynolds, polar }) => ({
        id: thousands(reynolds),
        label: thousands(reynolds),
        points: polar.points.filter((one) => (!question.rising || one.rising) && one.drag < most).map(question.point),
      })),
    },
    b: {
      name: 'measured',
      asPoints: true,
      curves: measured.map(({ reynolds, points }) => ({
        id: thousands(reynolds),
        label: thousands(reynolds),
        points: points
          .map(({ incidence, ...point }) => question.point({ ...whole, ...point, alpha: incidence ?? Number.NaN }))
          .filter((pair) => pair.every((value) => Number.isFinite(value))),
      })),
    },
  };
}

const noseOf = (station: readonly number[]): number => station.indexOf(Math.min(...station));

/** Suction along both sides at the design point. */
export function pressureData(view: SectionView): CompareData {
  const curves = (flow: FlowView | undefined): readonly CurveSet[] => {
    if (flow === undefined) return [];
    const nose = noseOf(flow.station);
    const points = flow.station.map((x, i): Point => [percent(x), -flow.pressure[i]!]);
    return [
      { id: 'above', label: 'above', points: points.slice(0, nose + 1) },
      { id: 'below', label: 'below', points: points.slice(nose) },
    ];
  };
  return {
    question: 'Where does it suck and press?',
    x: { label: 'along the chord', unit: '%' },
    y: { label: 'suction (pressure coefficient, turned round)', unit: '', decimals: 2 },
    a: { name: 'bare', curves: curves(view.bare) },
    b: { name: 'with cells', curves: curves(view.cost?.covered) },
  };
}

/** What a layer does from the nose to the tail. */
export function stretchesOf({ transition, separation, reattachment }: LayerView): readonly LayerStretch[] {
  const turbulent = (from: number, to: number): LayerStretch => ({ kind: 'turbulent', from, to });
  const laminarTo = separation === undefined ? transition : Math.min(transition, separation);
  const all: LayerStretch[] = [{ kind: 'laminar', from: 0, to: laminarTo }];
  if (separation === undefined) all.push(turbulent(transition, 1));
  else {
    // A turbulent layer that leaves the surface was attached until then.
    if (separation > transition) all.push(turbulent(transition, separation));
    all.push({ kind: reattachment === undefined ? 'separated' : 'bubble', from: separation, to: reattachment ?? 1 });
    if (reattachment !== undefined) all.push(turbulent(reattachment, 1));
  }
  return all
    .filter(({ from, to }) => to - from > 1e-6)
    .map(({ kind, from, to }) => ({ kind, from: percent(from), to: percent(to) }));
}

/** The section with its layers: under cells where it has them. */
export function layerData(view: SectionView): LayerPictureData | undefined {
  const flow = view.cost?.covered ?? view.bare;
  if (flow === undefined) return undefined;
  const { x, y } = view.cost ?? view;
  const nose = noseOf(x);
  const points = x.map((each, i): Point => [percent(each), percent(y[i]!)]);
  return {
    what: `${pointWords(view)}${view.cost === undefined ? '' : ', with cells'}`,
    upper: points.slice(0, nose + 1).reverse(),
    lower: points.slice(nose),
    above: stretchesOf(flow.upper),
    below: stretchesOf(flow.lower),
    ...(view.cells === undefined ? {} : { cells: { from: percent(view.cells.from), to: percent(view.cells.to) } }),
  };
}
