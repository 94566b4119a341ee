import { expectedQuantity, formatQuantity, type QuantityKind } from '@noonwing/quantities';
import type { AnyField, Bounds, QuantityField } from './field.js';

/** A limit in a unit that suits its size, four digits, without zeros that say nothing: '60 m/s', '74.48 deg'. */
const bound = (value: number, kind: QuantityKind): string =>
  value === 0
    ? '0'
    : formatQuantity({ value }, kind, { digits: 4 }).replace(/\.?0+(?=\s|$)/, (zeros, at, all) =>
        String(all)
          .slice(0, Number(at) + 1)
          .includes('.')
          ? ''
          : zeros,
      );

/** 'above 0', 'from 0 to 1', each in a unit that suits its size; empty where anything goes. */
export function boundsText(bounds: Bounds, kind: QuantityKind): string {
  const { above, from, to } = bounds;
  if (above !== undefined && to !== undefined) return `above ${bound(above, kind)} and at most ${bound(to, kind)}`;
  if (above !== undefined) return `above ${bound(above, kind)}`;
  if (from !== undefined && to !== undefined) return `from ${bound(from, kind)} to ${bound(to, kind)}`;
  if (from !== undefined) return from === 0 ? 'that is not negative' : `at least ${bound(from, kind)}`;
  return to === undefined ? '' : `at most ${bound(to, kind)}`;
}

export const quantityLimit = (field: QuantityField, kind: QuantityKind): string =>
  `the value must be ${boundsText(field.bounds, kind).replace('that is not negative', '0 or more')}`;

/** What a field expects, in words for a message. */
export function expectedOf(field: AnyField): string {
  switch (field.tag) {
    case 'quantity': {
      const limits = boundsText(field.bounds, field.kinds[0]!);
      return limits === '' ? expectedQuantity(field.kinds) : `${expectedQuantity(field.kinds)} ${limits}`;
    }
    case 'text':
      return `text: ${field.help}`;
    case 'choice':
      return `one of: ${field.choices.join(', ')}`;
    case 'flag':
      return 'yes or no';
    case 'notation':
      return `${field.help}, such as ${field.example}`;
    case 'numbers':
      return `${field.count} numbers in brackets`;
    case 'list':
      return `a list: ${field.help}`;
    case 'record':
      return `a group of named entries: ${field.help}`;
    case 'object':
    case 'variants':
      return `a group of keys: ${field.help}`;
    case 'short':
      return `${expectedOf(field.short)}, or a group of keys`;
    case 'either':
      return field.options.map(expectedOf).join(', or ');
  }
}
