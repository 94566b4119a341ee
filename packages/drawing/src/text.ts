/**
 * Widths of letters without a page to measure on, in units of the font size. Taken a little wide of the usual sans-serif
 * faces, so that a label that fits here fits there.
 */
const narrow = new Set("iljtfrI.,:;!|'`()[]{}/\\-·");
const wide = new Set('mwMWQOGD@%&±≥≤→');

function letterWidth(letter: string): number {
  const code = letter.codePointAt(0)!;
  if (letter === ' ' || letter === '\u00a0') return 0.33;
  if (narrow.has(letter)) return 0.4;
  if (wide.has(letter)) return 0.98;
  if (code > 0x2e80) return 1.1;
  if (code >= 48 && code <= 57) return 0.645;
  if (code < 0x300 && letter === letter.toUpperCase() && letter !== letter.toLowerCase()) return 0.73;
  return 0.625;
}

/** Width of a line of text [px]. size - font size [px] */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width * size * (bold ? 1.1 : 1);
}

/** The text, cut with an ellipsis where it is wider than allowed. */
export function fitText(text: string, size: number, width: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, size, bold) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** Lines of at most the width, broken at spaces; a word that is too wide alone is cut. most - lines allowed */
export function wrapText(text: string, size: number, width: number, most = 99, bold = false): readonly string[] {
  const words = keptTogether(text)
    .split(/[ \t\r\n]+/)
    .filter((word) => word !== '');
  const lines: string[] = [];
  let line = '';
  for (const [i, word] of words.entries()) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size, bold) <= width || line === '') {
      line = longer;
      continue;
    }
    if (lines.length === most - 1) {
      line = [line, ...words.slice(i)].join(' ');
      break;
    }
    lines.push(fitText(line, size, width, bold));
    line = word;
  }
  if (line !== '') lines.push(fitText(line, size, width, bold));
  return lines.map((each) => each.replaceAll('\u00a0', ' '));
}

/** A number and the short word behind it stay on one line: "43.1 W". */
const keptTogether = (text: string): string =>
  text.replaceAll('± ', '±\u00a0').replace(/(\d) (?=\S{1,5}(?:[\s,;.)]|$))/g, '$1\u00a0');

/** Capital at the start of a sentence. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
