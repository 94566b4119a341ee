import { writeFileSync } from 'node:fs';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { systemReason } from '../input/file.js';

/** Writes a text file; a refusal that names the file where it cannot be written. */
export function writeText(file: string, text: string): Attempt<undefined> {
  try {
    writeFileSync(file, text);
    return ready(undefined);
  } catch (error) {
    return refuse(exitCode.unusableInput, `${file}: ${systemReason(error)}`);
  }
}
