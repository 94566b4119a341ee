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

/** '+02:00' from seconds. */
export function offsetText(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  return `${seconds < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
