import { readFileSync, statSync } from 'node:fs';
import { fileText } from '@noonwing/files';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';

/** A design file is a few kB; a hundred times that is another file. */
const greatestSize = 4_000_000;

const systemReasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EISDIR: 'this is a folder, not a file',
  EACCES: 'access is not allowed',
  EPERM: 'access is not allowed',
  ENAMETOOLONG: 'the name is too long',
};

/** What a failed call of the file system means, in plain words. */
export const systemReason = (error: unknown): string => {
  const code = (error as { code?: string }).code ?? '';
  return systemReasons[code] ?? `the system refuses it (${code || 'unknown reason'})`;
};

/** Text of a file, or one line that says why there is none. */
export function readText(path: string): Attempt<string> {
  const no = (why: string, remedy = '') =>
    refuse(exitCode.unusableInput, `${path}: ${why}${remedy === '' ? '' : `; ${remedy}`}`);
  try {
    const found = statSync(path);
    if (found.isDirectory()) return no('this is a folder, not a file', 'name a file in it');
    if (found.size > greatestSize) return no(`${found.size} bytes is too long for such a file`, 'choose the text file');
    const text = fileText(readFileSync(path));
    return text.ok ? ready(text.value) : no(lowered(text.reason), lowered(text.remedy));
  } catch (error) {
    return no(systemReason(error));
  }
}

/** A sentence as the continuation of a line. */
const lowered = (sentence: string): string =>
  sentence === '' ? '' : sentence[0]!.toLowerCase() + sentence.slice(1).replace(/\.$/, '');
