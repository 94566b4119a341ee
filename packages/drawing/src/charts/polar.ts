import { bar, finish, heading, straight, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, PlotSeries, Point, Table } from '../model.js';
import { drawable, numberText, withUnit } from '../number.js';
import { byX } from '../scale.js';
import { joined, type Markup, type Pen, penOf } from '../svg.js';
import type { PolarData, PolarPoint } from './inputs.js';
import { drawPanel, type Panel, type PanelPlace } from './plot.js';

const liftMeasure = { label: 'lift coefficient', unit: '' };
const dragMeasure = { label: 'drag coefficient', unit: '' };
const momentMeasure = { label: 'pitching moment coefficient', unit: '' };

/** Lift against drag, and the pitching moment against the angle of attack with the point of trim. */
export function liftDragMoment(data: PolarData, options: DrawOptions = {}): Drawing {
  const pen = penOf('polar', options);
  const words = { title: 'Lift, drag and pitching moment', text: polarText(data) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const beside = width >= 640;
  const each = beside ? (width - 24) / 2 : width;
  const plot = beside ? 230 : 190;
  const first = drawPanel(pen, polarPanel(data), { left: 0, width: each, top: head.height, plot });
  const at = beside ? { left: each + 24, top: head.height } : { left: 0, top: first.bottom + 8 };
  const second = drawPanel(pen, momentPanel(pen, data), { ...at, width: each, plot });
  return finish(pen, options, {
    kind: 'polar',
    ...words,
    table: polarTable(data),
    height: Math.max(first.bottom, second.bottom),
    body: [head.body, first.body, second.body],
    scales: [...first.scales, ...second.scales],
    series: [...second.series, ...overAngle(data)],
  });
}

const polarOf = (points: readonly PolarPoint[]): readonly Point[] => points.map(({ drag, lift }) => [drag, lift]);
const momentOf = (points: readonly PolarPoint[]): readonly Point[] =>
  points.map(({ angle, moment }) => [angle, moment]);

const polarPanel = (data: PolarData): Panel => ({
  prefix: 'polar ',
  x: { ...dragMeasure, zero: true },
  y: { ...liftMeasure, zero: true },
  curves: [
    { id: 'polar', label: data.compare ? 'A' : 'aircraft', points: polarOf(data.points), role: 'sky1', free: true },
    ...(data.compare
      ? [
          {
            id: 'polar B',
            label: data.compare.label,
            points: polarOf(data.compare.points),
            role: 'accent' as const,
            dash: '7 4',
            free: true,
          },
        ]
      : []),
  ],
  dots: data.trim ? [{ at: [data.trim.drag, data.trim.lift], role: 'caution', shape: 'diamond' }] : [],
  empty: 'No polar has been computed.',
  extraTexts: data.trim ? ['trim'] : [],
  extraLabels: ({ y }) =>
    data.trim && drawable(data.trim.lift) ? [{ y: y.at(data.trim.lift), text: 'trim', role: 'caution' }] : [],
});

const momentPanel = (pen: Pen, data: PolarData): Panel => ({
  prefix: '',
  x: data.angle,
  y: { ...momentMeasure, zero: true },
  curves: [
    { id: 'moment', label: data.compare ? 'A' : 'moment', points: momentOf(data.points), role: 'sky2' },
    ...(data.compare
      ? [
          {
            id: 'moment B',
            label: data.compare.label,
            points: momentOf(data.compare.points),
            role: 'accent' as const,
            dash: '7 4',
          },
        ]
      : []),
  ],
  dots: data.trim ? [{ at: [data.trim.angle, data.trim.moment], role: 'caution', shape: 'diamond' }] : [],
  marks: data.trim
    ? [{ x: data.trim.angle, text: `trim ${withUnit(data.trim.angle, data.angle)}`, role: 'caution' }]
    : [],
  empty: 'No moment has been computed.',
  under: (place) => noseWords(pen, place, (slopeOf(byX(momentOf(data.points))) ?? -1) < 0),
});

/** Above zero the nose rises, below it falls; each word stands where the curve does not pass. */
function noseWords(pen: Pen, { box, y }: PanelPlace, falling: boolean): Markup {
  const zero = y.at(0);
  const word = (text: string, height: number, atRight: boolean) =>
    pen.text(atRight ? box.right - 6 : box.left + 6, height, text, {
      size: tickSize,
      role: 'soft',
      halo: true,
      anchor: atRight ? 'end' : 'start',
    });
  const up = zero - box.top > 24 && word('nose goes up', box.top + 15, falling);
  const down = box.bottom - zero > 24 && word('nose goes down', box.bottom - 7, !falling);
  return joined([
    bar(pen, { ...box, bottom: zero }, { fill: 'night', opacity: 0.5 }),
    straight(pen, [box.left, zero], [box.right, zero], { stroke: 'ink', width: 1.5 }),
    up,
    down,
  ]);
}

/** Lift and drag over the angle too, for the cursor; they stand on the scale of the other panel. */
function overAngle(data: PolarData): readonly PlotSeries[] {
  const of = (id: string, label: string, pick: (point: PolarPoint) => number): PlotSeries => ({
    id,
    label,
    unit: '',
    xScale: 'x',
    yScale: 'polar y',
    points: byX(data.points.map((point): Point => [point.angle, pick(point)])),
  });
  return [of('lift', 'lift coefficient', ({ lift }) => lift), of('drag', 'drag coefficient', ({ drag }) => drag)];
}

function slopeOf(points: readonly Point[]): number | undefined {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined || last[0] === first[0]) return undefined;
  return (last[1] - first[1]) / (last[0] - first[0]);
}

function polarText(data: PolarData): string {
  const usable = data.points.filter(({ lift, drag }) => drawable(lift) && drawable(drag) && drag > 0);
  if (usable.length === 0) return 'No polar has been computed.';
  const best = usable.reduce((most, point) => (point.lift / point.drag > most.lift / most.drag ? point : most));
  const glide = `Best lift over drag ${numberText(best.lift / best.drag)} at a lift coefficient of ${numberText(best.lift)}.`;
  const slope = slopeOf(byX(momentOf(data.points)));
  const stable =
    slope === undefined
      ? ''
      : slope < 0
        ? ' The moment falls with the angle of attack: it returns by itself.'
        : ' The moment does not fall with the angle of attack: it does not return by itself.';
  const { trim } = data;
  const told = trim && drawable(trim.angle) && drawable(trim.lift);
  const trimmed = told
    ? ` Trimmed at ${withUnit(trim.angle, data.angle)}, lift coefficient ${numberText(trim.lift)}.`
    : ' No point of trim.';
  return glide + stable + trimmed;
}

const polarTable = (data: PolarData): Table => ({
  columns: [
    { key: 'angle', label: data.angle.label, unit: data.angle.unit },
    { key: 'lift', ...liftMeasure },
    { key: 'drag', ...dragMeasure },
    { key: 'moment', ...momentMeasure },
  ],
  rows: data.points.map(({ angle, lift, drag, moment }) => ({
    angle: drawable(angle) ? angle : undefined,
    lift: drawable(lift) ? lift : undefined,
    drag: drawable(drag) ? drag : undefined,
    moment: drawable(moment) ? moment : undefined,
  })),
});
