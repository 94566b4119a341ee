import type { DayResult, SkyResult, Stretch } from '../answer.js';
import { clockText } from '../clock.js';
import { carriedText, skyTitle, wattsText } from '../words.js';
import { hourStep, niceStep, type Scale, scale, ticks } from './scale.js';
import { box, type Chart, drawing, group, label, line, polyline, type Shape } from './shape.js';
import { dashOf, patternOf, skyClass, skyPatterns } from './skies.js';

const margin = { left: 40, right: 12, top: 26 };
const plotHeight = 230;
const rowHeight = 40;

/** Hours that the chart shows: daylight of the first day with an hour around it, and the launch. */
export function shownHours(day: Pick<DayResult, 'daylight' | 'launch'>): Stretch {
  const first = day.daylight.filter(({ start, end }) => start < 24 && end > 0);
  const from = Math.min(day.launch, ...first.map(({ start }) => start), 12);
  const to = Math.max(day.launch, ...first.map(({ end }) => end), 12);
  return { start: Math.max(0, Math.floor(from - 0.75)), end: Math.min(24, Math.ceil(to + 0.75)) };
}

/** What the sun gives under each sky against what level flight takes, through the first day. */
export function dayChart(day: DayResult, width: number): Chart {
  const hours = shownHours(day);
  const steps = stepsWithin(day.times, hours);
  const most = Math.max(
    1,
    ...day.skies.flatMap(({ income }) => steps.map((i) => income[i]!)),
    ...steps.map((i) => day.need[i]!),
  );
  const step = niceStep(most * 1.05, 5);
  const top = Math.ceil((most * 1.02) / step) * step;
  const right = width - margin.right;
  const x = scale([hours.start, hours.end], [margin.left, right]);
  const y = scale([0, top], [margin.top + plotHeight, margin.top]);
  const middle = (i: number): number => (day.times[i]! + day.times[i + 1]!) / 2;
  const course = (values: Float64Array) => steps.map((i) => [x(middle(i)), y(values[i]!)] as const);
  const words = {
    title: 'Income and level power through the day',
    description: describe(day),
    note: day.skies.some(hasSpread)
      ? 'Bars: the hours that sunlight carries. Brackets below their ends: start and end lie in them about 9 times in 10.'
      : 'Bars: the hours that sunlight carries.',
  };
  const rowsTop = margin.top + plotHeight + 34;
  const shapes = [
    skyPatterns('day', day.skies),
    night(day.daylight, hours, x, y(0)),
    grid(x, y, hours, { top, step, right }),
    ...day.skies.map((sky, i) =>
      polyline(course(sky.income), `income ${skyClass(i)}`, { 'stroke-dasharray': dashOf(i) }),
    ),
    polyline(course(day.need), 'need'),
    ...directLabels(day, hours, x, y, right),
    ...day.skies.map((sky, i) => windowRow(sky, i, x, hours, rowsTop + i * rowHeight)),
  ];
  const height = rowsTop + day.skies.length * rowHeight;
  return { ...words, shape: drawing('day-chart', { width, height }, words, shapes), ...table(day, hours) };
}

const hasSpread = ({ start }: SkyResult): boolean => start !== undefined && start.high > start.low;

const stepsWithin = (times: Float64Array, { start, end }: Stretch): readonly number[] =>
  Array.from({ length: Math.max(0, times.length - 1) }, (_, i) => i).filter(
    (i) => times[i]! >= start - 1e-6 && times[i + 1]! <= end + 1e-6,
  );

function describe(day: DayResult): string {
  const skies = day.skies.map((sky) => {
    const best = `at most ${wattsText(sky.bestIncome)} about ${clockText(sky.bestRatioAt)}`;
    return `${skyTitle(sky)}: ${carriedText(sky)}, ${best}`;
  });
  const need = day.skies[0] === undefined ? '' : ` Level flight takes ${wattsText(day.skies[0].bestNeed)} then.`;
  return `Lines of power against local time, ${day.date}. ${skies.join('; ')}.${need}`;
}

