import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { confidenceWords, intervalOf, quantile, shareOf } from './interval.js';

describe('intervals', () => {
  it('the quantiles of 1 to 99 are the percentages', () => {
    const values = Array.from({ length: 99 }, (_, i) => i + 1);
    expect(quantile(values, 0.05)).toBe(5);
    expect(quantile(values, 0.5)).toBe(50);
    expect(quantile(values, 0)).toBe(1);
    expect(quantile(values, 1)).toBe(99);
    expect(quantile([3], 0.05)).toBe(3);
  });
  it('always holds the central value', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
        fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 })),
        (value, samples) => {
          const interval = intervalOf(value, samples);
          expect(interval.low).toBeLessThanOrEqual(value);
          expect(interval.high).toBeGreaterThanOrEqual(value);
        },
      ),
    );
  });
  it('speaks in tenths', () => {
    expect(confidenceWords(0.87)).toBe('about 9 in 10');
    expect(confidenceWords(1)).toBe('in every case computed');
    expect(confidenceWords(0.97)).toBe('more than 9 in 10');
    expect(confidenceWords(0.02)).toBe('fewer than 1 in 10');
    expect(confidenceWords(0)).toBe('in no case computed');
    expect(shareOf([])).toBe(0);
  });
});
