import { type Block, bar, curve, emptyNote, finish, heading, marker, straight, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, known, withUnit } from '../number.js';
import { byX, domainOf, type Scale, scaleOf } from '../scale.js';
import { joined, type Markup, type Paint, type Pen, penOf } from '../svg.js';
import { fitText, sentence, wrapText } from '../text.js';
import type { IntervalData, IntervalRow, SparkData } from './inputs.js';

/** Values with the stretch in which they lie, one row each, against a limit. */
export function intervalBand(data: IntervalData, options: DrawOptions = {}): Drawing {
  const pen = penOf('intervals', options);
  const rows = data.rows.filter(({ value, span }) => drawable(value) && drawable(span[0]) && drawable(span[1]));
  const limit = known(data.limit?.value);
  const words = { title: sentence(data.measure.label), text: intervalText(data, rows) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const domain = domainOf([...rows.flatMap(({ value, span }) => [value, ...span]), limit]);
  const x = scaleOf({ id: 'x', ...data.measure, domain, range: [12, width - 12], nice: true });
  const top = head.height + (limit === undefined ? 2 : 20);
  let y = top;
  const drawn = rows.map((row) => {
    const made = intervalRow(pen, data, row, x, { top: y, width });
    y += made.height;
    return made.body;
  });
  const empty = rows.length === 0;
  const room = { left: 0, right: width, top: head.height, bottom: head.height + 50 };
  return finish(pen, options, {
    kind: 'intervals',
    ...words,
    table: intervalTable(data),
    height: empty ? room.bottom : y + 4,
    body: [
      head.body,
      !empty && limitLine(pen, data, x, { top, bottom: y, width }),
      ...drawn,
      empty && emptyNote(pen, room, words.text),
    ],
    scales: [x.plain],
  });
}

function intervalRow(
  pen: Pen,
  data: IntervalData,
  row: IntervalRow,
  x: Scale,
  at: { top: number; width: number },
): Block {
  const lines = wrapText(rowText(data, row), 13, at.width - 20, 3);
  const height = lines.length * 16 + 20;
  const middle = at.top + height - 10;
  const edges = { left: x.at(Math.min(...row.span)), right: x.at(Math.max(...row.span)) };
  const paint: Paint = row.measured ? { fill: 'part3' } : { fill: 'part1', pattern: ['hatch', 'edge'] };
  const body = joined([
    ...lines.map((line, i) => pen.text(12, at.top + 14 + i * 16, line, { halo: true })),
    straight(pen, [12, middle], [at.width - 12, middle], { stroke: 'rule' }),
    bar(pen, { ...edges, top: middle - 5, bottom: middle + 5 }, { ...paint, stroke: 'edge' }),
    marker(pen, 'dot', [x.at(row.value), middle], 'ink', 4),
  ]);
  return { height, body };
}

function limitLine(
  pen: Pen,
  { limit, measure }: IntervalData,
  x: Scale,
  at: { top: number; bottom: number; width: number },
): Markup {
  const value = known(limit?.value);
  if (limit === undefined || value === undefined) return { markup: '' };
  const place = x.at(value);
  const right = place < at.width / 2;
  const text = fitText(`${limit.label} ${withUnit(value, measure)}`, tickSize, (right ? at.width - place : place) - 8);
  return joined([
    straight(pen, [place, at.top - 14], [place, at.bottom], { stroke: 'caution', dash: '6 3', width: 1.5 }),
    pen.text(place + (right ? 4 : -4), at.top - 5, text, {
      size: tickSize,
      role: 'caution',
      anchor: right ? 'start' : 'end',
    }),
  ]);
}

const intervalTable = ({ measure, rows }: IntervalData): Table => ({
  columns: [
    { key: 'label', label: 'what', unit: '' },
    { key: 'low', label: 'from', unit: measure.unit },
    { key: 'value', label: measure.label, unit: measure.unit },
    { key: 'high', label: 'to', unit: measure.unit },
  ],
  rows: rows.map(({ label, value, span }) => ({
    label,
    low: known(span[0]),
    value: known(value),
    high: known(span[1]),
  })),
});

const rowText = (data: IntervalData, { label, value, span, measured }: IntervalRow): string =>
  `${label} ${withUnit(value, data.measure)} (${withUnit(Math.min(...span), data.measure)} to ${withUnit(Math.max(...span), data.measure)})${measured ? ', measured' : ''}`;

const intervalText = (data: IntervalData, rows: readonly IntervalRow[]): string =>
  rows.length === 0
    ? `Nothing is known about ${data.measure.label}.`
    : `${rows.map((row) => sentence(rowText(data, row))).join('; ')}.`;

/** A course without axes, as large as a word, with its ends in the text. */
export function sparkline(data: SparkData, options: DrawOptions = {}): Drawing {
  const pen = penOf('spark', options);
  const width = Math.min(400, Math.max(60, drawable(options.width) ? options.width : 120));
  const height = Math.min(200, Math.max(16, drawable(options.height) ? options.height : 28));
  const points = byX(data.points);
  const limit = known(data.limit);
  const x = scaleOf({
    id: 'x',
    label: '',
    unit: '',
    domain: domainOf(points.map(([at]) => at)),
    range: [3, width - 5],
  });
  const domain = domainOf([...points.map(([, value]) => value), limit]);
  const y = scaleOf({ id: 'y', ...data.measure, domain, range: [height - 4, 4] });
  const last = points.at(-1);
  const first = points[0];
  const text =
    first === undefined || last === undefined
      ? `${sentence(data.label)}: not known.`
      : `${sentence(data.label)}: from ${withUnit(first[1], data.measure)} to ${withUnit(last[1], data.measure)}.`;
  const made = {
    kind: 'spark',
    title: data.label,
    text,
    table: {
      columns: [
        { key: 'x', label: 'x', unit: '' },
        { key: 'y', label: data.measure.label, unit: data.measure.unit },
      ],
      rows: points.map(([at, value]) => ({ x: at, y: value })),
    },
    height,
    body: [
      limit !== undefined && straight(pen, [3, y.at(limit)], [width - 5, y.at(limit)], { stroke: 'edge', dash: '3 2' }),
      curve(
        pen,
        points.map(([at, value]): Point => [x.at(at), y.at(value)]),
        { stroke: 'accent', width: 1.5 },
      ),
      last && marker(pen, 'dot', [x.at(last[0]), y.at(last[1])], 'accent', 2.5),
    ],
    scales: [x.plain, y.plain],
    series: [{ id: 'y', label: data.measure.label, unit: data.measure.unit, xScale: 'x', yScale: 'y', points }],
  };
  return finish(pen, { ...options, heading: false }, made, width);
}
