import { fixed } from '../../core/decimal.js';
import { readingOfDesign } from '../../core/reading.js';
import { lengthWords, massWords } from '../../core/said.js';
import type { Preferences } from '../../core/state.js';
import type { VerdictView } from '../../core/view.js';
import { carriedText, skyTitle, wattsText } from '../shell/words.js';
import type { FileRecord } from './record.js';

type Units = Pick<Preferences, 'units' | 'language'>;

/** The stage of the computation that a record corrects. */
const stages: Readonly<Record<string, string>> = {
  'motor run': 'drive',
  'array reading': 'array',
  'level power': 'level power',
  mass: 'mass',
  'balance point': 'balance',
};

export interface Outcome {
  /** What was read and what the model expected. */
  readonly words: string;
  /** '+3.2 % ± 2 %', with what the uncertainty is of. */
  readonly difference?: string;
}

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${fixed(Math.abs(value), digits)}`;

/** A relative difference and its standard uncertainty, in per cent. */
export function percentWords(share: number, sigma?: number): string {
  const [value, spread] = [100 * share, sigma === undefined ? undefined : 100 * sigma];
  const digits = Math.abs(value) < 10 && (spread === undefined || spread < 3) ? 1 : 0;
  return `${signed(value, digits)} %${spread === undefined ? '' : ` ± ${fixed(spread, digits)} %`}`;
}

/** Relative standard uncertainty of the readings of a record, usual instruments where the file says nothing. */
export function readingSigma(design: string, record: FileRecord): number | undefined {
  const found = readingOfDesign(design).aircraft?.measured.findLast(({ what }) => what === record.what);
  if (found === undefined || !record.counts) return undefined;
  const share = (of: { readonly value: number; readonly sigma?: number | undefined }) =>
    of.value === 0 ? 0 : Math.abs((of.sigma ?? 0) / of.value);
  switch (found.what) {
    case 'motor run':
    case 'array reading':
      return Math.hypot(share(found.current), share(found.voltage));
    case 'level power':
      return share(found.power);
    case 'mass':
      return share(found.mass);
    default:
      return undefined;
  }
}

const meanings: Readonly<Record<string, string>> = {
  'motor run': 'what the propeller takes, against the model',
  'array reading': 'what comes in, against the model',
  'level power': 'level power, against the model',
};

/**
 * What the model expected of a record that counts, and how far the reading is off.
 * shown - verdict with the record; without - verdict without it, where that is computed
 */
export function outcomeOf(
  design: string,
  record: FileRecord,
  shown: VerdictView,
  without: VerdictView | undefined,
  units: Units,
): Outcome | undefined {
  const stage = stages[record.what];
  const found = shown.measured.find((one) => one.stage === stage);
  if (found === undefined || !record.counts) return undefined;
  if (record.what === 'mass') return weighed(found.value, readingSigma(design, record), without, units);
  if (record.what === 'balance point') return balanced(found.value, without, units);
  // The verdict knows the uncertainty of the correction itself; a view that does not carry it has that of the readings.
  const whole = (found as { readonly sigma?: number }).sigma;
  const sigma = whole ?? readingSigma(design, record);
  const of = whole === undefined ? '; ± of the readings alone' : '';
  return {
    words: found.source,
    difference: `${percentWords(found.value - 1, sigma)} (${meanings[record.what]}${of})`,
  };
}

function weighed(mass: number, sigma: number | undefined, without: VerdictView | undefined, units: Units): Outcome {
  const before = without?.balance;
  if (before === undefined) return { words: `${massWords(mass, units)} on the scale` };
  const spread = Math.hypot((sigma ?? 0) * mass, before.massSigma) / before.mass;
  return {
    words: `${massWords(mass, units)} on the scale, expected ${massWords(before.mass, units)} ± ${massWords(before.massSigma, units)}`,
    difference: percentWords(mass / before.mass - 1, spread),
  };
}

function balanced(x: number, without: VerdictView | undefined, units: Units): Outcome {
  const before = without?.balance;
  if (before === undefined) return { words: `balance point ${lengthWords(x, units)} aft of the datum` };
  const shift = x - before.balancePoint.x;
  const ofChord = `${percentWords(shift / before.meanChord, before.balanceSigma / before.meanChord)} of the mean chord`;
  return {
    words: `balance point ${lengthWords(x, units)} aft of the datum, expected ${lengthWords(before.balancePoint.x, units)} ± ${lengthWords(before.balanceSigma, units)}`,
    difference:
      Math.abs(shift) < 5e-4
        ? 'no difference'
        : `${lengthWords(Math.abs(shift), units)} further ${shift > 0 ? 'aft' : 'forward'}, ${ofChord}`,
  };
}

/** What a record changes in the verdict, in words; empty where nothing that is shown changes. */
export function changeWords(without: VerdictView, withIt: VerdictView): readonly string[] {
  const lines: string[] = [];
  const change = (name: string, before: string, after: string) => {
    if (before !== after) lines.push(`${name}: ${before} without it, ${after} with it`);
  };
  for (const [i, sky] of withIt.skies.entries()) {
    const before = without.skies[i];
    if (before !== undefined) change(skyTitle(sky), carriedText(before), carriedText(sky));
  }
  const watts = (view: VerdictView) => (view.levelPower === undefined ? 'not known' : wattsText(view.levelPower.value));
  change('level power', watts(without), watts(withIt));
  const best = (view: VerdictView) =>
    view.skies[0] === undefined ? 'not known' : fixed(view.skies[0].bestRatio.value, 2);
  change('income over need at best', best(without), best(withIt));
  const margin = (view: VerdictView) =>
    view.balance === undefined ? 'not known' : `${fixed(100 * view.balance.staticMargin, 1)} %`;
  change('static margin', margin(without), margin(withIt));
  const blocked = withIt.findings.filter(
    ({ severity, text }) => severity === 'problem' && !without.findings.some((one) => one.text === text),
  );
  return [...lines, ...blocked.map(({ text, remedy }) => `new problem: ${text}${remedy === '' ? '' : `; ${remedy}`}`)];
}
