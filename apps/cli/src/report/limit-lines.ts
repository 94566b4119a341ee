import type { Outcome } from '@noonwing/engine';
import type { Limit } from '@noonwing/engine/aeroelastic';
import type { QuantityWords, ToldLimit, ToldLimits, ToldWarmth } from '@noonwing/verdict/limit-words';
import { type LimitsAnswer, limitWarnings } from '@noonwing/verdict/limits';
import type { WarmLimit } from '@noonwing/verdict/warm-limits';
import { jsonQuantity } from '../output/json.js';
import { wrapped } from '../output/table.js';
import { problemLines } from './aircraft-lines.js';
import { problemData } from './day-json.js';

export const speedText = (value: number): string => `${value.toFixed(1)} m/s`;

/** Quantities as lines of the command line write them. */
export const plainWords: QuantityWords = {
  speed: speedText,
  height: (value) => `${value.toFixed(0)} m`,
  angle: (value) => `${((180 * value) / Math.PI).toFixed(0)} deg`,
  turn: (value) => `${((180 * value) / Math.PI).toFixed(1)} deg`,
  temperature: (kelvin) => `${(kelvin - 273.15).toFixed(0)} C`,
};

const toldLimit = ({ kind, words, airspeed, low, high, frequency }: Limit): ToldLimit => ({
  ...{ kind, words, airspeed, low, high },
  ...(frequency === undefined ? {} : { frequency: frequency / (2 * Math.PI) }),
});

/** The answer as its sentences need it. */
export const toldLimits = ({ report, airspeed, undriven }: LimitsAnswer): ToldLimits => ({
  limits: report.limits.map(toldLimit),
  airspeed,
  undriven,
  searchedTo: report.searchedTo,
});

/** The warm aircraft as its sentences need it. */
export const toldWarmth = ({ faces, softer, first }: WarmLimit): ToldWarmth => ({
  ...{ top: faces.upper, bottom: faces.lower, softer },
  ...(first === undefined ? {} : { first: toldLimit(first) }),
});

/** What a day adds about all the limits; that it is flown too close to them stands in its verdict. */
export const limitSummary = (found: Outcome<LimitsAnswer>): readonly string[] =>
  found.ok ? limitRows(found.value) : problemLines([found]);

const limitRows = ({ report }: LimitsAnswer): readonly string[] =>
  report.limits.length === 0
    ? [`No limit was found up to ${speedText(report.searchedTo)}.`]
    : report.limits.flatMap(({ low, words }) => wrapped(`from ${speedText(low)}: ${words}`));

/** The same for programs. */
export function limitSummaryData(found: Outcome<LimitsAnswer>) {
  if (!found.ok) return { problems: problemData([found]) };
  const [first] = found.value.report.limits;
  return {
    searchedTo: jsonQuantity(found.value.report.searchedTo, 'speed'),
    ...(first === undefined
      ? {}
      : { limitSpeed: jsonQuantity(first.low, 'speed'), kind: first.kind, words: first.words }),
    assumed: found.value.structure.assumed,
    warnings: limitWarnings(found.value).map(({ message }) => message),
  };
}
