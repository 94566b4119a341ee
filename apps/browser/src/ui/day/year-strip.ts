import type { SweepView } from '../../core/view.js';

/** What a date brings, by the sweep over the year. */
export interface DateFigure {
  /** Time that sunlight carries [h]. */
  readonly carried: number;
  /** Best income over need of the day. */
  readonly best: number;
}

export const daysInMonth = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

/** Day of the year from 1. */
export const dayOfYear = (date: { readonly year: number; readonly month: number; readonly day: number }): number =>
  Math.round((Date.UTC(date.year, date.month - 1, date.day) - Date.UTC(date.year, 0, 1)) / 86_400_000) + 1;

/** Length of what lies at or above 1 between two neighbouring values, the course between them taken as straight. */
function shareAbove(a: number, b: number): number {
  if (a >= 1 && b >= 1) return 1;
  if (a < 1 && b < 1) return 0;
  return a >= 1 ? (a - 1) / (a - b) : (b - 1) / (b - a);
}

/** Time carried and best ratio of one computed date. */
function figureOf(ratios: Float64Array, hours: Float64Array): DateFigure {
  let [carried, best] = [0, 0];
  for (let i = 0; i < ratios.length; i++) {
    best = Math.max(best, ratios[i]!);
    if (i > 0) carried += shareAbove(ratios[i - 1]!, ratios[i]!) * (hours[i]! - hours[i - 1]!);
  }
  return { carried, best };
}

/** Figures of the dates that were computed, by day of the year. */
export function dateFigures(sweep: SweepView): readonly (DateFigure & { readonly day: number })[] {
  const { days, across, solarRatio } = sweep;
  return [...days].map((day, i) => ({
    day,
    ...figureOf(solarRatio.subarray(i * across.length, (i + 1) * across.length), across),
  }));
}

/** Figure of any day of the year, straight between the dates computed. */
export function figureOn(figures: ReturnType<typeof dateFigures>, day: number): DateFigure | undefined {
  const [first, last] = [figures[0], figures.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  if (day <= first.day) return first;
  if (day >= last.day) return last;
  const next = figures.findIndex((one) => one.day >= day);
  const [a, b] = [figures[next - 1]!, figures[next]!];
  const share = (day - a.day) / (b.day - a.day);
  return { carried: a.carried + share * (b.carried - a.carried), best: a.best + share * (b.best - a.best) };
}

export interface MonthFigure extends DateFigure {
  /** 1 to 12 */
  readonly month: number;
}

/** The middle of each month. */
export const monthFigures = (figures: ReturnType<typeof dateFigures>, year: number): readonly MonthFigure[] =>
  Array.from({ length: 12 }, (_, i) => {
    const found = figureOn(figures, dayOfYear({ year, month: i + 1, day: 15 }));
    return { month: i + 1, carried: found?.carried ?? 0, best: found?.best ?? 0 };
  });

/** Stretches of the year within a tenth of the best date, as first and last day; empty where nothing is carried. */
export function bestStretch(
  figures: ReturnType<typeof dateFigures>,
): { readonly from: number; readonly to: number } | undefined {
  const most = figures.reduce((best, one) => Math.max(best, one.carried), 0);
  if (most <= 0) return undefined;
  const good = figures.filter(({ carried }) => carried >= 0.9 * most).map(({ day }) => day);
  const middle = good.findIndex((day, i) => i > 0 && day - good[i - 1]! > 60);
  // South of the equator the best time runs over the turn of the year.
  return middle < 0 ? { from: good[0]!, to: good.at(-1)! } : { from: good[middle]!, to: good[middle - 1]! };
}

/** The date that arrow keys lead to; the day stays inside its month, months roll into the next year. */
export function movedDate(
  date: { readonly year: number; readonly month: number; readonly day: number },
  by: { readonly days?: number; readonly months?: number },
): { readonly year: number; readonly month: number; readonly day: number } {
  const { days = 0, months = 0 } = by;
  const first = new Date(Date.UTC(date.year, date.month - 1 + months, 1));
  const [year, month] = [first.getUTCFullYear(), first.getUTCMonth() + 1];
  const day = Math.min(date.day, daysInMonth(year, month));
  const moved = new Date(Date.UTC(year, month - 1, day + days));
  return { year: moved.getUTCFullYear(), month: moved.getUTCMonth() + 1, day: moved.getUTCDate() };
}
