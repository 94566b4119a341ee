import { parseInstant } from './date.js';
import type { QuantityKind } from './kinds.js';
import { nearest } from './nearest.js';
import { plainText, scanNumber } from './number.js';
import { findUnit, intervalToSI, kindsOfUnit, toSI, UNITS, type Unit, unitNames } from './units.js';
import { formatExact, suggestedUnits } from './write.js';

/** A quantity as read: SI value, SI standard uncertainty where one was written, and the unit it was written in. */
export interface ParsedQuantity {
  readonly ok: true;
  readonly kind: QuantityKind;
  readonly value: number;
  readonly sigma?: number;
  readonly unit: string;
}

export type QuantityErrorCode =
  | 'empty'
  | 'no number'
  | 'malformed number'
  | 'too large'
  | 'ambiguous number'
  | 'missing unit'
  | 'unknown unit'
  | 'wrong kind'
  | 'bad uncertainty'
  | 'out of range';

/** Why text is no quantity of the kind asked for. `position` is the index in the text of the first character at fault. */
export interface QuantityError {
  readonly ok: false;
  readonly code: QuantityErrorCode;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
  readonly position: number;
}

const fail = (code: QuantityErrorCode, fields: Omit<QuantityError, 'ok' | 'code'>): QuantityError => ({
  ok: false,
  code,
  ...fields,
});

const article = (word: string): string => (/^[aeiou]/.test(word) ? 'an' : 'a');

/** 'a length with its unit (m, mm, cm, in, ft)': what a field of these kinds expects. */
export function expectedQuantity(kinds: readonly QuantityKind[]): string {
  const parts = kinds.map((kind) => {
    if (kind === 'ratio') return 'a ratio (0.95 or 95 %)';
    if (kind === 'count') return 'a whole number';
    if (kind === 'instant') return 'a date and time such as 2026-06-21T10:00Z';
    return `${article(kind)} ${kind} with its unit (${suggestedUnits(kind).join(', ')})`;
  });
  return parts.join(' or ');
}

interface Piece {
  readonly text: string;
  readonly at: number;
}

interface Split {
  readonly number: number;
  readonly unit: Piece;
  readonly uncertainty?: { readonly number: number; readonly unit: Piece };
}

const trimmed = (text: string, from: number, to: number): Piece => {
  let start = from;
  while (start < to && text[start] === ' ') start++;
  return { text: text.slice(start, to).trim(), at: start };
};

function readNumber(text: string, start: number, context: { original: string; expected: string; unit: string }) {
  const scan = scanNumber(text, start);
  if (scan.ok) return scan;
  const found = context.original.slice(start, Math.max(scan.end, start + 1)).trim() || context.original.trim();
  const shared = { found, expected: context.expected, position: start };
  if (scan.why === 'ambiguous') {
    const unit = context.unit === '' ? '' : ` ${context.unit}`;
    const [decimal, thousands] = scan.readings;
    const point = found.replace(',', '.');
    return fail('ambiguous number', {
      ...shared,
      hint: `a comma before three digits can mean ${thousands}${unit} or ${decimal}${unit}: write "${thousands}${unit}" or "${point}${unit}"`,
    });
  }
  if (scan.why === 'too large')
    return fail('too large', { ...shared, hint: 'the number is outside what can be computed' });
  if (scan.why === 'malformed') {
    return fail('malformed number', {
      ...shared,
      hint: 'write digits with one decimal point or comma, as in "12.5" or "1e-3"',
    });
  }
  const words = context.original.slice(start).trim() || context.original.trim();
  return fail('no number', { ...shared, found: words, hint: 'start with a number, as in "12.5"' });
}

