import {
  type Box,
  bar,
  bottomAxis,
  curve,
  dashAt,
  emptyNote,
  endLabelRoom,
  endLabels,
  endLabelWidth,
  finish,
  heading,
  heightOf,
  leftAxis,
  marker,
  markerAt,
  placed,
  skyRoleAt,
  straight,
  tickRoom,
  tickSize,
  widthOf,
} from '../frame.js';
import { flagLanes } from '../labels.js';
import type { Drawing, DrawOptions, Point } from '../model.js';
import { drawable, hourText, known, withUnit } from '../number.js';
import { type AreaPoint, areaPath } from '../path.js';
import { domainOf, type Scale, scaleOf } from '../scale.js';
import { type Child, joined, type Markup, type PatternName, type Pen, penOf, px } from '../svg.js';
import { fitText, textWidth, wrapText } from '../text.js';
import { daySeries, dayTable, dayWords, labelTexts, needAt, needs, stageText, windowText } from './day-words.js';
import type { DayData, DaySky, DayWindow } from './inputs.js';

/** What differs between the band at the top of the application and the large chart. */
interface DayStyle {
  readonly plot: number;
  readonly ribbon: number;
  readonly axis: boolean;
  readonly windowBar: number;
  readonly windowWords: boolean;
}

const large: DayStyle = { plot: 240, ribbon: 34, axis: true, windowBar: 14, windowWords: true };
const stage: DayStyle = { plot: 76, ribbon: 16, axis: false, windowBar: 10, windowWords: false };

/** The day in full: sunlight above, income under each sky against the need, and the hours that sunlight carries. */
export const theDay = (data: DayData, options: DrawOptions = {}): Drawing => dayDrawing('day', data, options, large);

/** The day as a low band over the whole width, for the top of the application. */
export const dayStage = (data: DayData, options: DrawOptions = {}): Drawing =>
  dayDrawing('day-stage', data, options, stage);

/** Between the rows of the low band [px]. */
const stageGap = 6;

const windowPatterns: readonly PatternName[] = ['hatch', 'dots', 'back', 'cross'];

interface Layout {
  readonly box: Box;
  readonly x: Scale;
  readonly y: Scale;
  readonly light: Scale | undefined;
  readonly style: DayStyle;
  readonly labelWidth: number;
  readonly width: number;
}

function dayDrawing(kind: string, data: DayData, options: DrawOptions, style: DayStyle): Drawing {
  const pen = penOf(kind, options);
  const words = dayWords(data);
  const head = heading(pen, options, words);
  const at = layoutOf(data, options, style, head.height);
  const empty = data.hours.filter(drawable).length === 0;
  const flags = eventFlags(pen, data, at, head.height);
  const rows = windowRows(pen, data, at, at.box.bottom + (style.axis ? 46 : 24));
  const body: Child[] = [
    head.body,
    sky(pen, data, at),
    flags,
    style.axis && leftAxis(pen, at.y, at.box),
    bottomAxis(pen, besideCursor(data, at.x), at.box, style.axis ? `hour of the day (${data.zone})` : ''),
    surplus(pen, data, at),
    ...curves(pen, data, at),
    rows.bars,
    cursorLine(pen, data, at, rows.bottom),
    rows.words,
    sunlightName(pen, data, at),
    empty && emptyNote(pen, at.box, 'No hours to show: the day has not been computed.'),
  ];
  return finish(pen, options, {
    kind,
    ...words,
    table: dayTable(data),
    height: rows.bottom + 4,
    body,
    scales: [at.x.plain, at.y.plain, ...(at.light ? [at.light.plain] : [])],
    series: daySeries(data),
  });
}

/** Words of the curves. The low band of a phone has the names beside its bars only, or it would not be low. */
function curveTexts(data: DayData, style: DayStyle, width: number): ReturnType<typeof labelTexts> {
  const texts = labelTexts(data);
  if (style.axis || width >= 480) return texts;
  return { ...texts, skies: texts.skies.map((text) => text.slice(text.lastIndexOf(', up to ') + 2)) };
}

