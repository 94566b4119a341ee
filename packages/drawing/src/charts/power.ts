import { finish, heading, heightOf, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, known, withUnit } from '../number.js';
import type { Role } from '../palette.js';
import { areaPath } from '../path.js';
import { byX, interpolated } from '../scale.js';
import { joined, type Markup, type PatternName, type Pen, penOf } from '../svg.js';
import type { PowerCurvePoint, PowerData } from './inputs.js';
import { drawPanel, type PanelMark, type PanelPlace } from './plot.js';

const partPatterns: readonly (PatternName | undefined)[] = [undefined, 'hatch', 'dots', 'back', 'cross'];
const partRole = (i: number): Role => `part${(i % 5) as 0 | 1 | 2 | 3 | 4}`;

const partOf = (point: PowerCurvePoint, i: number): number => known(point.parts[i]) ?? 0;
const totalOf = (data: PowerData, point: PowerCurvePoint): number =>
  data.parts.reduce((sum, _, i) => sum + partOf(point, i), 0);

/** Level power against airspeed: its parts on top of each other, and the airspeeds that have a name. */
export function powerAgainstAirspeed(data: PowerData, options: DrawOptions = {}): Drawing {
  const pen = penOf('power', options);
  const points = [...data.points].filter(({ airspeed }) => drawable(airspeed)).sort((a, b) => a.airspeed - b.airspeed);
  const total = points.map((point): Point => [point.airspeed, totalOf(data, point)]);
  const words = { title: 'Level power against airspeed', text: powerText(data, byX(total)) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const lastPart = points.at(-1);
  const partLabels = (place: PanelPlace) => (lastPart === undefined ? [] : middles(data, lastPart, place));
  const compare = data.compare;
  const drawn = drawPanel(
    pen,
    {
      prefix: '',
      x: data.airspeed,
      y: { ...data.power, zero: true },
      curves: [
        { id: 'level power', label: data.power.label, points: total, role: 'need', width: 3 },
        ...(compare
          ? [{ id: 'compare', label: compare.label, points: compare.points, role: 'accent' as const, dash: '7 4' }]
          : []),
      ],
      marks: marksOf(data, byX(total)),
      empty: 'No airspeed can be flown with what the design file describes.',
      under: (place) => stack(pen, data, points, place),
      extraLabels: partLabels,
      extraTexts: data.parts.map(({ label }) => label),
    },
    {
      left: 0,
      width,
      top: head.height,
      plot: heightOf(options.height && options.height - head.height - 120, 240, 100),
    },
  );
  return finish(pen, options, {
    kind: 'power',
    ...words,
    table: powerTable(data, points),
    height: drawn.bottom,
    body: [head.body, drawn.body],
    scales: drawn.scales,
    series: [...drawn.series, ...partSeries(data, points)],
  });
}

function middles(data: PowerData, point: PowerCurvePoint, { y }: PanelPlace) {
  let sum = 0;
  return data.parts.map(({ label }, i) => {
    const middle = sum + partOf(point, i) / 2;
    sum += partOf(point, i);
    return { y: y.at(middle), text: label, role: 'soft' as const };
  });
}

function stack(pen: Pen, data: PowerData, points: readonly PowerCurvePoint[], { x, y }: PanelPlace): Markup {
  if (points.length === 0) return { markup: '' };
  const below = points.map(() => 0);
  const layers = data.parts.map((_, i) => {
    const edges = points.map((point, n) => {
      const low = below[n]!;
      below[n] = low + partOf(point, i);
      return [x.at(point.airspeed), y.at(low), y.at(below[n]!)] as const;
    });
    const pattern = partPatterns[i % partPatterns.length];
    const paint = { fill: partRole(i), stroke: 'paper' as const, pattern: pattern && ([pattern, 'edge'] as const) };
    return pen.shape('path', { d: areaPath(edges) }, paint);
  });
  return joined(layers);
}

function marksOf(data: PowerData, total: readonly Point[]): readonly PanelMark[] {
  const list: readonly (readonly [string, number | undefined, Role, boolean])[] = [
    ['stall', data.stall, 'caution', false],
    ['least power', data.leastPower, 'soft', true],
    ['flown', data.flown, 'ink', true],
    ['best range', data.bestRange, 'soft', true],
    [data.limit ? `limit (${data.limit.reason})` : 'limit', data.limit?.airspeed, 'caution', false],
  ];
  return list.flatMap(([name, value, role, withPower]) => {
    const x = known(value);
    if (x === undefined) return [];
    const power = withPower ? interpolated(total, x) : undefined;
    const told = power === undefined ? '' : `, ${withUnit(power, data.power)}`;
    return [{ x, text: `${name} ${withUnit(x, data.airspeed)}${told}`, role }];
  });
}

function powerText(data: PowerData, total: readonly Point[]): string {
  if (total.length === 0) return 'No airspeed can be flown with what the design file describes.';
  const lowest = total.reduce((best, point) => (point[1] < best[1] ? point : best));
  const at = (speed: number | undefined) => (drawable(speed) ? interpolated(total, speed) : undefined);
  const leastPower = at(data.leastPower);
  const least = leastPower === undefined ? lowest : ([data.leastPower!, leastPower] as const);
  const flown = at(data.flown);
  const flownText =
    flown === undefined
      ? ''
      : ` At ${withUnit(data.flown!, data.airspeed)}, as flown, it takes ${withUnit(flown, data.power)}.`;
  const stallText = drawable(data.stall) ? ` Stall at ${withUnit(data.stall, data.airspeed)}.` : '';
  return `Least power ${withUnit(least[1], data.power)} at ${withUnit(least[0], data.airspeed)}.${flownText}${stallText}`;
}

function partSeries(data: PowerData, points: readonly PowerCurvePoint[]) {
  return data.parts.map(({ id, label }, i) => ({
    id: `part ${id}`,
    label,
    unit: data.power.unit,
    ...(data.power.decimals === undefined ? {} : { decimals: data.power.decimals }),
    xScale: 'x',
    yScale: 'y',
    points: byX(points.map((point): Point => [point.airspeed, partOf(point, i)])),
  }));
}

function powerTable(data: PowerData, points: readonly PowerCurvePoint[]): Table {
  const { unit } = data.power;
  return {
    columns: [
      { key: 'airspeed', label: data.airspeed.label, unit: data.airspeed.unit },
      ...data.parts.map(({ label }, i) => ({ key: `part ${i}`, label, unit })),
      { key: 'total', label: data.power.label, unit },
    ],
    rows: points.map((point) => ({
      airspeed: known(point.airspeed),
      ...Object.fromEntries(data.parts.map((_, i) => [`part ${i}`, known(point.parts[i])])),
      total: totalOf(data, point),
    })),
  };
}
