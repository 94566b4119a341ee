import type { Drawing } from '@noonwing/drawing';
import type { Attempt } from '../exit.js';
import { writeText } from './write-text.js';

/** Writes a drawing as SVG; a refusal that names the file where it cannot be written. */
export const writeDrawing = (file: string, drawing: Pick<Drawing, 'svg'>): Attempt<undefined> =>
  writeText(file, `${drawing.svg}\n`);
