import { spread, widest } from './labels.js';
import type { Drawing, DrawOptions, HitRegion, PlainScale, PlotSeries, Point, Table } from './model.js';
import { drawable } from './number.js';
import type { Role } from './palette.js';
import { linePath } from './path.js';
import type { Scale } from './scale.js';
import { type Child, element, fontFamily, joined, type Markup, type Paint, type Pen, px } from './svg.js';
import { sentence, wrapText } from './text.js';

export const textSize = 13;
export const tickSize = 12;
export const lineHeight = 16;

/** Edges of the plot within the drawing [px]. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Width that a drawing takes. */
export const widthOf = (options: DrawOptions): number => {
  const width = options.width ?? 640;
  return drawable(width) ? Math.round(Math.min(4000, Math.max(280, width))) : 640;
};

/** Height that a plot takes: what is asked for, or the default, within reason. */
export const heightOf = (asked: number | undefined, usual: number, least: number): number =>
  drawable(asked) ? Math.min(4000, Math.max(least, asked)) : Math.max(least, usual);

/** Title and finding above a chart; nothing where the page writes them itself. */
export function heading(pen: Pen, options: DrawOptions, words: { title: string; text: string }): Block {
  if (!(options.heading ?? pen.standalone)) return { height: 0, body: { markup: '' } };
  const width = widthOf(options) - 16;
  const title = wrapText(sentence(words.title), 16, width, 3, true);
  const text = wrapText(words.text, textSize, width, 12);
  const top = 20;
  const below = top + title.length * 20 + 2;
  return {
    height: below + text.length * lineHeight - 2,
    body: joined([
      ...title.map((each, i) => pen.text(8, top + i * 20, each, { size: 16, bold: true })),
      ...text.map((each, i) => pen.text(8, below + i * lineHeight, each, { role: 'soft' })),
    ]),
  };
}

/** A piece of a drawing that knows its height. */
export interface Block {
  readonly height: number;
  readonly body: Markup;
}

export interface Finished {
  readonly kind: string;
  readonly title: string;
  readonly text: string;
  readonly table: Table;
  readonly height: number;
  readonly body: readonly Child[];
  readonly scales?: readonly PlainScale[];
  readonly series?: readonly PlotSeries[];
  readonly hits?: readonly HitRegion[];
}

/** The drawing as it is handed out: an image with name and description for those who do not see it. */
export function finish(pen: Pen, options: DrawOptions, made: Finished, width = widthOf(options)): Drawing {
  const { kind, table, title, text } = made;
  const height = Math.ceil(made.height);
  const attributes = {
    ...(pen.standalone ? { xmlns: 'http://www.w3.org/2000/svg', 'font-family': fontFamily } : {}),
    class: `nw-drawing nw-${kind}`,
    role: 'img',
    'aria-labelledby': `${pen.id}-title`,
    'aria-describedby': `${pen.id}-text`,
    viewBox: `0 0 ${px(width)} ${px(height)}`,
    width,
    height,
  };
  const svg = element(
    'svg',
    attributes,
    element('title', { id: `${pen.id}-title` }, title),
    element('desc', { id: `${pen.id}-text` }, text),
    pen.definitions(),
    pen.standalone && pen.shape('rect', { width, height }, { fill: 'paper' }),
    ...made.body,
  );
  const { scales = [], series = [], hits = [] } = made;
  return { kind, svg: svg.markup, title, text, table, size: { width, height }, scales, series, hits };
}

/** Moves a piece. */
export const moved = (x: number, y: number, ...children: readonly Child[]): Markup =>
  element('g', { transform: `translate(${px(x)} ${px(y)})` }, ...children);

export const straight = (pen: Pen, from: Point, to: Point, paint: Paint): Markup =>
  pen.shape('line', { x1: from[0], y1: from[1], x2: to[0], y2: to[1] }, paint);

export const bar = (pen: Pen, box: Box, paint: Paint): Markup =>
  pen.shape(
    'rect',
    {
      x: Math.min(box.left, box.right),
      y: Math.min(box.top, box.bottom),
      width: Math.abs(box.right - box.left),
      height: Math.abs(box.bottom - box.top),
    },
    paint,
  );

/** Ticks, hairlines and name of a horizontal axis below the plot; takes 34 px. */
export function bottomAxis(pen: Pen, scale: Scale, box: Box, title = axisTitle(scale.plain)): Markup {
  const middle = (box.left + box.right) / 2;
  return joined([
    ...scale.ticks.map(({ value, text }) => {
      const x = scale.at(value);
      return joined([
        straight(pen, [x, box.top], [x, box.bottom], { stroke: 'rule' }),
        straight(pen, [x, box.bottom], [x, box.bottom + 4], { stroke: 'edge' }),
        pen.text(x, box.bottom + 16, text, { size: tickSize, role: 'soft', anchor: 'middle' }),
      ]);
    }),
    straight(pen, [box.left, box.bottom], [box.right, box.bottom], { stroke: 'edge' }),
    pen.text(middle, box.bottom + 32, title, { size: tickSize, role: 'soft', anchor: 'middle' }),
  ]);
}

