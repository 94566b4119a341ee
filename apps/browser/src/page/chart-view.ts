import type { Chart } from '../drawing/shape.js';
import { drawn, element, opening, table } from './elements.js';

/** A chart with its title, its drawing and its data. */
export function chartView(key: string, chart: Chart): HTMLElement {
  const numeric = chart.columns.map((_, i) => i).slice(1);
  return element(
    'figure',
    { class: 'chart-frame' },
    element('figcaption', {}, chart.title),
    drawn(chart.shape),
    chart.note === '' ? undefined : element('p', { class: 'note' }, chart.note),
    opening(key, 'The same as a table', table(chart.title, chart.columns, chart.rows, { numeric })),
  );
}
