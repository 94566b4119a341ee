import { shownQuantity } from './field-input.js';
import type { Preferences } from './state.js';

/** What of the preferences decides how a number is said. */
export type Said = Pick<Preferences, 'units' | 'language'>;

let mark = '.';

/** For all words of the page at once: numbers in them come from many hands. Set before anything is drawn. */
export const setDecimalMark = (next: string): void => {
  mark = next;
};

/** Numbers in words with the decimal mark of the person; names like "10x4.7" or "v1.2" stay as they are. */
export const localNumbers = (text: string): string =>
  mark === '.' ? text : text.replace(/(?<![\p{L}\d.,])(\d+)\.(\d+)(?![\d.])/gu, `$1${mark}$2`);

/** The same in a drawing: in what is written, not in where it stands. */
export const localDrawing = (svg: string): string =>
  mark === '.'
    ? svg
    : svg.replace(
        /(<(?:text|tspan|title|desc)\b[^>]*>)([^<]+)/g,
        (_, tag: string, text: string) => tag + localNumbers(text),
      );

/** A number with fixed decimals. */
export const fixed = (value: number, decimals: number): string => localNumbers(value.toFixed(decimals));

/** A mass in g below 1 kg, in kg above, unless another unit is preferred. */
export function massWords(mass: number, preferences: Said): string {
  if (preferences.units.mass !== undefined) return shownQuantity({ value: mass }, 'mass', preferences, 3);
  return Math.abs(mass) < 0.9995 ? `${Math.round(mass * 1000)} g` : `${fixed(mass, 2)} kg`;
}

/** A station or length in whole mm, as builders measure it, unless another unit is preferred. */
export function lengthWords(x: number, preferences: Said): string {
  const unit = preferences.units.length ?? 'mm';
  if (unit === 'mm') return `${Math.round(x * 1000) + 0} mm`;
  return shownQuantity({ value: x }, 'length', { ...preferences, units: { length: unit } }, 3);
}

/** '0.515 m²' */
export const areaWords = (area: number, preferences: Said): string =>
  shownQuantity({ value: area }, 'area', preferences, 3).replace(/2$/, '²');

export const speedWords = (speed: number, preferences: Said): string =>
  shownQuantity({ value: speed }, 'speed', preferences, 3);
