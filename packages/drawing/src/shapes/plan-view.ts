import { finish, heading, heightOf, straight, tickSize, widthOf } from '../frame.js';
import { flagLanes, spread } from '../labels.js';
import type { Drawing, DrawOptions, HitRegion, Point } from '../model.js';
import { known } from '../number.js';
import { scaleOf } from '../scale.js';
import { joined, type Markup, type Pen, penOf } from '../svg.js';
import { fitText, textWidth } from '../text.js';
import type { AircraftShape, PlanOptions } from './inputs.js';
import { drawMass, drawOutline, drawPoints, drawPropellers, massBox, outlinesOf, type Placing } from './parts.js';
import { extentOf, goodStations, knownPlace, projections } from './project.js';
import { shapeTable, shapeText } from './three-view.js';

/** Half a side of what can be pointed at [px]: 24 px targets (WCAG 2.2, 2.5.8). */
const handle = 12;

/**
 * The aircraft from above, large, for editing: `hits` gives each part, station, mass and cell as a polygon, topmost
 * last; the scales "along" (x aft) and "across" (y right) turn px into places.
 */
export function planView(aircraft: AircraftShape, options: DrawOptions & PlanOptions = {}): Drawing {
  const pen = penOf('plan', options);
  const words = { title: `${aircraft.name} from above`, text: shapeText(aircraft) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const { low, high } = extentOf(aircraft);
  const [long, wide] = [Math.max(high[0] - low[0], 1e-9), Math.max(high[1] - low[1], 1e-9)];
  // A part that is far off must not make the page endless.
  const usualHeight = options.noseLeft ? width * 0.75 : width * 1.4;
  const [flatX, flatY] = options.noseLeft ? [long, wide] : [wide, long];
  const most = options.height === undefined ? usualHeight : heightOf(options.height - head.height - 60, 300, 80);
  const scale = Math.min((width - 48) / flatX, most / flatY);
  const lanes = labelLanes(aircraft, options, width, scale);
  const top = head.height + 24 + lanes * 15;
  const height = Math.max(40, flatY * scale);
  const centre = [width / 2, top + height / 2] as const;
  const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2] as const;
  const place: Placing = ([y, x]) =>
    options.noseLeft
      ? [centre[0] + (x - middle[0]) * scale, centre[1] - (y - middle[1]) * scale]
      : [centre[0] + (y - middle[1]) * scale, centre[1] + (x - middle[0]) * scale];
  const outlines = outlinesOf(aircraft, 'plan');
  const masses = (aircraft.masses ?? []).filter(({ at }) => knownPlace(at));
  const chosen = (id: string) => id === options.selected;
  const boxes = masses.map((mass) => massBox(mass, 'plan', place, 5));
  const body = [
    head.body,
    ...outlines.map((outline) => drawOutline(pen, outline, place, chosen(outline.id))),
    drawPropellers(pen, aircraft, 'plan', place),
    allowedBand(pen, aircraft, place),
    ...masses.map((mass, i) => drawMass(pen, mass, boxes[i]!, chosen(mass.id))),
    stationHandles(pen, aircraft, place, options.selected),
    drawPoints(pen, aircraft, 'plan', place),
    options.labels !== false &&
      labels(pen, aircraft, place, { top, lanes, width, noseLeft: options.noseLeft ?? false }),
  ];
  return finish(pen, options, {
    kind: 'plan',
    ...words,
    table: shapeTable(aircraft),
    height: top + height + 24,
    body,
    scales: planScales(aircraft, place, low, high, options.noseLeft ?? false),
    hits: [
      ...outlines.map(({ id, kind, label, polygon }): HitRegion => ({ id, kind, label, polygon: polygon.map(place) })),
      ...stationHits(aircraft, place),
      ...masses.map(({ id, label }, i): HitRegion => ({ id, kind: 'mass', label, polygon: grown(boxes[i]!) })),
      ...pointHits(aircraft, place),
    ],
  });
}

