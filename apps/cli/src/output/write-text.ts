import { writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { systemReason } from '../input/file.js';

/** Writes a text file; a refusal that names the file where it cannot be written. */
export function writeText(file: string, text: string): Attempt<undefined> {
  try {
    writeFileSync(file, text);
    return ready(undefined);
  } catch (error) {
    const isMissing = (error as { code?: string }).code === 'ENOENT';
    const why = isMissing ? `there is no folder ${dirname(file)}; make it, or name another one` : systemReason(error);
    return refuse(exitCode.unusableInput, `${file}: ${why}`);
  }
}
