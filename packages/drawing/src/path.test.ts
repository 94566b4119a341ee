import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from './model.js';
import { areaPath, linePath } from './path.js';

describe('paths', () => {
  it('join neighbours and leave gaps where a point is not known', () => {
    const points: readonly Point[] = [
      [0, 0],
      [1, 2.5],
      [Number.NaN, 3],
      [3, 1],
      [4, 1],
    ];
    expect(linePath(points)).toBe('M0,0L1,2.5M3,1L4,1');
    expect(linePath([])).toBe('');
  });

  it('close an area along both of its edges, stretch by stretch', () => {
    expect(areaPath([[0, 5, 1], [1, 5, 2], undefined, [3, 5, 0], [4, Number.NaN, 0]])).toBe(
      'M0,1L1,2L1,5L0,5ZM3,0L3,5Z',
    );
    expect(areaPath([undefined])).toBe('');
  });

  it('hold every known point once, and no number that is none', () => {
    const value = fc.oneof(fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.constant(Number.NaN));
    fc.assert(
      fc.property(fc.array(fc.tuple(value, value)), (points) => {
        const path = linePath(points);
        const known = points.filter((point) => point.every(Number.isFinite)).length;
        expect(path.match(/[ML]/g)?.length ?? 0).toBe(known);
        expect(path).not.toMatch(/NaN|Infinity/);
      }),
    );
  });
});
