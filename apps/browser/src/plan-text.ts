import type { PlanEdit } from './answer.js';

/** What a day plan has written behind a key, without its comment; empty where the key is not there. */
export function writtenValue(text: string, key: string): string {
  const line = text.split(/\r?\n/).find((one) => one.trimStart().startsWith(`${key}:`));
  if (line === undefined) return '';
  return line
    .slice(line.indexOf(':') + 1)
    .replace(/\s#.*$/, '')
    .trim();
}

/** How far a place may move east or west before its clock is no longer taken for granted: half a time zone [rad]. */
const clockReach = (7.5 * Math.PI) / 180;

/** Whether the clock of a place still holds after a move. Longitudes east positive [rad]. */
export function keepsClock(before: number, after: number): boolean {
  const apart = Math.abs(before - after) % (2 * Math.PI);
  return Math.min(apart, 2 * Math.PI - apart) <= clockReach;
}

/** Edits that turn the values a plan has into those of the fields; nothing for what is the same. */
export function planEdits(
  plan: string,
  fields: readonly { readonly path: readonly string[]; readonly value: string }[],
): readonly PlanEdit[] {
  const edits = fields.filter(({ path, value }) => writtenValue(plan, path.at(-1)!) !== value.trim());
  return [...edits, ...outdated(plan, edits).map((path) => ({ path, value: '' }))];
}

/**
 * What the plan says of its own place and season only: elsewhere its name, and in another month its temperatures, are
 * taken away, so that the usual ones are assumed and the list of assumptions says so.
 */
function outdated(plan: string, edits: readonly PlanEdit[]): readonly (readonly string[])[] {
  const edited = (key: string) => edits.find(({ path }) => path.join('.') === key)?.value;
  const date = edited('date');
  const hasMoved = edited('place.at') !== undefined;
  const isOtherMonth = date !== undefined && monthOf(date) !== monthOf(writtenValue(plan, 'date'));
  return [
    ...(hasMoved ? [['place', 'name']] : []),
    ...(hasMoved || isOtherMonth ? [['temperature'], ['night temperature']] : []),
  ];
}

const monthOf = (date: string): number => Number(date.split('-')[1]);