/** Number, unit and, after ±, +- or +/-, number and unit of the uncertainty. */
function split(original: string, expected: string): Split | QuantityError {
  const text = plainText(original);
  const sign = /±|\+\/?-/.exec(text);
  const start = trimmed(text, 0, text.length).at;
  const bracket = text[start] === '(' ? 1 : 0;
  const first = trimmed(text, start + bracket, text.length).at;
  const firstEnd = sign === null || sign.index <= first ? text.length : sign.index;
  const tail = text
    .slice(first, firstEnd)
    .replace(/^[\d.,\seE+-]*/, '')
    .trim();
  const number = readNumber(text, first, { original, expected, unit: tail });
  if (!number.ok) return number;
  const unit = trimmed(text, number.end, firstEnd);
  if (firstEnd === text.length) {
    const closed = bracket === 1 ? { text: unit.text.replace(')', ''), at: unit.at } : unit;
    return { number: number.value, unit: closed };
  }
  const second = trimmed(text, firstEnd + sign![0].length, text.length).at;
  const spread = readNumber(text, second, { original, expected: 'a standard uncertainty after ±', unit: '' });
  if (!spread.ok) return spread;
  const spreadUnit = trimmed(text, spread.end, text.length);
  const closed = bracket === 1 ? spreadUnit.text.replace(')', '').trim() : spreadUnit.text;
  return {
    number: number.value,
    unit,
    uncertainty: { number: spread.value, unit: { text: closed, at: spreadUnit.at } },
  };
}

function missingUnit(
  number: number,
  kinds: readonly QuantityKind[],
  position: number,
  expected: string,
): QuantityError {
  const examples = suggestedUnits(kinds[0]!).slice(0, 2);
  const written = examples.map((name) => `"${formatPlain(number)} ${name}"`).join(' or ');
  return fail('missing unit', {
    found: formatPlain(number),
    expected,
    hint: `a number needs its unit: write ${written}`,
    position,
  });
}

const formatPlain = (number: number): string => formatExact(number, '');

function unknownUnit(piece: Piece, kinds: readonly QuantityKind[], expected: string): QuantityError {
  const elsewhere = kindsOfUnit(piece.text);
  if (elsewhere.length > 0) {
    return fail('wrong kind', {
      found: piece.text,
      expected,
      hint: `${piece.text} is a unit of ${elsewhere[0]}`,
      position: piece.at,
    });
  }
  const near = nearest(piece.text, kinds.flatMap(unitNames));
  const known = kinds.flatMap((kind) => suggestedUnits(kind)).join(', ');
  return fail('unknown unit', {
    found: piece.text,
    expected,
    hint: near === undefined || near === '' ? `known units: ${known}` : `did you mean "${near}"?`,
    position: piece.at,
  });
}

interface Resolved {
  readonly kind: QuantityKind;
  readonly unit: Unit;
}

const resolve = (name: string, kinds: readonly QuantityKind[]): Resolved | undefined => {
  for (const kind of kinds) {
    const unit = findUnit(name, kind);
    if (unit !== undefined) return { kind, unit };
  }
  return undefined;
};

const isPercent = (name: string): boolean => findUnit(name, 'ratio')?.scale === 0.01;

/** The unit that the value was written in; a unit written once, after the uncertainty, holds for both. */
function valueUnit(parts: Split, kinds: readonly QuantityKind[], expected: string): Resolved | QuantityError {
  const spread = parts.uncertainty?.unit;
  let piece = parts.unit;
  if (piece.text === '' && spread !== undefined && spread.text !== '') {
    if (isPercent(spread.text)) {
      if (resolve('', kinds) === undefined) return missingUnit(parts.number, kinds, piece.at, expected);
      return fail('bad uncertainty', {
        found: spread.text,
        expected,
        hint: 'it is not clear whether the first number is in per cent too: write the unit twice, as in "95 % ± 2 %"',
        position: spread.at,
      });
    }
    piece = spread;
  }
  const resolved = resolve(piece.text, kinds);
  if (resolved !== undefined) return resolved;
  return piece.text === '' ? missingUnit(parts.number, kinds, piece.at, expected) : unknownUnit(piece, kinds, expected);
}

