import { type QuantityKind, suggestedUnits } from '@noonwing/quantities';
import type { Path } from '../document/message.js';
import { type AnyField, type Bounds, keyOf, keySpelling } from './field.js';
import { boundsText } from './words.js';

/** What a key holds, for help, unit-aware inputs and levers. */
export interface KeyDescription {
  readonly help: string;
  /** Kinds of quantity that are accepted; empty where it is no quantity. */
  readonly kinds: readonly QuantityKind[];
  /** Units to offer, the usual ones first. */
  readonly units: readonly string[];
  /** Natural step of the lever, as written. */
  readonly step?: string;
  readonly example?: string;
  /** What the reader takes [SI]; absent where anything goes. */
  readonly bounds?: Bounds;
  /** The same in words: 'above 0', 'from 0 to 1'. */
  readonly limits?: string;
  /** Words to choose from; empty where there is no such choice. */
  readonly choices: readonly string[];
  /** Keys of a group; empty for a single value, and for groups whose names the builder chooses. */
  readonly keys: readonly string[];
}

/** Field one step further in; several where a value may be written in several ways. */
export function inside(field: AnyField, step: string | number): readonly AnyField[] {
  switch (field.tag) {
    case 'object': {
      const property = Object.keys(field.fields).find(
        (key) => typeof step === 'string' && keySpelling(key) === keySpelling(step),
      );
      return property === undefined ? [] : [field.fields[property]!];
    }
    case 'list':
      return typeof step === 'number' ? [field.item] : [];
    case 'record':
      return typeof step === 'string' ? [field.item] : [];
    case 'short':
      return inside(field.full, step);
    case 'either':
      return field.options.flatMap((option) => inside(option, step));
    case 'variants':
      return Object.values(field.variants).flatMap((option) => inside(option, step));
    default:
      return [];
  }
}

/** The ways in which one value may be written. */
function ways(field: AnyField): readonly AnyField[] {
  if (field.tag === 'short') return [...ways(field.short), ...ways(field.full)];
  return field.tag === 'either' ? field.options.flatMap(ways) : [field];
}

/**
 * What the key at a path holds, or undefined where there is no such key.
 * root - schema of the file; path - keys and indices as in messages
 */
export function describeKey(root: AnyField, path: Path): KeyDescription | undefined {
  let fields: readonly AnyField[] = [root];
  for (const step of path) fields = fields.flatMap((field) => inside(field, step));
  const field = fields[0];
  if (field === undefined) return undefined;
  const all = ways(field);
  const quantity = all.find((way) => way.tag === 'quantity');
  const kinds = quantity?.kinds ?? [];
  const limits = quantity === undefined ? '' : boundsText(quantity.bounds, kinds[0]!);
  return {
    help: field.help,
    kinds,
    units: kinds.flatMap((kind) => suggestedUnits(kind)),
    ...(quantity?.step === undefined ? {} : { step: quantity.step }),
    ...(quantity?.example === undefined ? {} : { example: quantity.example }),
    ...(quantity === undefined || limits === '' ? {} : { bounds: quantity.bounds, limits }),
    choices: all.flatMap((way) => (way.tag === 'choice' ? way.choices : [])),
    keys: all.flatMap((way) => (way.tag === 'object' ? Object.keys(way.fields).map(keyOf) : [])),
  };
}