function planScales(
  aircraft: AircraftShape,
  place: Placing,
  low: readonly number[],
  high: readonly number[],
  noseLeft: boolean,
) {
  const { unit } = aircraft.length;
  const ends = [
    [low[0]!, Math.max(high[0]!, low[0]! + 1e-9)],
    [low[1]!, Math.max(high[1]!, low[1]! + 1e-9)],
  ] as const;
  const at = (x: number, y: number): Point => place([y, x]);
  const [first, second] = noseLeft ? [0, 1] : [1, 0];
  return [
    { id: 'along', label: 'x, aft', domain: ends[0], range: ends[0].map((x) => at(x, low[1]!)[first]!) },
    { id: 'across', label: 'y, right', domain: ends[1], range: ends[1].map((y) => at(low[0]!, y)[second]!) },
  ].map(({ range, ...scale }) => scaleOf({ ...scale, unit, range: [range[0]!, range[1]!] }).plain);
}

const square = ([x, y]: Point, half: number): readonly Point[] => [
  [x - half, y - half],
  [x + half, y - half],
  [x + half, y + half],
  [x - half, y + half],
];

/** The polygon's box, at least as large as a target has to be. */
function grown(corners: readonly Point[]): readonly Point[] {
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const [mx, my] = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  const w = Math.max(handle, (Math.max(...xs) - Math.min(...xs)) / 2);
  const h = Math.max(handle, (Math.max(...ys) - Math.min(...ys)) / 2);
  return [
    [mx - w, my - h],
    [mx + w, my - h],
    [mx + w, my + h],
    [mx - w, my + h],
  ];
}

/** Leading and trailing edge of each station, on the right half. */
function stationEnds(aircraft: AircraftShape, place: Placing) {
  return aircraft.surfaces.flatMap((surface) =>
    goodStations(surface).flatMap(({ at, chord }, i) => {
      const tail = [at[0] + chord, at[1], at[2]] as const;
      const edges = [
        { edge: 'leading edge', point: place(projections.plan(at)) },
        { edge: 'trailing edge', point: place(projections.plan(tail)) },
      ];
      return edges.map(({ edge, point }) => ({
        id: `${surface.id}:${i}:${edge}`,
        part: surface.id,
        label: `${surface.label}, station ${i + 1}, ${edge}`,
        point,
      }));
    }),
  );
}

const stationHits = (aircraft: AircraftShape, place: Placing): readonly HitRegion[] =>
  stationEnds(aircraft, place).map(({ id, label, point }) => ({
    id,
    kind: 'station',
    label,
    polygon: square(point, handle),
  }));

function stationHandles(pen: Pen, aircraft: AircraftShape, place: Placing, selected: string | undefined): Markup {
  const shown = stationEnds(aircraft, place).filter(({ part, id }) => part === selected || id === selected);
  return joined(
    shown.map(({ point: [x, y], id }) =>
      pen.shape(
        'rect',
        { x: x - 4, y: y - 4, width: 8, height: 8 },
        { fill: id === selected ? 'caution' : 'paper', stroke: 'caution', width: 1.5 },
      ),
    ),
  );
}

function pointHits(aircraft: AircraftShape, place: Placing): readonly HitRegion[] {
  const points = [
    { id: 'neutral point', at: aircraft.neutral },
    { id: 'balance point', at: aircraft.balance },
  ];
  return points.flatMap(({ id, at }) =>
    at === undefined || !knownPlace(at)
      ? []
      : [{ id, kind: 'point', label: id, polygon: square(place(projections.plan(at)), handle) }],
  );
}