function night(daylight: readonly Stretch[], hours: Stretch, x: Scale, bottom: number): Shape {
  const edges = [hours.start, ...daylight.flatMap(({ start, end }) => [start, end]), hours.end];
  const dark: Shape[] = [];
  for (let i = 0; i < edges.length; i += 2) {
    const from = Math.max(hours.start, edges[i]!);
    const to = Math.min(hours.end, edges[i + 1]!);
    if (to > from) dark.push(box(x(from), margin.top, x(to) - x(from), bottom - margin.top, 'night'));
  }
  return group('nights', dark);
}

function grid(x: Scale, y: Scale, hours: Stretch, vertical: { top: number; step: number; right: number }): Shape {
  const { top, step, right } = vertical;
  const watts = ticks(0, top, step).flatMap((value) => [
    line(margin.left, y(value), right, y(value), value === 0 ? 'axis' : 'grid'),
    label(`${Number(value.toPrecision(6))}`, margin.left - 6, y(value) + 4, 'end', 'tick'),
  ]);
  const every = hourStep(hours.end - hours.start, right - margin.left);
  const times = ticks(hours.start, hours.end, every).flatMap((hour) => [
    line(x(hour), y(0), x(hour), y(0) + 5, 'axis'),
    label(clockText(hour), Math.min(x(hour), right - 12), y(0) + 19, 'middle', 'tick'),
  ]);
  return group('axes', [label('watts', margin.left - 6, margin.top - 12, 'middle', 'tick'), ...watts, ...times]);
}

/** Names at the lines themselves: of each sky over its highest point, of the need at the left. */
function directLabels(day: DayResult, hours: Stretch, x: Scale, y: Scale, right: number): readonly Shape[] {
  const names = day.skies
    .filter(({ bestIncome }) => bestIncome > 0)
    .map((sky) => {
      const at = x(sky.bestRatioAt);
      return label(
        skyTitle(sky),
        Math.min(Math.max(at, margin.left + 34), right - 34),
        y(sky.bestIncome) - 6,
        'middle',
        `name ${skyClass(day.skies.indexOf(sky))}`,
      );
    });
  // Above the highest need that the words stand over.
  const over = stepsWithin(day.times, hours).filter((i) => x(day.times[i]!) < margin.left + 120);
  const need = y(Math.max(0, ...over.map((i) => day.need[i]!)));
  return [...names, label('level flight takes', margin.left + 6, need - 7, 'start', 'name')];
}

/** The hours carried as a bar with a pattern, its ends with their uncertainty, and the same in words. */
function windowRow(sky: SkyResult, index: number, x: Scale, hours: Stretch, top: number): Shape {
  const within = (hour: number): number => x(Math.min(hours.end, Math.max(hours.start, hour)));
  const bar = top + 18;
  const bars = sky.windows.map(({ start, end }) =>
    box(within(start), bar, within(end) - within(start), 11, `window ${skyClass(index)}`, {
      fill: patternOf('day', index),
    }),
  );
  const below = bar + 15;
  const ends = [sky.start, sky.end].flatMap((band) =>
    band === undefined || band.high <= band.low
      ? []
      : [
          line(within(band.low), below, within(band.high), below, 'spread'),
          ...[band.low, band.high].map((edge) => line(within(edge), below - 3, within(edge), below + 3, 'spread')),
        ],
  );
  return group('row', [
    label(`${skyTitle(sky)}: ${carriedText(sky)}`, margin.left, top + 11, 'start', `rowname ${skyClass(index)}`),
    line(x(hours.start), bar + 5.5, x(hours.end), bar + 5.5, 'grid'),
    ...bars,
    ...ends,
  ]);
}

function table(day: DayResult, hours: Stretch): Pick<Chart, 'columns' | 'rows'> {
  const columns = ['local time', ...day.skies.map((sky) => `income, ${skyTitle(sky)}`), 'level flight takes'];
  const rows = ticks(hours.start, hours.end - 0.5, 0.5).map((hour) => {
    const i = Math.min(day.need.length - 1, stepAt(day.times, hour));
    return [clockText(hour), ...day.skies.map(({ income }) => wattsText(income[i]!)), wattsText(day.need[i]!)];
  });
  return { columns, rows };
}

/** Index of the step that begins at or before a time. */
export function stepAt(times: Float64Array, hour: number): number {
  const step = times[1]! - times[0]!;
  return Math.min(times.length - 2, Math.max(0, Math.floor((hour - times[0]!) / step + 1e-6)));
}
