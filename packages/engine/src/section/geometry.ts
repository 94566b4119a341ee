import { evaluateMonotoneCubic, monotoneCubic } from '../math/index.js';
import { leadingEdgeIndex, normaliseOutline, signedArea } from './outline.js';
import { thinAirfoil } from './thinAirfoil.js';
import type { SectionGeometry } from './types.js';

/** Intervals of the common station grid. */
const INTERVALS = 160;

/** Chord stations 0 to 1, spaced as 1 - cos, so that both ends are resolved. */
export const cosineStations = (intervals: number): number[] =>
  Array.from({ length: intervals + 1 }, (_, i) => 0.5 * (1 - Math.cos((Math.PI * i) / intervals)));

/** Ordinates of one surface (points from the leading edge aft) at stations; interpolated over the root of x, in which a round nose is smooth. */
function surfaceOrdinates(x: readonly number[], y: readonly number[], stations: readonly number[]): readonly number[] {
  const roots = [0];
  const ordinates = [y[0]];
  const gap = 1e-6;
  for (let i = 1; i < x.length; i++) {
    const last = roots[roots.length - 1] ** 2;
    // A square edge or a step stands upright: it is leant over by a millionth of the chord. A point ahead of the last is passed over.
    if (x[i] < last - gap || x[i] < 0) continue;
    roots.push(Math.sqrt(Math.max(x[i], last + gap)));
    ordinates.push(y[i]);
  }
  const cubic = monotoneCubic(roots, ordinates);
  return stations.map((station) => evaluateMonotoneCubic(cubic, Math.sqrt(station)));
}

/** Greatest value of samples with its station, refined by the parabola through three neighbours. */
function peak(stations: readonly number[], values: readonly number[]): { readonly at: number; readonly value: number } {
  let k = 0;
  for (let i = 1; i < values.length; i++) if (Math.abs(values[i]) > Math.abs(values[k]) + 1e-12) k = i;
  if (k === 0 || k === values.length - 1) return { at: stations[k], value: values[k] };
  const a = (values[k] - values[k - 1]) / (stations[k] - stations[k - 1]);
  const b = (values[k + 1] - values[k]) / (stations[k + 1] - stations[k]);
  const bend = (b - a) / (stations[k + 1] - stations[k - 1]);
  if (bend === 0) return { at: stations[k], value: values[k] };
  const slope = a + bend * (stations[k] - stations[k - 1]);
  const at = stations[k] - slope / (2 * bend);
  const value = values[k] - (slope * slope) / (4 * bend);
  // At a corner (bevel, step) the parabola means nothing.
  const smooth =
    at >= stations[k - 1] && at <= stations[k + 1] && Math.abs(value - values[k]) <= 3e-3 * Math.abs(value);
  return smooth ? { at, value } : { at: stations[k], value: values[k] };
}

/** Nose radius: circle through the leading-edge point and its neighbour on each surface. 0 where they are in line. */
function noseRadius(x: readonly number[], y: readonly number[], nose: number): number {
  if (nose < 1 || nose > x.length - 2) return 0;
  const [ax, ay] = [x[nose - 1] - x[nose], y[nose - 1] - y[nose]];
  const [bx, by] = [x[nose + 1] - x[nose], y[nose + 1] - y[nose]];
  const cross = Math.abs(ax * by - ay * bx);
  if (cross < 1e-14) return 0;
  return (Math.hypot(ax, ay) * Math.hypot(bx, by) * Math.hypot(ax - bx, ay - by)) / (2 * cross);
}

/** Least-squares c0 + c1 x + c2 x^2. */
function fitParabola(x: readonly number[], y: readonly number[]): readonly [number, number, number] {
  const s = [0, 0, 0, 0, 0];
  const r = [0, 0, 0];
  x.forEach((value, i) => {
    let power = 1;
    for (let k = 0; k < 5; k++) {
      s[k] += power;
      if (k < 3) r[k] += power * y[i];
      power *= value;
    }
  });
  const det = (a: number[], b: number[], c: number[]) =>
    a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  const rows = [s.slice(0, 3), s.slice(1, 4), s.slice(2, 5)];
  const whole = det(rows[0], rows[1], rows[2]);
  if (Math.abs(whole) < 1e-30) return [r[0] / s[0], 0, 0];
  const solved = [0, 1, 2].map((column) => {
    const swapped = rows.map((row, i) => row.map((value, j) => (j === column ? r[i] : value)));
    return det(swapped[0], swapped[1], swapped[2]) / whole;
  });
  return [solved[0], solved[1], solved[2]];
}

/** Thickness across the mean line: the vertical thickness leans with the mean line's slope. */
function acrossMeanLine(stations: readonly number[], camber: readonly number[], thickness: readonly number[]): number {
  let greatest = 0;
  for (let i = 1; i < stations.length - 1; i++) {
    const slope = (camber[i + 1] - camber[i - 1]) / (stations[i + 1] - stations[i - 1]);
    greatest = Math.max(greatest, thickness[i] / Math.sqrt(1 + slope * slope));
  }
  return greatest;
}

