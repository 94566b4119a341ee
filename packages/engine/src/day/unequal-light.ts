import { interpolateLinear } from '../math/index.js';

/** What is left of a string at an instant. */
export interface KeptShares {
  /** Of the power in unequal light, the string at its own maximum, relative to every cell at its own. */
  readonly power: number;
  /** Of that by itself at the voltage which it shares with the others on its converter; below zero where it takes current. */
  readonly shared: number;
  /** Of the voltage at the power that is left: diodes that conduct take their cells out, others on the converter pull. */
  readonly voltage: number;
  /** Of the open-circuit voltage: strings without blocking diodes pull each other. */
  readonly open: number;
}

/** What is left when the cells of strings see unequal light and strings share converters, each index string x instants + instant. */
export type UnequalLight = { readonly [share in keyof KeptShares]: Float64Array };

/** Everything left of so many strings and instants. */
export function nothingLost(size: number): UnequalLight {
  const whole = () => new Float64Array(size).fill(1);
  return { power: whole(), shared: whole(), voltage: whole(), open: whole() };
}

/**
 * Enters what is left of one string at some instants of the day, linear between them, repeated on later days.
 *
 * @param left - changed
 * @param found - what is left at the index of each instant, in order; nothing is entered where there is none
 */
export function enterKept(
  left: UnequalLight,
  string: number,
  found: readonly { readonly at: number; readonly kept: KeptShares }[],
  { instants, until }: { readonly instants: number; readonly until: number },
): void {
  if (found.length === 0) return;
  const at = found.map((one) => one.at);
  for (const share of ['power', 'shared', 'voltage', 'open'] as const) {
    const values = found.map(({ kept }) => kept[share]);
    for (let i = 0; i < instants; i++) left[share][string * instants + i] = interpolateLinear(at, values, i % until);
  }
}
