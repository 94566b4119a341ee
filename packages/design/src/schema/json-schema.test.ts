import { parseQuantity } from '@noonwing/quantities';
import { describe, expect, it } from 'vitest';
import { aircraftField } from '../aircraft.js';
import { dayPlanField } from '../day-plan.js';
import { dayPlanJsonSchema, designJsonSchema } from '../read-files.js';
import { type AnyField, keyOf, keySpelling } from './field.js';
import { splitSource } from './read-scalar.js';

/** Every field with the keys that lead to it. */
function* fields(field: AnyField, path: readonly string[] = []): Generator<readonly [readonly string[], AnyField]> {
  yield [path, field];
  if (field.tag === 'object')
    for (const [key, part] of Object.entries(field.fields)) yield* fields(part, [...path, key]);
  if (field.tag === 'list' || field.tag === 'record') yield* fields(field.item, [...path, '*']);
  if (field.tag === 'short') yield* fields(field.full, path);
  if (field.tag === 'either') for (const option of field.options) yield* fields(option, path);
  if (field.tag === 'variants')
    for (const [word, part] of Object.entries(field.variants)) yield* fields(part, [...path, word]);
}

const all = [...fields(aircraftField), ...fields(dayPlanField)];

describe('the schema', () => {
  it('is plain data with kind, units and lever step beside the help', () => {
    const schema = JSON.parse(JSON.stringify(designJsonSchema()));
    const x = schema.properties.battery.anyOf[1].properties.x;
    expect(x).toMatchObject({ type: 'string', 'x-kind': 'length', 'x-lever-step': '5 mm' });
    expect(x['x-units']).toContain('mm');
    expect(schema.required).toEqual(['noonwing', 'name']);
    expect(schema.additionalProperties).toBe(false);
    expect(JSON.parse(JSON.stringify(dayPlanJsonSchema())).required).toEqual(['noonwing', 'place', 'date']);
  });

  it('has help for every field', () => {
    for (const [path, field] of all) expect(field.help.length, path.join('.')).toBeGreaterThan(2);
  });

  it('has examples and lever steps that its own reader takes', () => {
    for (const [path, field] of all) {
      if (field.tag === 'quantity') {
        for (const text of [field.example, field.step]) {
          if (text !== undefined)
            expect(parseQuantity(splitSource(text).quantity, field.kinds).ok, `${path.join('.')}: ${text}`).toBe(true);
        }
      }
    }
  });

  it('has keys that are words: no capitals, no hyphens, no mesh', () => {
    for (const [path] of all) {
      const key = path.at(-1) ?? '';
      expect(keyOf(key)).toMatch(/^[a-z0-9* ]*$/);
      expect(keyOf(key)).not.toMatch(/mesh|panels|chordwise|spanwise/);
    }
  });

  it('spells keys one way, however they are written', () => {
    for (const spelling of [
      'noLoadCurrent',
      'no load current',
      'No-load current',
      'no_load__current',
      ' NO LOAD CURRENT ',
    ]) {
      expect(keySpelling(spelling)).toBe('no load current');
    }
  });
});
