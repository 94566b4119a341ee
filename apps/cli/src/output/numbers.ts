import { convert, preferredUnit, type QuantityKind, UNITS } from '@noonwing/quantities';

/** A value with the band that should hold the truth nine times in ten. */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const orderOf = (size: number): number => Math.floor(Math.log10(size));

/** Decimals that a value deserves when it is known to within a half-width, both as written. */
function decimalsFor(value: number, halfWidth: number): number {
  const least = 2 - orderOf(Math.max(Math.abs(value), 1e-9));
  const byBand = halfWidth > 0 ? 1 - orderOf(halfWidth) : least;
  return Math.min(6, Math.max(0, Math.min(byBand, least)));
}

const withUnit = (number: string, unit: string): string => (unit === '' ? number : `${number} ${unit}`);

interface BandOptions {
  /** Of the kind; the preferred one where left out. */
  readonly unit?: string;
  readonly mostDecimals?: number;
}

/** "17.7 W (15.1 to 21.7 W)"; the value alone where there is no band. */
export function bandText(band: Band, kind: QuantityKind, options: BandOptions = {}): string {
  const { value, low, high } = band;
  const { unit = preferredUnit(kind, value), mostDecimals = 6 } = options;
  const written = (si: number) => convert(si, kind, siUnit(kind), unit);
  const decimals = Math.min(mostDecimals, decimalsFor(written(value), (written(high) - written(low)) / 2));
  const text = (si: number) =>
    written(si)
      .toFixed(decimals)
      .replace(/^-(0(?:\.0*)?)$/, '$1');
  // A band that rounds to its value says nothing more.
  if (high === low || (text(low) === text(value) && text(high) === text(value))) return withUnit(text(value), unit);
  return `${withUnit(text(value), unit)} (${text(low)} to ${withUnit(text(high), unit)})`;
}

/** Symbol in which stored values of a kind are counted. */
export const siUnit = (kind: QuantityKind): string => UNITS[kind][0]!.names[0]!;

/** "87 %" for a share. */
export const percent = (share: number, decimals = 0): string => `${(100 * share).toFixed(decimals)} %`;

/** "8 h 57 min", "35 min"; whole minutes. */
export function durationText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const hours = Math.floor(minutes / 60);
  if (hours === 0) return `${minutes} min`;
  return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

/** "9.0 h (7.7 to 9.8 h)" for a band of durations; minutes below one hour, hours and minutes without a band. */
export function durationBand(band: Band): string {
  if (band.high === band.low) return durationText(band.value);
  return bandText(band, 'time', { unit: Math.abs(band.high) >= 3600 ? 'h' : 'min', mostDecimals: 1 });
}

/** "12.6 to 14.2 h": the band of a duration alone; empty without one. */
export function durationRange(band: Band): string {
  return /\((.*)\)$/.exec(durationBand(band))?.[1] ?? '';
}
