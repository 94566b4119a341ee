import type { Point } from './model.js';
import { px } from './svg.js';

const corner = (letter: 'M' | 'L', [x, y]: Point): string => `${letter}${px(x)},${px(y)}`;

/** Path of straight lines through points [px], with gaps where a point is not known. */
export function linePath(points: readonly Point[]): string {
  let path = '';
  let isDrawing = false;
  for (const point of points) {
    const isKnown = Number.isFinite(point[0]) && Number.isFinite(point[1]);
    if (isKnown) path += corner(isDrawing ? 'L' : 'M', point);
    isDrawing = isKnown;
  }
  return path;
}

/** A place along an area with its two edges [px]. */
export type AreaPoint = readonly [x: number, from: number, to: number];

/** Path of areas between two edges, one for each stretch of known points; empty where there is none. */
export function areaPath(points: readonly (AreaPoint | undefined)[]): string {
  let path = '';
  let stretch: AreaPoint[] = [];
  const close = () => {
    if (stretch.length > 0) {
      const there = stretch.map(([x, , to]): Point => [x, to]);
      const back = stretch.toReversed().map(([x, from]): Point => [x, from]);
      path += `${linePath([...there, ...back])}Z`;
    }
    stretch = [];
  };
  for (const point of points) {
    if (point?.every(Number.isFinite)) stretch.push(point);
    else close();
  }
  close();
  return path;
}
