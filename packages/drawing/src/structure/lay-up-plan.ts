import { bar, emptyNote, finish, heading, straight, widthOf } from '../frame.js';
import type { Drawing, DrawOptions, Point } from '../model.js';
import { drawable } from '../number.js';
import { linePath } from '../path.js';
import { drawablePoints } from '../scale.js';
import { type Markup, type Paint, type Pen, penOf } from '../svg.js';
import { sentence } from '../text.js';
import type { LayUpPlanData, PlanJoint, PlanLine } from './inputs.js';
import { layUpPaints, numberRow, partsTable, partText } from './legend.js';

/** The right half of a surface from above: zones of its skin, ribs, spars, cells and controls, where it comes apart, and where it is cut. */
export function layUpPlan(data: LayUpPlanData, options: DrawOptions = {}): Drawing {
  const pen = penOf('lay-up-plan', options);
  const width = widthOf(options);
  const outline = drawablePoints(data.outline);
  const words = { title: `${sentence(data.surface)} from above, right half`, text: planText(data) };
  const head = heading(pen, options, words);
  const made = { kind: 'lay-up-plan', ...words, table: partsTable(data.parts) };
  if (outline.length < 3) {
    const room = { left: 0, right: width, top: head.height, bottom: head.height + 60 };
    return finish(pen, options, {
      ...made,
      height: room.bottom,
      body: [head.body, emptyNote(pen, room, 'The outline is not known.')],
    });
  }
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const [fore, inner] = [Math.min(...xs), Math.min(...ys)];
  const [long, wide] = [Math.max(Math.max(...xs) - fore, 1e-9), Math.max(Math.max(...ys) - inner, 1e-9)];
  // Longer than wide surfaces must not make the page endless.
  const scale = Math.min((width - 40) / wide, Math.max(160, width * 0.6) / long);
  const top = head.height + 40;
  const place = ([x, y]: Point): Point => [20 + (y - inner) * scale, top + (x - fore) * scale];
  const bottom = top + long * scale;
  const layers: Child[] = [
    area(pen, outline.map(place), { fill: 'paper', stroke: 'ink', width: 1.25 }),
    ...areas(pen, data.zones, place, () => layUpPaints.sheet),
    ...areas(pen, data.controls, place, () => layUpPaints.control),
    ...lines(pen, data.ribs, place, { stroke: 'edge', width: 1 }),
    ...areas(pen, data.cells, place, () => ({ fill: 'above0', pattern: ['dots', 'sun'], stroke: 'edge' })),
    ...lines(pen, data.spars, place, { stroke: 'ink', width: 3, round: true }),
    ...goodJoints(data).flatMap((joint) => jointMarks(pen, joint, place)),
    ...lines(pen, data.wires ?? [], place, layUpPaints.wire),
    cutLine(pen, data.cut, place),
  ];
  return finish(pen, options, {
    ...made,
    height: bottom + 40,
    body: [head.body, ...layers, ...numbers(pen, data, place, { top, bottom, width })],
  });
}

type Child = Markup | false;
type Placing = (point: Point) => Point;

const area = (pen: Pen, points: readonly Point[], paint: Paint): Markup =>
  pen.shape('path', { d: `${linePath(points)}Z`, 'stroke-linejoin': 'round' }, paint);

const good = (list: readonly PlanLine[], least: number): readonly PlanLine[] =>
  list.map((each) => ({ ...each, points: drawablePoints(each.points) })).filter(({ points }) => points.length >= least);

const areas = (pen: Pen, list: readonly PlanLine[], place: Placing, paint: () => Paint): readonly Markup[] =>
  good(list, 3).map(({ points }) => area(pen, points.map(place), paint()));

const lines = (pen: Pen, list: readonly PlanLine[], place: Placing, paint: Paint): readonly Markup[] =>
  good(list, 2).map(({ points }) => pen.shape('path', { d: linePath(points.map(place)) }, paint));

const goodJoints = ({ joints = [] }: LayUpPlanData): readonly PlanJoint[] =>
  joints.filter(({ split, joiner }) => joiner.length >= 3 && [...split, ...joiner].flat().every(drawable));

/** The joiner in its sockets at least so thick [px], over the spar, and a double line where the panels part. */
const leastJoiner = 7;

