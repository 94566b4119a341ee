/**
 * Writes a page with every drawing from invented data, from the built package:
 * node packages/drawing/preview.mjs [width] [theme] [names, with commas between] > /tmp/drawings.html
 */
import { drawingStyles, themes } from './dist/index.js';
import { all } from './dist/testing/all.js';

const [width = '640', theme = 'light', only = ''] = process.argv.slice(2);
const figures = all
  .filter(([name]) => only === '' || only.split(',').includes(name))
  .map(([name, draw]) => {
    const { svg } = draw({ width: Number(width), id: name, heading: true, standalone: name === 'first-flight' });
    return `<figure>${svg}</figure>`;
  });
const page = `body { margin: 0; background: ${themes[theme].paper}; } figure { margin: 0 0 12px; }`;
const head = `<meta charset="utf-8"><title>Drawings</title><style>${drawingStyles()} ${page}</style>`;
console.log(`<!doctype html><html lang="en" data-theme="${theme}">${head}${figures.join('\n')}</html>`);
