import { plainText, scanNumber } from './number.js';
import { findUnit } from './units.js';

/** What reading a trade notation gives where it fails. */
export interface NotationError {
  readonly ok: false;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

export interface PropellerSize {
  readonly ok: true;
  /** [m] */
  readonly diameter: number;
  /** Geometric pitch [m] */
  readonly pitch: number;
}

/** Reads a propeller as sold, diameter x pitch: "10x6 in", "10 × 4.7 in", "254x152 mm". Returns metres. */
export function parsePropellerSize(text: string): PropellerSize | NotationError {
  const expected = 'a propeller as diameter x pitch with its unit, such as 10x6 in';
  const plain = plainText(text).trim();
  const parts = /^(.+?)\s*[x×X]\s*(.+)$/.exec(plain);
  if (parts === null) return { ok: false, found: plain || 'nothing', expected, hint: 'write "10x6 in"' };
  const first = scanNumber(parts[1]!, 0);
  const second = scanNumber(parts[2]!, 0);
  const between = first.ok ? parts[1]!.slice(first.end).trim() : '';
  const unitText = second.ok ? parts[2]!.slice(second.end).trim() : '';
  if (!first.ok || !second.ok) return { ok: false, found: plain, expected, hint: 'write "10x6 in"' };
  if (unitText === '') return { ok: false, found: plain, expected, hint: `write "${plain} in"` };
  const unit = findUnit(unitText, 'length');
  const same = between === '' || findUnit(between, 'length') === unit;
  if (unit === undefined || !same)
    return { ok: false, found: plain, expected, hint: 'use in, mm or cm, once at the end' };
  const diameter = first.value * unit.scale;
  const pitch = second.value * unit.scale;
  if (!(diameter > 0) || diameter > 10 || Math.abs(pitch) > 10 * diameter) {
    return { ok: false, found: plain, expected, hint: 'the diameter must be positive and below 10 m' };
  }
  return { ok: true, diameter, pitch };
}

export interface PackLayout {
  readonly ok: true;
  readonly series: number;
  readonly parallel: number;
}

/** Reads cells of a pack in the trade's notation: "4S2P", "3s", "6S 1P". */
export function parsePackLayout(text: string): PackLayout | NotationError {
  const expected = 'cells in series and parallel, such as 4S2P';
  const plain = plainText(text).trim();
  const found = /^(\d{1,3})\s*[sS]\s*(?:(\d{1,3})\s*[pP])?$/.exec(plain);
  const series = Number(found?.[1] ?? 0);
  const parallel = Number(found?.[2] ?? 1);
  if (found === null || series === 0 || parallel === 0) {
    return { ok: false, found: plain || 'nothing', expected, hint: 'write "4S2P": 4 in series, 2 in parallel' };
  }
  return { ok: true, series, parallel };
}

export const formatPackLayout = (layout: { readonly series: number; readonly parallel: number }): string =>
  `${layout.series}S${layout.parallel}P`;
