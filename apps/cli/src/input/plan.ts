import { existsSync } from 'node:fs';
import {
  type Assumption,
  type CompletePlan,
  completePlan,
  type DateValue,
  type DayPlan,
  type Message,
  readDayPlan,
} from '@noonwing/design';
import { formatDate, formatPlace } from '@noonwing/quantities';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { messageLines } from './design.js';
import { readText } from './file.js';
import { type Options, planOptions, typed } from './plan-options.js';

export interface LoadedPlan {
  readonly plan: CompletePlan;
  readonly written: DayPlan;
  /** File that it came from; undefined where the options say it all. */
  readonly path: string | undefined;
  readonly assumptions: readonly Assumption[];
  readonly messages: readonly Message[];
  /** What the options changed beyond themselves, in sentences. */
  readonly notes: readonly string[];
}

/** A plan's weather and clock hold about its place; farther away they are another place's (judgement) [m]. */
const neighbourhood = 20e3;
/** A plan's temperatures hold for its season (judgement) [days]. */
const season = 30;

/**
 * The day plan: the file named, or the one beside the design, with the options over it.
 * today - date where neither says one
 */
export function loadPlan(designPath: string, options: Options, today: Date): Attempt<LoadedPlan> {
  const beside = designPath.replace(/\.ya?ml$/i, '.day.yaml');
  const named = typed(options, 'plan');
  const path = named ?? (beside !== designPath && existsSync(beside) ? beside : undefined);
  const file = path === undefined ? undefined : readPlanFile(path);
  if (file !== undefined && !file.ok) return file;
  const base = file?.value.plan;
  const over = readOptions(options, base, today);
  if (!over.ok) return over;
  const { kept, notes } = stillValid(base, over.value);
  if (typed(options, 'date') === undefined && base === undefined)
    notes.push(`No date is stated: today, ${formatDate(over.value.date)}.`);
  const written: DayPlan = {
    ...kept,
    ...over.value,
    place: { ...(kept.place ?? {}), ...over.value.place },
  };
  const { plan, assumptions } = completePlan(written);
  return ready({ plan, written, path, assumptions, messages: file?.value.messages ?? [], notes });
}

function readPlanFile(path: string): Attempt<{ plan: DayPlan; messages: readonly Message[] }> {
  const text = readText(path);
  if (!text.ok) return text;
  const read = readDayPlan(text.value);
  if (!read.ok || read.plan === undefined) {
    return refuse(exitCode.unusableInput, ...messageLines(read.messages, path));
  }
  return ready({ plan: read.plan, messages: read.messages });
}

/** The options as a day plan of their own, read by the reader of day plans so that both understand the same. */
function readOptions(options: Options, base: DayPlan | undefined, today: Date): Attempt<DayPlan> {
  const at = typed(options, 'at') ?? (base === undefined ? undefined : formatPlace(base.place.at, 9));
  if (at === undefined) {
    return refuse(
      exitCode.wrongUsage,
      'Where does it fly? There is no day plan beside the design file.',
      "Give a place, such as --at 40.7,0.9, or a day plan with --plan FILE. 'noonwing schema day' describes one.",
    );
  }
  const date = base?.date ?? { year: today.getFullYear(), month: today.getMonth() + 1, day: today.getDate() };
  const values = new Map<string, string>([['date', formatDate(date)]]);
  for (const { attribute, key } of planOptions) {
    const value = typed(options, attribute);
    if (value !== undefined) values.set(key, value);
  }
  values.set('place.at', at);
  const read = readDayPlan(planText(values));
  if (read.ok && read.plan !== undefined) return ready(read.plan);
  return refuse(exitCode.wrongUsage, ...read.messages.map(optionMessage));
}

function planText(values: ReadonlyMap<string, string>): string {
  const inPlace = [...values].filter(([key]) => key.startsWith('place.'));
  const others = [...values].filter(([key]) => !key.startsWith('place.'));
  return [
    'noonwing: day 1',
    'place:',
    ...inPlace.map(([key, value]) => `  ${key.slice('place.'.length)}: ${JSON.stringify(value)}`),
    ...others.map(([key, value]) => `${key}: ${JSON.stringify(value)}`),
    '',
  ].join('\n');
}

/** A message about an option, by the option's own name. */
function optionMessage(message: Message): string {
  const option = planOptions.find(({ key }) => message.path === key || message.path.startsWith(`${key}.`));
  const name = option === undefined ? message.path : option.flags.split(' ')[0];
  const hint = message.hint === '' ? '' : `; ${message.hint}`;
  return `${name}: found ${message.found}; expected ${message.expected}${hint}`;
}

/** What the file says of place and season, without what another place or another season makes untrue. */
function stillValid(base: DayPlan | undefined, over: DayPlan): { kept: Partial<DayPlan>; notes: string[] } {
  if (base === undefined) return { kept: {}, notes: [] };
  const notes: string[] = [];
  let kept: Partial<DayPlan> = base;
  if (distance(base.place.at, over.place.at) > neighbourhood) {
    const { place: _place, timeZone: _zone, surroundings: _kind, ground: _ground, albedo: _albedo, ...rest } = kept;
    kept = withoutWeather(rest);
    notes.push('The day plan is for another place: its clock, surroundings and weather are left out.');
  } else if (daysApart(base.date, over.date) > season) {
    kept = withoutWeather(kept);
    notes.push('The day plan is for another season: its weather is left out.');
  }
  return { kept, notes };
}

function withoutWeather(plan: Partial<DayPlan>): Partial<DayPlan> {
  const {
    temperature: _day,
    nightTemperature: _night,
    humidity: _humidity,
    pressure: _pressure,
    wind: _wind,
    turbidity: _turbidity,
    ...rest
  } = plan;
  return rest;
}

const earthRadius = 6.371e6;

/** Great-circle distance [m]. */
function distance(a: DayPlan['place']['at'], b: DayPlan['place']['at']): number {
  const cosine =
    Math.sin(a.latitude) * Math.sin(b.latitude) +
    Math.cos(a.latitude) * Math.cos(b.latitude) * Math.cos(a.longitude - b.longitude);
  return earthRadius * Math.acos(Math.min(1, Math.max(-1, cosine)));
}

/** Days between two days of the year, whatever the year. */
function daysApart(a: DateValue, b: DateValue): number {
  const ordinal = ({ month, day }: DateValue) => Date.UTC(2001, month - 1, day) / 86_400_000;
  const apart = Math.abs(ordinal(a) - ordinal(b));
  return Math.min(apart, 365 - apart);
}
