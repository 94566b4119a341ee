import { bar, curve, emptyNote, finish, heading, marker, straight, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point } from '../model.js';
import { drawable, known, withUnit } from '../number.js';
import { byX, domainOf, scaleOf } from '../scale.js';
import { type Child, joined, penOf } from '../svg.js';
import { sentence, textWidth, wrapText } from '../text.js';
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
  let y = head.height + (limit === undefined ? 2 : 20);
  const top = y;
  const body: Child[] = rows.map((row) => {
    const lines = wrapText(rowText(data, row), 13, width - 20, 3);
    const first = y;
    y += lines.length * 16 + 20;
    const middle = y - 10;
    const band = {
      left: x.at(Math.min(...row.span)),
      right: x.at(Math.max(...row.span)),
      top: middle - 5,
      bottom: middle + 5,
    };
    return joined([
      ...lines.map((line, i) => pen.text(12, first + 14 + i * 16, line, { halo: true })),
      straight(pen, [12, middle], [width - 12, middle], { stroke: 'rule' }),
      bar(
        pen,
        band,
        row.measured
          ? { fill: 'part3', stroke: 'edge' }
          : { fill: 'part1', pattern: ['hatch', 'edge'], stroke: 'edge' },
      ),
      marker(pen, 'dot', [x.at(row.value), middle], 'ink', 4),
    ]);
  });
  const at = limit === undefined ? 0 : x.at(limit);
  const text = limit === undefined ? '' : `${data.limit!.label} ${withUnit(limit, data.measure)}`;
  const anchor = at + textWidth(text, tickSize) + 4 > width ? 'end' : 'start';
  const empty = emptyNote(pen, { left: 0, right: width, top: head.height, bottom: head.height + 50 }, words.text);
  return finish(pen, options, {
    kind: 'intervals',
    ...words,
    table: {
      columns: [
        { key: 'label', label: 'what', unit: '' },
        { key: 'low', label: 'from', unit: data.measure.unit },
        { key: 'value', label: data.measure.label, unit: data.measure.unit },
        { key: 'high', label: 'to', unit: data.measure.unit },
      ],
      rows: data.rows.map(({ label, value, span }) => ({
        label,
        low: known(span[0]),
        value: known(value),
        high: known(span[1]),
      })),
    },
    height: rows.length === 0 ? head.height + 50 : y + 4,
    body: [
      head.body,
      limit !== undefined &&
        rows.length > 0 &&
        straight(pen, [at, top - 14], [at, y], { stroke: 'caution', dash: '6 3', width: 1.5 }),
      limit !== undefined &&
        rows.length > 0 &&
        pen.text(at + (anchor === 'start' ? 4 : -4), top - 5, text, { size: tickSize, role: 'caution', anchor }),
      ...body,
      rows.length === 0 && empty,
    ],
    scales: [x.plain],
  });
}

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
