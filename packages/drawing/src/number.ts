import { formatExact } from '@noonwing/quantities';
import type { Measure } from './model.js';

/** Beyond it a number is a fault of its source rather than something to draw. */
const largest = 1e12;
const smallest = 1e-12;

/** Whether a value can be drawn: a finite number of a size that a drawing can hold. */
export const drawable = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && Math.abs(value) <= largest;

/** The value, with dust around zero taken as zero. */
export const clean = (value: number): number => (Math.abs(value) < smallest ? 0 : value);

/** The value where it can be drawn. */
export const known = (value: number | undefined): number | undefined => (drawable(value) ? clean(value) : undefined);

/** Three significant digits, or the decimals asked for; no exponent between 1e-9 and 1e12. */
export function numberText(value: number, decimals?: number): string {
  if (!drawable(value)) return 'not known';
  if (decimals !== undefined) {
    const fixed = value.toFixed(Math.min(12, Math.max(0, Math.floor(decimals))));
    return /^-[0.]*$/.test(fixed) ? fixed.slice(1) : fixed;
  }
  const size = Math.abs(value);
  const digits = size >= 1 ? Math.max(3, Math.floor(Math.log10(size)) + 1) : 2;
  return formatExact(Number(value.toPrecision(digits)), '');
}

/** Number and unit: "43.1 W", "38 %". */
export function withUnit(value: number, measure: Pick<Measure, 'unit' | 'decimals'>): string {
  const number = numberText(value, measure.decimals);
  return measure.unit === '' || !drawable(value) ? number : `${number} ${measure.unit}`;
}

/** "level power [W]" for the head of an axis or column. */
export const measureTitle = ({ label, unit }: Pick<Measure, 'label' | 'unit'>): string =>
  unit === '' ? label : `${label} [${unit}]`;

/** 9.75 h is "09:45"; hours of the next day are said: "02:30 +1 d". */
export function hourText(hour: number): string {
  if (!drawable(hour)) return 'not known';
  const minutes = Math.round(hour * 60);
  const day = Math.floor(minutes / 1440);
  const rest = minutes - day * 1440;
  const two = (n: number) => String(n).padStart(2, '0');
  const clock = `${two(Math.floor(rest / 60))}:${two(rest % 60)}`;
  return day === 0 ? clock : `${clock} ${day > 0 ? '+' : ''}${day} d`;
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;
const firstDays = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335] as const;

/** First days of the months of a common year, as day of the year. */
export const monthStarts = firstDays.map((day, i) => ({ day, name: months[i]! }));

/** Day 172 of a common year is "21 Jun". */
export function dayOfYearText(day: number): string {
  if (!drawable(day)) return 'not known';
  const whole = ((((Math.round(day) - 1) % 365) + 365) % 365) + 1;
  let month = 0;
  while (month < 11 && firstDays[month + 1]! <= whole) month++;
  return `${whole - firstDays[month]! + 1} ${months[month]}`;
}

/** Latitude in words: 40.7 is "40.7° N". */
export const latitudeText = (latitude: number): string =>
  latitude === 0 ? '0°' : `${numberText(Math.abs(latitude))}° ${latitude < 0 ? 'S' : 'N'}`;

/** Share as per cent: whole numbers, one decimal below 10 %, "below 0.1 %". */
export function shareText(share: number): string {
  if (!drawable(share)) return 'not known';
  const percent = share * 100;
  const size = Math.abs(percent);
  if (size === 0) return '0 %';
  if (size < 0.1) return 'below 0.1 %';
  return `${size < 9.95 ? percent.toFixed(1) : percent.toFixed(0)} %`;
}
