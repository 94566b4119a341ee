import { drawPanel } from '../charts/plot.js';
import { finish, heading, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, numberText, shareText } from '../number.js';
import { interpolated } from '../scale.js';
import { penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { StringCurveData } from './inputs.js';

const voltage = { label: 'voltage of the string', unit: 'V' };
const current = { label: 'current', unit: 'A' };
const power = { label: 'power', unit: 'W' };

const pointOn = (curve: readonly Point[], volts: number): Point => [volts, interpolated(curve, volts) ?? 0];

/** The greatest maximum, and the lower ones at which a tracker can be caught. */
const maximumDot = (curve: readonly Point[], volts: number, k: number) => ({
  at: pointOn(curve, volts),
  role: k === 0 ? ('caution' as const) : ('soft' as const),
  shape: 'diamond' as const,
});

/** Power and current of a string against its voltage, with every maximum and the point at which its converter holds it. */
export function stringCurve(data: StringCurveData, options: DrawOptions = {}): Drawing {
  const pen = penOf('string-curve', options);
  const words = { title: `String "${data.name}"`, text: stringText(data) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const at = { left: 0, width, plot: width >= 640 ? 210 : 170 };
  const points = data.points.filter(({ power: watts, voltage: volts }) => drawable(watts) && drawable(volts));
  const held = data.held !== undefined && data.held.power > 0 ? data.held : undefined;
  const marks = held === undefined ? [] : [{ x: held.voltage, text: 'converter', role: 'accent' as const }];
  const powers = points.map((p) => [p.voltage, p.power] as const);
  const currents = points.map((p) => [p.voltage, p.current] as const);
  const dots = (of: readonly Point[]) => [
    ...data.maxima.map(({ voltage: volts }, k) => maximumDot(of, volts, k)),
    ...(held === undefined ? [] : [{ at: pointOn(of, held.voltage), role: 'accent' as const, shape: 'dot' as const }]),
  ];
  const first = drawPanel(
    pen,
    {
      prefix: '',
      x: { ...voltage, zero: true },
      y: { ...power, zero: true },
      curves: [{ id: 'power', label: 'power', points: powers, role: 'sky0' }],
      marks,
      dots: dots(powers),
      empty: 'The string is dark.',
    },
    { ...at, top: head.height },
  );
  const second = drawPanel(
    pen,
    {
      prefix: 'current ',
      x: { ...voltage, zero: true },
      y: { ...current, zero: true },
      curves: [{ id: 'current', label: 'current', points: currents, role: 'sky1' }],
      marks,
      dots: dots(currents),
      empty: 'The string is dark.',
    },
    { ...at, top: first.bottom + 8 },
  );
  return finish(pen, options, {
    kind: 'string-curve',
    ...words,
    table: stringTable(points),
    height: second.bottom,
    body: [head.body, first.body, second.body],
    scales: [...first.scales, ...second.scales],
    series: [...first.series, ...second.series],
  });
}

function stringText({ when, maxima, held, cells, conducting }: StringCurveData): string {
  const [best, ...others] = maxima;
  if (best === undefined) return `${sentence(when)} the string is dark.`;
  const kept =
    cells > 0 ? `, ${shareText(Math.min(1, best.power / cells))} of what its cells could give each for itself` : '';
  const most = `${sentence(when)} it gives at most ${numberText(best.power, 1)} W at ${numberText(best.voltage, 1)} V${kept}.`;
  const lower =
    others.length === 0
      ? ''
      : ` A tracker can be caught at ${others.map(({ voltage: volts, power: watts }) => `${numberText(volts, 1)} V (${numberText(watts, 1)} W)`).join(', ')}.`;
  const taken =
    held === undefined || !(held.power > 0)
      ? ' The converter takes nothing.'
      : ` The converter holds it at ${numberText(held.voltage, 1)} V and takes ${numberText(held.power, 1)} W; what limits it: ${held.because}.`;
  const diodes =
    conducting.length === 0
      ? ''
      : ` ${conducting.length === 1 ? `Diode ${conducting[0]} carries` : `Diodes ${conducting.join(', ')} carry`} current past shaded cells.`;
  return most + lower + taken + diodes;
}

const stringTable = (points: StringCurveData['points']): Table => ({
  columns: [
    { key: 'voltage', ...voltage },
    { key: 'current', ...current },
    { key: 'power', ...power },
  ],
  rows: points.map((point) => ({ ...point })),
});
