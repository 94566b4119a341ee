/** Writes the style sheet from the built package: node packages/drawing/styles.mjs > packages/drawing/drawing.css */
import { drawingStyles } from './dist/index.js';

console.log(drawingStyles());
