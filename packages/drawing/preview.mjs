/**
 * Writes a page with every drawing from invented data: node packages/drawing/preview.mjs [width] [theme].
 * Needs a built package; prints where the page is.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drawingStyles, themes } from './dist/index.js';
import { all } from './dist/testing/all.js';

const [width = '640', theme = 'light', only = ''] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'noonwing-drawings-'));
const figures = all
  .filter(([name]) => only === '' || only.split(',').includes(name))
  .map(([name, draw]) => {
    const drawing = draw({ width: Number(width), id: name, heading: true, standalone: name === 'first-flight' });
    return `<figure>${drawing.svg}</figure>`;
  });
const styles = `${drawingStyles()} body { margin: 0; background: ${themes[theme].paper}; } figure { margin: 0 0 12px; }`;
const html = `<!doctype html><html lang="en" data-theme="${theme}"><meta charset="utf-8"><title>Drawings</title><style>${styles}</style>${figures.join('\n')}</html>`;
writeFileSync(join(folder, 'index.html'), html);
process.stdout.write(`${join(folder, 'index.html')}\n`);
