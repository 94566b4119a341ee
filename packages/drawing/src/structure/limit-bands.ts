import {
  type Block,
  bar,
  bottomAxis,
  emptyNote,
  finish,
  heading,
  marker,
  straight,
  tickSize,
  widthOf,
} from '../frame.js';
import { flagLanes } from '../labels.js';
import type { Drawing, DrawOptions, PlotSeries, Point, Table } from '../model.js';
import { clean, drawable, known, withUnit } from '../number.js';
import { domainOf, type Scale, scaleOf } from '../scale.js';
import { joined, type Markup, type Paint, type Pen, penOf } from '../svg.js';
import { fitText, sentence, textWidth, wrapText } from '../text.js';
import type { LimitBandRow, LimitBandsData } from './inputs.js';

const goodRow = ({ low, value, high }: LimitBandRow): boolean =>
  [low, value, high].every(drawable) && low <= value && value <= high;

/** Limits as bars with centre and spread, one below the other, with the airspeeds flown across them. */
export function limitBands(data: LimitBandsData, options: DrawOptions = {}): Drawing {
  const pen = penOf('limit-bands', options);
  const rows = data.limits
    .filter(goodRow)
    .map((row) => ({ ...row, low: clean(row.low), value: clean(row.value), high: clean(row.high) }));
  const words = { title: `Limit speeds of ${data.aircraft}`, text: bandsText(data, rows) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const flown = data.flown.filter(({ value }) => drawable(value));
  const all = [...rows.flatMap(({ low, high }) => [low, high]), ...flown.map(({ value }) => value)];
  const x = scaleOf({ id: 'x', ...data.speed, domain: domainOf(all), range: [12, width - 12], nice: true });
  const flags = flagsOf(data, x, width);
  const top = head.height + 6 + flags.lanes * 15;
  let y = top;
  const drawn = rows.map((row, i) => {
    const made = limitRow(pen, data, row, x, { top: y, width, isFirst: i === 0 });
    y += made.height;
    return made;
  });
  const box = { left: 12, right: width - 12, top, bottom: y + 4 };
  const empty = rows.length === 0;
  const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
  return finish(pen, options, {
    kind: 'limit-bands',
    ...words,
    table: bandsTable(data),
    height: empty ? room.bottom : box.bottom + 38,
    body: empty
      ? [head.body, emptyNote(pen, room, words.text)]
      : [head.body, bottomAxis(pen, x, box), flags.draw(pen, top, box.bottom), ...drawn.map(({ body }) => body)],
    scales: [x.plain, ...drawn.map(({ scale }) => scale)],
    series: empty ? [] : rows.map(chanceSeries),
  });
}

function flagsOf({ flown, speed }: LimitBandsData, x: Scale, width: number) {
  const poles = flown
    .filter(({ value }) => drawable(value))
    .map(({ label, value }) => {
      const text = fitText(`${label} ${withUnit(value, speed)}`, tickSize, width * 0.6);
      return { text, x: x.at(value), width: textWidth(text, tickSize) + 6 };
    });
  const flags = flagLanes(poles, width - 2);
  const lanes = flags.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
  const draw = (pen: Pen, top: number, bottom: number): Markup =>
    joined(
      poles.map(({ text, x: pole }, i) => {
        const { lane, anchor } = flags[i]!;
        const y = top - 6 - lane * 15;
        return joined([
          straight(pen, [pole, y - 9], [pole, bottom], { stroke: 'soft', dash: '5 3' }),
          pen.text(pole + (anchor === 'start' ? 4 : -4), y, text, { size: tickSize, anchor, halo: true }),
        ]);
      }),
    );
  return { lanes, draw };
}

interface RowPlace {
  readonly top: number;
  readonly width: number;
  readonly isFirst: boolean;
}

function limitRow(pen: Pen, data: LimitBandsData, row: LimitBandRow, x: Scale, at: RowPlace) {
  const lines = wrapText(rowText(data, row), 13, at.width - 20, 6, at.isFirst);
  const height = lines.length * 16 + 26;
  const middle = at.top + height - 12;
  const edges = { left: x.at(row.low), right: x.at(row.high), top: middle - 7, bottom: middle + 7 };
  const paint: Paint = row.aside
    ? { pattern: ['dots', 'edge'], stroke: 'edge', dash: '4 3' }
    : { fill: at.isFirst ? 'part1' : 'part0', pattern: ['hatch', 'edge'], stroke: 'edge' };
  const body = joined([
    ...lines.map((line, i) => pen.text(12, at.top + 15 + i * 16, line, { halo: true, bold: at.isFirst })),
    bar(pen, edges, paint),
    straight(pen, [edges.left, middle - 9], [edges.left, middle + 9], {
      stroke: at.isFirst ? 'caution' : 'ink',
      width: at.isFirst ? 4 : 2.5,
    }),
    marker(pen, 'dot', [x.at(row.value), middle], 'ink', 4),
  ]);
  // A chance has no height of its own here: the ring of the cursor stands on the bar.
  const scale = {
    id: `y ${row.id}`,
    kind: 'linear' as const,
    label: 'chance that it lies below',
    unit: '%',
    domain: [0, 100] as const,
    range: [middle, middle] as const,
  };
  return { height, body, scale } satisfies Block & { readonly scale: unknown };
}

/** Normal distribution: standard deviations below and above the middle with their chance in per cent. */
const quantiles: readonly (readonly [number, number])[] = [
  [-3, 0.1],
  [-1.645, 5],
  [-0.674, 25],
  [0, 50],
  [0.674, 75],
  [1.645, 95],
  [3, 99.9],
];

/** How likely a limit lies below each airspeed: its band holds it nine times in ten, even in the ratio of speeds. */
function chanceSeries(row: LimitBandRow): PlotSeries {
  const stretch = (times: number): number => {
    const end = times < 0 ? row.low : row.high;
    if (!(row.value > 0 && end > 0)) return row.value + (Math.abs(times) / 1.645) * (end - row.value);
    return row.value * (end / row.value) ** (Math.abs(times) / 1.645);
  };
  return {
    id: row.id,
    label: `${row.label}: chance that it lies below`,
    unit: '%',
    decimals: 0,
    xScale: 'x',
    yScale: `y ${row.id}`,
    points: quantiles.map(([times, chance]): Point => [stretch(times), chance]).filter(([at]) => drawable(at)),
  };
}

const rowText = ({ speed }: LimitBandsData, { label, words, low, value, high, aside }: LimitBandRow): string =>
  `${sentence(label)} from ${withUnit(low, speed)} (${withUnit(value, speed)}, at most ${withUnit(high, speed)})${aside ? ', not counted' : ''}: ${words}`;

function bandsText(data: LimitBandsData, rows: readonly LimitBandRow[]): string {
  const { speed, aircraft, searchedTo } = data;
  const first = rows.find(({ aside }) => !aside);
  const to = drawable(searchedTo) ? ` up to ${withUnit(searchedTo, speed)}` : '';
  if (first === undefined) return `No limit of ${aircraft} was found${to}.`;
  const others = rows.filter((row) => row !== first).map((row) => rowText(data, row));
  const then = others.length === 0 ? '' : ` Then: ${others.join('; ')}.`;
  return `The limit speed is ${withUnit(first.low, speed)}, the lower edge of ${withUnit(first.value, speed)}, at most ${withUnit(first.high, speed)}: ${first.words}.${then}`;
}

const bandsTable = ({ speed, limits, flown }: LimitBandsData): Table => ({
  columns: [
    { key: 'label', label: 'limit', unit: '' },
    { key: 'low', label: 'lower edge', unit: speed.unit },
    { key: 'value', label: 'best estimate', unit: speed.unit },
    { key: 'high', label: 'upper edge', unit: speed.unit },
    { key: 'words', label: 'what happens', unit: '' },
  ],
  rows: [
    ...limits.map(({ label, low, value, high, words, aside }) => ({
      label,
      low: known(low),
      value: known(value),
      high: known(high),
      words: aside ? `${words} (not counted)` : words,
    })),
    ...flown.map(({ label, value }) => ({ label, value: known(value), words: 'airspeed flown' })),
  ],
});
