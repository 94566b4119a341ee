import {
  formatDate,
  formatPlace,
  formatTimeOfDay,
  parseDate,
  parseInstant,
  parsePlace,
  parseTimeOfDay,
  parseZoneOffset,
} from '@noonwing/quantities';
import { type Field, notation } from './schema/field.js';

/** Seconds since midnight by the clock of the place. */
export const timeOfDay = (help: string): Field<number> =>
  notation(
    help,
    '09:50',
    (written) => {
      const time = parseTimeOfDay(written);
      return time.ok ? { ok: true, value: time.seconds } : time;
    },
    formatTimeOfDay,
  );

export interface DateValue {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

export const date = (help: string): Field<DateValue> =>
  notation(
    help,
    '2026-06-21',
    (written) => {
      const day = parseDate(written);
      return day.ok ? { ok: true, value: { year: day.year, month: day.month, day: day.day } } : day;
    },
    formatDate,
  );

export interface PlaceValue {
  /** North positive [rad] */
  readonly latitude: number;
  /** East positive [rad] */
  readonly longitude: number;
}

export const place = (help: string): Field<PlaceValue> =>
  notation(
    help,
    '40.7 N 0.9 E',
    (written) => {
      const where = parsePlace(written);
      return where.ok ? { ok: true, value: { latitude: where.latitude, longitude: where.longitude } } : where;
    },
    (where) => formatPlace(where, 5),
  );

/** Seconds since 1970-01-01T00:00Z. */
export const instant = (help: string): Field<number> =>
  notation(
    help,
    '2026-06-21T10:00Z',
    (written) => {
      const when = parseInstant(written);
      return when.ok ? { ok: true, value: when.seconds } : when;
    },
    (seconds) => new Date(seconds * 1000).toISOString().replace('.000Z', 'Z'),
  );

/** A fixed offset from UTC, or the name of a zone whose offset depends on the date. */
export type ZoneValue = { readonly offset: number } | { readonly zone: string };

export const timeZone = (help: string): Field<ZoneValue> =>
  notation<ZoneValue>(
    help,
    '+02:00 or Europe/Madrid',
    (written) => {
      const fixed = parseZoneOffset(written);
      if (fixed.ok) return { ok: true, value: { offset: fixed.seconds } };
      return isZone(written.trim())
        ? { ok: true, value: { zone: written.trim() } }
        : { ...fixed, expected: `${fixed.expected}, or a zone such as Europe/Madrid` };
    },
    (value) => ('zone' in value ? value.zone : offsetText(value.offset)),
  );

function isZone(name: string): boolean {
  if (!/^[A-Za-z]+(?:\/[A-Za-z0-9_+-]+)+$/.test(name)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

export function offsetText(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${seconds < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/**
 * Local time minus UTC of a zone at an instant [s].
 * zone - as read; instant - since 1970-01-01T00:00Z [s]
 */
export function zoneOffsetAt(zone: ZoneValue, at: number): number {
  if ('offset' in zone) return zone.offset;
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone.zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  const parts = Object.fromEntries(
    format.formatToParts(new Date(at * 1000)).map((part) => [part.type, Number(part.value)]),
  );
  const local = Date.UTC(parts.year!, parts.month! - 1, parts.day, parts.hour, parts.minute, parts.second) / 1000;
  return local - Math.floor(at);
}
