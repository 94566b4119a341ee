import { nice, ticks } from 'd3-array';
import type { PlainScale, Point, ScaleKind, Span } from './model.js';
import { clean, dayOfYearText, drawable, hourText, latitudeText, monthStarts, numberText } from './number.js';

/** A scale with what a drawing does with it; `plain` is what it hands on. */
export interface Scale {
  readonly plain: PlainScale;
  /** Value to px, held inside the range. */
  readonly at: (value: number) => number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
}

/** px of a value on a plain scale, also beyond its ends. */
export function positionOn(scale: PlainScale, value: number): number {
  const [low, high] = scale.domain;
  return scale.range[0] + ((value - low) / (high - low)) * (scale.range[1] - scale.range[0]);
}

/** Value at a px of a plain scale. */
export function valueOn(scale: PlainScale, position: number): number {
  const [from, to] = scale.range;
  if (from === to) return scale.domain[0];
  return scale.domain[0] + ((position - from) / (to - from)) * (scale.domain[1] - scale.domain[0]);
}

/** A domain around the values that has a width, whatever they are. zero - zero belongs to it */
export function domainOf(values: Iterable<number | undefined>, zero = false): Span {
  let low = zero ? 0 : Number.POSITIVE_INFINITY;
  let high = zero ? 0 : Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (!drawable(value)) continue;
    low = Math.min(low, clean(value));
    high = Math.max(high, clean(value));
  }
  if (low > high) return [0, 1];
  const size = Math.max(Math.abs(low), Math.abs(high));
  if (high - low > 1e-6 * size) return [low, high];
  if (size === 0) return [0, 1];
  return [low - 0.1 * size, high + 0.1 * size];
}

export interface ScaleSetup {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly domain: Span;
  readonly range: readonly [number, number];
  readonly kind?: ScaleKind;
  /** Widened to round numbers. */
  readonly nice?: boolean;
  /** px that a tick with its label needs. */
  readonly room?: number;
}

export function scaleOf(setup: ScaleSetup): Scale {
  const { id, label, unit, range, kind = 'linear', room = 56 } = setup;
  const count = Math.max(2, Math.min(10, Math.floor(Math.abs(range[1] - range[0]) / room)));
  const domain = setup.nice ? nice(...setup.domain, count) : setup.domain;
  const plain: PlainScale = { id, kind, label, unit, domain: [domain[0], domain[1]], range };
  const held = (value: number): number => Math.max(domain[0], Math.min(domain[1], value));
  return { plain, at: (value) => positionOn(plain, held(value)), ticks: ticksOf(plain, count, room) };
}

function ticksOf(scale: PlainScale, count: number, room: number): Scale['ticks'] {
  const [low, high] = scale.domain;
  if (scale.kind === 'hour') return hourTicks(low, high, count);
  if (scale.kind === 'day of year') return monthTicks(scale, room);
  return ticks(low, high, count).map((value) => ({
    value,
    text: scale.kind === 'latitude' ? latitudeText(value) : numberText(value),
  }));
}

function hourTicks(low: number, high: number, count: number): Scale['ticks'] {
  const step =
    [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48, 96, 240].find((each) => (high - low) / each <= count) ?? (high - low) / 2;
  const ticks = [];
  for (let value = Math.ceil(low / step) * step; value <= high + 1e-9 && ticks.length < 40; value += step) {
    const text = step >= 1 && high <= 24 ? String(Math.round(value)) : hourText(value).replace(/ .*/, '');
    ticks.push({ value, text });
  }
  return ticks;
}

function monthTicks(scale: PlainScale, room: number): Scale['ticks'] {
  const [low, high] = scale.domain;
  const inside = monthStarts.filter(({ day }) => day >= low && day <= high);
  if (inside.length < 2) {
    return [low, high].map((value) => ({ value, text: dayOfYearText(value) }));
  }
  const width = Math.abs(positionOn(scale, inside[1]!.day) - positionOn(scale, inside[0]!.day));
  const every = Math.max(1, Math.ceil(Math.min(room, 34) / Math.max(1, width)));
  return inside.filter((_, i) => i % every === 0).map(({ day, name }) => ({ value: day, text: name }));
}

/** Points that can be drawn, in order. */
export const drawablePoints = (points: readonly Point[]): readonly Point[] =>
  points.filter(([x, y]) => drawable(x) && drawable(y)).map(([x, y]) => [clean(x), clean(y)] as const);

/** The same by increasing x, for reading. */
export const byX = (points: readonly Point[]): readonly Point[] =>
  [...drawablePoints(points)].sort((a, b) => a[0] - b[0]);

/** y between the points at an x; undefined outside them. */
export function interpolated(points: readonly Point[], x: number): number | undefined {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined || x < first[0] || x > last[0]) return undefined;
  let low = 0;
  let high = points.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (points[middle]![0] <= x) low = middle;
    else high = middle;
  }
  const [x0, y0] = points[low]!;
  const [x1, y1] = points[high]!;
  return x1 === x0 ? y0 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
