import { preferredUnit, type QuantityKind, writeQuantity } from '@noonwing/quantities';
import {
  type AnyField,
  type KindedValue,
  keyOf,
  type NotationField,
  type QuantityField,
  type Valued,
} from './field.js';

/** Unit for writing a ratio: per cent where the field's example shows it so. */
const unitFor = (field: QuantityField, kind: QuantityKind, value: number): string =>
  kind === 'ratio' && field.example?.includes('%') ? '%' : preferredUnit(kind, value);

/** A quantity as the file holds it: '420 g ± 20 g assumed'. */
export function quantityText(field: QuantityField, valued: Valued): string {
  const kind = (valued as Partial<KindedValue>).kind ?? field.kinds[0]!;
  const text = writeQuantity(valued, kind, unitFor(field, kind, valued.value));
  return valued.source === 'stated' ? text : `${text} ${valued.source}`;
}

/** Whether the notation writes the value to something that it reads. */
function reads(field: NotationField, value: unknown): boolean {
  try {
    return field.parse(field.write(value as never)).ok;
  } catch {
    return false;
  }
}

/** Whether a value can be one of this option, so that an alternative is written in the form it was read from. */
function fits(field: AnyField, value: unknown): boolean {
  switch (field.tag) {
    case 'choice':
      return typeof value === 'string' && field.choices.includes(value);
    case 'quantity':
      return typeof value === 'object' && value !== null && 'value' in value && 'source' in value;
    case 'notation':
      return reads(field, value);
    default:
      return typeof value === 'object';
  }
}

function objectData(
  fields: Readonly<Record<string, AnyField>>,
  value: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  const entries = Object.entries(fields).filter(([property]) => value[property] !== undefined);
  return Object.fromEntries(entries.map(([property, part]) => [keyOf(property), fieldData(part, value[property])]));
}

/** Typed value to the plain data that YAML writes: quantities as text, short forms where they say all. */
export function fieldData(field: AnyField, value: unknown): unknown {
  switch (field.tag) {
    case 'quantity': {
      const text = quantityText(field, value as Valued);
      // Counts and ratios stand bare in a file; as numbers they need no quotes.
      return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
    }
    case 'text':
    case 'choice':
    case 'numbers':
      return value;
    case 'flag':
      return value === true ? 'yes' : 'no';
    case 'notation':
      return field.write(value as never);
    case 'list':
      return (value as readonly unknown[]).map((item) => fieldData(field.item, item));
    case 'record':
      return Object.fromEntries(
        Object.entries(value as object).map(([name, item]) => [name, fieldData(field.item, item)]),
      );
    case 'object':
      return objectData(field.fields, value as Readonly<Record<string, unknown>>);
    case 'short': {
      const short = field.lower(value as never);
      return short === undefined ? fieldData(field.full, value) : fieldData(field.short, short);
    }
    case 'either': {
      const option = field.options.find((candidate) => fits(candidate, value)) ?? field.options[0]!;
      return fieldData(option, value);
    }
    case 'variants': {
      const record = value as Readonly<Record<string, unknown>>;
      const word = String(record[field.key]);
      return { [field.key]: word, ...objectData(field.variants[word]!.fields, record) };
    }
  }
}
