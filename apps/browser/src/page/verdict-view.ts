import type { DayResult, Finding, SkyResult } from '../answer.js';
import { durationText } from '../clock.js';
import { shape } from '../drawing/shape.js';
import { lineSample } from '../drawing/skies.js';
import {
  carriedText,
  edgesText,
  enduranceText,
  isSure,
  limitText,
  lowestChargeText,
  percentText,
  skyTitle,
} from '../words.js';
import { drawn, element } from './elements.js';

/** The verdict in words: for each sky the answer first, then how sure, how long, how low, and what limits. */
export function verdictView(day: DayResult): readonly HTMLElement[] {
  const about = element(
    'p',
    { class: 'about' },
    `${day.aircraft} at ${day.placeText}, ${day.date}, launch and times by the clock ${day.clock}.`,
  );
  const problems = day.problems.map((finding) => findingView(finding, 'problem'));
  const skies = element('div', { class: 'skies' }, ...day.skies.map((sky, i) => skyView(day, sky, i)));
  const holds =
    problems.length > 0 && day.skies.length > 0
      ? [element('p', { class: 'note' }, 'The energy below holds only once that is cured.')]
      : [];
  return [about, ...problems, ...holds, skies, ...surenessNote(day)];
}

function skyView(day: DayResult, sky: SkyResult, index: number): HTMLElement {
  const sample = drawn(
    shape('svg', { viewBox: '0 0 34 10', width: 34, height: 10, 'aria-hidden': 'true', class: 'sample' }, [
      lineSample(index, 2, 5),
    ]),
  );
  const rows: readonly (readonly [string, string])[] = [
    ['Confidence', isSure(day) ? `carried ${sky.confidence}` : 'being computed'],
    ['Endurance', enduranceText(sky, day)],
    ...(day.hasBattery ? [['Lowest charge', lowestChargeText(sky)] as const] : []),
    ...nightRows(sky),
    ['What limits', limitText(sky, day)],
  ];
  return element(
    'article',
    { class: 'sky' },
    element('h3', {}, sample, ` ${skyTitle(sky)}`),
    element('p', { class: 'answer' }, carriedText(sky)),
    element('p', { class: 'edges' }, isSure(day) ? edgesText(sky) : 'how sure: being computed'),
    element('dl', {}, ...rows.flatMap(([name, text]) => [element('dt', {}, name), element('dd', {}, text)])),
  );
}

/** Rows that matter to aircraft that last the night. */
function nightRows(sky: SkyResult): readonly (readonly [string, string])[] {
  const { leftAtDawn, fullBeforeDusk } = sky;
  if (leftAtDawn === undefined) return [];
  return [
    ['Left at dawn', `${durationText(leftAtDawn.value)} of flight (excess time)`],
    ['Full before dusk', `${durationText(fullBeforeDusk.value)} (charge margin)`],
  ];
}

function surenessNote(day: DayResult): readonly HTMLElement[] {
  if (!isSure(day)) return [];
  const step =
    day.stepError > 0.005 ? ` Its coarser steps change the time carried by ${percentText(day.stepError)}.` : '';
  return [
    element(
      'p',
      { class: 'note' },
      `Confidence is in the aircraft under that sky, from ${day.samples} samples of all that is uncertain; how likely the sky is does not enter. Ranges hold the truth about 9 times in 10.${step}`,
    ),
  ];
}

export const findingView = ({ text, where, remedy }: Finding, kind: string): HTMLElement =>
  element(
    'p',
    { class: `finding ${kind}` },
    sentence(text),
    where === '' ? '' : ` Where: ${where}.`,
    remedy === '' ? '' : ` Remedy: ${remedy}.`,
  );

const sentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;

/** What the aircraft does in level flight, warnings, and what was measured. */
export function factsView(day: DayResult): readonly HTMLElement[] {
  const list = element(
    'dl',
    { class: 'facts' },
    ...day.facts.flatMap(({ label, value }) => [element('dt', {}, label), element('dd', {}, value)]),
  );
  const measured = day.measured.map((text) => element('p', { class: 'note' }, `Measured: ${text}.`));
  return [
    element('h2', {}, 'In level flight'),
    list,
    ...measured,
    ...day.warnings.map((finding) => findingView(finding, 'warning')),
  ];
}