/** Ticks, hairlines and name of a vertical axis; the name stands above the axis and needs 18 px there. */
export function leftAxis(pen: Pen, scale: Scale, box: Box, title = axisTitle(scale.plain)): Markup {
  return joined([
    ...scale.ticks.map(({ value, text }) => {
      const y = scale.at(value);
      return joined([
        straight(pen, [box.left, y], [box.right, y], { stroke: 'rule' }),
        pen.text(box.left - 6, y + 4, text, { size: tickSize, role: 'soft', anchor: 'end' }),
      ]);
    }),
    pen.text(2, box.top - 10, title, { size: tickSize, role: 'soft', halo: true }),
  ]);
}

export const axisTitle = ({ label, unit }: { readonly label: string; readonly unit: string }): string =>
  unit === '' ? label : `${label} [${unit}]`;

/** Room that the ticks of a vertical axis need at its left [px]. */
export const tickRoom = (scale: Scale): number =>
  14 +
  widest(
    scale.ticks.map(({ text }) => text),
    tickSize,
  );

/** Points of values over hours or the like, in px; what cannot be drawn becomes a gap. */
export function placed(
  xs: readonly number[],
  ys: readonly (number | undefined)[],
  x: Scale,
  y: Scale,
): readonly Point[] {
  return xs.map((each, i) => {
    const value = ys[i];
    return drawable(each) && drawable(value) ? [x.at(each), y.at(value)] : [Number.NaN, Number.NaN];
  });
}

export const curve = (pen: Pen, points: readonly Point[], paint: Paint): Markup => {
  const d = linePath(points);
  if (d === '') return { markup: '' };
  return pen.shape('path', { d }, { width: 2, round: true, series: true, ...paint });
};

export interface EndLabel {
  /** Height of the end of its line [px]. */
  readonly y: number;
  readonly text: string;
  readonly role: Role;
  readonly bold?: boolean;
}

/** Labels at the ends of lines, wrapped and spread so that none covers another. */
export function endLabels(
  pen: Pen,
  labels: readonly EndLabel[],
  place: { x: number; width: number; top: number; bottom: number },
): Block {
  const lines = labels.map(({ text, bold }) => wrapText(text, textSize, place.width - 14, 3, bold));
  const sizes = lines.map((each) => Math.max(1, each.length) * 15 + 3);
  const middles = spread(
    labels.map(({ y }) => y),
    sizes,
    [place.top, place.bottom],
  );
  const body = labels.map(({ y, role, bold }, i) => {
    const top = middles[i]! - sizes[i]! / 2;
    return joined([
      pen.shape('path', { d: `M${px(place.x)} ${px(y)}L${px(place.x + 10)} ${px(middles[i]!)}` }, { stroke: role }),
      ...lines[i]!.map((each, at) =>
        pen.text(place.x + 13, top + 13 + at * 15, each, { role, ...(bold ? { bold } : {}) }),
      ),
    ]);
  });
  return { height: sizes.reduce((sum, each) => sum + each, 0), body: joined(body) };
}

/** Height that end labels need, before the plot is laid out [px]. */
export const endLabelRoom = (texts: readonly string[], width: number): number =>
  texts.reduce((sum, text) => sum + Math.max(1, wrapText(text, textSize, width - 14, 3, true).length) * 15 + 3, 0);

/** Width of the margin for end labels: as wide as they need, at most a third of the drawing. */
export const endLabelWidth = (texts: readonly string[], width: number): number =>
  texts.length === 0 ? 12 : Math.min(widest(texts, textSize, true) + 18, Math.max(84, width * 0.3));

/** Words where a chart has nothing to show. */
export const emptyNote = (pen: Pen, box: Box, text: string): Markup =>
  joined(
    wrapText(text, textSize, box.right - box.left - 16, 6).map((each, i, all) =>
      pen.text((box.left + box.right) / 2, (box.top + box.bottom) / 2 + (i - all.length / 2) * lineHeight + 12, each, {
        anchor: 'middle',
        role: 'soft',
        halo: true,
      }),
    ),
  );

/** Dashes and markers that tell curves apart where colour cannot. */
export const dashes: readonly (string | undefined)[] = [undefined, '9 4', '2 4', '12 3 2 3'];
export const skyRoles: readonly Role[] = ['sky0', 'sky1', 'sky2', 'sky3'];
export const dashAt = (i: number): string | undefined => dashes[i % dashes.length];
export const skyRoleAt = (i: number): Role => skyRoles[i % skyRoles.length]!;

export type MarkerName = 'dot' | 'square' | 'diamond' | 'triangle';
const markerNames: readonly MarkerName[] = ['dot', 'square', 'diamond', 'triangle'];
export const markerAt = (i: number): MarkerName => markerNames[i % markerNames.length]!;

const markerPaths: Readonly<Record<MarkerName, (r: number) => string>> = {
  dot: (r) => `M${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`,
  square: (r) => `M${-r} ${-r}h${2 * r}v${2 * r}h${-2 * r}Z`,
  diamond: (r) => `M0 ${-r * 1.3}L${r * 1.3} 0L0 ${r * 1.3}L${-r * 1.3} 0Z`,
  triangle: (r) => `M0 ${-r * 1.2}L${r * 1.2} ${r}L${-r * 1.2} ${r}Z`,
};

export const marker = (pen: Pen, name: MarkerName, at: Point, role: Role, size = 4): Markup =>
  pen.shape(
    'path',
    { d: markerPaths[name](size), transform: `translate(${px(at[0])} ${px(at[1])})` },
    { fill: role, stroke: 'paper', width: 1.5 },
  );
