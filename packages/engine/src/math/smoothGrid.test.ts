import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smoothGrid, smoothGridValue, smoothRowValue } from './smoothGrid.js';

const number = fc.double({ min: -5, max: 5, noNaN: true });
const ROWS = 5;
const COLUMNS = 6;
const numbers = fc.array(number, { minLength: ROWS * COLUMNS, maxLength: ROWS * COLUMNS });
const inside = (last: number) => fc.double({ min: 0, max: last, noNaN: true });
const grid = (values: readonly number[], around = false) => smoothGrid(Float64Array.from(values), COLUMNS, around);

describe('smooth grid', () => {
  it('has its numbers at its points', () => {
    fc.assert(
      fc.property(numbers, fc.nat(ROWS - 1), fc.nat(COLUMNS - 1), (values, i, j) => {
        expect(smoothGridValue(grid(values), i, j)).toBeCloseTo(values[i * COLUMNS + j], 9);
      }),
    );
  });

  it('never leaves the four numbers around', () => {
    fc.assert(
      fc.property(numbers, inside(ROWS - 1), inside(COLUMNS - 1), (values, row, column) => {
        const [i, j] = [Math.min(ROWS - 2, Math.floor(row)), Math.min(COLUMNS - 2, Math.floor(column))];
        const near = [0, 1, COLUMNS, COLUMNS + 1].map((k) => values[i * COLUMNS + j + k]);
        const value = smoothGridValue(grid(values), row, column);
        expect(value).toBeGreaterThanOrEqual(Math.min(...near) - 1e-9);
        expect(value).toBeLessThanOrEqual(Math.max(...near) + 1e-9);
      }),
    );
  });

  it('reproduces a plane, on and beyond its points as far as the trend goes on', () => {
    const plane = grid(Array.from({ length: ROWS * COLUMNS }, (_, k) => Math.floor(k / COLUMNS) - 2 * (k % COLUMNS)));
    fc.assert(
      fc.property(inside(ROWS - 1), inside(COLUMNS - 1), (row, column) => {
        expect(smoothGridValue(plane, row, column)).toBeCloseTo(row - 2 * column, 9);
      }),
    );
    // Half a step beyond the ends and no further.
    expect(smoothGridValue(plane, -9, 0)).toBeCloseTo(-0.5, 12);
    expect(smoothGridValue(plane, ROWS + 9, COLUMNS + 9)).toBeCloseTo(ROWS - 0.5 - 2 * (COLUMNS - 0.5), 12);
  });

  /** Slope on one side of a place, over a step so small that curvature (some hundred for numbers of 5) hardly counts. */
  const step = 1e-6;
  const slope = (at: (t: number) => number, side: 1 | -1) => (side * (at(side * step) - at(0))) / step;

  it('has no kink at rows, columns and ends', () => {
    fc.assert(
      fc.property(numbers, inside(ROWS - 1), inside(COLUMNS - 1), (values, row, column) => {
        const one = grid(values);
        const [i, j] = [Math.round(row), Math.round(column)];
        const along = (t: number) => smoothGridValue(one, row, j + t);
        const across = (t: number) => smoothGridValue(one, i + t, column);
        for (const at of [along, across]) expect(Math.abs(slope(at, 1) - slope(at, -1))).toBeLessThan(5e-3);
      }),
    );
  });

  it('joins without a kink where its columns go round a circle', () => {
    const wave = (k: number) => Math.sin((2 * Math.PI * (k % COLUMNS)) / (COLUMNS - 1) + Math.floor(k / COLUMNS) / 9);
    const round = grid(
      Array.from({ length: ROWS * COLUMNS }, (_, k) => wave(k)),
      true,
    );
    const start = slope((t) => smoothGridValue(round, 1.3, t), 1);
    const end = slope((t) => smoothGridValue(round, 1.3, COLUMNS - 1 + t), -1);
    expect(Math.abs(start - end)).toBeLessThan(1e-4);
    expect(Math.abs(start)).toBeGreaterThan(0.5);
  });

  it('a number kept by row is read as a grid of equal columns', () => {
    const column = fc.array(number, { minLength: ROWS, maxLength: ROWS });
    fc.assert(
      fc.property(column, fc.double({ min: -3, max: ROWS + 3, noNaN: true }), (values, row) => {
        const both = smoothGrid(Float64Array.from(values.flatMap((value) => [value, value])), 2);
        expect(smoothRowValue(Float64Array.from(values), row)).toBeCloseTo(smoothGridValue(both, row, 0.4), 9);
      }),
    );
    expect(smoothRowValue(Float64Array.of(3), 7)).toBe(3);
  });

  it('needs whole rows of two columns', () => {
    expect(() => smoothGrid(new Float64Array(6), 1)).toThrow(RangeError);
    expect(() => smoothGrid(new Float64Array(7), 2)).toThrow(RangeError);
    expect(() => smoothGrid(new Float64Array(0), 2)).toThrow(RangeError);
  });
});