/** The range in which the balance point may lie, across the middle. */
function allowedBand(pen: Pen, aircraft: AircraftShape, place: Placing): Markup {
  const [low, high] = [known(aircraft.allowed?.[0]), known(aircraft.allowed?.[1])];
  if (low === undefined || high === undefined) return { markup: '' };
  const y = aircraft.balance && knownPlace(aircraft.balance) ? aircraft.balance[1] : 0;
  const a = place([y, low]);
  const b = place([y, high]);
  return joined([
    straight(pen, a, b, { stroke: 'paper', width: 9 }),
    straight(pen, a, b, { stroke: 'sky1', width: 5, opacity: 0.6 }),
    ...[a, b].map(([x, z]) => {
      const level = a[1] === b[1];
      return straight(pen, level ? [x, z - 7] : [x - 7, z], level ? [x, z + 7] : [x + 7, z], {
        stroke: 'sky1',
        width: 2,
      });
    }),
  ]);
}

const labelled = (aircraft: AircraftShape) => (aircraft.masses ?? []).filter(({ at }) => knownPlace(at));

function poles(aircraft: AircraftShape, across: (place: Point) => number, width: number) {
  const list = labelled(aircraft).map(({ at, label, mass }) => ({
    at,
    text: fitText(`${label} ${mass}`, tickSize, width * 0.4),
    x: across(projections.plan(at)),
  }));
  const flags = flagLanes(
    list.map(({ x, text }) => ({ x, width: textWidth(text, tickSize) + 6 })),
    width - 2,
  );
  return list.map((pole, i) => ({ ...pole, ...flags[i]! }));
}

/** Lanes of labels above a view with the nose to the left; with the nose up labels stand at the side. */
function labelLanes(aircraft: AircraftShape, options: DrawOptions & PlanOptions, width: number, scale: number): number {
  if (options.labels === false || !options.noseLeft) return 0;
  const extent = extentOf(aircraft);
  const middle = (extent.low[0] + extent.high[0]) / 2;
  const across = ([, x]: Point) => width / 2 + (x - middle) * scale;
  return poles(aircraft, across, width).reduce((most, { lane }) => Math.max(most, lane + 1), 0);
}

interface LabelPlace {
  readonly top: number;
  readonly lanes: number;
  readonly width: number;
  readonly noseLeft: boolean;
}

function labels(pen: Pen, aircraft: AircraftShape, place: Placing, at: LabelPlace): Markup {
  return at.noseLeft ? labelsAbove(pen, aircraft, place, at) : labelsBeside(pen, aircraft, place, at);
}

function labelsAbove(pen: Pen, aircraft: AircraftShape, place: Placing, { top, width }: LabelPlace): Markup {
  const list = poles(aircraft, (flat) => place(flat)[0], width);
  return joined(
    list.map(({ at, text, x, lane, anchor }) => {
      const y = top - 10 - lane * 15;
      return joined([
        straight(pen, [x, y - 9], [x, place(projections.plan(at))[1]], { stroke: 'edge', width: 0.75 }),
        pen.text(x + (anchor === 'start' ? 4 : -4), y, text, { size: tickSize, anchor, halo: true }),
      ]);
    }),
  );
}

/** Names of masses right of them, spread down the view. */
function labelsBeside(pen: Pen, aircraft: AircraftShape, place: Placing, { width }: LabelPlace): Markup {
  const list = labelled(aircraft).map(({ at, label, mass }) => ({
    point: place(projections.plan(at)),
    text: `${label} ${mass}`,
  }));
  const heights = spread(
    list.map(({ point }) => point[1]),
    list.map(() => 15),
    [12, 1e6],
  );
  const left = list.reduce((most, { point }) => Math.max(most, point[0]), 0) + 20;
  return joined(
    list.map(({ point: [x, y], text }, i) => {
      const fitted = fitText(text, tickSize, width - left - 6);
      return joined([
        straight(pen, [x + 5, y], [left - 3, heights[i]!], { stroke: 'edge', width: 0.75 }),
        pen.text(left, heights[i]! + 4, fitted, { size: tickSize, halo: true }),
      ]);
    }),
  );
}
