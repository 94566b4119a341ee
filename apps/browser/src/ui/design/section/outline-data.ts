import type { CompareData, CurveSet, Point } from '@noonwing/drawing';
import type { OutlineView } from '../../../core/view-section-types.js';

function sides({ x, y }: OutlineView): readonly CurveSet[] {
  const nose = x.indexOf(Math.min(...x));
  const points = x.map((each, i): Point => [100 * each, 100 * y[i]!]);
  return [
    { id: 'upper', label: 'above', points: points.slice(0, nose + 1) },
    { id: 'lower', label: 'below', points: points.slice(nose) },
  ];
}

/** Two outlines over one another. */
export const outlineData = (
  question: string,
  a: OutlineView & { readonly name: string },
  b: OutlineView & { readonly name: string },
): CompareData => ({
  question,
  x: { label: 'along the chord', unit: '%', decimals: 0 },
  y: { label: 'height', unit: '%', decimals: 1 },
  a: { name: a.name, curves: sides(a) },
  b: { name: b.name, curves: sides(b) },
});
