import { finish, heading, tickSize, widthOf } from '../frame.js';
import { spread } from '../labels.js';
import type { Drawing, DrawOptions, Table } from '../model.js';
import { known, numberText, withUnit } from '../number.js';
import { type Child, joined, type Markup, type Pen, penOf, px } from '../svg.js';
import { textWidth, wrapText } from '../text.js';
import type { AircraftShape, MassShape, SurfaceShape } from './inputs.js';
import { drawMass, drawOutline, drawPoints, drawPropellers, massBox, outlinesOf, type Placing } from './parts.js';
import { extentOf, knownPlace, projections, type ViewName } from './project.js';

/** Above, front and side view to one scale, with a bar of length, for paper and small screens. */
export function threeView(aircraft: AircraftShape, options: DrawOptions = {}): Drawing {
  const pen = penOf('three-view', options);
  const words = { title: `Three views: ${aircraft.name}`, text: shapeText(aircraft) };
  const head = heading(pen, options, words);
  const width = widthOf(options);
  const { low, high } = extentOf(aircraft);
  const size = [high[0] - low[0], high[1] - low[1], high[2] - low[2]] as const;
  const scale = (width - 64) / Math.max(size[0], size[1], size[2], 1e-9);
  const masses = (aircraft.masses ?? []).filter(({ at }) => knownPlace(at));
  const views: readonly (readonly [ViewName, string, number, number])[] = [
    ['plan', 'from above', size[1], size[0]],
    ['front', 'from ahead', size[1], size[2]],
    ['side', 'from the left', size[0], size[2]],
  ];
  let y = head.height + 6;
  const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2] as const;
  const body = views.map(([view, name, across, down]) => {
    const top = y + 22;
    const height = Math.max(24, down * scale);
    const centre = projections[view](middle);
    const place: Placing = ([u, v]) => [
      (u - centre[0]) * scale + width / 2 - 8,
      (v - centre[1]) * scale + top + height / 2,
    ];
    y = top + height + 34;
    return joined([
      pen.text(8, top - 8, name, { size: tickSize, role: 'soft' }),
      drawView(pen, aircraft, view, place, masses, { top: head.height + 8, bottom: top + height + 30 }),
      measured(pen, aircraft, {
        view,
        across: across * scale,
        down: down * scale,
        top,
        height,
        width,
        values: [across, down],
      }),
    ]);
  });
  const ruler = scaleBar(pen, aircraft, scale, width, y + 4);
  const list = massList(pen, masses, width, y + 36);
  return finish(pen, options, {
    kind: 'three-view',
    ...words,
    table: shapeTable(aircraft),
    height: list.bottom + 6,
    body: [head.body, ...body, ruler, list.body],
  });
}

function drawView(
  pen: Pen,
  aircraft: AircraftShape,
  view: ViewName,
  place: Placing,
  masses: readonly MassShape[],
  room: Room,
): Markup {
  return joined([
    ...outlinesOf(aircraft, view).map((outline) => drawOutline(pen, outline, place)),
    drawPropellers(pen, aircraft, view, place),
    ...(view === 'front' ? [] : masses.map((mass) => drawMass(pen, mass, massBox(mass, view, place, 2.5)))),
    view === 'plan' && massNumbers(pen, masses, place, room),
    drawPoints(pen, aircraft, view, place),
  ]);
}

/** Between which heights a view may write [px]. */
interface Room {
  readonly top: number;
  readonly bottom: number;
}

/** Numbers of the masses along the plan view's centre line, spread so that each can be read. */
function massNumbers(pen: Pen, masses: readonly MassShape[], place: Placing, room: Room): Markup {
  const spots = masses.map((mass) => place(projections.plan(mass.at)));
  const heights = spread(
    spots.map(([, y]) => y),
    spots.map(() => 14),
    [room.top, room.bottom],
  );
  const right = spots.reduce((most, [x]) => Math.max(most, x), 0) + 16;
  return joined(
    spots.map(([x, y], i) =>
      joined([
        pen.shape(
          'path',
          { d: `M${px(x + 3)} ${px(y)}L${px(right)} ${px(heights[i]!)}` },
          { stroke: 'edge', width: 0.75 },
        ),
        pen.text(right + 2, heights[i]! + 4, String(i + 1), { size: tickSize, halo: true, bold: true }),
      ]),
    ),
  );
}

interface Measured {
  readonly view: ViewName;
  readonly across: number;
  readonly down: number;
  readonly top: number;
  readonly height: number;
  readonly width: number;
  readonly values: readonly [number, number];
}

/** Line of length below a view: span, or length. */
function measured(pen: Pen, aircraft: AircraftShape, at: Measured): Markup {
  if (at.view === 'front') return { markup: '' };
  const y = at.top + at.height + 10;
  const [left, right] = [(at.width - at.across) / 2 - 8, (at.width + at.across) / 2 - 8];
  const name = at.view === 'plan' ? 'span' : 'length';
  const d = `M${px(left)} ${px(y - 4)}v8M${px(left)} ${px(y)}H${px(right)}m0 -4v8`;
  const text = `${name} ${withUnit(at.view === 'plan' ? wholeSpan(aircraft) : at.values[0], aircraft.length)}`;
  return joined([
    pen.shape('path', { d }, { stroke: 'edge' }),
    pen.text((left + right) / 2, y + 16, text, { size: tickSize, anchor: 'middle', halo: true }),
  ]);
}

