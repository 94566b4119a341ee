import type { Drawing, PlainScale, PlotSeries, Reading } from './model.js';
import { dayOfYearText, hourText, latitudeText, withUnit } from './number.js';
import { interpolated, positionOn, valueOn } from './scale.js';

/**
 * What the curves of a drawing say at an x: for a cursor drawn by the page and for words.
 * @param x - in the unit of the horizontal scale
 * @param scale - id of the horizontal scale, where a drawing has several panels; default "x"
 * @returns one reading per curve that reaches there, in drawing order
 */
export function cursorAt(drawing: Pick<Drawing, 'series' | 'scales'>, x: number, scale = 'x'): readonly Reading[] {
  const xScale = drawing.scales.find(({ id }) => id === scale);
  if (xScale === undefined || !Number.isFinite(x)) return [];
  return drawing.series.flatMap((series) => {
    const yScale = drawing.scales.find(({ id }) => id === series.yScale);
    const value = series.xScale === scale ? valueAt(series, x) : undefined;
    if (yScale === undefined || value === undefined) return [];
    const { id, label, unit } = series;
    const at = [positionOn(xScale, x), positionOn(yScale, value)] as const;
    return [{ id, label, value, unit, text: `${label} ${withUnit(value, series)}`, at }];
  });
}

function valueAt(series: PlotSeries, x: number): number | undefined {
  if (!series.stepped) return interpolated(series.points, x);
  const last = series.points.at(-1);
  if (last === undefined || x > last[0]) return undefined;
  return series.points.findLast((point) => point[0] <= x)?.[1];
}

/** The horizontal scale under a point of the drawing and the value there, for a pointer; undefined outside all plots. */
export function pointedAt(
  drawing: Pick<Drawing, 'scales' | 'series'>,
  at: { readonly x: number; readonly y: number },
): { readonly scale: string; readonly x: number } | undefined {
  const find = (id: string) => drawing.scales.find((scale) => scale.id === id);
  for (const { xScale, yScale } of drawing.series) {
    const [x, y] = [find(xScale), find(yScale)];
    if (x !== undefined && y !== undefined && holds(x, at.x) && holds(y, at.y))
      return { scale: xScale, x: valueOn(x, at.x) };
  }
  return undefined;
}

const holds = ({ range }: PlainScale, position: number): boolean =>
  position >= Math.min(...range) && position <= Math.max(...range);

/** The x of a cursor as words, by the kind of its scale: "09:45", "21 Jun", "8.4 m/s". */
export function cursorText(scale: PlainScale, x: number): string {
  if (scale.kind === 'hour') return hourText(x);
  if (scale.kind === 'day of year') return dayOfYearText(x);
  if (scale.kind === 'latitude') return latitudeText(x);
  return withUnit(x, scale);
}

/**
 * The next x of a cursor moved by keys: one step of a hundredth of the axis, rounded to a plain number, held inside.
 * @param steps - so many steps, negative to the left; a page moves by 10 with the large keys
 */
export function cursorStep(scale: PlainScale, x: number, steps: number): number {
  const [low, high] = scale.domain;
  const raw = (high - low) / 100;
  const step =
    scale.kind === 'hour' ? 1 / 12 : scale.kind === 'day of year' ? 1 : 10 ** Math.floor(Math.log10(raw) + 0.5);
  const next = (Math.round(x / step) + steps) * step;
  return Math.min(high, Math.max(low, Number(next.toPrecision(12))));
}
