import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smoothGrid, smoothGridSlopes, smoothGridValue, smoothRowValue } from './smoothGrid.js';

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

  it('its derivatives are those of its values', () => {
    const step = 1e-5;
    const position = (last: number) => fc.double({ min: -1.5, max: last + 1.5, noNaN: true });
    fc.assert(
      fc.property(numbers, position(ROWS - 1), position(COLUMNS - 1), (values, row, column) => {
        const one = grid(values);
        const { value, byColumn, byRow } = smoothGridSlopes(one, row, column);
        const at = (dr: number, dc: number) => smoothGridValue(one, row + dr, column + dc);
        expect(value).toBeCloseTo(at(0, 0), 9);
        // The second derivative may jump between the two values, by up to some hundred for numbers of 5: 1e-5 of it.
        expect(Math.abs((at(0, step) - at(0, -step)) / (2 * step) - byColumn)).toBeLessThan(5e-3);
        expect(Math.abs((at(step, 0) - at(-step, 0)) / (2 * step) - byRow)).toBeLessThan(5e-3);
      }),
    );
  });

  it('its derivatives have no jump at rows, columns and ends', () => {
    const near = 1e-9;
    fc.assert(
      fc.property(numbers, inside(ROWS - 1), inside(COLUMNS - 1), (values, row, column) => {
        const one = grid(values);
        const [i, j] = [Math.round(row), Math.round(column)];
        const pairs = [
          [smoothGridSlopes(one, i - near, column), smoothGridSlopes(one, i + near, column)],
          [smoothGridSlopes(one, row, j - near), smoothGridSlopes(one, row, j + near)],
        ] as const;
        for (const [before, after] of pairs) {
          expect(Math.abs(before.byRow - after.byRow)).toBeLessThan(1e-5);
          expect(Math.abs(before.byColumn - after.byColumn)).toBeLessThan(1e-5);
        }
      }),
    );
  });

  it('joins without a kink where its columns go round a circle', () => {
    const wave = (k: number) => Math.sin((2 * Math.PI * (k % COLUMNS)) / (COLUMNS - 1) + Math.floor(k / COLUMNS) / 9);
    const round = grid(
      Array.from({ length: ROWS * COLUMNS }, (_, k) => wave(k)),
      true,
    );
    const [start, end] = [smoothGridSlopes(round, 1.3, 0), smoothGridSlopes(round, 1.3, COLUMNS - 1)];
    expect(start.byColumn).toBeCloseTo(end.byColumn, 12);
    expect(Math.abs(start.byColumn)).toBeGreaterThan(0.5);
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
