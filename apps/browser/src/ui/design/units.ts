import { convert, parseQuantity, preferredUnit, type QuantityKind, UNITS } from '@noonwing/quantities';
import { writtenUnit } from '../../core/field-input.js';
import { splitSourceWord } from '../../core/source-word.js';

const si = (kind: QuantityKind): string => UNITS[kind][0]!.names[0]!;

/** 0.001, 0.002, 0.005, 0.01 ...: the largest that is not above a size. */
export function roundBelow(size: number): number {
  const order = 10 ** Math.floor(Math.log10(size) + 1e-9);
  const lead = size / order;
  return (lead >= 5 - 1e-9 ? 5 : lead >= 2 - 1e-9 ? 2 : 1) * order;
}

export interface Rounding {
  readonly kind: QuantityKind;
  /** As the file has it, for its unit and uncertainty; empty where nothing is written. */
  readonly like: string;
  /** About how fine the number is [SI]. */
  readonly fineness: number;
}

/**
 * A number moved by hand as text for the file: in the unit that the builder used, rounded there. The uncertainty stays; a word
 * such as 'measured' goes, because a moved part is not where it was measured.
 * value - [SI]
 */
export function movedText(value: number, { kind, like, fineness }: Rounding): string {
  const unit = writtenUnit(like, kind) ?? preferredUnit(kind, value);
  const by = roundBelow(Math.abs(convert(fineness, kind, si(kind), unit)));
  const number = Number((Math.round(convert(value, kind, si(kind), unit) / by) * by).toPrecision(12)) + 0;
  const spread = /(?:±|\+\/-|\+-)\s*(.+)$/.exec(splitSourceWord(like).quantity)?.[1];
  const known =
    spread === undefined ? undefined : parseQuantity(like === '' ? '' : splitSourceWord(like).quantity, kind);
  return `${number}${unit === '' ? '' : ` ${unit}`}${known?.ok && spread !== undefined ? ` ± ${spread.trim()}` : ''}`;
}
