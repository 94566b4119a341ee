import type { Band, DayResult, LeverResult, SkyResult } from './answer.js';
import { clockText, durationText } from './clock.js';

/** '17.7 W', '152 W': a tenth of a watt below 100 W. */
export const wattsText = (watts: number): string => `${watts.toFixed(Math.abs(watts) < 100 ? 1 : 0)} W`;

export const percentText = (share: number): string => `${Math.round(100 * share)} %`;

/** Half the width of a band in minutes. band - [h] */
const spreadMinutes = (band: Band): number => Math.max(1, Math.round(30 * (band.high - band.low)));

const hasSpread = (band: Band): boolean => band.high > band.low;

/** 'clear sky', 'thin cloud', 'broken cloud', 'overcast', '70 % of clear light'. */
export const skyTitle = (sky: Pick<SkyResult, 'name'>): string => (sky.name === 'clear' ? 'clear sky' : sky.name);

/** The answer under one sky: from when to when, or that not. */
export function carriedText(sky: SkyResult): string {
  const { start, end, windows } = sky;
  if (start === undefined || end === undefined) return 'not carried';
  const from = `carried ${clockText(start.value)} to ${clockText(end.value)}`;
  return windows.length > 1 ? `${from}, the longest of ${windows.length} stretches` : from;
}

/** How sure the ends are: 'start ± 16 min, end ± 16 min'. */
export function edgesText(sky: SkyResult): string {
  const { start, end } = sky;
  if (start === undefined || end === undefined || !(hasSpread(start) || hasSpread(end))) return '';
  return `start ± ${spreadMinutes(start)} min, end ± ${spreadMinutes(end)} min`;
}

const between = (band: Band, text: (value: number) => string): string =>
  hasSpread(band) ? ` (${text(band.low)} to ${text(band.high)})` : '';

export function enduranceText(sky: SkyResult, day: Pick<DayResult, 'horizon' | 'hasBattery'>): string {
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

export function lowestChargeText(sky: SkyResult): string {
  const charge = `${percentText(sky.lowestCharge.value)}${between(sky.lowestCharge, percentText)}`;
  return sky.emptyAt === undefined
    ? `${charge} at ${clockText(sky.lowestChargeAt)}`
    : `${charge} where the battery gives out`;
}

/** What stands in the way of more, under one sky. */
export function limitText(sky: SkyResult, day: Pick<DayResult, 'hasBattery' | 'launch'>): string {
  const { end, emptyAt, bestRatio } = sky;
  if (end === undefined) {
    const best = `at best, ${clockText(sky.bestRatioAt)}, the cells give ${wattsText(sky.bestIncome)} and level flight takes ${wattsText(sky.bestNeed)}`;
    return sky.bestIncome > 0 ? `the light: ${best}` : 'the light: the cells give nothing on this day';
  }
  if (!day.hasBattery) return 'the hours of sun: there is no battery to fly on';
  if (emptyAt === undefined)
    return `nothing within the days computed; at best the sun gives ${bestRatio.value.toFixed(1)} times what level flight takes`;
  if (emptyAt < end.value)
    return `the battery: empty at ${clockText(emptyAt)}, before the sun has carried the day through`;
  const after = `the battery: empty ${durationText(emptyAt - end.value)} after sunlight stops carrying`;
  return sky.fullBeforeDusk.value > 0.5
    ? `${after}; a larger one would fill too, as this one is full ${durationText(sky.fullBeforeDusk.value)} before that`
    : `${after}; the sun does not fill it`;
}

/** Words for the whole answer, as a screen reader should hear them first. */
export function summaryText(day: DayResult): string {
  if (day.skies.length === 0)
    return `No verdict for ${day.aircraft}: ${day.problems[0]?.text ?? 'something is missing'}.`;
  const skies = day.skies.map((sky) => `${skyTitle(sky)}: ${carriedText(sky)}`).join('; ');
  return `${day.aircraft}, ${day.date}. ${skies}.`;
}

/** Whether the uncertainty of the answer is known. */
export const isSure = (day: Pick<DayResult, 'samples'>): boolean => day.samples > 0;

const signed = (value: number, text: string): string => `${value < 0 ? '−' : '+'}${text}`;

const signedDuration = (hours: number): string =>
  Math.abs(hours) < 1 / 120 ? 'unchanged' : signed(hours, durationText(Math.abs(hours)));

/** What a change brings: 'carried +27 min, endurance unchanged, income over need +0.14'. Durations in h. */
export const changeText = (payoff: NonNullable<LeverResult['payoff']>): string =>
  `carried ${signedDuration(payoff.carried)}, endurance ${signedDuration(payoff.endurance)}, income over need ${signed(payoff.solarRatio, Math.abs(payoff.solarRatio).toFixed(2))}`;