/** Round length of 15 to 40 per cent of the width. */
function roundLength(longest: number): number {
  const power = 10 ** Math.floor(Math.log10(longest));
  return [5, 2, 1].map((step) => step * power).find((length) => length <= longest) ?? power;
}

function scaleBar(pen: Pen, aircraft: AircraftShape, scale: number, width: number, y: number): Markup {
  const length = roundLength((width * 0.4) / scale);
  const long = length * scale;
  const pieces = [0, 1, 2, 3].map((i) =>
    pen.shape(
      'rect',
      { x: 8 + (i * long) / 4, y, width: long / 4, height: 6 },
      { fill: i % 2 === 0 ? 'ink' : 'paper', stroke: 'ink' },
    ),
  );
  const text = withUnit(length, { unit: aircraft.length.unit });
  return joined([...pieces, pen.text(8 + long + 8, y + 8, text, { size: tickSize })]);
}

/** Masses by number, in columns, with the signs of balance and neutral point explained first. */
function massList(
  pen: Pen,
  masses: readonly MassShape[],
  width: number,
  top: number,
): { body: Markup; bottom: number } {
  const texts = masses.map(({ label, mass, assumed }, i) => `${i + 1} ${label} ${mass}${assumed ? ', assumed' : ''}`);
  const widestText = texts.reduce((most, text) => Math.max(most, textWidth(text, 13)), 0);
  const columns = Math.max(1, Math.min(4, Math.floor((width - 16) / (widestText + 16))));
  const each = (width - 16) / columns;
  const rows = Math.ceil(texts.length / columns);
  const intro = wrapText(
    'Half-filled disc: balance point. Diamond: neutral point. Dots: cells. Hatched: controls. Dashed: assumed.',
    tickSize,
    width - 16,
    4,
  );
  const first = top + intro.length * 15 + 6;
  const body: Child[] = [
    ...intro.map((line, i) => pen.text(8, top + i * 15, line, { size: tickSize, role: 'soft' })),
    ...texts.map((text, i) => {
      const [line = ''] = wrapText(text, 13, each - 10, 1);
      return pen.text(8 + Math.floor(i / rows) * each, first + 4 + (i % rows) * 16, line);
    }),
  ];
  return { body: joined(body), bottom: first + Math.max(0, rows) * 16 };
}

function spanOf({ stations, mirrored }: SurfaceShape): number {
  const ys = stations.filter(({ at }) => knownPlace(at)).map(({ at }) => at[1]);
  if (ys.length === 0) return 0;
  return mirrored ? 2 * Math.max(...ys.map(Math.abs)) : Math.max(...ys) - Math.min(...ys);
}

const wholeSpan = ({ surfaces }: AircraftShape): number => Math.max(0, ...surfaces.map(spanOf));

/** What the views show, in words. */
export function shapeText(aircraft: AircraftShape): string {
  const { low, high } = extentOf(aircraft);
  const { length } = aircraft;
  if (aircraft.surfaces.length === 0) return `${aircraft.name}: no surface is described.`;
  const span = `Span ${withUnit(wholeSpan(aircraft), length)}, length ${withUnit(high[0] - low[0], length)}.`;
  const names = aircraft.surfaces.map(({ label }) => label).join(', ');
  const cells = aircraft.cells?.length ?? 0;
  const at = known(aircraft.balance?.[0]);
  const balance = at === undefined ? '' : ` Balance point ${withUnit(at, length)} aft of the datum.`;
  return `${span} Surfaces: ${names}. ${cells === 0 ? 'No cells' : `${numberText(cells)} cells`}.${balance}`;
}

/** Every station, mass and point with its place. */
export function shapeTable(aircraft: AircraftShape): Table {
  const { unit } = aircraft.length;
  const row = (
    part: string,
    [x, y, z]: readonly number[],
    more: { chord?: number | undefined; mass?: string } = {},
  ) => ({
    part,
    x: known(x),
    y: known(y),
    z: known(z),
    chord: known(more.chord),
    mass: more.mass ?? '',
  });
  const points: readonly (readonly [string, readonly number[] | undefined])[] = [
    ['balance point', aircraft.balance],
    ['neutral point', aircraft.neutral],
  ];
  return {
    columns: [
      { key: 'part', label: 'part', unit: '' },
      { key: 'x', label: 'x, aft', unit },
      { key: 'y', label: 'y, right', unit },
      { key: 'z', label: 'z, up', unit },
      { key: 'chord', label: 'chord', unit },
      { key: 'mass', label: 'mass', unit: '' },
    ],
    rows: [
      ...aircraft.surfaces.flatMap(({ label, stations }) =>
        stations.map(({ at, chord }, i) => row(`${label}, station ${i + 1}`, at, { chord })),
      ),
      ...(aircraft.masses ?? []).map(({ label, at, mass }) => row(label, at, { mass })),
      ...points.flatMap(([name, at]) => (at === undefined ? [] : [row(name, at)])),
    ],
  };
}
