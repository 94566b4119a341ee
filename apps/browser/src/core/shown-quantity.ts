/** Quantities as the page says them; apart from what reads typed ones, because the first words need no more. */
import { findUnit, formatQuantity, preferredUnit, type QuantityKind, unitSymbols } from '@noonwing/quantities';
import { decimalMark } from './decimal.js';

/** Unit in which a kind is shown: the preferred one of the person, else the usual one of the size. */
export function unitFor(
  kind: QuantityKind,
  value: number,
  units: Readonly<Partial<Record<QuantityKind, string>>>,
): string {
  const wanted = units[kind];
  return wanted !== undefined && findUnit(wanted, kind) !== undefined ? wanted : preferredUnit(kind, value);
}

/** Units that can be chosen for a kind. */
export const unitsOf = (kind: QuantityKind): readonly string[] => unitSymbols(kind);

/** A quantity in the person's unit, with the decimal mark of a language where one is given. */
export function shownQuantity(
  quantity: { readonly value: number; readonly sigma?: number | undefined },
  kind: QuantityKind,
  preferences: { readonly units: Readonly<Partial<Record<QuantityKind, string>>>; readonly language?: string },
  digits?: number,
): string {
  const unit = unitFor(kind, quantity.value, preferences.units);
  const text = formatQuantity(quantity, kind, { unit, ...(digits === undefined ? {} : { digits }) });
  return localised(text, preferences.language ?? 'en');
}

const localised = (text: string, language: string): string => {
  const mark = decimalMark(language);
  return mark === '.' ? text : text.replace(/(\d)\.(?=\d)/g, `$1${mark}`);
};
