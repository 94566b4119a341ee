import { describe, expect, it } from 'vitest';
import { placeOfField } from './field-place.js';
import { describeField } from './field-text.js';

describe('the place of a field', () => {
  it.each([
    ['masses.receiver', 'design/balance'],
    ['glue wire and paint', 'design/balance'],
    ['glue-wire-and-paint', 'design/balance'],
    ['all up mass', 'design/balance'],
    ['array.rows.top.cells', 'design/array'],
    ['drive.motor.resistance', 'design/drive'],
    ['regulator efficiency', 'design/drive'],
    ['battery', 'design/battery'],
    ['surfaces.wing.stations[1].chord', 'design/airframe'],
    ['surfaces.wing.structure.spars.main.width', 'design/structure'],
    ['surfaces.wing.structure', 'design/structure'],
    ['measured.array[0]', 'measure'],
    ['nothing of the kind', 'design/airframe'],
  ])('of the design key %s is %s', (path, place) => {
    expect(placeOfField({ file: 'design', path })).toBe(place);
  });
  it('of every key of the day plan is the plan of the day, not the place where one chooses', () => {
    const { keys } = describeField('day', '')!;
    expect(keys).toContain('wind');
    for (const path of keys) expect(placeOfField({ file: 'day', path })).toBe('day/plan');
  });
});
