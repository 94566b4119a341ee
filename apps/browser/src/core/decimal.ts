/** Decimal marks: apart from quantities, because the first words of the page need no more. */

const marks = new Map<string, string>();

/** The decimal mark of a language. */
export function decimalMark(language: string): string {
  const known = marks.get(language);
  if (known !== undefined) return known;
  let mark = '.';
  try {
    const parts = new Intl.NumberFormat(language === 'system' ? undefined : language).formatToParts(1.5);
    mark = parts.find(({ type }) => type === 'decimal')?.value ?? '.';
  } catch {
    // An unknown language tag keeps the point.
  }
  marks.set(language, mark);
  return mark;
}

let mark = '.';

/** For all words of the page at once: numbers in them come from many hands. Set before anything is drawn. */
export const setDecimalMark = (next: string): void => {
  mark = next;
};

/** Numbers in words with the decimal mark of the person; names like "10x4.7" or "v1.2" stay as they are. */
export const localNumbers = (text: string): string =>
  mark === '.' ? text : text.replace(/(?<![\p{L}\d.,])(\d+)\.(\d+)(?![\d.])/gu, `$1${mark}$2`);

/** The same in a drawing: in what is written, not in where it stands. */
export const localDrawing = (svg: string): string =>
  mark === '.'
    ? svg
    : svg.replace(
        /(<(?:text|tspan|title|desc)\b[^>]*>)([^<]+)/g,
        (_, tag: string, text: string) => tag + localNumbers(text),
      );

/** A number with fixed decimals. */
export const fixed = (value: number, decimals: number): string => localNumbers(value.toFixed(decimals));
