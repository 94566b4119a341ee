import { describe, expect, it } from 'vitest';
import type { Check } from '../packages/engine/src/check.js';
import { decimalsFor, faults, render, written } from './validation.mjs';

const check = (fields: Partial<Check>): Check => ({
  id: 'sun-1',
  topic: 'sun',
  quantity: 'zenith',
  expected: 50.11162,
  unit: 'deg',
  tolerance: 0.002,
  why: 'stated accuracy',
  provenance: 'published',
  source: 'a | b',
  calls: 'sunPosition',
  compute: () => 0,
  ...fields,
});
const row = (fields: Partial<Check>, computed: number, agrees: boolean) => ({
  check: check(fields),
  computed,
  agrees,
  file: 'a.checks.ts',
});

describe('numbers in the table', () => {
  it('show a hundredth of the tolerance', () => {
    expect(decimalsFor(0.002)).toBe(5);
    expect(decimalsFor(5)).toBe(2);
    expect(decimalsFor(300)).toBe(0);
    expect(decimalsFor(0)).toBe(9);
    expect(written(50.111_624_9, 5)).toBe('50.11162');
    expect(written(-0.000_001, 5)).toBe('0');
    expect(written(1200, 0)).toBe('1200');
    expect(written(1.7894e-7, 9)).toBe('1.79e-7');
    expect(written(Number.NaN, 3)).toBe('not a number');
  });

  it('do not depend on the last bits of a result', () => {
    const one = render([row({}, 50.111_62, true)]);
    expect(render([row({}, 50.111_62 * (1 + 1e-13), true)])).toBe(one);
  });
});

describe('table', () => {
  it('keeps misses with their reasons, counts them and follows the order of topics', () => {
    const text = render([
      row({ id: 'wing-1', topic: 'wing' }, 50.2, true),
      row({ miss: 'model too coarse' }, 51, false),
    ]);
    expect(text).toContain('| sun | 1 | 0 | 1 | 1 | 0 | 0 |');
    expect(text).toContain('| **all** | 2 | 1 | 1 | 2 | 0 | 0 |');
    expect(text).toContain('**misses**: model too coarse');
    expect(text).toContain('a \\| b');
    expect(text.indexOf('## sun')).toBeLessThan(text.indexOf('## wing'));
  });

  it('shows a band', () => {
    const banded = { ...row({}, 0, true), computed: { value: 50, low: 49.5, high: 50.5 } };
    expect(render([banded])).toContain('50 (49.5 to 50.5)');
  });
});

describe('faults', () => {
  it('are unexplained misses, misses that agree, ids used twice and missing sources', () => {
    expect(faults([row({}, 50.1116, true)])).toEqual([]);
    expect(faults([row({ miss: 'known' }, 51, false)])).toEqual([]);
    expect(faults([row({}, 51, false)])).toHaveLength(1);
    expect(faults([row({ miss: 'known' }, 50.1116, true)])).toHaveLength(1);
    expect(faults([row({}, 50.1116, true), row({}, 50.1116, true)])).toHaveLength(1);
    expect(faults([row({ source: '' }, 50.1116, true)])).toHaveLength(1);
  });
});
