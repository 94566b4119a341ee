import { marker, straight } from '../frame.js';
import type { Point } from '../model.js';
import { drawable } from '../number.js';
import { joined, type Markup, type Pen, px } from '../svg.js';
import type { AircraftShape, MassShape, Place } from './inputs.js';
import {
  bodyOutlines,
  controlOutlines,
  knownPlace,
  type Outline,
  projections,
  surfaceOutlines,
  type ViewName,
} from './project.js';

/** Flat coordinates to px. */
export type Placing = (flat: Point) => Point;

export const polygonPath = (points: readonly Point[]): string =>
  points.length === 0 ? '' : `M${points.map(([x, y]) => `${px(x)} ${px(y)}`).join('L')}Z`;

/** Outlines of a view from the back to the front, as far as the order matters for a line drawing. */
export function outlinesOf(aircraft: AircraftShape, view: ViewName): readonly Outline[] {
  const project = projections[view];
  const bodies = (aircraft.bodies ?? []).flatMap((body) => bodyOutlines(body, project));
  const surfaces = aircraft.surfaces.flatMap((surface) => surfaceOutlines(surface, project));
  if (view === 'front') return [...surfaces, ...bodies];
  const controls = aircraft.surfaces.flatMap((surface) => controlOutlines(surface, project));
  const cells = view === 'plan' ? cellOutlines(aircraft) : [];
  return view === 'plan' ? [...bodies, ...surfaces, ...cells, ...controls] : [...surfaces, ...controls, ...bodies];
}

function cellOutlines(aircraft: AircraftShape): readonly Outline[] {
  return (aircraft.cells ?? [])
    .filter(({ corners }) => corners.length > 2 && corners.every(knownPlace))
    .map(({ id, label = 'cell', corners }) => ({ id, kind: 'cell', label, polygon: corners.map(projections.plan) }));
}

/** One part: surfaces plain, controls hatched, cells dotted, so that each is known without its colour. */
export function drawOutline(pen: Pen, { kind, polygon }: Outline, place: Placing, selected = false): Markup {
  const attributes = { d: polygonPath(polygon.map(place)), 'stroke-linejoin': 'round' };
  if (attributes.d === '') return { markup: '' };
  const line = selected ? { stroke: 'caution' as const, width: 2.5 } : { stroke: 'ink' as const, width: 1 };
  if (kind === 'cell')
    return pen.shape('path', attributes, {
      fill: 'above0',
      pattern: ['dots', 'sun'],
      ...line,
      width: selected ? 2.5 : 0.75,
    });
  if (kind === 'control') return pen.shape('path', attributes, { pattern: ['hatch', 'edge'], ...line });
  return pen.shape('path', attributes, { fill: kind === 'body' ? 'part0' : 'paper', ...line });
}

/** Discs of propellers: a thin ellipse or a circle, dashed because they turn. */
export function drawPropellers(pen: Pen, aircraft: AircraftShape, view: ViewName, place: Placing): Markup {
  const project = projections[view];
  return joined(
    (aircraft.propellers ?? [])
      .filter(({ at, diameter }) => knownPlace(at) && drawable(diameter))
      .map(({ at, diameter }) => {
        const r = Math.abs(diameter) / 2;
        const [x, y, z] = at;
        const corner: Place = view === 'side' ? [x, y, z + r] : [x, y + r, z];
        const [cx, cy] = place(project(at));
        const [ex, ey] = place(project(corner));
        if (view === 'front') {
          return pen.shape('circle', { cx, cy, r: Math.hypot(ex - cx, ey - cy) }, { stroke: 'edge', dash: '4 3' });
        }
        return straight(pen, [2 * cx - ex, 2 * cy - ey], [ex, ey], { stroke: 'ink', width: 2 });
      }),
  );
}

/** Corners [px] of the box of a mass; as small as can still be pointed at. least - half a side at least [px] */
export function massBox(mass: MassShape, view: ViewName, place: Placing, least: number): readonly Point[] {
  const [x, y, z] = mass.at;
  const [lx, ly, lz] = mass.size && knownPlace(mass.size) ? mass.size : [0, 0, 0];
  const project = projections[view];
  const a = place(project([x - lx / 2, y - ly / 2, z - lz / 2]));
  const b = place(project([x + lx / 2, y + ly / 2, z + lz / 2]));
  const [mx, my] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const w = Math.max(least, Math.abs(b[0] - a[0]) / 2);
  const h = Math.max(least, Math.abs(b[1] - a[1]) / 2);
  return [
    [mx - w, my - h],
    [mx + w, my - h],
    [mx + w, my + h],
    [mx - w, my + h],
  ];
}

/** Masses as boxes; dashed where assumed. */
export function drawMass(pen: Pen, mass: MassShape, corners: readonly Point[], selected = false): Markup {
  const stroke = selected ? ('caution' as const) : ('ink' as const);
  const paint = { fill: 'part1' as const, stroke, width: selected ? 2.5 : 1, ...(mass.assumed ? { dash: '3 2' } : {}) };
  return pen.shape('path', { d: polygonPath(corners) }, paint);
}

/** Balance point: a disc, half of it filled; neutral point: a diamond. */
export function drawPoints(pen: Pen, aircraft: AircraftShape, view: ViewName, place: Placing): Markup {
  const project = projections[view];
  const at = (point: Place | undefined): Point | undefined =>
    point && knownPlace(point) ? place(project(point)) : undefined;
  const balance = at(aircraft.balance);
  const neutral = view === 'front' ? undefined : at(aircraft.neutral);
  const half = balance && `M${px(balance[0])} ${px(balance[1] - 6)}a6 6 0 0 1 0 12Z`;
  return joined([
    neutral && marker(pen, 'diamond', neutral, 'sky2', 5),
    balance &&
      pen.shape('circle', { cx: balance[0], cy: balance[1], r: 6 }, { fill: 'paper', stroke: 'ink', width: 1.5 }),
    half && pen.shape('path', { d: half }, { fill: 'ink' }),
  ]);
}
