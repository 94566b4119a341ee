import { contours } from 'd3-contour';
import {
  type Box,
  bar,
  bottomAxis,
  emptyNote,
  finish,
  heading,
  heightOf,
  leftAxis,
  marker,
  tickRoom,
  tickSize,
  widthOf,
} from '../frame.js';
import type { Drawing, DrawOptions, Point, ScaleKind } from '../model.js';
import {
  clean,
  dayOfYearText,
  drawable,
  hourText,
  known,
  latitudeText,
  numberText,
  shareText,
  withUnit,
} from '../number.js';
import type { Role } from '../palette.js';
import { domainOf, type Scale, scaleOf } from '../scale.js';
import { type Child, joined, type Markup, type Paint, type Pen, penOf, px } from '../svg.js';
import { fitText, sentence, textWidth } from '../text.js';
import type { GridAxis, WhereWhenData } from './inputs.js';

interface Place {
  readonly box: Box;
  readonly x: Scale;
  readonly y: Scale;
}

/** Steps of the figure: four below what decides, four from it on. */
interface Steps {
  readonly levels: readonly number[];
  readonly decides: number;
}

const belowRoles: readonly Role[] = ['below0', 'below1', 'below2', 'below3'];
const aboveRoles: readonly Role[] = ['above0', 'above1', 'above2', 'above3'];

/** A figure over two axes in steps, with the line that decides: where and when sunlight carries. */
export function whereAndWhen(data: WhereWhenData, options: DrawOptions = {}): Drawing {
  const pen = penOf('where-when', options);
  const grid = gridOf(data);
  const words = {
    title: `${sentence(data.figure.label)} over ${data.x.label} and ${data.y.label}`,
    text: whereText(data, grid),
  };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const steps = stepsOf(grid.values, known(data.threshold) ?? 1);
  const top = head.height + 28;
  const plot = heightOf(options.height && options.height - top - 90, Math.min(360, width * 0.62), 140);
  const range = [top + plot, top] as const;
  const y = scaleOf({ id: 'y', ...axisSetup(data.y), domain: domainOf(grid.ys), range, room: 44 });
  const left = tickRoom(y);
  const box = { left, right: width - 14, top, bottom: top + plot };
  const x = scaleOf({ id: 'x', ...axisSetup(data.x), domain: domainOf(grid.xs), range: [left, box.right], room: 50 });
  const place = { box, x, y };
  const enough = grid.xs.length >= 2 && grid.ys.length >= 2 && grid.values.some(drawable);
  const strip = stepStrip(pen, data, steps, box.left, box.bottom + 46, box.right - box.left);
  const body: Child[] = [
    head.body,
    leftAxis(pen, y, box),
    bottomAxis(pen, x, box),
    enough ? filled(pen, data, grid, steps, place) : bar(pen, box, { fill: 'night' }),
    enough && hereMark(pen, data, place),
    !enough && emptyNote(pen, box, 'Too few places or times to draw: at least two of each.'),
    strip,
  ];
  return finish(pen, options, {
    kind: 'where-when',
    ...words,
    table: gridTable(data),
    height: box.bottom + 90,
    body,
    scales: [x.plain, y.plain],
  });
}

const axisSetup = ({ label, unit, kind }: GridAxis): { label: string; unit: string; kind: ScaleKind } => ({
  label,
  unit,
  kind: kind === 'number' ? 'linear' : kind,
});

interface Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly values: readonly number[];
}

/** The grid, where its axes are good; what is not known counts as the lowest value, and the words say so. */
function gridOf({ x, y, values }: WhereWhenData): Grid {
  const increasing = (list: readonly number[]) =>
    list.every((value, i) => drawable(value) && (i === 0 || value > list[i - 1]!));
  if (!increasing(x.values) || !increasing(y.values)) return { xs: [], ys: [], values: [] };
  const all = Array.from({ length: x.values.length * y.values.length }, (_, i) => values[i]);
  const lowest = all.reduce<number>((low, value) => (drawable(value) ? Math.min(low, value) : low), 0);
  return { xs: x.values, ys: y.values, values: all.map((value) => (drawable(value) ? clean(value) : lowest)) };
}

function stepsOf(values: readonly number[], decides: number): Steps {
  const most = values.reduce((max, value) => Math.max(max, value), decides);
  const least = values.reduce((min, value) => Math.min(min, value), decides);
  if (decides <= 0) {
    const low = [0.75, 0.5, 0.25].map((share) => decides - (decides - least) * share);
    const high = [0.25, 0.5, 0.75].map((share) => decides + (most - decides) * share);
    return { decides, levels: [...low, decides, ...high].map((level) => Number(level.toPrecision(2))) };
  }
  const ratio = most / decides;
  const above = ratio <= 2.6 ? [1.25, 1.5, 2] : ratio <= 6 ? [1.5, 2.5, 4] : ratio <= 30 ? [2, 5, 10] : [10, 100, 1000];
  const shares = [0.25, 0.5, 0.75, 1, ...above];
  return { decides, levels: shares.map((share) => Number((share * decides).toPrecision(3))) };
}

