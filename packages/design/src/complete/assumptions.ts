import type { QuantityKind } from '@noonwing/quantities';
import type { Source, Valued } from '../schema/field.js';

/** One default: what was filled in where, and why. `what` tells a filled-in value from a filled-in uncertainty. */
export interface Assumption {
  readonly path: string;
  readonly what: 'value' | 'uncertainty' | 'choice';
  /** Kind of quantity of value and uncertainty; 'choice' where a word was chosen. */
  readonly kind: QuantityKind | 'choice';
  readonly value: number | string;
  /** Standard uncertainty [SI] */
  readonly uncertainty?: number;
  readonly why: string;
}

export type Log = Assumption[];

/**
 * Values and words that nobody stated. A spread that was filled in beside a stated value is no value of its own: it is counted
 * apart.
 */
export const assumedValues = <T extends Pick<Assumption, 'what'>>(all: readonly T[]): readonly T[] =>
  all.filter(({ what }) => what !== 'uncertainty');

/** '42 values are only assumed, and the uncertainty of 11 others': the same count wherever it is said. */
export function assumedCount(all: readonly Pick<Assumption, 'what'>[]): string {
  const values = assumedValues(all).length;
  const spreads = all.length - values;
  const value = `${values} ${values === 1 ? 'value is' : 'values are'} only assumed`;
  return spreads === 0 ? value : `${value}, and the uncertainty of ${spreads} stated ${spreads === 1 ? 'one' : 'ones'}`;
}

export interface Default {
  readonly kind: QuantityKind;
  readonly value: number;
  readonly sigma: number;
  readonly why: string;
  /** 'library' where the value comes from a part that the design names. */
  readonly source?: Source;
}

/** A default in one line. */
export const usual = (kind: QuantityKind, value: number, sigma: number, why: string): Default => ({
  kind,
  value,
  sigma,
  why,
});

/** The value of a part of the library. */
export const fromLibrary = (kind: QuantityKind, part: { readonly value: number; readonly sigma: number }): Default => ({
  kind,
  ...part,
  why: 'parts library',
  source: 'library',
});

/** The value as it stands, or the default, written down. */
export function orDefault(log: Log, path: string, given: Valued | undefined, otherwise: Default): Valued {
  if (given !== undefined) return given;
  log.push({
    path,
    what: 'value',
    kind: otherwise.kind,
    value: otherwise.value,
    uncertainty: otherwise.sigma,
    why: otherwise.why,
  });
  return { value: otherwise.value, sigma: otherwise.sigma, source: otherwise.source ?? 'assumed' };
}

/** A word as it stands, or the default, written down. */
export function orChoice<T extends string>(log: Log, path: string, given: T | undefined, otherwise: T, why: string): T {
  if (given !== undefined) return given;
  log.push({ path, what: 'choice', kind: 'choice', value: otherwise, why });
  return otherwise;
}

/** Usual standard uncertainty of a stated value without one: a share of the value and a fixed part, added as squares. */
export interface Spread {
  readonly share?: number;
  readonly fixed?: number;
}

/** The value with its uncertainty, where none was written the usual one of its kind, written down. */
export function withSpread(
  log: Log,
  path: string,
  kind: QuantityKind,
  given: Valued,
  usual: Spread,
  why: string,
): Valued {
  if (given.sigma !== undefined) return given;
  const uncertainty = Math.hypot((usual.share ?? 0) * given.value, usual.fixed ?? 0);
  log.push({ path, what: 'uncertainty', kind, value: given.value, uncertainty, why });
  return { ...given, sigma: uncertainty };
}
