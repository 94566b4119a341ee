/** A number found in text: its value and where it ends; or why it is none. */
export type NumberScan =
  | { readonly ok: true; readonly value: number; readonly end: number }
  | { readonly ok: false; readonly why: 'none' | 'too large' | 'malformed'; readonly end: number }
  | {
      readonly ok: false;
      readonly why: 'ambiguous';
      readonly end: number;
      readonly readings: readonly [number, number];
    };

/** Unicode minus signs, non-breaking spaces and full-width digits to plain ones, one for one, so that positions stay. */
export function plainText(text: string): string {
  return text
    .replace(/[−–‒﹣－]/g, '-')
    .replace(/[\u00a0\u2007\u2009\u202f\u2002\u2003\t]/g, ' ')
    .replace(/[０-９]/g, (digit) => String.fromCharCode(digit.charCodeAt(0) - 0xfee0));
}

const NUMBER = /[+-]?(?:\d{1,3}(?: \d{3})+(?![\d])|\d+)?(?:[.,]\d+)*(?:[.,](?!\d))?(?:[eE][+-]?\d+)?/y;

/** Digits with commas and points to a decimal string, both readings where two are possible, or undefined. */
function decimalReadings(digits: string): readonly string[] | undefined {
  const commas = digits.split(',').length - 1;
  const points = digits.split('.').length - 1;
  const grouped = (separator: string) => new RegExp(`^\\d{1,3}(?:\\${separator}\\d{3})+$`);
  if (commas === 0) {
    if (points <= 1) return [digits];
    return grouped('.').test(digits) ? [digits.replaceAll('.', '')] : undefined;
  }
  if (points === 0 && commas === 1) {
    const asDecimal = digits.replace(',', '.');
    // No group of thousands starts with a nought, so 0,620 has one reading.
    return /^[1-9]\d{0,2},\d{3}$/.test(digits) ? [asDecimal, digits.replace(',', '')] : [asDecimal];
  }
  if (points === 0) return grouped(',').test(digits) ? [digits.replaceAll(',', '')] : undefined;
  const decimal = digits.lastIndexOf(',') > digits.lastIndexOf('.') ? ',' : '.';
  const group = decimal === ',' ? '.' : ',';
  const [whole, fraction, ...rest] = digits.split(decimal);
  if (rest.length > 0 || fraction === undefined || !grouped(group).test(whole!)) return undefined;
  return [`${whole!.replaceAll(group, '')}.${fraction}`];
}

/**
 * Reads one number at `start` of plain text: point or comma as decimal mark, spaces, points or commas between groups of
 * three where only one reading is possible, exponent with e.
 * text - as returned by `plainText`; start - index
 */
export function scanNumber(text: string, start: number): NumberScan {
  NUMBER.lastIndex = start;
  const found = NUMBER.exec(text)?.[0] ?? '';
  const end = start + found.length;
  if (!/\d/.test(found)) return { ok: false, why: 'none', end: start };
  const [, sign, mantissa, exponent] = /^([+-]?)(.*?)([eE][+-]?\d+)?$/.exec(found)!;
  const digits = mantissa!.replaceAll(' ', '');
  if (!/^\d|^[.,]\d/.test(digits) || /[.,]$/.test(digits)) return { ok: false, why: 'malformed', end };
  const readings = decimalReadings(digits);
  if (readings === undefined) return { ok: false, why: 'malformed', end };
  const values = readings.map((reading) => Number(`${sign}${reading}${exponent ?? ''}`) + 0);
  if (!values.every((value) => Number.isFinite(value))) return { ok: false, why: 'too large', end };
  if (values.length === 2) return { ok: false, why: 'ambiguous', end, readings: [values[0]!, values[1]!] };
  return { ok: true, value: values[0]!, end };
}
