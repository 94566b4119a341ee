import { type Block, dashAt, skyRoleAt, straight, tickSize } from '../frame.js';
import type { Point } from '../model.js';
import { linePath } from '../path.js';
import { joined, type Markup, type Paint, type Pen } from '../svg.js';
import { fitText, textWidth } from '../text.js';
import type { CellPictureData, PictureCell } from './inputs.js';

/** The edge of a cell: its dash tells the string, a cross that a diode takes it out. */
export const edgeOf = ({ string, bypassed }: PictureCell, strings: number): Paint => ({
  ...(bypassed ? { pattern: ['cross', 'caution'] } : {}),
  stroke: string === undefined ? 'edge' : skyRoleAt(string - 1),
  width: string === undefined ? 0.75 : 1.75,
  dash: string === undefined || strings < 2 ? undefined : dashAt(string - 1),
});

/** Name of the string of a cell, for words about it. */
export function stringWords({ string }: PictureCell, { strings }: CellPictureData): string {
  const name = string === undefined ? undefined : strings?.[string - 1]?.name;
  return name === undefined ? '' : `, string "${name}"`;
}

const middleOf = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

/** The way of the wire from cell to cell: a dot where a string begins, a rhomb where a diode ends. */
export function wiresOn(
  pen: Pen,
  cells: readonly PictureCell[],
  { strings = [] }: CellPictureData,
  placed: (points: readonly Point[]) => readonly Point[],
): readonly Markup[] {
  return strings.flatMap(({ cells: length, diodes }, index): readonly Markup[] => {
    const at = new Map<number, Point>();
    for (const { string, position, corners } of cells) {
      if (string === index + 1 && position !== undefined) at.set(position, middleOf(placed(corners)));
    }
    const drawn: Markup[] = [];
    for (const [position, point] of at) {
      const place = length > 0 ? position % length : position;
      if (place === 0)
        drawn.push(pen.shape('circle', { cx: point[0], cy: point[1], r: 4 }, { fill: skyRoleAt(index) }));
      const next = place + 1 === length ? undefined : at.get(position + 1);
      if (next === undefined) continue;
      drawn.push(straight(pen, point, next, { stroke: skyRoleAt(index), dash: dashAt(index) }));
      if (diodes.some(({ from, to }) => place + 1 === from || place + 1 === to)) {
        drawn.push(rhomb(pen, [(point[0] + next[0]) / 2, (point[1] + next[1]) / 2]));
      }
    }
    return drawn;
  });
}

const rhomb = (pen: Pen, [x, y]: Point): Markup =>
  pen.shape(
    'path',
    {
      d: `${linePath([
        [x, y - 5],
        [x + 5, y],
        [x, y + 5],
        [x - 5, y],
      ])}Z`,
    },
    { fill: 'ink' },
  );

/** What edges and signs of the wiring mean; nothing where no strings are told. */
export function stringLegend(
  pen: Pen,
  { strings = [], sheets }: CellPictureData,
  at: { readonly top: number; readonly width: number },
): Block {
  const many = strings.length > 1;
  const entries: { readonly words: string; readonly draw: (x: number, y: number) => Markup }[] = strings.map(
    ({ name }, k) => ({
      words: `string ${k + 1}: ${name}`,
      draw: (x, y) =>
        straight(pen, [x, y], [x + 20, y], { stroke: skyRoleAt(k), width: 2, dash: many ? dashAt(k) : undefined }),
    }),
  );
  if (strings.some(({ diodes }) => diodes.length > 0)) {
    entries.push({ words: 'end of a diode', draw: (x, y) => rhomb(pen, [x + 10, y]) });
  }
  if (sheets.some(({ cells }) => cells.some(({ bypassed }) => bypassed))) {
    entries.push({
      words: 'a diode takes it out',
      draw: (x, y) =>
        pen.shape(
          'rect',
          { x, y: y - 6, width: 20, height: 12 },
          { fill: 'paper', pattern: ['cross', 'caution'], stroke: 'edge' },
        ),
    });
  }
  let [x, y] = [8, at.top];
  const drawn = entries.map(({ words, draw }) => {
    const text = fitText(words, tickSize, at.width - 50);
    const size = 26 + textWidth(text, tickSize) + 14;
    if (x > 8 && x + size > at.width) [x, y] = [8, y + 20];
    const body = joined([draw(x, y + 8), pen.text(x + 26, y + 12, text, { size: tickSize, role: 'soft' })]);
    x += size;
    return body;
  });
  return { height: entries.length === 0 ? 0 : y + 22 - at.top, body: joined(drawn) };
}
