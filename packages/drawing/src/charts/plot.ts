import {
  axisTitle,
  type Box,
  bottomAxis,
  curve,
  emptyNote,
  endLabelRoom,
  endLabels,
  endLabelWidth,
  leftAxis,
  type MarkerName,
  marker,
  straight,
  tickRoom,
  tickSize,
} from '../frame.js';
import { flagLanes } from '../labels.js';
import type { Measure, PlainScale, PlotSeries, Point } from '../model.js';
import { drawable, known } from '../number.js';
import type { Role } from '../palette.js';
import { byX, domainOf, drawablePoints, type Scale, scaleOf } from '../scale.js';
import { type Child, joined, type Markup, type Pen } from '../svg.js';
import { textWidth } from '../text.js';

/** A curve of a panel with its label at the line's end. */
export interface PanelCurve {
  readonly id: string;
  readonly label: string;
  readonly points: readonly Point[];
  readonly role: Role;
  readonly dash?: string | undefined;
  readonly width?: number;
  /** Drawn in the order given, for curves that are no function of x. */
  readonly free?: boolean;
}

/** A pole with a flag at an x, for instance an airspeed that has a name. */
export interface PanelMark {
  readonly x: number;
  readonly text: string;
  readonly role?: Role;
}

export interface Panel {
  /** Prefix of the ids of the scales: '' gives "x" and "y". */
  readonly prefix: string;
  readonly x: Measure & { readonly kind?: 'linear' | 'hour'; readonly zero?: boolean };
  readonly y: Measure & { readonly zero?: boolean };
  readonly curves: readonly PanelCurve[];
  readonly marks?: readonly PanelMark[];
  readonly dots?: readonly { readonly at: Point; readonly role: Role; readonly shape: MarkerName }[];
  readonly empty: string;
  /** Further values that the axes must hold. */
  readonly holdX?: readonly (number | undefined)[];
  readonly holdY?: readonly (number | undefined)[];
  /** Drawn below the curves. */
  readonly under?: (at: PanelPlace) => Markup;
  /** Labels of the right margin besides those of the curves. */
  readonly extraLabels?: (at: PanelPlace) => readonly { y: number; text: string; role: Role }[];
  readonly extraTexts?: readonly string[];
}

export interface PanelPlace {
  readonly box: Box;
  readonly x: Scale;
  readonly y: Scale;
  /** Lanes of flags above the plot. */
  readonly lanes: number;
}

export interface PanelDrawn {
  readonly body: Markup;
  readonly bottom: number;
  readonly place: PanelPlace;
  readonly scales: readonly PlainScale[];
  readonly series: readonly PlotSeries[];
}

/** One plot with axes, curves labelled at their ends and named marks, in a part of a drawing. */
export function drawPanel(
  pen: Pen,
  panel: Panel,
  at: { left: number; width: number; top: number; plot: number },
): PanelDrawn {
  const place = placePanel(panel, at);
  const { box, x, y } = place;
  const drawn = panel.curves.map((each) => ({ ...each, points: panelPoints(each) }));
  const labels = drawn.flatMap(({ points, label, role }) => {
    const last = points.at(-1);
    return last === undefined ? [] : [{ y: y.at(last[1]), text: label, role }];
  });
  const empty = drawn.every(({ points }) => points.length === 0);
  const body: Child[] = [
    panelTitle(pen, panel, at.left, place),
    panelAxes(pen, place),
    panel.under?.(place),
    marks(pen, panel.marks ?? [], place, at.left + at.width),
    ...drawn.map(({ points, role, dash, width }) =>
      curve(
        pen,
        points.map(([px, py]): Point => [x.at(px), y.at(py)]),
        { stroke: role, dash, width: width ?? 2.5 },
      ),
    ),
    ...(panel.dots ?? [])
      .filter((dot) => drawablePoints([dot.at]).length > 0)
      .map((dot) => marker(pen, dot.shape, [x.at(dot.at[0]), y.at(dot.at[1])], dot.role, 5)),
    endLabels(pen, [...labels, ...(panel.extraLabels?.(place) ?? [])], {
      x: box.right + 2,
      width: at.left + at.width - box.right - 2,
      top: box.top - 8,
      bottom: box.bottom + 8,
    }).body,
    empty && emptyNote(pen, box, panel.empty),
  ];
  return { body: joined(body), bottom: box.bottom + 40, place, scales: [x.plain, y.plain], series: panelSeries(panel) };
}

