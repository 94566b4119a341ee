import type { Outcome } from '@noonwing/engine';
import { type LimitsAnswer, limitWarnings } from '@noonwing/verdict/limits';
import { jsonQuantity } from '../output/json.js';
import { wrapped } from '../output/table.js';
import { problemLines } from './aircraft-lines.js';
import { problemData } from './day-json.js';

export const speedText = (value: number): string => `${value.toFixed(1)} m/s`;

/** The limit speed with its reason, in one sentence. */
export function limitFinding({ report, airspeed, undriven }: LimitsAnswer): string {
  const first = report.limits[0];
  if (first === undefined) return `No limit was found up to ${speedText(report.searchedTo)}.`;
  const margin = `${(first.low / airspeed).toFixed(1)} times the ${speedText(airspeed)} ${undriven ? 'at which it was looked for, since it cannot fly level as it is' : 'flown'}`;
  return `Limit speed ${speedText(first.low)}, ${margin}: ${first.words}.`;
}

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
