import { drawPanel } from '../charts/plot.js';
import { emptyNote, finish, heading, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, numberText, withUnit } from '../number.js';
import { linePath } from '../path.js';
import { drawablePoints } from '../scale.js';
import { joined, type Markup, type Paint, type Pen, penOf } from '../svg.js';
import { sentence, wrapText } from '../text.js';
import type { BentStrip, UnderLoadData } from './inputs.js';

/** A strip that can be drawn, with what its chord does. */
interface Strip extends BentStrip {
  /** Rise of leading and trailing edge. */
  readonly front: number;
  readonly back: number;
  /** Nose up [deg]. */
  readonly twist: number;
}

interface Surface {
  readonly label: string;
  readonly mirrored: boolean;
  readonly strips: readonly Strip[];
}

/** The aircraft at rest and under load: from ahead, how far it rises along the span, and chords from the side. */
export function underLoad(data: UnderLoadData, options: DrawOptions = {}): Drawing {
  const pen = penOf('under-load', options);
  const surfaces = surfacesOf(data);
  const times = drawable(data.exaggeration) ? Math.min(1000, Math.max(0, data.exaggeration)) : 1;
  const words = { title: `${data.aircraft} ${data.when}`, text: loadText(data, surfaces) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const made = { kind: 'under-load', ...words, table: loadTable(data, surfaces) };
  const main = surfaces[0];
  if (main === undefined) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    return finish(pen, options, { ...made, height: room.bottom, body: [head.body, emptyNote(pen, room, words.text)] });
  }
  const front = frontView(pen, surfaces, times, { top: head.height, width });
  const panel = risePanel(pen, data, main, { top: front.bottom + 4, width });
  const side = sideViews(pen, data, main, times, { top: panel.bottom + 10, width });
  return finish(pen, options, {
    ...made,
    height: side.bottom + 6,
    body: [head.body, front.body, panel.body, side.body],
    scales: panel.scales,
    series: panel.series,
  });
}

function surfacesOf({ surfaces }: UnderLoadData): readonly Surface[] {
  return surfaces
    .map(({ label, mirrored, strips }) => ({ label, mirrored, strips: strips.flatMap(stripOf) }))
    .filter(({ strips }) => strips.length > 1);
}

function stripOf({ y, rest, bent }: BentStrip): readonly Strip[] {
  const [a, b] = [drawablePoints(rest), drawablePoints(bent)];
  if (!drawable(y) || a.length < 2 || a.length !== b.length || b.length !== bent.length) return [];
  const slope = (line: readonly Point[]) => Math.atan2(line[0]![1] - line.at(-1)![1], line.at(-1)![0] - line[0]![0]);
  const twist = ((slope(b) - slope(a)) * 180) / Math.PI;
  return [{ y, rest: a, bent: b, front: b[0]![1] - a[0]![1], back: b.at(-1)![1] - a.at(-1)![1], twist }];
}

const drawnAt = ({ rest, bent }: BentStrip, i: number, times: number): Point => {
  const [from, to] = [rest.at(i)!, bent.at(i)!];
  return [from[0] + times * (to[0] - from[0]), from[1] + times * (to[1] - from[1])];
};

const rested: Paint = { stroke: 'edge', dash: '5 4', width: 1.25 };
const loaded: Paint = { stroke: 'ink', width: 2, round: true };
const trailing: Paint = { stroke: 'accent', width: 1.5, dash: '2 3', round: true };

const limited = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

function frontView(pen: Pen, surfaces: readonly Surface[], times: number, at: { top: number; width: number }) {
  const reach = Math.max(...surfaces.flatMap(({ strips }) => strips.map(({ y }) => Math.abs(y))), 1e-9);
  const scale = (at.width - 24) / (2 * reach);
  const zs = surfaces.flatMap(({ strips }) =>
    strips.flatMap((strip) => [
      strip.rest[0]![1],
      strip.rest.at(-1)![1],
      drawnAt(strip, 0, times)[1],
      drawnAt(strip, -1, times)[1],
    ]),
  );
  // What is bent out of all reason must not make the page endless.
  const most = at.width / scale;
  const high = limited(Math.max(...zs), most);
  const low = limited(Math.min(...zs), most);
  const top = at.top + 26;
  const place = (y: number, z: number): Point => [at.width / 2 - y * scale, top + (high - limited(z, most)) * scale];
  const line = (strips: readonly Strip[], side: number, z: (strip: Strip) => number, paint: Paint) =>
    pen.shape('path', { d: linePath(strips.map((strip) => place(side * strip.y, z(strip)))) }, paint);
  const body = surfaces.flatMap(({ strips, mirrored }) =>
    (mirrored ? [1, -1] : [1]).flatMap((side) => [
      line(strips, side, (strip) => strip.rest[0]![1], rested),
      line(strips, side, (strip) => drawnAt(strip, -1, times)[1], trailing),
      line(strips, side, (strip) => drawnAt(strip, 0, times)[1], loaded),
    ]),
  );
  const bottom = top + (high - low) * scale + 14;
  const key = wrapText(
    `From ahead: leading edge solid, trailing edge dotted, at rest dashed; ${timesText(times)}`,
    tickSize,
    at.width - 16,
    3,
  );
  return {
    body: joined([
      ...body,
      ...key.map((each, i) => pen.text(8, bottom + 14 + i * 15, each, { size: tickSize, role: 'soft' })),
    ]),
    bottom: bottom + 8 + key.length * 15,
  };
}

