import { suggestedUnits } from '@noonwing/quantities';
import { type AnyField, keyOf, type ObjectField, type QuantityField } from './field.js';
import { boundsText } from './words.js';

/** JSON Schema (2020-12) as plain data. */
export type JsonSchema = { readonly [key: string]: unknown };

/** Number with optional exponent, optional uncertainty and unit: what an editor can check before the reader does. */
const QUANTITY_PATTERN = String.raw`^\s*\(?\s*[+\-−]?[0-9]`;

function quantitySchema(field: QuantityField): JsonSchema {
  const bare = field.kinds.includes('ratio') || field.kinds.includes('count');
  const limits = boundsText(field.bounds, field.kinds[0]!);
  return {
    type: bare ? ['string', 'number'] : 'string',
    pattern: QUANTITY_PATTERN,
    description: limits === '' ? field.help : `${field.help}; ${limits}`,
    'x-kind': field.kinds.length === 1 ? field.kinds[0] : field.kinds,
    'x-units': field.kinds.flatMap((kind) => suggestedUnits(kind)),
    ...(field.example === undefined ? {} : { examples: [field.example] }),
    ...(field.step === undefined ? {} : { 'x-lever-step': field.step }),
  };
}

function objectSchema(field: ObjectField, extra: JsonSchema = {}): JsonSchema {
  const entries = Object.entries(field.fields);
  const needed = entries.filter(([, part]) => part.required).map(([property]) => keyOf(property));
  return {
    type: 'object',
    description: field.help,
    properties: {
      ...extra,
      ...Object.fromEntries(entries.map(([property, part]) => [keyOf(property), fieldSchema(part)])),
    },
    ...(needed.length === 0 ? {} : { required: needed }),
    additionalProperties: false,
  };
}

/** JSON Schema of a field, with kind of quantity, units, help and lever step as x- keywords. */
export function fieldSchema(field: AnyField): JsonSchema {
  switch (field.tag) {
    case 'quantity':
      return quantitySchema(field);
    case 'text':
      return { type: ['string', 'number'], description: field.help };
    case 'choice':
      return { enum: field.choices, description: field.help };
    case 'flag':
      return { enum: ['yes', 'no', true, false], description: field.help };
    case 'notation':
      return { type: ['string', 'number'], description: field.help, examples: [field.example] };
    case 'numbers':
      return {
        type: 'array',
        items: { type: 'number' },
        minItems: field.count,
        maxItems: field.count,
        description: field.help,
      };
    case 'list':
      return { type: 'array', items: fieldSchema(field.item), minItems: field.least, description: field.help };
    case 'record':
      return { type: 'object', additionalProperties: fieldSchema(field.item), description: field.help };
    case 'object':
      return objectSchema(field);
    case 'short':
      return { anyOf: [fieldSchema(field.short), fieldSchema(field.full)], description: field.help };
    case 'either':
      return { anyOf: field.options.map(fieldSchema), description: field.help };
    case 'variants':
      return {
        oneOf: Object.entries(field.variants).map(([word, part]) => {
          const schema = objectSchema(part, { [field.key]: { const: word } });
          return { ...schema, required: [field.key, ...((schema.required as string[] | undefined) ?? [])] };
        }),
        description: field.help,
      };
  }
}

/** A whole document's schema with its title and identifier. */
export const documentSchema = (field: AnyField, title: string): JsonSchema => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title,
  ...fieldSchema(field),
});