function layoutOf(data: DayData, options: DrawOptions, style: DayStyle, top: number): Layout {
  const width = widthOf(options);
  const texts = curveTexts(data, style, width);
  const all = [texts.need, ...texts.skies, ...(texts.compare ? [texts.compare] : [])];
  const labelWidth = endLabelWidth([...all, ...(style.windowWords ? [] : data.skies.map(stageText))], width);
  const ribbonTop = top + 6 + eventLanes(data, width, labelWidth) * 15 + 4;
  const plotTop = ribbonTop + style.ribbon + (style.axis ? 24 : 4);
  const rows = data.skies.length * (style.windowBar + (style.windowWords ? 28 : stageGap));
  const asked = options.height === undefined ? undefined : options.height - plotTop - rows - (style.axis ? 56 : 28);
  const plot = Math.max(heightOf(asked, style.plot, 60), endLabelRoom(all, labelWidth));
  const ys = [
    ...data.skies.flatMap(({ income }) => income),
    ...needs(data),
    ...(data.compare?.income ?? []),
    data.compare?.need,
  ];
  const range = [plotTop + plot, plotTop] as const;
  const y = scaleOf({ id: 'y', ...data.power, domain: domainOf(ys, true), range, nice: true, room: 44 });
  const left = style.axis ? tickRoom(y) : 10;
  const box = { left, right: Math.max(left + 60, width - labelWidth), top: plotTop, bottom: plotTop + plot };
  const hours = domainOf(data.hours);
  const x = scaleOf({
    id: 'x',
    kind: 'hour',
    label: 'hour',
    unit: '',
    domain: hours,
    range: [box.left, box.right],
    room: 44,
  });
  const middle = ribbonTop + style.ribbon / 2;
  const light = data.sunlight && {
    id: 'sunlight',
    ...data.sunlight.measure,
    domain: domainOf(data.sunlight.values, true),
    range: [middle, ribbonTop] as const,
  };
  return { box, x, y, light: light ? scaleOf(light) : undefined, style, labelWidth, width };
}

/** Night and daylight behind the plot, and the ribbon of sunlight whose thickness is its strength. */
function sky(pen: Pen, data: DayData, { box, x, light }: Layout): Markup {
  const [low, high] = x.plain.domain;
  const rise = x.at(known(data.sunrise) ?? low);
  const set = x.at(known(data.sunset) ?? high);
  const parts: Child[] = [bar(pen, box, { fill: 'daylight' })];
  if (rise > box.left) parts.push(bar(pen, { ...box, right: rise }, { fill: 'night' }));
  if (set < box.right) parts.push(bar(pen, { ...box, left: set }, { fill: 'night' }));
  if (light !== undefined && data.sunlight !== undefined)
    parts.push(ribbon(pen, data.hours, data.sunlight.values, x, light));
  return joined(parts);
}

function ribbon(pen: Pen, hours: readonly number[], values: readonly number[], x: Scale, light: Scale): Markup {
  const middle = light.plain.range[0];
  const edge = placed(hours, values, x, light).filter(([at]) => Number.isFinite(at));
  const d = areaPath(edge.map(([at, y]) => [at, y, 2 * middle - y]));
  const line = straight(pen, [x.plain.range[0], middle], [x.plain.range[1], middle], { stroke: 'rule' });
  return joined([line, d !== '' && pen.shape('path', { d }, { fill: 'sunlit', stroke: 'sun', width: 1.5 })]);
}

/** Where the first sky gives more than the need. */
function surplus(pen: Pen, data: DayData, { x, y }: Layout): Markup {
  const first = data.skies[0];
  if (first === undefined) return { markup: '' };
  const points = data.hours.flatMap((hour, i): AreaPoint[] => {
    const income = first.income[i];
    const need = needAt(data, i);
    if (!drawable(hour) || !drawable(income) || need === undefined) return [];
    return [[x.at(hour), y.at(need), y.at(Math.max(income, need))]];
  });
  const d = areaPath(points);
  return d === '' ? { markup: '' } : pen.shape('path', { d }, { fill: 'sunlit', opacity: 0.75 });
}

function curves(pen: Pen, data: DayData, at: Layout): readonly Child[] {
  const { x, y, box } = at;
  const texts = curveTexts(data, at.style, at.width);
  const need = placed(data.hours, needs(data), x, y);
  const incomes = data.skies.map(({ income }) => placed(data.hours, income, x, y));
  const other = data.compare && placed(data.hours, data.compare.income, x, y);
  const endOf = (points: readonly Point[]) => points.findLast((point) => Number.isFinite(point[1]));
  /** Income ends at night on the axis, so its label stands beside the height of its best hour. */
  const best = (points: readonly Point[]) =>
    points.reduce((most, [, y]) => (Number.isFinite(y) ? Math.min(most, y) : most), box.bottom);
  const labels = [
    { y: endOf(need)?.[1] ?? box.bottom, text: texts.need, role: 'need' as const, bold: true },
    ...incomes.map((points, i) => ({ y: best(points), text: texts.skies[i]!, role: skyRoleAt(i) })),
    ...(other ? [{ y: best(other), text: texts.compare!, role: 'accent' as const }] : []),
  ];
  const [low, high] = [known(data.needSpan?.[0]), known(data.needSpan?.[1])];
  return [
    low !== undefined &&
      high !== undefined &&
      bar(pen, { ...box, top: y.at(high), bottom: y.at(low) }, { fill: 'edge', opacity: 0.25 }),
    other && curve(pen, other, { stroke: 'accent', dash: '3 5' }),
    ...incomes.map((points, i) => incomeCurve(pen, points, i)),
    curve(pen, need, { stroke: 'need', width: 3 }),
    endLabels(pen, labels, {
      x: box.right + 2,
      width: at.labelWidth,
      top: box.top - (at.style.axis ? 8 : 1),
      bottom: box.bottom + 8,
    }).body,
  ];
}