const timesText = (times: number): string =>
  times === 1 ? 'displacements to scale' : `displacements ${numberText(times)} times as large`;

/** How far both edges rise along the half span, for reading. */
function risePanel(
  pen: Pen,
  { length }: UnderLoadData,
  { label, strips }: Surface,
  at: { top: number; width: number },
) {
  const curve = (id: string, name: string, of: (strip: Strip) => number) => ({
    id,
    label: name,
    points: strips.map((strip): Point => [strip.y, of(strip)]),
  });
  return drawPanel(
    pen,
    {
      prefix: '',
      x: { label: `distance from the middle, ${label}`, unit: length.unit },
      y: { label: 'rise', unit: length.unit, decimals: 1, zero: true },
      curves: [
        { ...curve('leading edge', 'leading edge', ({ front }) => front), role: 'need' },
        { ...curve('trailing edge', 'trailing edge', ({ back }) => back), role: 'accent', dash: '2 3' },
      ],
      empty: 'Nothing is known of the shape under load.',
    },
    { left: 0, width: at.width, top: at.top, plot: 130 },
  );
}

const stripText = ({ length }: UnderLoadData, name: string, { front, back, twist }: Strip): string =>
  `${name}: leading edge ${riseText(front, length)}, trailing edge ${riseText(back, length)}, twisted ${numberText(Math.abs(twist), 1)}° nose ${twist < 0 ? 'down' : 'up'}`;

const riseText = (rise: number, length: { readonly unit: string }): string =>
  `${withUnit(Math.abs(rise), { unit: length.unit, decimals: Math.abs(rise) < 10 ? 1 : 0 })} ${rise < 0 ? 'down' : 'up'}`;

/** Chords of root, middle and tip that are shown from the side. */
const shown = ({ strips }: Surface): readonly (readonly [string, Strip])[] => {
  const middle = strips[Math.floor(strips.length / 2)]!;
  return [
    ['root', strips[0]!],
    ['half way', middle],
    ['tip', strips.at(-1)!],
  ];
};

function sideViews(pen: Pen, data: UnderLoadData, main: Surface, times: number, at: { top: number; width: number }) {
  const list = shown(main);
  const longest = Math.max(...list.map(([, { rest }]) => rest.at(-1)![0] - rest[0]![0]), 1e-9);
  const scale = (at.width - 24) / longest;
  let top = at.top;
  const body: Markup[] = [];
  for (const [name, strip] of list) {
    const lines = wrapText(`From the left, ${stripText(data, name, strip)}`, 13, at.width - 16, 3);
    body.push(...lines.map((each, i) => pen.text(8, top + 14 + i * 16, each)));
    const drawn = strip.rest.map((_, i) => drawnAt(strip, i, times));
    // Each chord is shown about its own quarter point: what is left is its twist and its bend along the chord.
    const quarter = Math.round((strip.rest.length - 1) / 4);
    const [from, rise] = [strip.rest[0]![0], drawn[quarter]![1] - strip.rest[quarter]![1]];
    const turned = drawn.map(([x, z]): Point => [x, z - rise]);
    const most = (0.4 * at.width) / scale;
    const base = strip.rest[quarter]![1];
    const zs = [...strip.rest, ...turned].map(([, z]) => limited(z - base, most));
    const [low, high] = [Math.min(...zs), Math.max(...zs)];
    const y = top + lines.length * 16 + 12;
    const place = ([x, z]: Point): Point => [
      12 + limited(x - from, 2 * longest) * scale,
      y + (high - limited(z - base, most)) * scale,
    ];
    body.push(
      pen.shape('path', { d: linePath(strip.rest.map(place)) }, rested),
      pen.shape('path', { d: linePath(turned.map(place)) }, loaded),
    );
    top = y + (high - low) * scale + 12;
  }
  return { body: joined(body), bottom: top };
}

function loadText(data: UnderLoadData, surfaces: readonly Surface[]): string {
  const main = surfaces[0];
  if (main === undefined) return `Nothing is known of the shape ${data.when}.`;
  const tip = main.strips.at(-1)!;
  return `${sentence(data.when)} the ${stripText(data, `tip of the ${main.label}`, tip)}. ${sentence(timesText(drawable(data.exaggeration) ? data.exaggeration : 1))}.`;
}

const loadTable = ({ length }: UnderLoadData, surfaces: readonly Surface[]): Table => ({
  columns: [
    { key: 'surface', label: 'surface', unit: '' },
    { key: 'y', label: 'distance from the middle', unit: length.unit },
    { key: 'front', label: 'leading edge rises', unit: length.unit },
    { key: 'back', label: 'trailing edge rises', unit: length.unit },
    { key: 'twist', label: 'twist, nose up', unit: '°' },
  ],
  rows: surfaces.flatMap(({ label, strips }) =>
    strips.map(({ y, front, back, twist }) => ({ surface: label, y, front, back, twist })),
  ),
});