const panelPoints = ({ points, free }: PanelCurve): readonly Point[] => (free ? drawablePoints(points) : byX(points));

const panelTitle = (pen: Pen, panel: Panel, left: number, { box, lanes }: PanelPlace): Markup =>
  pen.text(left + 2, box.top - 12 - lanes * 15, axisTitle(panel.y), { size: tickSize, role: 'soft' });

/** Axes without the name of the vertical one, which stands above the marks. */
const panelAxes = (pen: Pen, { x, y, box }: PanelPlace): Markup =>
  joined([leftAxis(pen, y, box, ''), bottomAxis(pen, x, box)]);

function placePanel(panel: Panel, at: { left: number; width: number; top: number; plot: number }): PanelPlace {
  const texts = [...panel.curves.map(({ label }) => label), ...(panel.extraTexts ?? [])];
  const labelWidth = endLabelWidth(texts, at.width);
  const points = panel.curves.flatMap((each) => drawablePoints(each.points));
  const dots = (panel.dots ?? []).map((dot) => dot.at);
  const xs = [...points, ...dots].map((point) => point[0]);
  const ys = [...points, ...dots].map((point) => point[1]);
  const xDomain = domainOf([...xs, ...(panel.holdX ?? []), ...(panel.marks ?? []).map((mark) => mark.x)], panel.x.zero);
  const yDomain = domainOf([...ys, ...(panel.holdY ?? [])], panel.y.zero);
  const plot = Math.max(at.plot, endLabelRoom(texts, labelWidth));
  const right = Math.max(at.left + 100, at.left + at.width - labelWidth);
  const { prefix } = panel;
  const yAt = (top: number): Scale =>
    scaleOf({ id: `${prefix}y`, ...panel.y, domain: yDomain, range: [top + plot, top], nice: true, room: 44 });
  // The ticks, and so the left edge, do not depend on where the plot stands; the lanes of flags above it do.
  const left = Math.min(right - 50, at.left + tickRoom(yAt(0)));
  const kind = panel.x.kind ?? 'linear';
  const { label, unit } = panel.x;
  const x = scaleOf({
    id: `${prefix}x`,
    kind,
    label,
    unit,
    domain: xDomain,
    range: [left, right],
  });
  const { flags } = flagged(panel.marks ?? [], x.at, at.left + at.width);
  const lanes = flags.reduce((most, flag) => Math.max(most, flag.lane + 1), 0);
  const top = at.top + 26 + lanes * 15;
  return { x, y: yAt(top), lanes, box: { left, right, top, bottom: top + plot } };
}

function flagged(panelMarks: readonly PanelMark[], at: (x: number) => number, right: number) {
  const known = panelMarks.filter((mark) => drawable(mark.x));
  const poles = known.map((mark) => ({ x: at(mark.x), width: textWidth(mark.text, tickSize) + 6 }));
  return { known, poles, flags: flagLanes(poles, right) };
}

function marks(pen: Pen, list: readonly PanelMark[], { x, box }: PanelPlace, right: number): Markup {
  const { known: shown, poles, flags } = flagged(list, x.at, right);
  return joined(
    shown.map(({ text, role = 'soft' }, i) => {
      const { lane, anchor } = flags[i]!;
      const pole = poles[i]!.x;
      const y = box.top - 8 - lane * 15;
      return joined([
        straight(pen, [pole, y - 9], [pole, box.bottom], { stroke: role, dash: '5 3' }),
        pen.text(pole + (anchor === 'start' ? 4 : -4), y, text, { size: tickSize, anchor, role }),
      ]);
    }),
  );
}

function panelSeries({ prefix, curves, y }: Panel): readonly PlotSeries[] {
  return curves
    .filter(({ free }) => !free)
    .map(({ id, label, points }) => ({
      id,
      label,
      unit: y.unit,
      ...(known(y.decimals) === undefined ? {} : { decimals: y.decimals! }),
      xScale: `${prefix}x`,
      yScale: `${prefix}y`,
      points: byX(points),
    }));
}
