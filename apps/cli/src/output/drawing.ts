import { writeFileSync } from 'node:fs';
import type { Drawing } from '@noonwing/drawing';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { systemReason } from '../input/file.js';

/** Writes a drawing as SVG; a refusal that names the file where it cannot be written. */
export function writeDrawing(file: string, drawing: Pick<Drawing, 'svg'>): Attempt<undefined> {
  try {
    writeFileSync(file, `${drawing.svg}\n`);
    return ready(undefined);
  } catch (error) {
    return refuse(exitCode.unusableInput, `${file}: ${systemReason(error)}`);
  }
}