/** A sky's income: its own dash and a marker at its best hour. */
function incomeCurve(pen: Pen, points: readonly Point[], i: number): Markup {
  const known = points.filter(([, y]) => Number.isFinite(y));
  const top = known.reduce<Point | undefined>(
    (best, point) => (best === undefined || point[1] < best[1] ? point : best),
    undefined,
  );
  return joined([
    curve(pen, points, { stroke: skyRoleAt(i), dash: dashAt(i) }),
    top && marker(pen, markerAt(i), top, skyRoleAt(i)),
  ]);
}

interface DayEvent {
  readonly hour: number;
  readonly text: string;
  readonly sun: boolean;
}

function events(data: DayData): readonly DayEvent[] {
  const list: readonly (readonly [string, number | undefined, boolean])[] = [
    ['sunrise', data.sunrise, true],
    ['launch', data.launch, false],
    ['landing', data.landing, false],
    ['sunset', data.sunset, true],
    ['now', data.now, false],
  ];
  return list.flatMap(([name, hour, sun]) => {
    const at = known(hour);
    return at === undefined ? [] : [{ hour: at, text: `${name} ${hourText(at)}`, sun }];
  });
}

function flagsOf(data: DayData, x: Scale, right: number) {
  const inside = events(data).filter(({ hour }) => hour >= x.plain.domain[0] && hour <= x.plain.domain[1]);
  const poles = inside.map(({ hour, text }) => ({ x: x.at(hour), width: textWidth(text, tickSize) + 5 }));
  return { inside, poles, flags: flagLanes(poles, right) };
}

/** Lanes of the labels of events, before the plot has its place. */
function eventLanes(data: DayData, width: number, labelWidth: number): number {
  const x = scaleOf({
    id: 'x',
    label: '',
    unit: '',
    domain: domainOf(data.hours),
    range: [36, Math.max(96, width - labelWidth)],
  });
  return flagsOf(data, x, width).flags.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
}

function eventFlags(pen: Pen, data: DayData, at: Layout, top: number): Markup {
  const { x, box, style } = at;
  const { inside, poles, flags } = flagsOf(data, x, box.right + at.labelWidth);
  const foot = (at.light?.plain.range[1] ?? box.top - style.ribbon) - 6;
  return joined(
    inside.map(({ text, sun }, i) => {
      const { lane, anchor } = flags[i]!;
      const y = Math.max(top + 12, foot - lane * 15);
      const pole = poles[i]!.x;
      return joined([
        straight(pen, [pole, y - 9], [pole, box.bottom], { stroke: sun ? 'sun' : 'ink', dash: sun ? '1 4' : '4 3' }),
        pen.text(pole + (anchor === 'start' ? 4 : -4), y, text, { size: tickSize, anchor, role: 'soft' }),
      ]);
    }),
  );
}

/** Bars of the windows, and their words, which the hour's line must not cross. */
function windowRows(pen: Pen, data: DayData, at: Layout, top: number): { bars: Markup; words: Markup; bottom: number } {
  const { style, box } = at;
  let y = top;
  const bars: Child[] = [];
  const words: Child[] = [];
  for (const [i, sky] of data.skies.entries()) {
    const lines = style.windowWords ? wrapText(windowText(sky), 13, box.right + at.labelWidth - 16, 3) : [];
    words.push(...lines.map((line, n) => pen.text(8, y + 11 + n * 16, line, { role: skyRoleAt(i), halo: true })));
    y += lines.length * 16 + (style.windowWords ? 3 : 0);
    const row = { ...box, top: y, bottom: y + style.windowBar };
    const middle = (row.top + row.bottom) / 2;
    bars.push(straight(pen, [box.left, middle], [box.right, middle], { stroke: 'rule' }));
    bars.push(...sky.windows.map((window) => windowBar(pen, window, i, at.x, row)));
    if (!style.windowWords) words.push(stageName(pen, sky, i, at, middle));
    y = row.bottom + (style.windowWords ? 9 : stageGap);
  }
  return { bars: joined(bars), words: joined(words), bottom: y };
}

