import type { SkyResult } from '../answer.js';
import { type Shape, shape } from './shape.js';

/** How the lines of the skies differ, beside their colours: solid, dashed, dotted, dash-dotted. */
const dashes = ['none', '9 5', '2 4', '12 4 2 4'] as const;

/** Number of the look of a sky: more skies than looks share them. */
const look = (index: number): number => index % dashes.length;

export const skyClass = (index: number): string => `sky-${look(index)}`;

export const dashOf = (index: number): string => dashes[look(index)]!;

export const patternOf = (prefix: string, index: number): string => `url(#${prefix}-sky-${look(index)})`;

/** Fill patterns of the skies, named so that two drawings on one page do not mix them up. */
export function skyPatterns(prefix: string, skies: readonly SkyResult[]): Shape {
  const marks: readonly (readonly Shape[])[] = [
    [shape('rect', { width: 8, height: 8, fill: 'currentColor' })],
    [shape('path', { d: 'M-2 2L2 -2M0 8L8 0M6 10L10 6', stroke: 'currentColor', 'stroke-width': 2.2 })],
    [2, 6].map((at) => shape('circle', { cx: at, cy: at, r: 1.5, fill: 'currentColor' })),
    [shape('path', { d: 'M0 2H8M0 6H8', stroke: 'currentColor', 'stroke-width': 1.6 })],
  ];
  return shape(
    'defs',
    {},
    skies.map((_, i) =>
      shape(
        'pattern',
        { id: `${prefix}-sky-${look(i)}`, width: 8, height: 8, patternUnits: 'userSpaceOnUse', class: skyClass(i) },
        marks[look(i)],
      ),
    ),
  );
}

/** A short piece of a sky's line, for keys. */
export const lineSample = (index: number, x: number, y: number): Shape =>
  shape('path', {
    d: `M${x} ${y}H${x + 30}`,
    class: `income ${skyClass(index)}`,
    fill: 'none',
    'stroke-dasharray': dashOf(index),
  });
