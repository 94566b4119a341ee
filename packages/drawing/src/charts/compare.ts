import { finish, heading, heightOf, markerAt, skyRoleAt, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point } from '../model.js';
import { hourText, withUnit } from '../number.js';
import type { Role } from '../palette.js';
import { byX, interpolated } from '../scale.js';
import { penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { CompareData, CurveSet } from './inputs.js';
import { drawPanel, type PanelCurve } from './plot.js';

/** Curves of two states over one pair of axes: A solid, B dashed; the same curve has the same colour in both. */
export function comparedCurves(data: CompareData, options: DrawOptions = {}): Drawing {
  const pen = penOf('compare', options);
  const words = { title: data.question, text: compareText(data) };
  const head = heading(pen, options, words);
  const ids = [...new Set([...data.a.curves, ...data.b.curves].map(({ id }) => id))];
  const role = (id: string): Role => skyRoleAt(ids.indexOf(id));
  const single = ids.length < 2;
  const of = (
    prefix: string,
    name: string,
    curves: readonly CurveSet[],
    dash: string | undefined,
  ): readonly PanelCurve[] =>
    curves.map(({ id, label, points }) => ({
      id: `${prefix} ${id}`,
      label: single ? name : `${name}: ${label}`,
      points,
      role: single && prefix === 'B' ? 'accent' : role(id),
      dash,
    }));
  const curves = [...of('A', data.a.name, data.a.curves, undefined), ...of('B', data.b.name, data.b.curves, '7 4')];
  const asPoints = ({ id }: PanelCurve): boolean => data.b.asPoints === true && id.startsWith('B ');
  const plot = heightOf(options.height && options.height - head.height - 80, 230, 100);
  const { kind, label, unit } = data.x;
  const drawn = drawPanel(
    pen,
    {
      prefix: '',
      x: { label, unit, kind: kind === 'hour' ? 'hour' : 'linear' },
      y: data.y,
      curves: curves.map((curve) => (asPoints(curve) ? { ...curve, width: 0 } : curve)),
      dots: curves.flatMap((curve) => {
        const points = byX(curve.points);
        const marked = asPoints(curve) ? points : points.slice(-1);
        return marked.map((at) => ({ at, role: curve.role, shape: markerAt(ids.indexOf(curve.id.slice(2))) }));
      }),
      empty: 'Neither state has anything to compare.',
    },
    { left: 0, width: widthOf(options), top: head.height, plot },
  );
  return finish(pen, options, {
    kind: 'compare',
    ...words,
    table: compareTable(data),
    height: drawn.bottom,
    body: [head.body, drawn.body],
    scales: drawn.scales,
    series: drawn.series,
  });
}

/** The largest difference of each curve that both states have. */
function compareText(data: CompareData): string {
  const differences = data.a.curves.flatMap((curve) => {
    const other = data.b.curves.find(({ id }) => id === curve.id);
    const found = other && largestDifference(byX(curve.points), byX(other.points));
    if (found === undefined) return [];
    const place = data.x.kind === 'hour' ? hourText(found.x) : withUnit(found.x, data.x);
    const at = data.x.kind === 'hour' || data.x.unit !== '' ? place : `${data.x.label} ${place}`;
    if (found.by === 0) return [`${sentence(curve.label)}: no difference.`];
    const side = found.by > 0 ? 'above' : 'below';
    return [
      `${sentence(curve.label)}: ${data.b.name} up to ${withUnit(Math.abs(found.by), data.y)} ${side} ${data.a.name} (at ${at}).`,
    ];
  });
  return differences.length === 0 ? 'The two states have no curve in common.' : differences.join(' ');
}

function largestDifference(a: readonly Point[], b: readonly Point[]): { x: number; by: number } | undefined {
  let found: { x: number; by: number } | undefined;
  for (const [x, y] of a) {
    const other = interpolated(b, x);
    if (other === undefined) continue;
    if (found === undefined || Math.abs(other - y) > Math.abs(found.by)) found = { x, by: other - y };
  }
  return found;
}

function compareTable(data: CompareData) {
  const columns = [
    ...data.a.curves.map((curve, i) => ({
      key: `A ${i}`,
      label: `${data.a.name}: ${curve.label}`,
      points: byX(curve.points),
    })),
    ...data.b.curves.map((curve, i) => ({
      key: `B ${i}`,
      label: `${data.b.name}: ${curve.label}`,
      points: byX(curve.points),
    })),
  ];
  const xs = [...new Set(columns.flatMap(({ points }) => points.map(([x]) => x)))].sort((a, b) => a - b);
  return {
    columns: [
      { key: 'x', label: data.x.label, unit: data.x.unit },
      ...columns.map(({ key, label }) => ({ key, label, unit: data.y.unit })),
    ],
    rows: xs.map((x) => ({
      x,
      ...Object.fromEntries(columns.map(({ key, points }) => [key, interpolated(points, x)])),
    })),
  };
}
