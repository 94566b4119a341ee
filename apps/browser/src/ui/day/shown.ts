import type { Measure } from '@noonwing/drawing';
import { convert, type QuantityKind, UNITS } from '@noonwing/quantities';
import { shownQuantity, unitFor } from '../../core/shown-quantity.js';
import type { Preferences } from '../../core/state.js';

/** A kind of quantity for an axis: its name and unit, and the numbers in that unit. */
export interface Shown {
  readonly measure: Measure;
  /** value - SI */
  readonly of: (value: number) => number;
}

/**
 * Unit for values of one kind in a drawing: that of the person, else the usual one of a typical value.
 * typical - SI
 */
export function shownAs(
  kind: QuantityKind,
  label: string,
  typical: number,
  { units }: Pick<Preferences, 'units'>,
  decimals?: number,
): Shown {
  const base = UNITS[kind][0]!.names[0]!;
  const unit = unitFor(kind, typical, units);
  return {
    measure: { label, unit, ...(decimals === undefined ? {} : { decimals }) },
    of: (value) => convert(value, kind, base, unit),
  };
}

/** A quantity in words, in the person's unit. */
export const words = (
  value: number,
  kind: QuantityKind,
  preferences: Pick<Preferences, 'units' | 'language'>,
  digits = 3,
): string => shownQuantity({ value }, kind, preferences, digits);
