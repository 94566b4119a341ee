const two = (value: number): string => String(value).padStart(2, '0');

/** '09:31' on the first day, '04:10 next day', '04:10 on day 3' later, and '23:30 the day before' where it lies before the first midnight. */
export function clockText(hours: number): string {
  const minutes = Math.round(hours * 60);
  const day = Math.floor(minutes / 1440);
  const rest = minutes - day * 1440;
  const time = `${two(Math.floor(rest / 60))}:${two(rest % 60)}`;
  if (day === 0) return time;
  // The end of the first day is better known as 24:00 than as the next day's beginning.
  if (minutes === 1440) return '24:00';
  if (day === 1) return `${time} next day`;
  return day < 0 ? `${time} the day before` : `${time} on day ${day + 1}`;
}

/** '8 h 57 min', '45 min'. hours - not negative [h] */
export function durationText(hours: number): string {
  const minutes = Math.round(hours * 60);
  const whole = Math.floor(minutes / 60);
  if (whole === 0) return `${minutes} min`;
  return minutes % 60 === 0 ? `${whole} h` : `${whole} h ${minutes % 60} min`;
}

/** 'UTC+02:00' from seconds. */
export function zoneText(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  return `UTC${seconds < 0 ? '−' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

export const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** '21 June 2025'. */
export const dateText = ({
  year,
  month,
  day,
}: {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}): string => `${day} ${months[month - 1] ?? month} ${year}`;

const winds = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

/** 'SE' from an angle from north, clockwise [rad]. */
export const directionText = (angle: number): string => winds[((Math.round(angle / (Math.PI / 4)) % 8) + 8) % 8]!;
