import { fixed } from '../../core/decimal.js';
import type { Band, LeverView, SkyView, VerdictView } from '../../core/view.js';
import type { LimitsView } from '../../core/view-limits-types.js';
import { clockText, durationText } from './clock.js';

/** '17.7 W', '152 W': a tenth of a watt below 100 W. */
export const wattsText = (watts: number): string => `${fixed(watts, Math.abs(watts) < 100 ? 1 : 0)} W`;

export const percentText = (share: number): string => `${Math.round(100 * share)} %`;

/** Half the width of a band in minutes. band - [h] */
const spreadMinutes = (band: Band): number => Math.max(1, Math.round(30 * (band.high - band.low)));

const hasSpread = (band: Band): boolean => band.high > band.low;

/** 'clear sky', 'thin cloud', 'broken cloud', 'overcast', '70 % of clear light'. */
export const skyTitle = (sky: Pick<SkyView, 'name'>): string => (sky.name === 'clear' ? 'clear sky' : sky.name);

/** End of the first day [h]. */
const dayEnd = 24;

/** The answer under one sky: from when to when on the first day, or that not. */
export function carriedText({ start, end, windows }: Pick<SkyView, 'start' | 'end' | 'windows'>): string {
  if (start === undefined || end === undefined) return 'not carried';
  const from = `carried ${clockText(start.value)} to ${clockText(end.value)}`;
  const stretches = windows.filter((window) => window.start < dayEnd).length;
  return stretches > 1 ? `${from}, the longest of ${stretches} stretches` : from;
}

/** How sure the ends are: 'start within 16 min, end within 34 min of that, about 9 times in 10'. */
export function edgesText({ start, end }: Pick<SkyView, 'start' | 'end'>): string {
  if (start === undefined || end === undefined || !(hasSpread(start) || hasSpread(end))) return '';
  const [first, last] = [spreadMinutes(start), spreadMinutes(end)];
  const wide = Math.max(first, last);
  // A tenth of a spread is nothing that anybody plans by.
  return Math.abs(first - last) <= 0.1 * wide
    ? `start and end to within ${wide} min either way`
    : `start to within ${first} min either way, end ${last} min`;
}

const between = (band: Band, text: (value: number) => string): string =>
  hasSpread(band) ? ` (${text(band.low)} to ${text(band.high)})` : '';

type Endurance = Pick<SkyView, 'endurance' | 'emptyAt'>;

export function enduranceText(sky: Endurance, day: Pick<VerdictView, 'horizon' | 'hasBattery'>): string {
  if (!day.hasBattery) return 'no battery: it flies only while sunlight carries';
  // What lasts as long as the days computed might last longer.
  const lasting = (hours: number): string =>
    hours >= day.horizon - 1e-6 ? 'more than the days computed' : durationText(hours);
  if (sky.emptyAt === undefined) {
    const low =
      sky.endurance.low < day.horizon - 1e-6 ? `; at the low end empty after ${durationText(sky.endurance.low)}` : '';
    return `still flying at the end of the days computed, ${durationText(day.horizon)} after launch${low}`;
  }
  return `${durationText(sky.endurance.value)}${between(sky.endurance, lasting)} after launch, until ${clockText(sky.emptyAt)}`;
}

export function lowestChargeText(sky: Pick<SkyView, 'lowestCharge' | 'lowestChargeAt' | 'emptyAt'>): string {
  const charge = `${percentText(sky.lowestCharge.value)}${between(sky.lowestCharge, percentText)}`;
  return sky.emptyAt === undefined
    ? `${charge} at ${clockText(sky.lowestChargeAt)}`
    : `${charge} where the battery gives out`;
}

/** Income of a sky and need at the hour when their ratio is best [W]. */
export function atBest(sky: Pick<SkyView, 'bestRatioAt' | 'income'>, day: Pick<VerdictView, 'times' | 'need'>) {
  const step = stepAt(day.times, sky.bestRatioAt);
  return { income: sky.income[step] ?? 0, need: day.need[step] ?? 0 };
}

/** The step of a course that holds an hour: ends of the steps are given. */
export function stepAt(times: Float64Array, hour: number): number {
  let low = 0;
  let high = Math.max(0, times.length - 2);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (times[middle]! <= hour) low = middle;
    else high = middle - 1;
  }
  return low;
}

type Limits = Pick<SkyView, 'end' | 'emptyAt' | 'bestRatio' | 'bestRatioAt' | 'fullBeforeDusk' | 'income'>;

