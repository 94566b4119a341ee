import { fixed } from '../../../core/decimal.js';
import { lengthWords, massWords, type Said } from '../../../core/said.js';
import type { LayoutStringsView, LayoutsView, LeverFiguresView, LeversView, LeverView } from '../../../core/view.js';
import { durationText } from '../../shell/clock.js';
import { skyTitle } from '../../shell/words.js';

const wattHour = 3600;

/** '471', in Wh. */
const wattHours = (joules: number): string => fixed(joules / wattHour, 0);

/** '+13 Wh' from what both say once rounded; empty where that is the same. */
function gained(to: number, from: number, digits: number, unit = ''): string {
  const by = Number(to.toFixed(digits)) - Number(from.toFixed(digits));
  return by === 0 ? '' : `${by < 0 ? '−' : '+'}${fixed(Math.abs(by), digits)}${unit}`;
}

/** Balance restored: 'battery 7 mm aft', 'battery 25 mm forward and 9 g of ballast', 'nothing'. */
export function balanceCostWords(balance: LeverView['balance'], said: Said): string {
  const { battery = 0, ballast = 0 } = balance ?? {};
  const moved =
    Math.abs(battery) < 0.0005
      ? []
      : [`battery ${lengthWords(Math.abs(battery), said)} ${battery > 0 ? 'aft' : 'forward'}`];
  const added =
    Math.abs(ballast) < 0.0005
      ? []
      : [`${massWords(Math.abs(ballast), said)} ${ballast > 0 ? 'more' : 'less'} ballast`];
  return [...moved, ...added].join(' and ') || 'nothing';
}

/** '2 strings of 12 cells at 6.2 V, 1 string of 3 × 8 cells at 4.1 V'. */
export const stringsWords = (strings: readonly LayoutStringsView[]): string =>
  strings
    .map(({ count, cells, parallel, voltage }) => {
      const of = `of ${parallel > 1 ? `${parallel} × ` : ''}${cells} cells at ${fixed(voltage, 1)} V`;
      return `${count} ${count === 1 ? 'string' : 'strings'} ${of}`;
    })
    .join(', ');

/** What a change or layout brings and costs, in words of a table. */
export interface RankedRow {
  readonly lever: LeverView;
  /** Energy of the day, income over need, time carried, mass, what the balance takes. */
  readonly figures: readonly string[];
  readonly strings?: string;
}

const noticed = { carried: 30, mass: 5e-4 };

/** A figure and, in the next line, its change; alone where nothing is changed. */
const changed = (isNow: boolean, figure: string, change: string): string =>
  isNow ? figure : `${figure}\n(${change === '' ? 'as now' : change})`;

function figuresOf(base: LeverFiguresView, { after, balance, edits }: LeverView, said: Said): readonly string[] {
  const now = edits.length === 0;
  const { income, solarRatio, carried, mass } = after!;
  const [longer, heavier] = [carried - base.carried, mass - base.mass];
  const time = `${durationText(Math.abs(longer) / 3600)} ${longer < 0 ? 'less' : 'more'}`;
  const grams = `${heavier < 0 ? '−' : '+'}${massWords(Math.abs(heavier), said)}`;
  return [
    changed(now, `${wattHours(income)} Wh`, gained(income / wattHour, base.income / wattHour, 0, ' Wh')),
    changed(now, fixed(solarRatio, 2), gained(solarRatio, base.solarRatio, 2)),
    changed(now, durationText(carried / 3600), Math.abs(longer) < noticed.carried ? '' : time),
    changed(now, massWords(mass, said), Math.abs(heavier) < noticed.mass ? '' : grams),
    now ? '' : balanceCostWords(balance, said),
  ];
}

/** Rows of those that can be had, in their order. */
export const rankedRows = (
  base: LeverFiguresView,
  levers: readonly (LeverView & { readonly strings?: readonly LayoutStringsView[] })[],
  said: Said,
): readonly RankedRow[] =>
  levers
    .filter(({ after }) => after !== undefined)
    .map((lever) => ({
      lever,
      figures: figuresOf(base, lever, said),
      ...(lever.strings === undefined ? {} : { strings: stringsWords(lever.strings) }),
    }));

const isIn = (path: string, group: string): boolean => path === group || path.startsWith(`${group}.`);

/** Changes of the array and of the fins that shade it, most energy of the day first; those that cannot be had apart. */
export function arrayChanges(view: LeversView, fins: readonly string[]) {
  const own = view.levers.filter(({ edits }) =>
    edits.some(
      ({ path, why }) =>
        why === 'the change' && (isIn(path, 'array') || fins.some((fin) => isIn(path, `surfaces.${fin}`))),
    ),
  );
  const can = own.filter(({ after, problem }) => after !== undefined && problem === undefined);
  return {
    can: [...can].sort((a, b) => b.after!.income - a.after!.income),
    cannot: own.filter(({ problem }) => problem !== undefined),
  };
}

/** Energies within half a watt hour are the same. */
const least = wattHour / 2;
const under = (sky: string): string =>
  `over the day under ${sky === 'clear' ? 'a clear sky' : skyTitle({ name: sky })}`;

/** Which change gives most, in one sentence. */
export function changesWords({ base, sky }: LeversView, can: readonly LeverView[]): string {
  const [best] = can;
  const gain = (best?.after?.income ?? 0) - base.income;
  if (best === undefined || gain < least)
    return `No change of cells, strings, converters or fins that was tried gives more than the ${wattHours(base.income)} Wh ${under(sky)}.`;
  return `Most energy ${under(sky)}: ${best.label}, ${wattHours(best.after!.income)} instead of ${wattHours(base.income)} Wh.`;
}

/** Which layout gives most, in one sentence. */
export function layoutsWords({ base, layouts, sky }: LayoutsView): string {
  const can = layouts.filter(({ after }) => after !== undefined);
  const best = can.find(({ edits }) => edits.length > 0);
  const gain = (best?.after?.income ?? 0) - base.income;
  const others = can.filter(({ edits }) => edits.length > 0).length;
  if (best === undefined || gain < least)
    return `No other layout (${others} tried) gives more ${under(sky)} than the array as it is: ${wattHours(base.income)} Wh.`;
  return `Most ${under(sky)}: ${best.label}, ${wattHours(best.after!.income)} instead of ${wattHours(base.income)} Wh as it is.`;
}
