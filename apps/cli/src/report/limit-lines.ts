import type { Outcome } from '@noonwing/engine';
import { type LimitsAnswer, limitWarnings } from '@noonwing/verdict/limits';
import { jsonQuantity } from '../output/json.js';
import { wrapped } from '../output/table.js';
import { problemLines, warningLines } from './aircraft-lines.js';
import { problemData } from './day-json.js';

export const speedText = (value: number): string => `${value.toFixed(1)} m/s`;

/** The limit speed with its reason, in one sentence. */
export function limitFinding({ report, airspeed }: LimitsAnswer): string {
  const first = report.limits[0];
  if (first === undefined) return `No limit was found up to ${speedText(report.searchedTo)}.`;
  const margin = `${(first.low / airspeed).toFixed(1)} times the ${speedText(airspeed)} flown`;
  return `Limit speed ${speedText(first.low)}, ${margin}: ${first.words}.`;
}

/** What a day says of the limits: the sentence, and that it is flown too close to them. */
export const limitSummary = (found: Outcome<LimitsAnswer>): readonly string[] =>
  found.ok
    ? [...wrapped(limitFinding(found.value), 100, ''), ...warningLines(limitWarnings(found.value))]
    : problemLines([found]);

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
