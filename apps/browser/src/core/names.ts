/** Longest name of a file or project; file systems take 255 bytes. */
const longestName = 100;

/** Names that some file systems keep for devices, whatever the extension. */
const deviceName = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

/** Control characters, direction marks that would show a name in another order, and what file systems refuse. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is removed
const refusedCharacters = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff<>:"|?*\\]/g;

function part(text: string): string {
  const plain = text
    .normalize('NFC')
    .replace(refusedCharacters, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+|[. ]+$/g, '');
  const named = deviceName.test(plain) || plain === '__proto__' ? `_${plain}` : plain;
  if (named.length <= longestName) return named;
  // The end of a name holds its extension.
  const extension = /(?:\.day)?\.[A-Za-z0-9]{1,8}$/.exec(named)?.[0] ?? '';
  return named.slice(0, longestName - extension.length).trim() + extension;
}

/**
 * A name as it can be kept anywhere: no control or direction characters, no way out of the folder, not empty, not too long.
 * Folders stay ('sections/tip.dat'). kind - what to call it where nothing is left
 */
export function acceptName(wanted: string, kind = 'file'): string {
  const parts = (kind === 'project' ? [wanted.replace(/[/\\]/g, ' ')] : wanted.split(/[/\\]/))
    .map(part)
    .filter((text) => text !== '');
  return parts.slice(-4).join('/') || kind;
}

/** Greatest size of a text file that is taken in [bytes]: a weather file has 1.6 MB, a design a few kB. */
export const greatestFile = 8_000_000;

export type FileCheck =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: string; readonly remedy: string };

/** The text of a file, or why it cannot be taken: too large, or not text. */
export function acceptFile(name: string, content: Uint8Array | string): FileCheck {
  const size = typeof content === 'string' ? content.length : content.byteLength;
  if (size > greatestFile) {
    return {
      ok: false,
      reason: `"${acceptName(name)}" has ${(size / 1e6).toFixed(1)} MB; a project takes files up to ${greatestFile / 1e6} MB`,
      remedy: 'leave it out, or take the part that is needed',
    };
  }
  const text = typeof content === 'string' ? content : decoded(content);
  if (text === undefined || text.slice(0, 65536).includes('\0')) {
    return {
      ok: false,
      reason: `"${acceptName(name)}" is not a text file`,
      remedy: 'noonwing keeps texts: designs, day plans, coordinates, tables',
    };
  }
  return { ok: true, text };
}

/** UTF-8, UTF-16 with a byte order mark, or the old one-byte western letters; undefined where it is none. */
function decoded(bytes: Uint8Array): string | undefined {
  const mark =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : '';
  try {
    return new TextDecoder(mark === '' ? 'utf-8' : mark, { fatal: true }).decode(bytes);
  } catch {
    const odd = bytes.subarray(0, 65536).filter((byte) => byte < 32 && byte !== 9 && byte !== 10 && byte !== 13).length;
    return odd > 0 ? undefined : new TextDecoder('windows-1252').decode(bytes);
  }
}
