import { type Block, bar, tickSize } from '../frame.js';
import type { Point } from '../model.js';
import { linePath } from '../path.js';
import { joined, type Markup, type Paint, type Pen } from '../svg.js';
import { textWidth, wrapText } from '../text.js';

/** A class of values; each has its own pattern, so that the colour says nothing alone. */
export interface MapStep {
  readonly words: string;
  readonly paint: Paint;
}

/** Swatches of the classes with their words, and a note below them. */
export function stepLegend(
  pen: Pen,
  steps: readonly MapStep[],
  words: string,
  at: { readonly top: number; readonly width: number },
): Block {
  let [x, y] = [8, at.top];
  const drawn = steps.map((step) => {
    const size = 26 + textWidth(step.words, tickSize) + 14;
    if (x > 8 && x + size > at.width) [x, y] = [8, y + 20];
    const body = joined([
      bar(pen, { left: x, right: x + 20, top: y + 2, bottom: y + 14 }, { ...step.paint, stroke: 'edge' }),
      pen.text(x + 26, y + 12, step.words, { size: tickSize, role: 'soft' }),
    ]);
    x += size;
    return body;
  });
  const note = wrapText(words, tickSize, at.width - 16, 2);
  const below = y + 20;
  return {
    height: below - at.top + note.length * 15 + 2,
    body: joined([
      ...drawn,
      ...note.map((line, i) => pen.text(8, below + 12 + i * 15, line, { size: tickSize, role: 'soft' })),
    ]),
  };
}

/** Where points of a plan (x aft, y to the right) stand in a drawing: nose up, as large as width and shape allow. */
export interface MapPlace {
  readonly at: (point: Point) => Point;
  readonly height: number;
}

export function mapPlace(all: readonly Point[], at: { readonly top: number; readonly width: number }): MapPlace {
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => y);
  const [front, left, right] = [Math.min(...xs), Math.min(...ys), Math.max(...ys)];
  const long = Math.max(Math.max(...xs) - front, 1e-9);
  const scale = Math.min((at.width - 24) / Math.max(right - left, 1e-9), (1.2 * at.width) / long);
  return {
    at: ([x, y]) => [at.width / 2 + (y - (left + right) / 2) * scale, at.top + (x - front) * scale],
    height: long * scale,
  };
}

/** A closed outline. */
export const closedPath = (points: readonly Point[]) => ({
  d: `${linePath(points)}Z`,
  'stroke-linejoin': 'round' as const,
});

/** Words in the middle of a cell, where there is room. */
export function cellLabel(pen: Pen, points: readonly Point[], text: string, isGrave = false): Markup {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  if (right - left < textWidth(text, 11) + 4 || bottom - top < 14) return { markup: '' };
  return pen.text((left + right) / 2, (top + bottom) / 2 + 4, text, {
    size: 11,
    anchor: 'middle',
    ...(isGrave ? { role: 'caution', halo: true, bold: true } : { halo: true }),
  });
}
