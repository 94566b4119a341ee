import { describeDayPlanKey, describeDesignKey, type KeyDescription } from '@noonwing/design';
import { parseQuantity } from '@noonwing/quantities';

export const describeField = (file: 'design' | 'day', path: string): KeyDescription | undefined =>
  file === 'design' ? describeDesignKey(path) : describeDayPlanKey(path);

const sourceWord = /[\s(]+(assumed|guessed|estimated|measured|weighed|library)\)?\s*$/i;

/** The word that says where a value comes from, taken off. */
export function splitSourceWord(text: string): { readonly quantity: string; readonly word: string } {
  const found = sourceWord.exec(text);
  return found === null
    ? { quantity: text.trim(), word: '' }
    : { quantity: text.slice(0, found.index).trim(), word: found[1]!.toLowerCase() };
}

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
