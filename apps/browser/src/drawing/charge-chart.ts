import type { DayResult, SkyResult, Stretch } from '../answer.js';
import { clockText } from '../clock.js';
import { lowestChargeText, percentText, skyTitle } from '../words.js';
import { stepAt } from './day-chart.js';
import { hourStep, type Scale, scale, ticks } from './scale.js';
import { box, type Chart, drawing, group, label, line, polyline, type Shape, shape } from './shape.js';
import { dashOf, lineSample, skyClass } from './skies.js';

const margin = { left: 48, right: 14 };
const plotHeight = 190;
const keyHeight = 22;

/** From the launch to an hour after the last battery is empty, or to the end of what was computed. */
export function flownHours(day: DayResult): Stretch {
  const end = day.launch + day.horizon;
  const last = Math.max(...day.skies.map(({ emptyAt }) => emptyAt ?? end));
  return { start: Math.floor(day.launch), end: Math.min(Math.ceil(end), Math.ceil(last + 0.5)) };
}

/** State of charge from launch to empty, under each sky. */
export function chargeChart(day: DayResult, width: number): Chart {
  const hours = flownHours(day);
  const top = 14 + day.skies.length * keyHeight;
  const right = width - margin.right;
  const x = scale([hours.start, hours.end], [margin.left, right]);
  const y = scale([0, 1], [top + plotHeight, top]);
  const words = { title: 'Charge of the battery from launch', description: describe(day), note: '' };
  const height = top + plotHeight + 28;
  const shapes = [
    ...day.skies.map((sky, i) => key(sky, i)),
    night(day.daylight, hours, x, top),
    grid(x, y, hours, right),
    ...day.skies.flatMap((sky, i) => course(day, sky, i, x, y)),
  ];
  return { ...words, shape: drawing('charge-chart', { width, height }, words, shapes), ...table(day, hours) };
}

const endText = (sky: SkyResult): string =>
  sky.emptyAt === undefined ? 'not empty' : `empty at ${clockText(sky.emptyAt)}`;

const describe = (day: DayResult): string =>
  `Lines of the state of charge against local time from ${day.date}. ${day.skies
    .map((sky) => `${skyTitle(sky)}: ${endText(sky)}, lowest charge ${lowestChargeText(sky)}`)
    .join('; ')}.`;

const key = (sky: SkyResult, index: number): Shape =>
  group('key', [
    lineSample(index, margin.left, 10 + index * keyHeight),
    label(
      `${skyTitle(sky)}: ${endText(sky)}`,
      margin.left + 40,
      14 + index * keyHeight,
      'start',
      `rowname ${skyClass(index)}`,
    ),
  ]);

function night(daylight: readonly Stretch[], hours: Stretch, x: Scale, top: number): Shape {
  const edges = [hours.start, ...daylight.flatMap(({ start, end }) => [start, end]), hours.end];
  const dark: Shape[] = [];
  for (let i = 0; i < edges.length; i += 2) {
    const from = Math.max(hours.start, edges[i]!);
    const to = Math.min(hours.end, edges[i + 1]!);
    if (to > from) dark.push(box(x(from), top, x(to) - x(from), plotHeight, 'night'));
  }
  return group('nights', dark);
}

function grid(x: Scale, y: Scale, hours: Stretch, right: number): Shape {
  const shares = [0, 0.25, 0.5, 0.75, 1].flatMap((share) => [
    line(margin.left, y(share), right, y(share), share === 0 ? 'axis' : 'grid'),
    label(percentText(share), margin.left - 6, y(share) + 4, 'end', 'tick'),
  ]);
  const every = hourStep(hours.end - hours.start, right - margin.left);
  const times = ticks(hours.start, hours.end, every).flatMap((hour) => [
    line(x(hour), y(0), x(hour), y(0) + 5, 'axis'),
    label(clockOfDay(hour), Math.min(x(hour), right - 8), y(0) + 19, 'middle', 'tick'),
  ]);
  const midnights = ticks(hours.start + 0.01, hours.end - 0.01, 24).map((hour) =>
    line(x(hour), y(0), x(hour), y(1), 'midnight'),
  );
  return group('axes', [...shares, ...midnights, ...times]);
}

/** Ticks give the time alone: the line at midnight shows where the next day begins. */
const clockOfDay = (hour: number): string => clockText(((hour % 24) + 24) % 24);

function course(day: DayResult, sky: SkyResult, index: number, x: Scale, y: Scale): readonly Shape[] {
  const end = sky.emptyAt ?? day.launch + day.horizon;
  const points: (readonly [number, number])[] = [];
  for (let i = 0; i < day.times.length; i++) {
    const time = day.times[i]!;
    if (time >= day.launch - 1e-6 && time <= end + 1e-6) points.push([x(time), y(sky.charge[i]!)]);
  }
  const drawn = polyline(points, `income ${skyClass(index)}`, { 'stroke-dasharray': dashOf(index) });
  const last = points.at(-1);
  if (sky.emptyAt === undefined || last === undefined) return [drawn];
  const [cx, cy] = last;
  // A cross where the flight ends: shape, not colour, tells it from a line that goes on.
  return [drawn, shape('path', { d: `M${cx - 5} ${cy - 5}l10 10m0 -10l-10 10`, class: `ending ${skyClass(index)}` })];
}

function table(day: DayResult, hours: Stretch): Pick<Chart, 'columns' | 'rows'> {
  const columns = ['local time', ...day.skies.map((sky) => `charge, ${skyTitle(sky)}`)];
  const rows = ticks(Math.ceil(day.launch), hours.end, 1).map((hour) => {
    const i = Math.min(day.times.length - 1, stepAt(day.times, hour));
    const cell = ({ emptyAt, charge }: SkyResult) =>
      emptyAt !== undefined && hour > emptyAt ? 'empty' : percentText(charge[i]!);
    return [clockText(hour), ...day.skies.map(cell)];
  });
  return { columns, rows };
}
