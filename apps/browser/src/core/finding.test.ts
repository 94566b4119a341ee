import { describe, expect, it } from 'vitest';
import { findingOf } from './finding.js';

const of = (where: string) => findingOf('warning', { code: 'row', text: 'two rows overlap', where, remedy: '' });

describe('a finding', () => {
  it('names its place in the words of the schema, not by the key', () => {
    expect(of('array.rows.top')).toMatchObject({
      where: 'row of cells "top"',
      field: { file: 'design', path: 'array.rows.top' },
      fieldName: 'row of cells "top"',
    });
    expect(of('day plan: wind.gusts')).toMatchObject({
      where: 'day plan, wind: gusts',
      field: { file: 'day', path: 'wind.gusts' },
    });
  });

  it('keeps words that are no path, and still leads to their field', () => {
    expect(of('balance point')).toMatchObject({
      where: 'balance point',
      field: { path: 'battery.x' },
      fieldName: 'battery: aft of the datum (x)',
    });
    expect(of('somewhere else')).toEqual({
      severity: 'warning',
      code: 'row',
      text: 'two rows overlap',
      where: 'somewhere else',
      remedy: '',
    });
  });
});
