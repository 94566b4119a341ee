/** What stores of polars and of controls are written and read by. */

export const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Numbers, none of them endless. */
export const numbers = (value: unknown): value is number[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'number' && Number.isFinite(one));
