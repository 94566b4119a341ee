import type { FileOutcome } from './outcome.js';
import { readAs, refused } from './outcome.js';

/** The text decoder that browsers and Node share. */
interface Decoders {
  readonly TextDecoder: new (label: string, options?: { fatal: boolean }) => { decode(bytes: Uint8Array): string };
}

const { TextDecoder } = globalThis as unknown as Decoders;

const decode = (label: string, bytes: Uint8Array, fatal: boolean): string | undefined => {
  try {
    return new TextDecoder(label, { fatal }).decode(bytes);
  } catch {
    return undefined;
  }
};

/** Encoding that the first bytes state, or that the places of noughts betray (Latin text in two bytes a character). */
function wideEncoding(bytes: Uint8Array): string | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const pairs = Math.min(200, Math.floor(bytes.length / 2));
  let even = 0;
  let odd = 0;
  for (let pair = 0; pair < pairs; pair += 1) {
    if (bytes[2 * pair] === 0) even += 1;
    if (bytes[2 * pair + 1] === 0) odd += 1;
  }
  if (pairs >= 4 && odd > 0.9 * pairs && even === 0) return 'utf-16le';
  if (pairs >= 4 && even > 0.9 * pairs && odd === 0) return 'utf-16be';
  return undefined;
}

/** Control characters other than line ends, tabs and form feeds, which no text file holds. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose
const binaryMark = /[\u0000-\u0008\u000e-\u001a\u001c-\u001f]/;

/**
 * Text of a file: UTF-8, UTF-16 with or without mark, else one byte a character; no byte-order mark; line ends `\n`.
 * input - the file's bytes, or text already decoded
 * Returns a problem for an empty file and for one that is no text.
 */
export function fileText(input: string | Uint8Array): FileOutcome<string> {
  const warnings: { code: string; message: string }[] = [];
  let text = '';
  if (typeof input === 'string') text = input;
  else {
    const wide = wideEncoding(input);
    const strict = decode(wide ?? 'utf-8', input, wide === undefined);
    text = strict ?? decode('windows-1252', input, false) ?? '';
    if (strict === undefined) {
      warnings.push({ code: 'encoding', message: 'The file is not UTF-8; it was read as Western European text.' });
    }
  }
  text = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  if (binaryMark.test(text)) {
    return refused({
      code: 'not text',
      reason: 'The file is not text: it holds control characters, as images, archives and programs do.',
      where: 'whole file',
      remedy: 'Choose a text file, or export the data as text.',
    });
  }
  if (text.trim() === '') {
    return refused({
      code: 'empty',
      reason: 'The file is empty.',
      where: 'whole file',
      remedy: 'Choose a file with content; a failed copy or download often leaves an empty one.',
    });
  }
  return readAs(text, warnings);
}
