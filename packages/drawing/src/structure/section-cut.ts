import { type Block, bar, emptyNote, finish, heading, straight, tickSize, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point } from '../model.js';
import { drawable, withUnit } from '../number.js';
import { linePath } from '../path.js';
import { drawablePoints, interpolated } from '../scale.js';
import { joined, type Markup, type Pen, penOf } from '../svg.js';
import { listed, sentence, wrapText } from '../text.js';
import type { CutLayer, CutShape, SectionCutData } from './inputs.js';
import { layUpPaints, legendBlock, numberRow, paintOf, partsTable, partText } from './legend.js';

/** How the cut is laid out: px for each length, heights and layers enlarged by whole steps that the words name. */
interface Layout {
  readonly at: (x: number, z: number) => Point;
  readonly scale: number;
  readonly heights: number;
  readonly layers: number;
  readonly upper: readonly Point[];
  readonly lower: readonly Point[];
}

const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500] as const;

/** A cut through a surface at one station: core, skins, spars, webs, cells, with numbers that a list below explains. */
export function sectionCut(data: SectionCutData, options: DrawOptions = {}): Drawing {
  const pen = penOf('section-cut', options);
  const width = widthOf(options);
  const [upper, lower] = [goodLine(data.upper), goodLine(data.lower)];
  const empty = upper.length < 2 || lower.length < 2;
  const plain = empty ? undefined : layoutOf(data, upper, lower, width);
  const words = { title: `Cut through the ${data.where}`, text: cutText(data, plain) };
  const head = heading(pen, options, words);
  if (plain === undefined) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    const body = [head.body, emptyNote(pen, room, words.text)];
    return finish(pen, options, { kind: 'section-cut', ...words, table: partsTable([]), height: room.bottom, body });
  }
  const zs = [...upper, ...lower, ...shapeEnds(data.shapes)].map(([, z]) => z);
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  const tall = (high - low) * plain.scale * plain.heights;
  const top = head.height + 46;
  const layout: Layout = {
    ...plain,
    at: (x, z) => [14 + x * plain.scale, top + (high - z) * plain.scale * plain.heights],
  };
  const below = top + tall + 16;
  const note = scaleBar(pen, data, layout, { top: below, width });
  const legend = legendBlock(pen, data.parts, { top: below + note.height + 6, width });
  return finish(pen, options, {
    kind: 'section-cut',
    ...words,
    table: partsTable(data.parts),
    height: below + note.height + 10 + legend.height,
    body: [head.body, ...parts(pen, data, layout), numbers(pen, data, layout, top - 30, width), note.body, legend.body],
  });
}

const goodLine = (points: readonly Point[]): readonly Point[] =>
  [...drawablePoints(points)].sort((a, b) => a[0] - b[0]).filter(([x], i, all) => i === 0 || x > all[i - 1]![0]);

const shapeEnds = (shapes: readonly CutShape[]): readonly Point[] =>
  goodShapes(shapes).flatMap((shape) => {
    const half = (shape.form === 'tube' ? shape.outer : shape.height) / 2;
    return [
      [shape.x, shape.z + half],
      [shape.x, shape.z - half],
    ] as const;
  });

const goodShapes = (shapes: readonly CutShape[]): readonly CutShape[] =>
  shapes.filter((shape) => {
    const sizes = shape.form === 'tube' ? [shape.outer, shape.inner] : [shape.width, shape.height];
    return [shape.x, shape.z, ...sizes].every(drawable) && sizes.every((size) => size >= 0);
  });

/** Sections are at least so high, and layers so thick, where enlarging can make them so [px]. */
const leastHeight = 34;
const leastLayer = 2.2;

function layoutOf(
  data: SectionCutData,
  upper: readonly Point[],
  lower: readonly Point[],
  width: number,
): Omit<Layout, 'at'> {
  const chord = Math.max(upper.at(-1)![0], lower.at(-1)![0], 1e-9);
  const scale = (width - 28) / chord;
  const tall = upper.reduce((most, [x, z]) => Math.max(most, z - (interpolated(lower, x) ?? z)), 0) * scale;
  const heights = tall >= leastHeight ? 1 : (steps.find((step) => step * tall >= leastHeight) ?? 10);
  const thicknesses = [...goodLayers(data.layers), ...goodLayers(data.cells)].map(({ thickness }) => thickness);
  const thinnest = Math.min(...thicknesses) * scale * heights;
  const most = stackOf(data) * scale * heights;
  const wanted =
    thicknesses.length === 0 || thinnest >= leastLayer
      ? 1
      : (steps.find((step) => step * thinnest >= leastLayer) ?? 500);
  // Layers never fill the section.
  const allowed =
    steps.findLast((step) => step === 1 || step * most < 0.28 * Math.max(tall * heights, leastHeight)) ?? 1;
  return { scale, heights, layers: Math.min(wanted, allowed), upper, lower };
}