/** What stands in the way of more, under one sky. */
export function limitText(sky: Limits, day: Pick<VerdictView, 'hasBattery' | 'times' | 'need'>): string {
  const { end, emptyAt, bestRatio } = sky;
  if (end === undefined) {
    const { income, need } = atBest(sky, day);
    const best = `at best, ${clockText(sky.bestRatioAt)}, the cells give ${wattsText(income)} and level flight takes ${wattsText(need)}`;
    return income > 0 ? `the light: ${best}` : 'the light: the cells give nothing on this day';
  }
  if (!day.hasBattery) return 'the hours of sun: there is no battery to fly on';
  if (emptyAt === undefined)
    return `nothing within the days computed; at best the sun gives ${fixed(bestRatio.value, 1)} times what level flight takes`;
  if (emptyAt < end.value)
    return `the battery: empty at ${clockText(emptyAt)}, before the sun has carried the day through`;
  const after = `the battery: empty ${durationText(emptyAt - end.value)} after sunlight stops carrying`;
  return sky.fullBeforeDusk.value > 0.5
    ? `${after}; a larger one would fill too, as this one is full ${durationText(sky.fullBeforeDusk.value)} before that`
    : `${after}; the sun does not fill it`;
}

/** Words for the whole answer, as a screen reader should hear them first. */
export function summaryText(day: VerdictView): string {
  const problem = day.findings.find(({ severity }) => severity === 'problem');
  if (day.skies.length === 0) return `No verdict for ${day.aircraft}: ${problem?.text ?? 'something is missing'}.`;
  const skies = day.skies.map((sky) => `${skyTitle(sky)}: ${carriedText(sky)}`).join('; ');
  return `${day.aircraft}. ${day.canFly ? '' : `It cannot fly as described: ${problem?.text ?? ''}. `}${skies}.`;
}

const signed = (value: number, text: string): string => `${value < 0 ? '−' : '+'}${text}`;

type Payoff = NonNullable<LeverView['payoff']>;

const changed = (what: string, seconds: number, same: string): string => {
  const hours = seconds / 3600;
  return Math.abs(hours) < 1 / 120 ? same : `${what} ${durationText(Math.abs(hours))} ${hours < 0 ? 'less' : 'longer'}`;
};

/** 'income over need +0.14' */
const ratioText = ({ solarRatio }: Payoff): string =>
  Math.abs(solarRatio) < 0.005
    ? 'income over need unchanged'
    : `income over need ${signed(solarRatio, fixed(Math.abs(solarRatio), 2))}`;

/** What 'income over need' says, for where it stands first. */
export const incomeOverNeedHint =
  'Income over need: the power that the cells bring to the battery over the power that level flight and loads take; from 1 on sunlight carries it.';

/** What a change brings: 'carried 27 min longer, endurance as before, income over need +0.14'. Payoffs come in seconds. */
export const payoffText = (payoff: Payoff): string =>
  `${changed('carried', payoff.carried, 'hours carried as before')}, ${changed('flies', payoff.endurance, 'endurance as before')}, ${ratioText(payoff)}`;

/** The same where there is little room: 'carried 27 min longer, income over need +0.14'. */
export const briefPayoff = (payoff: Payoff): string =>
  `${changed('carried', payoff.carried, 'hours carried as before')}, ${ratioText(payoff)}`;

/** The limit speed beside the speed flown, with its reason: '21.3 m/s, 2.7 times the speed flown: ...'. speed - writes an airspeed */
export function limitSpeedText(
  {
    limits,
    airspeed,
    searchedTo,
    undriven,
    warm,
  }: Pick<LimitsView, 'limits' | 'airspeed' | 'searchedTo' | 'undriven' | 'warm'>,
  speed: (value: number) => string,
): string {
  const [first] = limits;
  if (first === undefined) return `none found up to ${speed(searchedTo)}`;
  const against = undriven
    ? `looked for at ${speed(airspeed)}, since it cannot fly level as it is`
    : first.low < airspeed
      ? `below the ${speed(airspeed)} flown`
      : `${fixed(first.low / airspeed, 1)} times the speed flown`;
  const hot = warm?.flight.first?.low;
  const inSun = hot === undefined || hot > first.low - 0.05 ? '' : ` (${speed(hot)} in the noon sun)`;
  return `${speed(first.low)}${inSun}, ${against}: ${first.words}`;
}
