import { roles, type ThemeName, themes } from './palette.js';
import { fontFamily } from './svg.js';

const variables = (name: ThemeName): string => roles.map((role) => `--nw-${role}: ${themes[name][role]};`).join(' ');

/**
 * The style sheet for drawings in a page; drawing.css beside the package is its text. A page chooses with
 * data-theme="light | dark | sunlight" on any element around the drawings, else the reader's preference decides;
 * a page with colours of its own may set the variables itself. Paper gets the light theme.
 */
export function drawingStyles(): string {
  const lines = [
    '/* Written by packages/drawing/styles.mjs from src/style-sheet.ts. */',
    `:root, [data-theme="light"] { ${variables('light')} }`,
    `@media (prefers-color-scheme: dark) { :root:not([data-theme]) { ${variables('dark')} } }`,
    `[data-theme="dark"] { ${variables('dark')} }`,
    `[data-theme="sunlight"] { ${variables('sunlight')} }`,
    `@media print { :root, [data-theme] { ${variables('light')} } }`,
    `.nw-drawing { display: block; max-width: 100%; height: auto; font-family: ${fontFamily}; font-variant-numeric: tabular-nums; }`,
    '.nw-drawing text { user-select: none; }',
    '[data-theme="sunlight"] .nw-series { stroke-width: 3; }',
    '.nw-f-none { fill: none; }',
    ...roles.flatMap((role) => [
      `.nw-f-${role} { fill: var(--nw-${role}); }`,
      `.nw-s-${role} { stroke: var(--nw-${role}); }`,
    ]),
  ];
  return `${lines.join('\n')}\n`;
}