const goodLayers = (layers: readonly CutLayer[]): readonly CutLayer[] =>
  layers.filter(({ from, to, thickness }) => [from, to, thickness].every(drawable) && to > from && thickness > 0);

/** Thickest stack of one face. */
const stackOf = ({ layers }: SectionCutData): number =>
  (['upper', 'lower'] as const).reduce((most, face) => {
    const sum = goodLayers(layers).reduce((total, layer) => total + (layer.face === face ? layer.thickness : 0), 0);
    return Math.max(most, sum);
  }, 1e-9);

/** px below the face [px] of a point of it at x. */
const facePoint = (layout: Layout, face: 'upper' | 'lower', x: number, inwards: number): Point => {
  const { at, upper, lower } = layout;
  const line = face === 'upper' ? upper : lower;
  const held = Math.min(line.at(-1)![0], Math.max(line[0]![0], x));
  const [px, py] = at(held, interpolated(line, held)!);
  // Layers of both faces meet in the middle where they are drawn thicker than there is room.
  const room = Math.abs(at(held, middleOf(layout, held))[1] - py);
  const depth = Math.min(inwards, room);
  return [px, py + (face === 'upper' ? depth : -depth)];
};

function band(layout: Layout, layer: CutLayer, before: number, after: number): readonly Point[] {
  const { face, from, to } = layer;
  const line = face === 'upper' ? layout.upper : layout.lower;
  const xs = [from, ...line.map(([x]) => x).filter((x) => x > from && x < to), to];
  return [
    ...xs.map((x) => facePoint(layout, face, x, before)),
    ...xs.toReversed().map((x) => facePoint(layout, face, x, after)),
  ];
}

const closed = (points: readonly Point[]): string => (points.length === 0 ? '' : `${linePath(points)}Z`);

function parts(pen: Pen, data: SectionCutData, layout: Layout): readonly Markup[] {
  const { at, upper, lower, scale, heights, layers } = layout;
  const outline = [...upper, ...lower.toReversed()].map(([x, z]) => at(x, z));
  const thick = (thickness: number) => thickness * scale * heights * layers;
  const core = data.core === undefined ? {} : paintOf(data.parts, data.core);
  const depth = { upper: 0, lower: 0 };
  const sheets = goodLayers(data.layers).map((layer) => {
    const before = depth[layer.face];
    // A sheet over part of the chord lies under what covers all of it.
    depth[layer.face] += Math.max(1.2, thick(layer.thickness));
    const paint = layer.soft ? layUpPaints.core : paintOf(data.parts, layer.number);
    return pen.shape('path', { d: closed(band(layout, layer, before, depth[layer.face])) }, paint);
  });
  const cells = goodLayers(data.cells).map((cell) => {
    const out = -Math.max(3, thick(cell.thickness));
    return pen.shape(
      'path',
      { d: closed(band(layout, cell, out, 0)) },
      { ...paintOf(data.parts, cell.number), stroke: 'paper' },
    );
  });
  return [
    pen.shape('path', { d: closed(outline) }, { fill: 'paper', ...core }),
    ...sheets,
    ...goodShapes(data.shapes).map((shape) => drawShape(pen, data, layout, shape)),
    ...cells,
    pen.shape('path', { d: closed(outline), 'stroke-linejoin': 'round' }, { stroke: 'ink', width: 1.25 }),
    ...data.hinges.filter(({ x }) => drawable(x)).map(({ x }) => hingeLine(pen, layout, x)),
  ];
}

function hingeLine(pen: Pen, layout: Layout, x: number): Markup {
  const [top, bottom] = [facePoint(layout, 'upper', x, -8), facePoint(layout, 'lower', x, -8)];
  return straight(pen, top, bottom, { stroke: 'caution', width: 1.5, dash: '4 2' });
}

