import {
  describeDayPlanKey,
  describeDesignKey,
  type KeyDescription,
  wordsOfDayPlanKey,
  wordsOfDesignKey,
} from '@noonwing/design';
import { parseQuantity } from '@noonwing/quantities';
import { splitSourceWord } from './source-word.js';

export const describeField = (file: 'design' | 'day', path: string): KeyDescription | undefined =>
  file === 'design' ? describeDesignKey(path) : describeDayPlanKey(path);

/** What people call the value at a path: 'surface "wing", station 2: chord'; the path itself where the file has no such key. */
export const fieldWords = (file: 'design' | 'day', path: string): string =>
  (file === 'design' ? wordsOfDesignKey(path) : wordsOfDayPlanKey(path)) ?? path;

/**
 * A typed value as the file should hold it: '1,5 kg' becomes '1.5 kg', because inside { } a comma separates keys.
 * Anything that is not surely the same quantity stays as typed.
 */
export function fileSpelling(file: 'design' | 'day', path: string, typed: string): string {
  const text = typed.trim();
  const kinds = describeField(file, path)?.kinds ?? [];
  if (kinds.length === 0 || !text.includes(',')) return text;
  const { quantity, word } = splitSourceWord(text);
  const before = parseQuantity(quantity, kinds);
  const point = quantity.replace(/(\d),(?=\d)/g, '$1.');
  const after = parseQuantity(point, kinds);
  if (!before.ok || !after.ok || before.value !== after.value || before.sigma !== after.sigma) return text;
  return word === '' ? point : `${point} ${word}`;
}
