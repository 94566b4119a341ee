import { plainText } from './number.js';
import type { NotationError } from './trade.js';

export interface CalendarDate {
  readonly ok: true;
  readonly year: number;
  /** 1 to 12 */
  readonly month: number;
  /** 1 to 31 */
  readonly day: number;
}

const daysIn = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

/** Reads a calendar date, year-month-day (ISO 8601): "2026-06-21". Years 1900 to 2200. */
export function parseDate(text: string): CalendarDate | NotationError {
  const expected = 'a date as year-month-day, such as 2026-06-21';
  const plain = plainText(text).trim();
  const found = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(plain);
  if (found === null) return { ok: false, found: plain || 'nothing', expected, hint: otherOrder(plain) };
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  if (year < 1900 || year > 2200)
    return { ok: false, found: plain, expected, hint: 'years 1900 to 2200 can be computed' };
  if (month < 1 || month > 12) return { ok: false, found: plain, expected, hint: `there is no month ${month}` };
  const last = daysIn(year, month);
  if (day < 1 || day > last) return { ok: false, found: plain, expected, hint: `that month has days 1 to ${last}` };
  return { ok: true, year, month, day };
}

function otherOrder(plain: string): string {
  const found = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$/.exec(plain);
  if (found === null) return 'write "2026-06-21"';
  const [first, second, year] = [found[1]!.padStart(2, '0'), found[2]!.padStart(2, '0'), found[3]];
  if (Number(first) > 12) return `write "${year}-${second}-${first}"`;
  if (Number(second) > 12) return `write "${year}-${first}-${second}"`;
  return first === second
    ? `write "${year}-${second}-${first}"`
    : `it can mean "${year}-${second}-${first}" or "${year}-${first}-${second}": write one of them`;
}

export const formatDate = (date: { readonly year: number; readonly month: number; readonly day: number }): string =>
  `${String(date.year).padStart(4, '0')}-${String(date.month).padStart(2, '0')}-${String(date.day).padStart(2, '0')}`;

export interface TimeOfDay {
  readonly ok: true;
  /** Since midnight [s], 0 to 86400 (24:00 is the end of the day). */
  readonly seconds: number;
}

/** Reads a time of day on the 24-hour clock: "09:50", "9:50", "09:50:30". */
export function parseTimeOfDay(text: string): TimeOfDay | NotationError {
  const expected = 'a time of day such as 09:50';
  const plain = plainText(text).trim();
  const found = /^(\d{1,2}):(\d{2})(?::(\d{2}))?$/.exec(plain);
  if (found === null)
    return { ok: false, found: plain || 'nothing', expected, hint: 'write hours and minutes, as in "09:50"' };
  const [hours, minutes, rest] = [Number(found[1]), Number(found[2]), Number(found[3] ?? 0)];
  const seconds = hours * 3600 + minutes * 60 + rest;
  if (minutes > 59 || rest > 59 || seconds > 86400) {
    return { ok: false, found: plain, expected, hint: 'hours go to 24:00, minutes and seconds to 59' };
  }
  return { ok: true, seconds };
}

/** Hours and minutes, rounded to the minute: 35400 s is "09:50". */
export function formatTimeOfDay(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

export interface ZoneOffset {
  readonly ok: true;
  /** Local time minus UTC [s] */
  readonly seconds: number;
}

/** Reads a fixed offset from UTC: "UTC", "Z", "+02:00", "UTC+2", "-5 h". Local time minus UTC in seconds. */
export function parseZoneOffset(text: string): ZoneOffset | NotationError {
  const expected = 'an offset from UTC such as +02:00, or UTC';
  const plain = plainText(text)
    .trim()
    .replace(/^(?:UTC|GMT)\s*/i, '');
  if (plain === '' || plain.toUpperCase() === 'Z') {
    return text.trim() === ''
      ? { ok: false, found: 'nothing', expected, hint: 'write "+02:00"' }
      : { ok: true, seconds: 0 };
  }
  const found = /^([+-])\s*(\d{1,2})(?::?(\d{2}))?\s*h?$/.exec(plain);
  const hours = Number(found?.[2] ?? 99);
  const minutes = Number(found?.[3] ?? 0);
  if (found === null || hours > 14 || minutes > 59) {
    return { ok: false, found: text.trim(), expected, hint: 'write "+02:00"; offsets go from -14:00 to +14:00' };
  }
  const size = hours * 3600 + minutes * 60;
  return { ok: true, seconds: found[1] === '-' ? 0 - size : size };
}

export interface Instant {
  readonly ok: true;
  /** Since 1970-01-01T00:00Z, without leap seconds [s] */
  readonly seconds: number;
}

/** Reads an instant with its offset (ISO 8601): "2026-06-21T10:00Z", "2026-06-21 12:00 +02:00". */
export function parseInstant(text: string): Instant | NotationError {
  const expected = 'a date and time with offset, such as 2026-06-21T10:00Z';
  const plain = plainText(text).trim();
  const found = /^(\S+?)[T ]\s*(\d{1,2}:\d{2}(?::\d{2})?)\s*(.*)$/.exec(plain);
  if (found === null) return { ok: false, found: plain || 'nothing', expected, hint: 'write "2026-06-21T10:00Z"' };
  const date = parseDate(found[1]!);
  if (!date.ok) return { ...date, expected };
  const time = parseTimeOfDay(found[2]!);
  if (!time.ok) return { ...time, expected };
  if (found[3] === '') {
    return { ok: false, found: plain, expected, hint: `say which clock: "${plain}Z" for UTC or "${plain}+02:00"` };
  }
  const zone = parseZoneOffset(found[3]!);
  if (!zone.ok) return { ...zone, expected };
  return { ok: true, seconds: Date.UTC(date.year, date.month - 1, date.day) / 1000 + time.seconds - zone.seconds };
}
