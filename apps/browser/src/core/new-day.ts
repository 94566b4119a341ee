import { type CalendarDate, parsePlace } from '@noonwing/quantities';

/** Days about midsummer on which today is as good as any (judgement). */
const near = 60;
/** Latitude below which no day is much longer than others [rad] (judgement). */
const tropics = 0.26;
const day = 86_400_000;

const utc = ({ year, month, day: date }: Pick<CalendarDate, 'year' | 'month' | 'day'>): number =>
  Date.UTC(year, month - 1, date);

/** A calendar date without more. */
export type PlainDate = Pick<CalendarDate, 'year' | 'month' | 'day'>;

/**
 * The next midsummer at a place: 21 June north of the equator, 21 December south of it.
 * latitude [rad]
 */
export function nextMidsummer(latitude: number, today: PlainDate): PlainDate {
  const month = latitude < 0 ? 12 : 6;
  const thisYear = { year: today.year, month, day: 21 };
  return utc(thisYear) >= utc(today) ? thisYear : { ...thisYear, year: today.year + 1 };
}

/** Dates that a new aircraft at a place is offered; `first` is the one to begin with. */
export interface OfferedDates {
  readonly today: PlainDate;
  readonly midsummer: PlainDate;
  readonly first: 'today' | 'midsummer';
}

/** place - as typed; where it cannot be read, or is empty, it is taken to lie north */
export function offeredDates(place: string, today: PlainDate): OfferedDates {
  const read = parsePlace(place);
  const latitude = read.ok ? read.latitude : 1;
  const midsummer = nextMidsummer(latitude, today);
  const ahead = (utc(midsummer) - utc(today)) / day;
  // The last one may be nearer than the next.
  const away = Math.min(ahead, 365 - ahead);
  return { today, midsummer, first: Math.abs(latitude) < tropics || away <= near ? 'today' : 'midsummer' };
}