/**
 * Section from an outline: ordinates on a common grid, thickness and camber with their positions, area, nose radius, thin-airfoil results.
 *
 * name - shown to the user
 * x, y - outline from trailing edge over the upper surface to the leading edge and back below; either direction, any scale
 * leadingEdge - 'round' or 'sharp' (plates)
 * meanLine - exact mean line of a formula section, for the thin-airfoil results; default the mean of upper and lower ordinate
 * step - depth / chord of a backward-facing step [-]
 * noseIndex - outline point that is the leading edge, where known; the outline then stays in its frame. Default: the point farthest from the tail
 * The outline must enclose an area and reach from nose to tail: `sectionFromPoints` refuses others.
 */
export function sectionGeometry(input: {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly leadingEdge?: 'round' | 'sharp';
  readonly meanLine?: { readonly stations: readonly number[]; readonly camber: readonly number[] };
  readonly step?: number;
  readonly noseIndex?: number;
}): SectionGeometry {
  const { x, y } = input.noseIndex === undefined ? normaliseOutline(input.x, input.y) : input;
  const nose = input.noseIndex ?? leadingEdgeIndex(x, y);
  const stations = cosineStations(INTERVALS);
  const upper = surfaceOrdinates(x.slice(0, nose + 1).reverse(), y.slice(0, nose + 1).reverse(), stations);
  const lower = surfaceOrdinates(x.slice(nose), y.slice(nose), stations);
  const camber = upper.map((value, i) => (value + lower[i]) / 2);
  const thickness = upper.map((value, i) => value - lower[i]);
  const thick = peak(stations, thickness);
  const line = input.meanLine ?? { stations, camber };
  const tail = line.camber[line.camber.length - 1];
  const bent = peak(
    line.stations,
    line.camber.map((value, i) => value - tail * line.stations[i]),
  );
  return {
    name: input.name,
    leadingEdge: input.leadingEdge ?? 'round',
    outlineX: x,
    outlineY: y,
    stations,
    upper,
    lower,
    camber,
    thickness,
    maximumThickness: thick.value,
    maximumThicknessStation: thick.at,
    maximumCamber: bent.value,
    maximumCamberStation: bent.at,
    thicknessAcrossMeanLine: acrossMeanLine(stations, camber, thickness),
    area: signedArea(x, y),
    leadingEdgeRadius: input.leadingEdge === 'sharp' ? 0 : noseRadius(x, y, nose),
    trailingEdgeThickness: y[0] - y[y.length - 1],
    step: input.step ?? 0,
    thinAirfoil: thinAirfoil(line.stations, line.camber),
  };
}

/** Ordinate, slope and curvature of one side of a section at a chord station. */
export interface SurfaceAt {
  readonly ordinate: number;
  readonly slope: number;
  readonly curvature: number;
}

/**
 * Ordinate, slope and curvature of one side of a section at a chord station: what a flat cell laid there would have to bridge.
 * Local parabola over +-4 % of chord, so that rounding of a coordinate file does not show as kinks.
 *
 * geometry - section
 * side - upper or lower
 * station - chord station, 0 to 1 [-]
 * Returns ordinate / chord, slope dy/dx (positive rising aft), curvature * chord (positive where it opens upwards: a hollow upper, a bulging lower side).
 */
export function surfaceAt(geometry: SectionGeometry, side: 'upper' | 'lower', station: number): SurfaceAt {
  const at = Math.min(1, Math.max(0, station));
  const ordinates = geometry[side];
  const near = geometry.stations.map((_, i) => i).filter((i) => Math.abs(geometry.stations[i] - at) <= 0.04);
  const [ordinate, slope, second] = fitParabola(
    near.map((i) => geometry.stations[i] - at),
    near.map((i) => ordinates[i]),
  );
  return { ordinate, slope, curvature: (2 * second) / (1 + slope * slope) ** 1.5 };
}

/** `surfaceAt` of the upper side. */
export const upperSurfaceAt = (geometry: SectionGeometry, station: number): SurfaceAt =>
  surfaceAt(geometry, 'upper', station);

/** Ordinate / chord of one side at a chord station, linear between the points of the common grid. */
export function ordinateAt(geometry: SectionGeometry, side: 'upper' | 'lower', station: number): number {
  const at = Math.min(1, Math.max(0, station));
  const ordinates = geometry[side];
  // The grid is spaced as 1 - cos, so that the interval is known without a search.
  const intervals = geometry.stations.length - 1;
  const guess = Math.floor((Math.acos(1 - 2 * at) * intervals) / Math.PI);
  let i = Math.min(intervals - 1, Math.max(0, guess));
  if (i > 0 && geometry.stations[i] > at) i--;
  const from = geometry.stations[i];
  const share = Math.min(1, (at - from) / (geometry.stations[i + 1] - from));
  return ordinates[i] + share * (ordinates[i + 1] - ordinates[i]);
}