function drawShape(pen: Pen, data: SectionCutData, { at, scale, heights }: Layout, shape: CutShape): Markup {
  const [cx, cy] = at(shape.x, shape.z);
  const paint = paintOf(data.parts, shape.number);
  if (shape.form === 'box') {
    const [w, h] = [Math.max(2, shape.width * scale), Math.max(2, shape.height * scale * heights)];
    return bar(pen, { left: cx - w / 2, right: cx + w / 2, top: cy - h / 2, bottom: cy + h / 2 }, paint);
  }
  const ring = (diameter: number) =>
    ellipse([cx, cy], Math.max(1, (diameter * scale) / 2), Math.max(1, (diameter * scale * heights) / 2));
  return joined([
    pen.shape('path', { d: ring(shape.outer) }, paint),
    shape.inner > 0 && pen.shape('path', { d: ring(Math.min(shape.inner, shape.outer)) }, { fill: 'paper' }),
  ]);
}

function ellipse([cx, cy]: Point, rx: number, ry: number): string {
  const around = Array.from({ length: 24 }, (_, i): Point => {
    const angle = (i * Math.PI) / 12;
    return [cx + rx * Math.cos(angle), cy + ry * Math.sin(angle)];
  });
  return closed(around);
}

/** One number for each part that is cut here, above its middle. */
function numbers(pen: Pen, data: SectionCutData, layout: Layout, y: number, width: number): Markup {
  const seen = new Set<number>();
  const marks: { number: number; at: Point }[] = [];
  const add = (number: number, at: Point) => {
    if (seen.has(number) || !drawable(number)) return;
    seen.add(number);
    marks.push({ number, at });
  };
  for (const { number, from, to } of goodLayers(data.cells))
    add(number, facePoint(layout, 'upper', (from + to) / 2, 0));
  for (const shape of goodShapes(data.shapes)) add(shape.number, layout.at(shape.x, shape.z));
  for (const [i, { number, face, from, to }] of goodLayers(data.layers).entries())
    add(number, facePoint(layout, face, from + (to - from) * (0.22 + 0.13 * (i % 5)), 1));
  const end = layout.upper.at(-1)![0];
  if (data.core !== undefined) add(data.core, layout.at(0.62 * end, middleOf(layout, 0.62 * end)));
  for (const { number, x } of data.hinges) if (drawable(x)) add(number, facePoint(layout, 'upper', x, -8));
  return numberRow(pen, marks, { y, left: 12, right: width - 12 });
}

const middleOf = ({ upper, lower }: Layout, x: number): number =>
  ((interpolated(upper, x) ?? 0) + (interpolated(lower, x) ?? 0)) / 2;

/** A length of round size for comparison, and what is enlarged, below the cut. */
function scaleBar(pen: Pen, { length }: SectionCutData, layout: Layout, at: { top: number; width: number }): Block {
  const wanted = layout.upper.at(-1)![0] / 4;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const size = power * (wanted >= 5 * power ? 5 : wanted >= 2 * power ? 2 : 1);
  const end = 14 + size * layout.scale;
  const tall = layout.heights === 1 ? 'heights to scale' : `heights ${layout.heights} times as large`;
  const thick = layout.layers === 1 ? 'layers to scale' : `layers ${layout.layers} times as thick again`;
  const lines = wrapText(`${withUnit(size, length)}; ${tall}, ${thick}`, tickSize, at.width - 22, 3);
  const y = at.top + 6;
  return {
    height: 12 + lines.length * 15,
    body: joined([
      straight(pen, [14, y], [end, y], { stroke: 'ink', width: 2 }),
      ...[14, end].map((x) => straight(pen, [x, y - 4], [x, y + 4], { stroke: 'ink', width: 2 })),
      ...lines.map((line, i) => pen.text(14, y + 18 + i * 15, line, { size: tickSize, role: 'soft' })),
    ]),
  };
}

function cutText(
  data: SectionCutData,
  layout: Pick<Layout, 'heights' | 'layers' | 'scale' | 'upper' | 'lower'> | undefined,
): string {
  if (layout === undefined) return `The outline of the ${data.where} is not known.`;
  const tall = layout.upper.reduce((most, [x, z]) => Math.max(most, z - (interpolated(layout.lower, x) ?? z)), 0);
  const chord = withUnit(layout.upper.at(-1)![0], data.length);
  const enlarged = [
    layout.heights === 1 ? '' : `heights ${layout.heights} times as large`,
    layout.layers === 1 ? '' : `skins and cells ${layout.layers} times as thick${layout.heights === 1 ? '' : ' again'}`,
  ].filter((each) => each !== '');
  const drawn = enlarged.length === 0 ? 'to scale' : `to scale, but ${listed(enlarged)}`;
  return `${chord} of chord, ${withUnit(tall, data.length)} thick, drawn ${drawn}. ${sentence(data.parts.map(partText).join('; '))}.`;
}
