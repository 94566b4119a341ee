import { type Block, straight } from '../frame.js';
import { spread } from '../labels.js';
import type { Point, Table } from '../model.js';
import { drawable } from '../number.js';
import { joined, type Markup, type Paint, type Pen } from '../svg.js';
import { wrapText } from '../text.js';
import type { LayUpKind, LayUpPart } from './inputs.js';

/** How each kind of part looks, in section and plan: pattern and colour, so that neither stands alone. */
export const layUpPaints: Readonly<Record<LayUpKind, Paint>> = {
  core: { fill: 'part3', pattern: ['dots', 'edge'] },
  skin: { fill: 'accent' },
  sheet: { fill: 'part1', pattern: ['hatch', 'edge'], stroke: 'edge' },
  spar: { fill: 'ink' },
  web: { fill: 'part4', pattern: ['bars', 'edge'], stroke: 'edge' },
  rib: { stroke: 'edge', dash: '3 3' },
  cell: { fill: 'sky1' },
  control: { pattern: ['back', 'edge'], stroke: 'edge' },
  joint: { fill: 'sky2' },
  wire: { stroke: 'ink', width: 1.25, dash: '6 3' },
};

export const paintOf = (parts: readonly LayUpPart[], number: number): Paint =>
  layUpPaints[parts.find((part) => part.number === number)?.kind ?? 'spar'];

/** A part's number on a disc. */
export const numberMark = (pen: Pen, [x, y]: Point, number: number): Markup =>
  joined([
    pen.shape('circle', { cx: x, cy: y, r: 9 }, { fill: 'paper', stroke: 'ink' }),
    pen.text(x, y + 4, drawable(number) ? String(Math.round(number)).slice(0, 3) : '?', {
      size: 11,
      anchor: 'middle',
      bold: true,
    }),
  ]);

/** Numbers in a row, each above or below its part with a line to it, spread so that none covers another. */
export function numberRow(
  pen: Pen,
  marks: readonly { readonly number: number; readonly at: Point }[],
  row: { readonly y: number; readonly left: number; readonly right: number },
): Markup {
  const xs = spread(
    marks.map(({ at }) => at[0]),
    marks.map(() => 21),
    [row.left, row.right],
  );
  return joined([
    ...marks.map(({ at }, i) => straight(pen, [xs[i]!, row.y], at, { stroke: 'edge', width: 1 })),
    ...marks.map(({ number }, i) => numberMark(pen, [xs[i]!, row.y], number)),
  ]);
}

/** What the numbers mean, with a swatch of each. */
export function legendBlock(pen: Pen, parts: readonly LayUpPart[], at: { top: number; width: number }): Block {
  let y = at.top;
  const drawn = parts.map((part) => {
    const lines = wrapText(partText(part), 13, at.width - 70, 4);
    const paint = layUpPaints[part.kind];
    const body = joined([
      numberMark(pen, [16, y + 10], part.number),
      pen.shape('rect', { x: 30, y: y + 4, width: 22, height: 11 }, { ...paint, stroke: paint.stroke ?? 'edge' }),
      ...lines.map((line, i) => pen.text(60, y + 14 + i * 16, line)),
    ]);
    y += Math.max(1, lines.length) * 16 + 6;
    return body;
  });
  return { height: y - at.top, body: joined(drawn) };
}

export const partText = ({ label, detail, known }: LayUpPart): string =>
  `${label}${detail === '' ? '' : `: ${detail}`}${known === undefined || known === '' ? '' : ` (${known})`}`;

export const partsTable = (parts: readonly LayUpPart[]): Table => ({
  columns: [
    { key: 'number', label: 'number', unit: '' },
    { key: 'label', label: 'part', unit: '' },
    { key: 'detail', label: 'of', unit: '' },
    { key: 'known', label: 'known how', unit: '' },
  ],
  rows: parts.map(({ number, label, detail, known }) => ({
    number: drawable(number) ? Math.round(number) : undefined,
    label,
    detail,
    known: known ?? '',
  })),
});
