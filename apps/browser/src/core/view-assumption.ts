import type { Assumption } from '@noonwing/design';
import { formatQuantity } from '@noonwing/quantities';
import { fieldWords } from './field-text.js';
import { exactWords, unitOnce } from './said.js';
import type { AssumptionView } from './view.js';

/** A default in words. */
export const assumptionView = (file: 'design' | 'day', of: Assumption): AssumptionView => ({
  file,
  path: of.path,
  name: fieldWords(file, of.path),
  what: of.what,
  text: assumptionText(of),
  why: of.why,
});

function assumptionText({ kind, value, uncertainty, what }: Assumption): string {
  if (kind === 'choice' || typeof value === 'string') return String(value);
  if (what === 'uncertainty') {
    const difference = kind === 'temperature' ? 'temperature difference' : kind;
    return `± ${formatQuantity({ value: uncertainty ?? 0 }, difference, { digits: 2 })}`;
  }
  return unitOnce(exactWords(formatQuantity({ value, sigma: uncertainty }, kind)));
}
