import { parseTrace } from '@noonwing/files';
import type { Verdict } from '@noonwing/verdict';
import { type ArrayReading, benchAnswer, benchSetup, readingOfRecord, withTrace } from '@noonwing/verdict/bench';
import { type LaterJob, refusedAs } from './job.js';
import type { Refusal } from './messages.js';

/** What readings of the array in the sun say, in words and plain numbers. */
export interface BenchView {
  readonly isBlamed: boolean;
  /** Most likely first. */
  readonly causes: readonly {
    readonly name: string;
    readonly words: string;
    readonly probability: number;
    readonly next?: { readonly what: string; readonly minutes: number };
  }[];
  /** Best first. */
  readonly next: readonly { readonly what: string; readonly minutes: number; readonly information: number }[];
  /** Relative standard uncertainties of the difference, largest first. */
  readonly budget: readonly { readonly what: string; readonly share: number }[];
  /** How many readings were taken together. */
  readonly readings: number;
  /** What the trace shows; absent without one. */
  readonly trace?: readonly string[];
}

/** Readings of one session lie within so many seconds of each other. */
const session = 12 * 3600;

/**
 * Diagnosis of the array readings of a design, those of the last one's session together.
 * trace - text of a current-voltage trace taken with the last reading; empty for none
 */
export function benchView({ prepared }: Verdict, trace: string): BenchView | Refusal {
  const { model, plan } = prepared;
  const records = model.complete.measured.filter((one): one is ArrayReading => one.what === 'array reading');
  const last = records.at(-1);
  const setup = benchSetup(model, plan);
  if (last === undefined || setup === undefined) {
    return refusedAs({
      reason: last === undefined ? 'there is no array reading' : 'the design has no array',
      where: 'measured',
      remedy: last === undefined ? 'write one down' : 'describe its rows of cells',
    });
  }
  const readings = records
    .filter(({ time }) => Math.abs(time - last.time) < session)
    .map((record) => readingOfRecord(record, model, plan));
  const shown: string[] = [];
  if (trace !== '') {
    const read = parseTrace(trace);
    if (!read.ok) return refusedAs(read);
    const joined = withTrace(readings.at(-1)!, read.value, setup);
    readings[readings.length - 1] = joined.reading;
    const { shortCircuitCurrent, openCircuitVoltage, maximum, warnings } = joined.figures;
    shown.push(
      `${shortCircuitCurrent.toFixed(2)} A shorted, ${openCircuitVoltage.toFixed(2)} V open, ${maximum.power.toFixed(1)} W at ${maximum.voltage.toFixed(2)} V`,
      ...warnings.map(({ message }) => message),
    );
  }
  const found = benchAnswer(model, plan, readings);
  if (found === undefined || !found.ok) return refusedAs(found ?? { reason: 'no array', where: 'array', remedy: '' });
  const { causes, next, budget, isBlamed } = found.value.diagnosis;
  return {
    isBlamed,
    causes: causes.map(({ name, words, probability, next: told }) => ({
      name,
      words,
      probability,
      ...(told === undefined ? {} : { next: { what: told.what, minutes: told.minutes } }),
    })),
    next: next.map(({ what, minutes, information }) => ({ what, minutes, information })),
    budget: budget.map((line) => ({ ...line })),
    readings: readings.length,
    ...(shown.length === 0 ? {} : { trace: shown }),
  };
}

export const answer: LaterJob<'bench'>['answer'] = async ({ trace }, ready, tools) => {
  const found = benchView(tools.central(ready), trace);
  return 'kind' in found ? found : { kind: 'bench', view: found };
};
