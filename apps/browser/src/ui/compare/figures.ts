import type { CompareData } from '@noonwing/drawing';
import { fixed } from '../../core/decimal.js';
import { lengthWords, massWords, speedWords } from '../../core/said.js';
import type { Preferences } from '../../core/state.js';
import type { PowerView, VerdictView } from '../../core/view.js';
import { confidenceText } from '../../core/words.js';
import { shownAs } from '../day/shown.js';
import { durationText } from '../shell/clock.js';
import { stageSpan } from '../shell/day-data.js';
import { carriedText, enduranceText, limitText, skyTitle, wattsText } from '../shell/words.js';

type Units = Pick<Preferences, 'units' | 'language'>;

export interface FigureRow {
  readonly what: string;
  readonly mine: string;
  readonly other: string;
  /** What A has more; empty where it is not a number. */
  readonly more: string;
}

function numberRow(
  what: string,
  mine: number | undefined,
  other: number | undefined,
  text: (value: number) => string,
): readonly FigureRow[] {
  if (mine === undefined && other === undefined) return [];
  const shown = (value: number | undefined) => (value === undefined ? 'not known' : text(value));
  const known = mine !== undefined && other !== undefined;
  const size = known ? text(Math.abs(mine - other)) : '';
  const more = !known ? '' : size === text(0) ? 'the same' : `${mine < other ? '−' : '+'}${size}`;
  return [{ what, mine: shown(mine), other: shown(other), more }];
}

/** Verdict per sky and the figures behind it, of two states. */
export function figureRows(mine: VerdictView, other: VerdictView, units: Units): readonly FigureRow[] {
  const skies = mine.skies.flatMap((sky, i): FigureRow[] => {
    const there = other.skies.find(({ name }) => name === sky.name);
    const more = numberRow('', sky.carried.value, there?.carried.value, durationText)[0]?.more ?? '';
    const sure = (one: typeof sky | undefined) =>
      one === undefined
        ? 'not computed'
        : `${carriedText(one)}${one.confidenceText === '' ? '' : `, ${confidenceText(one)}`}`;
    const endurance =
      i > 0 || there === undefined
        ? []
        : [
            {
              what: `in the air, ${skyTitle(sky)}`,
              mine: enduranceText(sky, mine),
              other: enduranceText(there, other),
              more: '',
            },
          ];
    return [{ what: skyTitle(sky), mine: sure(sky), other: sure(there), more }, ...endurance];
  });
  const [a, b] = [mine.skies[0], other.skies[0]];
  const mass = (value: number) => massWords(value, units);
  const percent = (value: number) => `${fixed(100 * value, 1)} %`;
  return [
    ...skies,
    ...numberRow('level power', mine.levelPower?.value, other.levelPower?.value, wattsText),
    ...numberRow('income over need at best', a?.bestRatio.value, b?.bestRatio.value, (value) => fixed(value, 2)),
    ...numberRow('mass', mine.balance?.mass, other.balance?.mass, mass),
    ...numberRow('airspeed flown', mine.flight?.airspeed, other.flight?.airspeed, (value) => speedWords(value, units)),
    ...numberRow('balance point', mine.balance?.balancePoint.x, other.balance?.balancePoint.x, (x) =>
      lengthWords(x, units),
    ),
    ...numberRow('static margin', mine.balance?.staticMargin, other.balance?.staticMargin, percent),
    ...(a === undefined || b === undefined
      ? []
      : [{ what: 'what limits', mine: limitText(a, mine), other: limitText(b, other), more: '' }]),
  ];
}

/** In one sentence: which of the two the sun carries longer. */
export function findingText(
  mine: VerdictView,
  other: VerdictView,
  names: { readonly a: string; readonly b: string },
): string {
  const [a, b] = [mine.skies[0], other.skies[0]];
  if (a === undefined || b === undefined) return 'One of the two has no verdict.';
  const difference = a.carried.value - b.carried.value;
  const sky = skyTitle(a);
  if (Math.abs(difference) < 1 / 60) return `Under ${sky} both are carried equally long.`;
  const [longer, shorter] = difference > 0 ? [names.a, names.b] : [names.b, names.a];
  return `Under ${sky} ${longer} is carried ${durationText(Math.abs(difference))} longer than ${shorter}.`;
}

const mostPoints = 240;

/** Income of the chosen sky through the day, and need, of both. */
export function dayCurves(
  mine: VerdictView,
  other: VerdictView,
  sky: number,
  names: { readonly a: string; readonly b: string },
): CompareData {
  const span = stageSpan(mine);
  const curves = (view: VerdictView) => {
    const { middles, need } = view;
    const inside = [...middles.keys()].filter((i) => middles[i]! >= span.start && middles[i]! <= span.end);
    const every = Math.max(1, Math.ceil(inside.length / mostPoints));
    const steps = inside.filter((_, i) => i % every === 0);
    const points = (values: ArrayLike<number>) => steps.map((i) => [middles[i]!, values[i] ?? 0] as const);
    const income = view.skies[sky]?.income ?? view.skies[0]?.income ?? [];
    return [
      { id: 'income', label: 'income', points: points(income).map(([x, y]) => [x, Math.max(0, y)] as const) },
      { id: 'need', label: 'need', points: points(need) },
    ];
  };
  return {
    question: `What comes in and what is needed, ${skyTitle(mine.skies[sky] ?? { name: 'clear' })}?`,
    x: { label: 'hour of the day', unit: '', kind: 'hour' },
    y: { label: 'power', unit: 'W' },
    a: { name: names.a, curves: curves(mine) },
    b: { name: names.b, curves: curves(other) },
  };
}

/** Level power against airspeed of both. */
export function powerCurves(
  mine: PowerView,
  other: PowerView,
  names: { readonly a: string; readonly b: string },
  units: Units,
): CompareData {
  const speed = shownAs('speed', 'airspeed', 10, units, 1);
  const curve = ({ points }: PowerView) => [
    {
      id: 'power',
      label: 'level power',
      points: points.map(({ airspeed, levelPower }) => [speed.of(airspeed), levelPower] as const),
    },
  ];
  return {
    question: 'What does level flight take?',
    x: speed.measure,
    y: { label: 'level power', unit: 'W' },
    a: { name: names.a, curves: curve(mine) },
    b: { name: names.b, curves: curve(other) },
  };
}
