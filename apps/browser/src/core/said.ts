import { fixed } from './decimal.js';
import { shownQuantity } from './shown-quantity.js';
import type { Preferences } from './state.js';

/** What of the preferences decides how a number is said. */
export type Said = Pick<Preferences, 'units' | 'language'>;

/** A mass in g below 1 kg, in kg above, unless another unit is preferred. */
export function massWords(mass: number, preferences: Said): string {
  if (preferences.units.mass !== undefined) return shownQuantity({ value: mass }, 'mass', preferences, 3);
  return Math.abs(mass) < 0.9995 ? `${Math.round(mass * 1000)} g` : `${fixed(mass, 2)} kg`;
}

/** A value that stands without a spread is as exact as it is written: '1.25', not '1.250'. */
export const exactWords = (text: string): string =>
  text.includes('±') ? text : text.replace(/(\.\d*?)0+(?!\d)/, '$1').replace(/\.(?!\d)/, '');

/** A value with its spread says its unit once: '20.1 ± 4.0 deg', not '20.1 deg ± 4.0 deg'. */
export const unitOnce = (text: string): string => text.replace(/^(\S+) (\S.*?) ± (\S+) \2$/, '$1 ± $3 $2');

/** A station or length in whole mm, as builders measure it, unless another unit is preferred. */
export function lengthWords(x: number, preferences: Said): string {
  const unit = preferences.units.length ?? 'mm';
  if (unit === 'mm') return `${Math.round(x * 1000) + 0} mm`;
  return shownQuantity({ value: x }, 'length', { ...preferences, units: { length: unit } }, 3);
}

/** '0.515 m²' */
export const areaWords = (area: number, preferences: Said): string =>
  shownQuantity({ value: area }, 'area', preferences, 3).replace(/2$/, '²');

/** An airspeed to a tenth of the unit below ten and to three digits above: less is scatter. */
export function speedWords(speed: number, preferences: Said): string {
  const shown = shownQuantity({ value: speed }, 'speed', { units: preferences.units }, 6);
  return shownQuantity({ value: speed }, 'speed', preferences, Math.abs(Number.parseFloat(shown)) < 10 ? 2 : 3);
}
