import type { Point } from '../model.js';
import { clean, drawable } from '../number.js';
import type { AircraftShape, BodyShape, Place, SurfaceShape, SurfaceStation } from './inputs.js';

/** From which side: plan from above, front from ahead, side from the left with the nose to the left. */
export type ViewName = 'plan' | 'front' | 'side';

/** Flat coordinates of a view in the unit of the aircraft: across to the right, down. */
export type Projection = (place: Place) => Point;

export const projections: Readonly<Record<ViewName, Projection>> = {
  plan: ([x, y]) => [y, x],
  front: ([, y, z]) => [-y, -z],
  side: ([x, , z]) => [x, -z],
};

/** A part in a view, with its outline in flat coordinates. */
export interface Outline {
  readonly id: string;
  readonly kind: 'surface' | 'control' | 'body' | 'cell';
  readonly label: string;
  readonly polygon: readonly Point[];
}

export const knownPlace = (place: Place): boolean => place.every(drawable);
const cleanPlace = ([x, y, z]: Place): Place => [clean(x), clean(y), clean(z)];
export const mirror = ([x, y, z]: Place): Place => [x, -y, z];

/** Corners of the hull of points, by Andrew's monotone chain. */
export function hull(points: readonly Point[]): readonly Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const half = (list: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of list) {
      while (chain.length >= 2 && turn(chain.at(-2)!, chain.at(-1)!, p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

const turn = (o: Point, a: Point, b: Point): number => (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** Chordwise stations of the drawn section and its half thickness there, over greatest half thickness; a drawing's shape, not a section. */
const sectionShape: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.03, 0.5],
  [0.12, 0.85],
  [0.3, 1],
  [0.6, 0.75],
  [1, 0],
];

export const goodStations = (surface: SurfaceShape): readonly SurfaceStation[] =>
  surface.stations
    .filter(({ at, chord }) => knownPlace(at) && drawable(chord) && chord > 0)
    .map((station) => ({ ...station, at: cleanPlace(station.at) }));

/** Direction in which a panel is thick: square to the span and to the x axis. */
function normalOf(a: Place, b: Place): readonly [number, number] {
  const [dy, dz] = [b[1] - a[1], b[2] - a[2]];
  const length = Math.hypot(dy, dz);
  return length > 0 ? [-dz / length, dy / length] : [0, 1];
}

/** A point on the chord of a station, twisted about its leading edge; lifted along the normal. */
function onSection(
  { at, chord, twist = 0 }: SurfaceStation,
  share: number,
  lift: number,
  normal: readonly [number, number],
): Place {
  const angle = ((drawable(twist) ? twist : 0) * Math.PI) / 180;
  const along = share * chord * Math.cos(angle);
  const off = lift - share * chord * Math.sin(angle);
  return [at[0] + along, at[1] + normal[0] * off, at[2] + normal[1] * off];
}

function sectionPoints(station: SurfaceStation, normal: readonly [number, number]): readonly Place[] {
  const thickness = drawable(station.thickness) ? Math.min(1, Math.max(0, station.thickness)) : 0.1;
  return sectionShape.flatMap(([share, half]) => {
    const lift = half * 0.5 * thickness * station.chord;
    return [onSection(station, share, lift, normal), onSection(station, share, -lift, normal)];
  });
}

/** Panels of a surface between its stations, on both sides where mirrored. */
export function surfaceOutlines(surface: SurfaceShape, project: Projection): readonly Outline[] {
  const stations = goodStations(surface);
  const { id, label } = surface;
  return stations.slice(1).flatMap((outer, i) => {
    const inner = stations[i]!;
    const normal = normalOf(inner.at, outer.at);
    const points = [...sectionPoints(inner, normal), ...sectionPoints(outer, normal)];
    const sides = surface.mirrored ? [points, points.map(mirror)] : [points];
    return sides.map((side): Outline => ({ id, kind: 'surface', label, polygon: hull(side.map(project)) }));
  });
}

/** Chord line of a surface at a fraction of the span of its half. */
function stationAt(stations: readonly SurfaceStation[], share: number): SurfaceStation {
  const lengths = stations
    .slice(1)
    .map(({ at }, i) => Math.hypot(at[1] - stations[i]!.at[1], at[2] - stations[i]!.at[2]));
  const total = lengths.reduce((sum, each) => sum + each, 0);
  let rest = Math.min(1, Math.max(0, share)) * total;
  let i = 0;
  while (i < lengths.length - 1 && rest > lengths[i]!) {
    rest -= lengths[i]!;
    i++;
  }
  const f = lengths[i]! > 0 ? Math.min(1, rest / lengths[i]!) : 0;
  const [a, b] = [stations[i]!, stations[i + 1]!];
  const between = (p: number, q: number) => p + (q - p) * f;
  return {
    at: [between(a.at[0], b.at[0]), between(a.at[1], b.at[1]), between(a.at[2], b.at[2])],
    chord: between(a.chord, b.chord),
    twist: between(a.twist ?? 0, b.twist ?? 0),
  };
}

/** Hinged parts, on both sides where mirrored. */
export function controlOutlines(surface: SurfaceShape, project: Projection): readonly Outline[] {
  const stations = goodStations(surface);
  if (stations.length < 2) return [];
  const shares = stationShares(stations);
  return (surface.controls ?? [])
    .filter(({ span, hinge }) => span.every(drawable) && drawable(hinge) && span[1] > span[0])
    .flatMap(({ id, label, span, hinge }) => {
      const cuts = [span[0], ...shares.filter((share) => share > span[0] && share < span[1]), span[1]];
      const sections = cuts.map((share) => stationAt(stations, share));
      const share = Math.min(1, Math.max(0, hinge));
      const edge = (at: number) => sections.map((section) => onSection(section, at, 0, [0, 1]));
      const corners = [...edge(share), ...edge(1).reverse()];
      const sides = surface.mirrored ? [corners, corners.map(mirror)] : [corners];
      return sides.map((side): Outline => ({ id, kind: 'control', label, polygon: side.map(project) }));
    });
}

function stationShares(stations: readonly SurfaceStation[]): readonly number[] {
  const sums = [0];
  for (const [i, { at }] of stations.slice(1).entries()) {
    const before = stations[i]!.at;
    sums.push(sums.at(-1)! + Math.hypot(at[1] - before[1], at[2] - before[2]));
  }
  const total = sums.at(-1)!;
  return sums.map((sum) => (total > 0 ? sum / total : 0));
}

/** A body: its ellipses between sections. */
export function bodyOutlines(body: BodyShape, project: Projection): readonly Outline[] {
  const stations = body.stations.filter(
    ({ at, width, height }) => knownPlace(at) && drawable(width) && drawable(height),
  );
  const rings = stations.map(({ at, width, height }) =>
    Array.from({ length: 16 }, (_, i): Place => {
      const angle = (i * Math.PI) / 8;
      const [x, y, z] = cleanPlace(at);
      return [x, y + (Math.abs(width) / 2) * Math.cos(angle), z + (Math.abs(height) / 2) * Math.sin(angle)];
    }),
  );
  const { id, label } = body;
  const pieces = rings.length === 1 ? [rings[0]!] : rings.slice(1).map((ring, i) => [...rings[i]!, ...ring]);
  return pieces.flatMap((points) => {
    const sides = body.mirrored ? [points, points.map(mirror)] : [points];
    return sides.map((side): Outline => ({ id, kind: 'body', label, polygon: hull(side.map(project)) }));
  });
}

/** Corners of the smallest box around a whole aircraft: along x, y and z; a unit box where nothing is known. */
export function extentOf(aircraft: AircraftShape): { readonly low: Place; readonly high: Place } {
  const places: Place[] = [];
  for (const surface of aircraft.surfaces) {
    const stations = goodStations(surface);
    const first = stations[0];
    const last = stations.at(-1);
    const normal = first && last ? normalOf(first.at, last.at) : ([0, 1] as const);
    const points = stations.flatMap((station) => sectionPoints(station, normal));
    places.push(...points, ...(surface.mirrored ? points.map(mirror) : []));
  }
  for (const body of aircraft.bodies ?? []) {
    for (const { at, width, height } of body.stations) {
      if (!knownPlace(at) || !drawable(width) || !drawable(height)) continue;
      const corners: Place[] = [
        [at[0], at[1] - width / 2, at[2] - height / 2],
        [at[0], at[1] + width / 2, at[2] + height / 2],
      ];
      places.push(...corners, ...(body.mirrored ? corners.map(mirror) : []));
    }
  }
  for (const { at, diameter } of aircraft.propellers ?? []) {
    if (!knownPlace(at) || !drawable(diameter)) continue;
    const r = Math.abs(diameter) / 2;
    places.push([at[0], at[1] - r, at[2] - r], [at[0], at[1] + r, at[2] + r]);
  }
  for (const { corners } of aircraft.cells ?? []) places.push(...corners.filter(knownPlace));
  for (const { at } of aircraft.masses ?? []) if (knownPlace(at)) places.push(at);
  for (const at of [aircraft.balance, aircraft.neutral]) if (at !== undefined && knownPlace(at)) places.push(at);
  const ends = ([0, 1, 2] as const).map((i) => {
    const values = places.map((place) => clean(place[i]));
    const [low, high] = values.reduce(
      ([a, b], v) => [Math.min(a, v), Math.max(b, v)],
      [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
    );
    return low! <= high! ? ([low!, high!] as const) : ([0, 1] as const);
  });
  return { low: [ends[0]![0], ends[1]![0], ends[2]![0]], high: [ends[0]![1], ends[1]![1], ends[2]![1]] };
}
