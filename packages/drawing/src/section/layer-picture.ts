import { bottomAxis, curve, emptyNote, finish, heading, straight, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point, Table } from '../model.js';
import { drawable, numberText } from '../number.js';
import { drawablePoints, interpolated, scaleOf } from '../scale.js';
import { joined, type Markup, type Paint, type Pen, penOf } from '../svg.js';
import { listed, sentence } from '../text.js';
import type { LayerPictureData, LayerStretch } from './inputs.js';

/** How each state is drawn: by dash as well as by colour. */
const paints: Readonly<Record<LayerStretch['kind'], Paint>> = {
  laminar: { stroke: 'sky1', width: 4 },
  bubble: { stroke: 'caution', width: 6, dash: '3 3' },
  turbulent: { stroke: 'need', width: 4, dash: '10 3' },
  separated: { stroke: 'caution', width: 6, dash: '8 5' },
};
const kinds = ['laminar', 'bubble', 'turbulent', 'separated'] as const;

/** Where the boundary layer is laminar, in a bubble, turbulent or separated, along the outline of a section. */
export function layerPicture(data: LayerPictureData, options: DrawOptions = {}): Drawing {
  const pen = penOf('layer-picture', options);
  const width = widthOf(options);
  const [upper, lower] = [line(data.upper), line(data.lower)];
  const words = { title: `Boundary layer of ${data.what}`, text: layerText(data) };
  const head = heading(pen, options, words);
  const made = { kind: 'layer-picture', ...words, table: layerTable(data) };
  if (upper.length < 2 || lower.length < 2) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    return finish(pen, options, { ...made, height: room.bottom, body: [head.body, emptyNote(pen, room, words.text)] });
  }
  const x = scaleOf({ id: 'x', label: 'along the chord', unit: '%', domain: [0, 100], range: [14, width - 18] });
  const scale = (width - 32) / 100;
  const ys = [...upper, ...lower].map(([, y]) => y);
  const [low, high] = [Math.max(-60, Math.min(...ys)), Math.min(60, Math.max(...ys))];
  const top = head.height + 16;
  const bottom = top + (high - low) * scale + 16;
  const at = ([px, py]: Point): Point => [x.at(px), top + (high - Math.min(high, Math.max(low, py))) * scale];
  const box = { left: 14, right: width - 18, top: head.height + 4, bottom };
  const legend = legendOf(pen, data, width, bottom + 52);
  return finish(pen, options, {
    ...made,
    height: legend.bottom,
    body: [
      head.body,
      bottomAxis(pen, x, box),
      curve(pen, [...upper].reverse().concat(lower).map(at), { stroke: 'edge', width: 1 }),
      ...stretches(pen, data.above, upper, at),
      ...stretches(pen, data.below, lower, at),
      cellsOf(pen, data, upper, at),
      legend.body,
    ],
    scales: [x.plain],
  });
}

const line = (points: readonly Point[]): readonly Point[] =>
  drawablePoints(points)
    .filter(([x, y]) => x >= -5 && x <= 105 && Math.abs(y) <= 100)
    .sort((a, b) => a[0] - b[0]);

const good = (all: readonly LayerStretch[]): readonly LayerStretch[] =>
  all.filter(({ from, to }) => drawable(from) && drawable(to) && to > from && from < 100 && to > 0);

/** Part of a line between two stations. */
function between(points: readonly Point[], from: number, to: number): readonly Point[] {
  const ends = [from, to].flatMap((end): Point[] => {
    const y = interpolated(points, end);
    return y === undefined ? [] : [[end, y]];
  });
  return [...points.filter(([x]) => x > from && x < to), ...ends].sort((a, b) => a[0] - b[0]);
}

const stretches = (
  pen: Pen,
  all: readonly LayerStretch[],
  points: readonly Point[],
  at: (point: Point) => Point,
): readonly Markup[] =>
  good(all).map(({ kind, from, to }) =>
    curve(pen, between(points, from, to).map(at), { ...paints[kind], round: false }),
  );

/** Cells as a line above the surface. */
function cellsOf(pen: Pen, { cells }: LayerPictureData, upper: readonly Point[], at: (point: Point) => Point): Markup {
  if (cells === undefined || !drawable(cells.from) || !drawable(cells.to) || !(cells.to > cells.from))
    return joined([]);
  const raised = between(upper, cells.from, cells.to).map((point): Point => {
    const [px, py] = at(point);
    return [px, py - 7];
  });
  return curve(pen, raised, { stroke: 'ink', width: 3, round: false });
}

/** Signs with their words, below each other where there is little room. */
function legendOf(pen: Pen, data: LayerPictureData, width: number, top: number) {
  const shown = kinds.filter((kind) => good([...data.above, ...data.below]).some((one) => one.kind === kind));
  const entries: readonly (readonly [string, Paint])[] = [
    ...shown.map((kind) => [kind, paints[kind]] as const),
    ...(data.cells === undefined ? [] : [['cells', { stroke: 'ink', width: 3 }] as const]),
  ];
  const columns = Math.max(1, Math.floor((width - 20) / 130));
  const body = joined(
    entries.flatMap(([word, paint], i) => {
      const [px, py] = [14 + (i % columns) * 130, top + Math.floor(i / columns) * 20];
      return [straight(pen, [px, py - 4], [px + 30, py - 4], paint), pen.text(px + 38, py, word, { size: 13 })];
    }),
  );
  return { body, bottom: top + Math.ceil(entries.length / columns) * 20 - 8 };
}

const percent = (value: number): string => `${numberText(value, 0)} %`;

const sideWords = (side: string, all: readonly LayerStretch[]): string => {
  const found = good(all).map(({ kind, from, to }) => `${kind} from ${percent(from)} to ${percent(to)}`);
  return found.length === 0 ? '' : `${side}: ${listed(found)}.`;
};

function layerText(data: LayerPictureData): string {
  const words = [sideWords('above', data.above), sideWords('below', data.below)].filter((each) => each !== '');
  return words.length === 0 ? 'Nothing is known of the boundary layer.' : words.map(sentence).join(' ');
}

function layerTable(data: LayerPictureData): Table {
  const rows = (side: string, all: readonly LayerStretch[]) =>
    good(all).map(({ kind, from, to }) => ({ side, state: kind, from, to }));
  return {
    columns: [
      { key: 'side', label: 'side', unit: '' },
      { key: 'state', label: 'boundary layer', unit: '' },
      { key: 'from', label: 'from', unit: '%' },
      { key: 'to', label: 'to', unit: '%' },
    ],
    rows: [...rows('above', data.above), ...rows('below', data.below)],
  };
}
