import { drawPanel } from '../charts/plot.js';
import { finish, heading, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Table } from '../model.js';
import { drawable, hourText, numberText } from '../number.js';
import type { Role } from '../palette.js';
import { penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { ShadeCourseData } from './inputs.js';

const styles: readonly { readonly role: Role; readonly dash?: string }[] = [
  { role: 'sky0' },
  { role: 'sky2', dash: '7 4' },
  { role: 'sky1', dash: '2 3' },
  { role: 'sky3', dash: '12 3 2 3' },
];

const lost = { label: 'light taken by shade', unit: '%' };

/** How much of the light shade takes through the day. */
export function shadeCourse(data: ShadeCourseData, options: DrawOptions = {}): Drawing {
  const pen = penOf('shade-course', options);
  const words = { title: 'Shade through the day', text: shadeText(data) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const panel = drawPanel(
    pen,
    {
      prefix: '',
      x: { label: 'hour of the local clock', unit: 'h', kind: 'hour' },
      y: { ...lost, zero: true },
      holdY: [5],
      curves: data.curves.map((curve, i) => ({ ...curve, ...styles[i % styles.length]! })),
      marks: data.cursor === undefined ? [] : [{ x: data.cursor, text: hourText(data.cursor), role: 'ink' }],
      empty: 'There is no light.',
    },
    { left: 0, width, top: head.height, plot: 180 },
  );
  return finish(pen, options, {
    kind: 'shade-course',
    ...words,
    table: shadeTable(data),
    height: panel.bottom,
    body: [head.body, panel.body],
    scales: panel.scales,
    series: panel.series,
  });
}

function shadeText({ when, curves }: ShadeCourseData): string {
  const told = curves.flatMap(({ label, points }) => {
    const known = points.filter(([, share]) => drawable(share));
    if (known.length === 0) return [];
    const [hour, share] = known.reduce((most, point) => (point[1] > most[1] ? point : most));
    return share < 0.05 ? [`${label}: no shade`] : [`${label}: most at ${hourText(hour)}, ${numberText(share, 1)} %`];
  });
  return told.length === 0 ? `${sentence(when)} there is no light.` : `${sentence(when)} ${told.join('; ')}.`;
}

function shadeTable({ curves }: ShadeCourseData): Table {
  const hours = [...new Set(curves.flatMap(({ points }) => points.map(([hour]) => hour)))].sort((a, b) => a - b);
  return {
    columns: [
      { key: 'hour', label: 'hour', unit: 'h' },
      ...curves.map(({ id, label }) => ({ key: id, label: `${lost.label}, ${label}`, unit: lost.unit })),
    ],
    rows: hours.map((hour) => ({
      hour,
      ...Object.fromEntries(
        curves.map(({ id, points }) => [id, points.find(([at, share]) => at === hour && drawable(share))?.[1]]),
      ),
    })),
  };
}
