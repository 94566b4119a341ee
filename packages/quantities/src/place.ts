import { plainText } from './number.js';
import type { NotationError } from './trade.js';

export interface Place {
  readonly ok: true;
  /** North positive [rad] */
  readonly latitude: number;
  /** East positive, -pi to pi [rad] */
  readonly longitude: number;
}

const EXPECTED = 'latitude and longitude, such as 40.7,0.9 or 40.7 N 0.9 E';
const DEGREE = Math.PI / 180;
const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const COORDINATE = new RegExp(
  String.raw`^([+-]?)\s*(${NUMBER})\s*(?:°|º|deg)?\s*(?:(${NUMBER})\s*['′’]\s*(?:(${NUMBER})\s*(?:["″”]|''|′′)\s*)?)?$`,
);

const refuse = (found: string, hint: string): NotationError => ({
  ok: false,
  found: found || 'nothing',
  expected: EXPECTED,
  hint,
});

interface Halves {
  readonly first: string;
  readonly second: string;
  /** 'NE', 'SW', ... in the order written; empty without letters. */
  readonly letters: string;
}

const edges = /^[\s,;]+|[\s,;]+$/g;

/** The two coordinates as text. Without letters the comma is the separator unless points or blanks show otherwise. */
function halves(plain: string): Halves | string {
  const after = /^([^NSEW]+)([NSEW])([^NSEW]+)([NSEW])$/.exec(plain);
  if (after !== null) {
    return {
      first: after[1]!.replace(edges, ''),
      second: after[3]!.replace(edges, ''),
      letters: after[2]! + after[4]!,
    };
  }
  const before = /^([NSEW])([^NSEW]+)([NSEW])([^NSEW]+)$/.exec(plain);
  if (before !== null) {
    return {
      first: before[2]!.replace(edges, ''),
      second: before[4]!.replace(edges, ''),
      letters: before[1]! + before[3]!,
    };
  }
  if (/[NSEW]/.test(plain)) return 'give both: latitude with N or S and longitude with E or W';
  const parts = separate(plain);
  if (parts === undefined) return 'it has more than one reading: write "40.7, 0.9" or "40,7 N 0,9 E"';
  if (parts.length !== 2) return parts.length < 2 ? 'give both latitude and longitude' : 'give two numbers';
  return { first: parts[0]!, second: parts[1]!, letters: '' };
}

function separate(plain: string): readonly string[] | undefined {
  const clean = (parts: readonly string[]) => parts.map((part) => part.trim()).filter((part) => part !== '');
  if (plain.includes(';')) return clean(plain.split(';'));
  if (/,\s/.test(plain)) return clean(plain.split(/,\s+/));
  if (plain.includes('.')) return clean(plain.split(/[\s,]+/));
  // "40,7" may be a place (40 and 7) or one decimal number (40.7) whose partner was forgotten.
  if (plain.includes(',')) return /\s/.test(plain) ? clean(plain.split(/\s+/)) : undefined;
  return clean(plain.split(/\s+/));
}

function degrees(text: string): number | undefined {
  const found = COORDINATE.exec(text.trim());
  if (found === null) return undefined;
  const part = (index: number) => Number((found[index] ?? '0').replace(',', '.'));
  if (part(3) >= 60 || part(4) >= 60) return undefined;
  const size = part(2) + part(3) / 60 + part(4) / 3600;
  return found[1] === '-' ? 0 - size : size;
}

/**
 * Reads a place on the earth: "40.7,0.9", "40.7, 0.9", "40,7 N 0,9 E", "40.7 N, 0.9 E", "40°42'N 0°54'E", "-33.87 151.21".
 * Without letters latitude comes first, north and east positive; with letters either order.
 * Returns radians, or what was found and a hint.
 */
export function parsePlace(text: string): Place | NotationError {
  const plain = plainText(text.slice(0, 200)).trim().toUpperCase().replaceAll('DEG', '°');
  if (plain === '') return refuse('', 'write "40.7,0.9"');
  const parts = halves(plain);
  if (typeof parts === 'string') return refuse(text.trim(), parts);
  const values = [degrees(parts.first), degrees(parts.second)];
  const unread = values[0] === undefined ? parts.first : parts.second;
  if (values[0] === undefined || values[1] === undefined) {
    return refuse(unread, 'write degrees with decimals, or degrees° minutes\' seconds"');
  }
  return place(text.trim(), [values[0], values[1]], parts.letters);
}

function place(found: string, values: readonly [number, number], letters: string): Place | NotationError {
  if (letters !== '' && values.some((value) => value < 0)) return refuse(found, 'use a sign or a letter, not both');
  const longitudeFirst = /[EW]/.test(letters[0] ?? '');
  if (letters !== '' && longitudeFirst === /[EW]/.test(letters[1]!)) {
    return refuse(found, 'one of them needs N or S, the other E or W');
  }
  const signed = values.map((value, index) => (/[SW]/.test(letters[index] ?? '') ? 0 - value : value));
  const [latitude, longitude] = longitudeFirst ? [signed[1]!, signed[0]!] : [signed[0]!, signed[1]!];
  if (Math.abs(latitude) > 90) return refuse(found, 'latitude goes from -90 to 90 degrees and comes first');
  if (Math.abs(longitude) > 180) return refuse(found, 'longitude goes from -180 to 180 degrees, east positive');
  return { ok: true, latitude: latitude * DEGREE, longitude: longitude * DEGREE };
}

/** "40.700 N 0.900 E" from radians. */
export function formatPlace(where: { readonly latitude: number; readonly longitude: number }, decimals = 3): string {
  const part = (value: number, letters: string) =>
    `${Math.abs(value / DEGREE).toFixed(decimals)} ${value < 0 ? letters[1] : letters[0]}`;
  return `${part(where.latitude, 'NS')} ${part(where.longitude, 'EW')}`;
}