const roleOf = (band: number): Role => (band < 4 ? belowRoles[band]! : aboveRoles[band - 4]!);

function filled(pen: Pen, data: WhereWhenData, grid: Grid, steps: Steps, place: Place): Markup {
  const { xs, ys, values } = grid;
  const { box } = place;
  const toPx = ([i, j]: readonly number[]): Point => [
    place.x.at(valueAt(xs, i! - 0.5)),
    place.y.at(valueAt(ys, j! - 0.5)),
  ];
  // Steps that rounding has made equal are one step.
  const levels = [...new Set(steps.levels)];
  const made = contours().size([xs.length, ys.length]).thresholds(levels)([...values]);
  const regions = made.map(({ value, coordinates }) => ({
    value,
    rings: coordinates.flatMap((polygon) => polygon.map((ring) => ring.map(toPx))),
  }));
  const lines = regions.map(({ value, rings }) => ({ value, runs: rings.flatMap((ring) => insideRuns(ring, box)) }));
  return joined([
    bar(pen, box, { fill: roleOf(0) }),
    ...regions.map(({ value, rings }) => ringPath(pen, rings, { fill: roleOf(steps.levels.indexOf(value) + 1) })),
    ...regions
      .filter(({ value }) => value === steps.decides)
      .map(({ rings }) => ringPath(pen, rings, { pattern: ['dots', 'sun'] })),
    ...lines.map(({ value, runs }) => contourLines(pen, runs, value === steps.decides)),
    levelLabels(pen, data, lines, place),
    bar(pen, box, { stroke: 'edge' }),
  ]);
}

function ringPath(pen: Pen, rings: readonly (readonly Point[])[], paint: Paint): Markup {
  if (rings.length === 0) return { markup: '' };
  const d = rings.map((ring) => `M${ring.map(([x, y]) => `${px(x)} ${px(y)}`).join('L')}Z`).join('');
  return pen.shape('path', { d, 'fill-rule': 'evenodd' }, paint);
}

/** Value of an axis at a fraction of its index, held inside. */
function valueAt(values: readonly number[], index: number): number {
  const held = Math.min(values.length - 1, Math.max(0, index));
  const low = Math.min(values.length - 2, Math.floor(held));
  return values[low]! + (values[low + 1]! - values[low]!) * (held - low);
}

/** The stretches of a ring that are contour and not edge of the field. */
function insideRuns(ring: readonly Point[], box: Box): readonly (readonly Point[])[] {
  const sides = ([x, y]: Point) => [
    x <= box.left + 0.01,
    x >= box.right - 0.01,
    y <= box.top + 0.01,
    y >= box.bottom - 0.01,
  ];
  const runs: Point[][] = [];
  let run: Point[] = [];
  const close = () => {
    if (run.length > 1) runs.push(run);
    run = [];
  };
  for (const [i, point] of ring.entries()) {
    const before = ring[i - 1];
    const other = before && sides(before);
    const edge = other !== undefined && sides(point).some((side, n) => side && other[n]);
    if (edge) close();
    run.push(point);
  }
  close();
  return runs;
}

function contourLines(pen: Pen, runs: readonly (readonly Point[])[], decides: boolean): Markup {
  if (runs.length === 0) return { markup: '' };
  const d = runs.map((run) => `M${run.map(([x, y]) => `${px(x)} ${px(y)}`).join('L')}`).join('');
  return pen.shape('path', { d }, decides ? { stroke: 'ink', width: 3, round: true } : { stroke: 'edge', width: 1 });
}

/** The value written on each line, where it does not cover another. */
function levelLabels(
  pen: Pen,
  data: WhereWhenData,
  lines: readonly { value: number; runs: readonly (readonly Point[])[] }[],
  place: Place,
): Markup {
  const { box } = place;
  const here = hereOf(data, place);
  const taken: Box[] = here === undefined ? [] : [here.covered];
  const free = (box: Box) =>
    taken.every(
      (other) => box.right < other.left || box.left > other.right || box.bottom < other.top || box.top > other.bottom,
    );
  const labels = lines.flatMap(({ value, runs }) => {
    const longest = runs.reduce<readonly Point[]>((best, run) => (run.length > best.length ? run : best), []);
    const text = withUnit(value, data.figure);
    const half = textWidth(text, tickSize, true) / 2 + 3;
    const tries = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9].map(
      (share) => longest[Math.floor(share * (longest.length - 1))],
    );
    const at = tries.find((point) => {
      if (point === undefined) return false;
      const [x, y] = point;
      const inside = x - half > box.left && x + half < box.right && y - 9 > box.top && y + 9 < box.bottom;
      return inside && free({ left: x - half, right: x + half, top: y - 9, bottom: y + 9 });
    });
    if (at === undefined) return [];
    taken.push({ left: at[0] - half, right: at[0] + half, top: at[1] - 9, bottom: at[1] + 9 });
    return [
      pen.text(at[0], at[1] + 4, text, {
        size: tickSize,
        anchor: 'middle',
        halo: true,
        bold: value === (known(data.threshold) ?? 1),
      }),
    ];
  });
  return joined(labels);
}