function jointMarks(pen: Pen, { split, joiner }: PlanJoint, place: Placing): readonly Markup[] {
  const corners = joiner.map(place);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const middle = (Math.min(...ys) + Math.max(...ys)) / 2;
  const half = Math.max(leastJoiner, Math.max(...ys) - Math.min(...ys)) / 2;
  const [a, b] = split.map(place) as [Point, Point];
  const box = { left: Math.min(...xs), right: Math.max(...xs), top: middle - half, bottom: middle + half };
  return [
    bar(pen, box, { ...layUpPaints.joint, stroke: 'paper' }),
    straight(pen, a, b, { stroke: 'paper', width: 5 }),
    straight(pen, [a[0] - 2, a[1]], [b[0] - 2, b[1]], { stroke: 'ink', width: 1.25 }),
    straight(pen, [a[0] + 2, a[1]], [b[0] + 2, b[1]], { stroke: 'ink', width: 1.25 }),
  ];
}

function cutLine(pen: Pen, cut: LayUpPlanData['cut'], place: Placing): Child {
  if (cut === undefined || !cut.flat().every(drawable)) return false;
  const [a, b] = [place(cut[0]), place(cut[1])];
  return straight(pen, [a[0], a[1] - 8], [b[0], b[1] + 8], { stroke: 'caution', width: 2, dash: '8 4' });
}

/** Spars and sheets are numbered above, cells and controls below. */
function numbers(
  pen: Pen,
  data: LayUpPlanData,
  place: Placing,
  at: { top: number; bottom: number; width: number },
): readonly Markup[] {
  const { spars, zones, cells, controls, ribs, parts } = data;
  const middle = ({ points }: PlanLine): Point => {
    const [a, b] = [points[0]!, points[Math.floor(points.length / 2)]!];
    return place([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
  };
  const known = new Set(parts.map(({ number }) => number));
  const once = (list: readonly PlanLine[]) =>
    list.filter(({ number }, i) => known.has(number) && list.findIndex((other) => other.number === number) === i);
  const marks = (list: readonly PlanLine[], points: (line: PlanLine) => Point) =>
    once(list).map((line) => ({ number: line.number, at: points(line) }));
  const sparAt =
    (i: number) =>
    (line: PlanLine): Point => {
      const [a, b] = [line.points[0]!, line.points.at(-1)!];
      const f = 0.3 + 0.12 * (i % 5);
      return place([a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f]);
    };
  const above = [
    ...once(good(spars, 2)).map((line, i) => ({ number: line.number, at: sparAt(i)(line) })),
    ...marks(good(zones, 3), middle),
    ...marks(good(ribs, 2), ({ points }) => place(points[0]!)),
    ...goodJoints(data).map(({ number, joiner }) => ({ number, at: place(outer(joiner)) })),
    ...marks(good(data.wires ?? [], 2), ({ points }) => place(points.at(-1)!)),
  ];
  // One after the other along the span, so that their lines do not cross.
  const patchAt = (line: PlanLine, i: number): Point => {
    const [xs, ys] = [line.points.map(([x]) => x), line.points.map(([, y]) => y)];
    const [near, far] = [Math.min(...ys), Math.max(...ys)];
    return place([(Math.min(...xs) + Math.max(...xs)) / 2, near + (far - near) * (0.2 + 0.15 * (i % 5))]);
  };
  const below = [...once(good(cells, 3)), ...once(good(controls, 3))].map((line, i) => ({
    number: line.number,
    at: patchAt(line, i),
  }));
  const ends = { left: 12, right: at.width - 12 };
  return [numberRow(pen, above, { y: at.top - 26, ...ends }), numberRow(pen, below, { y: at.bottom + 24, ...ends })];
}

/** Middle of the outer half of a joiner, clear of where the panels part. */
function outer(joiner: readonly Point[]): Point {
  const [xs, ys] = [joiner.map(([x]) => x), joiner.map(([, y]) => y)];
  const [near, far] = [Math.min(...ys), Math.max(...ys)];
  return [(Math.min(...xs) + Math.max(...xs)) / 2, near + 0.75 * (far - near)];
}

function planText({ surface, parts, cut }: LayUpPlanData): string {
  const shown = parts.filter(({ kind }) => kind !== 'core' && kind !== 'skin');
  const list =
    shown.length === 0
      ? `The ${surface} has no spars, sheets or ribs that are described`
      : shown.map(partText).join('; ');
  return `${sentence(list)}.${cut === undefined ? '' : ' A dashed line marks the cut.'}`;
}