/** SI standard uncertainty: in a unit of the kind, or as per cent of the value. */
function spreadOf(parts: Split, of: Resolved, value: number): number | undefined | QuantityError {
  if (parts.uncertainty === undefined) return undefined;
  const { number, unit } = parts.uncertainty;
  const expected = 'a standard uncertainty that is not negative, with its unit, after ±';
  if (number < 0) {
    return fail('bad uncertainty', {
      found: formatPlain(number),
      expected,
      hint: 'leave the sign out',
      position: unit.at,
    });
  }
  if (of.kind !== 'ratio' && isPercent(unit.text)) {
    if (of.kind !== 'temperature') return Math.abs(value) * number * 0.01;
    return fail('bad uncertainty', {
      found: '%',
      expected,
      hint: 'write it in K, as in "25 degC ± 2 K"',
      position: unit.at,
    });
  }
  const name = unit.text === '' ? '' : unit.text;
  // A difference of temperatures has no zero point, so that ± 2 °C and ± 2 K are the same.
  const kind = of.kind === 'temperature' ? 'temperature difference' : of.kind;
  const found = findUnit(name, kind);
  if (found === undefined) {
    if (name !== '') return unknownUnit(unit, [kind], expected);
    const example = `± ${formatPlain(number)} ${of.unit.names[0]}`;
    return fail('bad uncertainty', {
      found: formatPlain(number),
      expected,
      hint: `write "${example}"`,
      position: unit.at,
    });
  }
  return intervalToSI(number, parts.number, found);
}

function outOfRange(kind: QuantityKind, value: number, sigma: number | undefined): string | undefined {
  if (!Number.isFinite(value) || !Number.isFinite(sigma ?? 0)) return 'the number is outside what can be computed';
  if (kind === 'temperature' && value < 0) return 'that is below absolute zero';
  if (kind === 'count' && (!Number.isInteger(value) || value < 0)) return 'write a whole number, as in "24"';
  return undefined;
}

/**
 * Reads a number with its unit and, optionally, its standard uncertainty.
 *
 * Accepts point or comma as decimal mark, Unicode minus, exponents, '±', '+-', '+/-', uncertainty in a unit of the kind
 * or in per cent of the value (for a ratio, per cent means percentage points). A unit written once holds for both.
 * A bare number is refused except for `ratio` and `count`; "1,500 g" is refused as ambiguous.
 * text - what was written; kinds - accepted kind, or several of which the unit picks the first that has it
 * Returns SI value and uncertainty (temperature in K), or what was found, what was expected, a hint and the position.
 */
export function parseQuantity(
  text: string,
  kinds: QuantityKind | readonly QuantityKind[],
): ParsedQuantity | QuantityError {
  const accepted = typeof kinds === 'string' ? [kinds] : kinds;
  const expected = expectedQuantity(accepted);
  if (text.trim() === '') return fail('empty', { found: 'nothing', expected, hint: 'write a value', position: 0 });
  if (accepted[0] === 'instant') return parseInstantQuantity(text, expected);
  const parts = split(text, expected);
  if ('ok' in parts) return parts;
  const of = valueUnit(parts, accepted, expected);
  if ('ok' in of) return of;
  const value = toSI(parts.number, of.unit) + 0;
  const sigma = spreadOf(parts, of, value);
  if (typeof sigma === 'object') return sigma;
  const why = outOfRange(of.kind, value, sigma);
  if (why !== undefined) return fail('out of range', { found: text.trim(), expected, hint: why, position: 0 });
  const unit = of.unit.names[0]!;
  return sigma === undefined
    ? { ok: true, kind: of.kind, value, unit }
    : { ok: true, kind: of.kind, value, sigma, unit };
}

function parseInstantQuantity(text: string, expected: string): ParsedQuantity | QuantityError {
  const instant = parseInstant(text);
  if (instant.ok) return { ok: true, kind: 'instant', value: instant.seconds, unit: '' };
  return fail('malformed number', { found: instant.found, expected, hint: instant.hint, position: 0 });
}

/**
 * Reads a quantity whose kind is given by its unit alone; where a unit serves several kinds (K, g) the first listed
 * kind wins. A bare number reads as a ratio.
 */
export function parseAnyQuantity(text: string): ParsedQuantity | QuantityError {
  const kinds = (Object.keys(UNITS) as QuantityKind[]).filter((kind) => kind !== 'instant' && kind !== 'count');
  const parsed = parseQuantity(text, kinds);
  return parsed.ok ? parsed : { ...parsed, expected: 'a number with its unit' };
}
