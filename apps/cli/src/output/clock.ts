import { offsetText } from '@noonwing/design';

const MONTHS = 'January February March April May June July August September October November December'.split(' ');
const WEEKDAYS = 'Sunday Monday Tuesday Wednesday Thursday Friday Saturday'.split(' ');

const local = (instant: number, utcOffset: number): Date => new Date(Math.round((instant + utcOffset) / 60) * 60_000);

const two = (number: number): string => String(number).padStart(2, '0');

/** "09:31" by the clock of the place. instant - [s, Unix]; utcOffset - local minus UTC [s] */
export function clockText(instant: number, utcOffset: number): string {
  const at = local(instant, utcOffset);
  return `${two(at.getUTCHours())}:${two(at.getUTCMinutes())}`;
}

/** "02:10 on 22 June", the day only where it is not that of the midnight given. */
export function clockOnDay(instant: number, utcOffset: number, midnight: number): string {
  const clock = clockText(instant, utcOffset);
  if (instant >= midnight && instant < midnight + 86_400) return clock;
  const at = local(instant, utcOffset);
  return `${clock} on ${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]}`;
}

/** "Sunday 21 June 2026" */
export function dateText(date: { readonly year: number; readonly month: number; readonly day: number }): string {
  const at = new Date(Date.UTC(date.year, date.month - 1, date.day));
  return `${WEEKDAYS[at.getUTCDay()]} ${date.day} ${MONTHS[date.month - 1]} ${date.year}`;
}

/** "2026-06-21T09:31+02:00" */
export function isoText(instant: number, utcOffset: number): string {
  return `${local(instant, utcOffset).toISOString().slice(0, 16)}${offsetText(utcOffset)}`;
}
