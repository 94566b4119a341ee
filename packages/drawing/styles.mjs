/** Writes drawing.css beside it from the built package: node packages/drawing/styles.mjs. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { drawingStyles } from './dist/index.js';

writeFileSync(fileURLToPath(new URL('./drawing.css', import.meta.url)), drawingStyles());
