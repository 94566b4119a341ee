import { isSteep, type LiftingSurface, spanPosition, stationDistances } from '../shape/index.js';

/** Spanwise edges of the strips of one surface, as distance along the span from the root station [m], and its chordwise count. */
export interface Division {
  readonly edges: readonly number[];
  readonly chordwise: number;
}

/** Distance along the span of a position as controls count it (y, or height on a steep surface). */
export function distanceAt(surface: LiftingSurface, position: number): number {
  const distances = stationDistances(surface);
  const last = distances.length - 1;
  let index = 0;
  while (index < last - 1 && position > spanPosition(surface, index + 1)) index++;
  const from = spanPosition(surface, index);
  const length = spanPosition(surface, index + 1) - from;
  const blend = length > 0 ? (position - from) / length : 0;
  return distances[index] + Math.min(1, Math.max(0, blend)) * (distances[index + 1] - distances[index]);
}

/** Distance along `surface` at which the end station of another surface touches it, or undefined. */
function touchPoint(surface: LiftingSurface, y: number, z: number, tolerance: number): number | undefined {
  const distances = stationDistances(surface);
  for (let i = 1; i < surface.stations.length; i++) {
    const [a, b] = [surface.stations[i - 1], surface.stations[i]];
    const length = distances[i] - distances[i - 1];
    const along = Math.min(1, Math.max(0, ((y - a.y) * (b.y - a.y) + (z - a.z) * (b.z - a.z)) / (length * length)));
    const gap = Math.hypot(a.y + along * (b.y - a.y) - y, a.z + along * (b.z - a.z) - z);
    if (gap <= tolerance) return distances[i - 1] + along * length;
  }
  return undefined;
}

function chordsOverlap(a: LiftingSurface, b: LiftingSurface): boolean {
  const range = (surface: LiftingSurface) => {
    const leading = Math.min(...surface.stations.map((station) => station.xLeadingEdge));
    const trailing = Math.max(...surface.stations.map((station) => station.xLeadingEdge + station.chord));
    return [leading, trailing];
  };
  const [a0, a1] = range(a);
  const [b0, b1] = range(b);
  return a0 < b1 && b0 < a1;
}

/** Distances along a surface at which another surface begins, ends or is joined to it. */
function joints(surface: LiftingSurface, others: readonly LiftingSurface[]): number[] {
  const length = stationDistances(surface).at(-1)!;
  const tolerance = 0.02 * length;
  const found: number[] = [];
  for (const other of others) {
    if (other === surface || !chordsOverlap(surface, other)) continue;
    for (const end of [other.stations[0], other.stations[other.stations.length - 1]]) {
      const at = touchPoint(surface, end.y, end.z, tolerance);
      if (at !== undefined) found.push(at);
    }
    const ends: readonly [number, number][] = [
      [0, 0],
      [length, surface.stations.length - 1],
    ];
    for (const [distance, index] of ends) {
      const { y, z } = surface.stations[index];
      if (touchPoint(other, y, z, tolerance) !== undefined) found.push(distance);
    }
  }
  return found;
}

/** Whether another surface (a fin as an end plate) is joined to the tip. */
export function tipIsJoined(surface: LiftingSurface, others: readonly LiftingSurface[]): boolean {
  const length = stationDistances(surface).at(-1)!;
  return joints(surface, others).some((joint) => joint > 0.97 * length);
}

/** Sorted values without those closer than `least` to one of the firmer values before them. */
function thinned(firm: readonly number[], soft: readonly number[], least: number): number[] {
  const kept = [...firm];
  for (const value of soft) if (kept.every((other) => Math.abs(other - value) >= least)) kept.push(value);
  return kept.sort((a, b) => a - b);
}

/**
 * Edges of strips: near-uniform, aligned with stations, joints and control ends, and drawn in by a quarter of a strip at free tips,
 * which makes lift and far-field drag converge with the square of the strip count.
 * Source: G. R. Hough, Remarks on vortex-lattice methods, Journal of Aircraft 10(5), 1973.
 */
export function divideSpan(
  surface: LiftingSurface,
  others: readonly LiftingSurface[],
  { spanwise, tipInset = true }: { readonly spanwise: number; readonly tipInset?: boolean },
): number[] {
  const distances = stationDistances(surface);
  const length = distances[distances.length - 1];
  const joined = joints(surface, others);
  const near = (distance: number) => joined.some((joint) => Math.abs(joint - distance) < 0.03 * length);
  const rootOnCentre = surface.mirrored && !isSteep(surface) && surface.stations[0].y < 1e-6;
  const insetRoot = tipInset && !rootOnCentre && !near(0);
  const insetTip = tipInset && !near(length);
  const strip = length / spanwise;
  const controlEnds = surface.controls.flatMap((control) => [
    distanceAt(surface, control.fromY),
    distanceAt(surface, control.toY),
  ]);
  const ends = [0, length];
  const breaks = thinned(ends, [...distances.slice(1, -1), ...joined, ...controlEnds], 0.5 * strip);
  const edges: number[] = [];
  for (let i = 1; i < breaks.length; i++) {
    const first = i === 1 && insetRoot;
    const last = i === breaks.length - 1 && insetTip;
    const span = breaks[i] - breaks[i - 1];
    const insets = (first ? 0.25 : 0) + (last ? 0.25 : 0);
    const count = Math.max(1, Math.round(span / strip - insets));
    const step = span / (count + insets);
    const start = breaks[i - 1] + (first ? step / 4 : 0);
    for (let k = i === 1 ? 0 : 1; k <= count; k++) edges.push(start + k * step);
  }
  return edges;
}

/**
 * How many chordwise and spanwise panels each surface gets out of a number of unknowns: wings most, tails and fins by their area,
 * panels about twice as wide as long.
 */
export function chooseCounts(
  surfaces: readonly LiftingSurface[],
  areas: readonly number[],
  unknowns: number,
): { chordwise: number; spanwise: number }[] {
  const weights = surfaces.map((surface, i) => areas[i] ** 0.6 * (surface.kind === 'wing' ? 1 : 0.7));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return surfaces.map((surface, i) => {
    const share = Math.max(12, (unknowns * weights[i]) / total);
    const length = stationDistances(surface).at(-1)!;
    const chord = areas[i] / length;
    const chordwise = Math.min(12, Math.max(4, Math.round(Math.sqrt((share * 1.5 * chord) / length))));
    return { chordwise, spanwise: Math.max(3, Math.round(share / chordwise)) };
  });
}
