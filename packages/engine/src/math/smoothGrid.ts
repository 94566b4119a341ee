/** Numbers on a uniform grid, [row * columns + column], with what a smooth look-up needs beside them. */
export interface SmoothGrid {
  readonly values: Float64Array;
  /** Slopes along each row, per column. */
  readonly slopes: Float64Array;
  readonly rows: number;
  readonly columns: number;
}

/** Harmonic mean of two differences of one sign, zero at an extremum. */
const harmonic = (a: number, b: number): number => (a * b > 0 ? (2 * a * b) / (a + b) : 0);

/**
 * Grid with slopes that keep each row monotone where its numbers are.
 *
 * @param values - [row * columns + column]
 * @param columns - two at least
 * @param around - the last column is the first one again, one turn on, so that the slopes agree there
 *
 * Source: F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17, 1980;
 * slopes by F. N. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5, 1984.
 */
export function smoothGrid(values: Float64Array, columns: number, around = false): SmoothGrid {
  if (columns < 2 || values.length === 0 || values.length % columns !== 0)
    throw new RangeError('a grid needs whole rows of two columns at least');
  const slopes = new Float64Array(values.length);
  for (let start = 0; start < values.length; start += columns) {
    const last = start + columns - 1;
    for (let k = start + 1; k < last; k++) slopes[k] = harmonic(values[k] - values[k - 1], values[k + 1] - values[k]);
    const [first, final] = [values[start + 1] - values[start], values[last] - values[last - 1]];
    slopes[start] = around ? harmonic(final, first) : first;
    slopes[last] = around ? slopes[start] : final;
  }
  return { values, slopes, rows: values.length / columns, columns };
}

/** Distance by which a trend goes on beyond the end of a grid: it dies out within one step, half a step on. */
const beyond = (u: number): number => (u < 1 ? u - 0.5 * u * u : 0.5);

/**
 * Slope at a row between two differences of one sign, zero at an extremum: 8 a^2 b^2 / (a + b)^3. It keeps the cubic monotone (never above
 * 1.2 times the smaller difference) and, unlike the harmonic mean, vanishes with zero slope where a difference changes its sign, so that
 * what is read across the rows is smooth along them too.
 */
function rowSlope(a: number, b: number): number {
  if (!(a * b > 0)) return 0;
  const r = a / (a + b);
  return 8 * (a + b) * r * r * (1 - r) * (1 - r);
}

/**
 * Cubic between two rows.
 * t - position, 0 at the lower row, 1 at the upper, beyond them outside the grid; low - value there; step - change to the upper row
 * before, after - change from the row before and to the row after, `step` where there is none
 */
function acrossRows(t: number, low: number, step: number, before: number, after: number): number {
  if (t < 0) return low - beyond(-t) * step;
  if (t > 1) return low + (1 + beyond(t - 1)) * step;
  const r = 1 - t;
  return low + t * (t * (3 - 2 * t) * step + r * (r * rowSlope(before, step) - t * rowSlope(step, after)));
}

/** The lower of the two rows that a position lies between. */
const rowBelow = (rows: number, row: number): number =>
  row >= rows - 1 ? Math.max(0, rows - 2) : row > 0 ? Math.floor(row) : 0;

/**
 * Number kept once per row, between its rows: smooth to the first derivative, without overshoot, as `smoothGridValue`.
 * values - by row; row - position, in steps
 */
export function smoothRowValue(values: Float64Array, row: number): number {
  const rows = values.length;
  if (rows === 1) return values[0];
  const i = rowBelow(rows, row);
  const step = values[i + 1] - values[i];
  const before = i > 0 ? values[i] - values[i - 1] : step;
  const after = i + 2 < rows ? values[i + 2] - values[i + 1] : step;
  return acrossRows(row - i, values[i], step, before, after);
}

/**
 * Value of a grid between its numbers: smooth to the first derivative in both directions, and never outside the four numbers around.
 * Beyond its ends the trend dies out within one step.
 *
 * @param row, column - position, in steps
 */
export function smoothGridValue(grid: SmoothGrid, row: number, column: number): number {
  const { values, slopes, rows, columns } = grid;
  const lastColumn = columns - 1;
  const j = column >= lastColumn ? columns - 2 : column > 0 ? Math.floor(column) : 0;
  let a = 1;
  let s = 0;
  let z = 0;
  if (column < 0) s = -beyond(-column);
  else if (column > lastColumn) [a, z] = [0, beyond(column - lastColumn)];
  else {
    const u = column - j;
    const v = 1 - u;
    a = (1 + 2 * u) * v * v;
    s = u * v * v;
    z = -u * u * v;
  }
  const b = 1 - a;
  const i = rowBelow(rows, row);
  const k = i * columns + j;
  const low = a * values[k] + b * values[k + 1] + s * slopes[k] + z * slopes[k + 1];
  if (rows === 1) return low;
  const m = k + columns;
  const step = a * values[m] + b * values[m + 1] + s * slopes[m] + z * slopes[m + 1] - low;
  let before = step;
  let after = step;
  if (i > 0) {
    const n = k - columns;
    before = low - (a * values[n] + b * values[n + 1] + s * slopes[n] + z * slopes[n + 1]);
  }
  if (i + 2 < rows) {
    const n = m + columns;
    after = a * values[n] + b * values[n + 1] + s * slopes[n] + z * slopes[n + 1] - low - step;
  }
  return acrossRows(row - i, low, step, before, after);
}