/** Name and hours of a sky beside its bar, as much of it as the margin holds. */
function stageName(pen: Pen, sky: DaySky, i: number, at: Layout, middle: number): Markup {
  const room = at.labelWidth - 17;
  const long = stageText(sky);
  const text = textWidth(long, tickSize) <= room ? long : fitText(sky.name, tickSize, room);
  return pen.text(at.box.right + 15, middle + 4, text, { size: tickSize, role: skyRoleAt(i) });
}

/** What the ribbon is, at its right. */
function sunlightName(pen: Pen, data: DayData, { light, box, labelWidth, style }: Layout): Markup {
  if (light === undefined || data.sunlight === undefined) return { markup: '' };
  const { measure, values } = data.sunlight;
  const most = values.filter(drawable).reduce((best, value) => Math.max(best, value), 0);
  const room = labelWidth - 17;
  const peak = `up to ${withUnit(most, measure)}`;
  const named = wrapText(`${measure.label}, ${peak}`, tickSize, room, 9);
  const lines = named.length <= (style.axis ? 2 : 1) ? named : [fitText(withUnit(most, measure), tickSize, room)];
  const middle = light.plain.range[0];
  return joined(
    lines.map((line, i) =>
      pen.text(box.right + 15, middle + 4 + (i - (lines.length - 1) / 2) * 14, line, {
        size: tickSize,
        role: 'soft',
        halo: true,
      }),
    ),
  );
}

/** A bar in the pattern of its sky, with a whisker at each end where start and end are unsure. */
function windowBar(pen: Pen, { start, end, startSpan, endSpan }: DayWindow, i: number, x: Scale, row: Box): Markup {
  if (!drawable(start) || !drawable(end)) return { markup: '' };
  const role = skyRoleAt(i);
  const whisker = (span: readonly [number, number] | undefined): Markup => {
    const [low, high] = [known(span?.[0]), known(span?.[1])];
    if (low === undefined || high === undefined) return { markup: '' };
    const [from, to] = [x.at(low), x.at(high)];
    const middle = (row.top + row.bottom) / 2;
    const d = `M${px(from)} ${px(row.top + 1)}V${px(row.bottom - 1)}M${px(from)} ${px(middle)}H${px(to)}M${px(to)} ${px(row.top + 1)}V${px(row.bottom - 1)}`;
    return joined([
      pen.shape('path', { d }, { stroke: 'paper', width: 4 }),
      pen.shape('path', { d }, { stroke: role, width: 1.5 }),
    ]);
  };
  const edges = { ...row, left: x.at(start), right: Math.max(x.at(end), x.at(start) + 1) };
  const pattern = [windowPatterns[i % windowPatterns.length]!, role] as const;
  return joined([
    bar(pen, edges, { fill: 'sunlit', pattern }),
    bar(pen, edges, { stroke: role, width: 1.5 }),
    whisker(startSpan),
    whisker(endSpan),
  ]);
}

/** The scale without the ticks that the hour's sign covers. */
function besideCursor(data: DayData, x: Scale): Scale {
  const hour = known(data.cursor);
  if (hour === undefined) return x;
  const half = textWidth(hourText(hour), tickSize, true) / 2 + 8;
  const clear = ({ value, text }: Scale['ticks'][number]) =>
    Math.abs(x.at(value) - Math.max(half, x.at(hour))) > half + textWidth(text, tickSize) / 2;
  return { ...x, ticks: x.ticks.filter(clear) };
}

/** The hour that the screen shows. */
function cursorLine(pen: Pen, data: DayData, { x, box }: Layout, bottom: number): Markup {
  const hour = known(data.cursor);
  if (hour === undefined) return { markup: '' };
  const at = x.at(hour);
  const text = hourText(hour);
  const half = textWidth(text, tickSize, true) / 2 + 5;
  const middle = Math.max(half, at);
  return joined([
    straight(pen, [at, box.top], [at, bottom - 4], { stroke: 'ink', width: 1.5 }),
    bar(
      pen,
      { left: middle - half, right: middle + half, top: box.bottom + 3, bottom: box.bottom + 21 },
      { fill: 'ink' },
    ),
    pen.text(middle, box.bottom + 16, text, { size: tickSize, anchor: 'middle', role: 'paper', bold: true }),
  ]);
}