interface Here {
  readonly at: Point;
  readonly anchor: 'start' | 'end';
  readonly label: string;
  /** What mark and words cover. */
  readonly covered: Box;
}

function hereOf({ here }: WhereWhenData, { box, x, y }: Place): Here | undefined {
  if (here === undefined || !drawable(here.x) || !drawable(here.y)) return undefined;
  const at: Point = [x.at(here.x), y.at(here.y)];
  const anchor = at[0] > (box.left + box.right) / 2 ? 'end' : 'start';
  const room = (anchor === 'end' ? at[0] - box.left : box.right - at[0]) - 14;
  const label = fitText(here.label, 13, room, true);
  const width = textWidth(label, 13, true) + 12;
  const covered = { left: at[0] - 8, right: at[0] + 8, top: at[1] - 10, bottom: at[1] + 10 };
  return {
    at,
    anchor,
    label,
    covered: anchor === 'end' ? { ...covered, left: at[0] - width } : { ...covered, right: at[0] + width },
  };
}

function hereMark(pen: Pen, data: WhereWhenData, place: Place): Markup {
  const here = hereOf(data, place);
  if (here === undefined) return { markup: '' };
  const { at, anchor, label } = here;
  const x = at[0] + (anchor === 'end' ? -10 : 10);
  const y = Math.min(place.box.bottom - 6, Math.max(place.box.top + 14, at[1] + 4));
  return joined([marker(pen, 'diamond', at, 'caution', 6), pen.text(x, y, label, { anchor, bold: true, halo: true })]);
}

/** The colours of the steps with their numbers, and what both sides mean. */
function stepStrip(pen: Pen, data: WhereWhenData, { levels }: Steps, left: number, top: number, width: number): Markup {
  const each = width / 8;
  const words = data.words ?? { above: 'carried', below: 'not carried' };
  return joined([
    ...Array.from({ length: 8 }, (_, band) => {
      const box = { left: left + band * each, right: left + (band + 1) * each, top, bottom: top + 10 };
      return bar(pen, box, {
        fill: roleOf(band),
        stroke: 'edge',
        ...(band >= 4 ? { pattern: ['dots', 'sun'] as const } : {}),
      });
    }),
    ...levels.map((level, i) =>
      pen.text(left + (i + 1) * each, top + 23, numberText(level), {
        size: tickSize,
        anchor: 'middle',
        role: 'soft',
        bold: i === 3,
      }),
    ),
    pen.text(left, top + 39, `under ${numberText(levels[3]!)}: ${words.below}`, { size: tickSize, role: 'soft' }),
    pen.text(left + width, top + 39, `from ${numberText(levels[3]!)}: ${words.above}`, {
      size: tickSize,
      role: 'soft',
      anchor: 'end',
    }),
  ]);
}

function axisText({ kind, unit }: GridAxis, value: number): string {
  if (kind === 'hour') return hourText(value);
  if (kind === 'day of year') return dayOfYearText(value);
  if (kind === 'latitude') return latitudeText(value);
  return withUnit(value, { unit });
}

function whereText(data: WhereWhenData, { xs, values }: Grid): string {
  const told = Array.from({ length: values.length }, (_, i) => data.values[i]).map((value, i) => ({ value, i }));
  const good = told.filter((each): each is { value: number; i: number } => drawable(each.value));
  if (good.length === 0) return `The ${data.figure.label} is not known anywhere here.`;
  const best = good.reduce((most, each) => (each.value > most.value ? each : most));
  const at = `${axisText(data.x, xs[best.i % xs.length]!)}, ${axisText(data.y, data.y.values[Math.floor(best.i / xs.length)]!)}`;
  const decides = known(data.threshold) ?? 1;
  const above = good.filter(({ value }) => value >= decides);
  const words = data.words ?? { above: 'carried', below: 'not carried' };
  const across = above.map(({ i }) => xs[i % xs.length]!);
  const span =
    above.length === 0
      ? `nowhere here at or above ${numberText(decides)}: ${words.below}`
      : `at or above ${numberText(decides)} (${words.above}) in ${shareText(above.length / good.length)} of the field, between ${axisText(data.x, Math.min(...across))} and ${axisText(data.x, Math.max(...across))}`;
  const missing = told.length - good.length;
  const left = missing === 0 ? '' : ` ${missing} values are not known and drawn as the lowest.`;
  return `${sentence(data.figure.label)} at most ${withUnit(best.value, data.figure)} (${at}); ${span}.${left}`;
}

const gridTable = (data: WhereWhenData) => ({
  columns: [
    { key: 'x', label: data.x.label, unit: data.x.unit },
    { key: 'y', label: data.y.label, unit: data.y.unit },
    { key: 'value', label: data.figure.label, unit: data.figure.unit },
  ],
  rows: data.y.values.flatMap((y, j) =>
    data.x.values.map((x, i) => ({
      x: known(x),
      y: known(y),
      value: known(data.values[j * data.x.values.length + i]),
    })),
  ),
});
