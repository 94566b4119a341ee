import type { LiftingSurface, Station } from './types.js';

const steepness = Math.sin((60 * Math.PI) / 180);

/** Whether span is counted by height rather than by y: mean dihedral above 60 degrees, up or down. */
export function isSteep(surface: LiftingSurface): boolean {
  const root = surface.stations[0];
  const tip = surface.stations[surface.stations.length - 1];
  const dz = Math.abs(tip.z - root.z);
  return dz >= steepness * Math.hypot(tip.y - root.y, dz) && dz > 0;
}

/** Position of a station along the span as controls count it [m]: y, or on a steep surface the height from the root. */
export function spanPosition(surface: LiftingSurface, index: number): number {
  const station = surface.stations[index];
  return isSteep(surface) ? Math.abs(station.z - surface.stations[0].z) : station.y;
}

/** Linear interpolation of two stations; the section of the nearer one. */
export function between(inner: Station, outer: Station, fraction: number): Station {
  const mix = (a: number, b: number) => a + (b - a) * fraction;
  return {
    y: mix(inner.y, outer.y),
    xLeadingEdge: mix(inner.xLeadingEdge, outer.xLeadingEdge),
    z: mix(inner.z, outer.z),
    chord: mix(inner.chord, outer.chord),
    twist: mix(inner.twist, outer.twist),
    section: fraction < 0.5 ? inner.section : outer.section,
  };
}

/** A cut with the two stations it lies between: section blends from `section` to `outerSection` by `blend`. */
export interface Cut extends Station {
  readonly outerSection: string;
  readonly blend: number;
  /** Dihedral of the part of the surface it lies in [rad]. */
  readonly dihedral: number;
}

function cutBetween(surface: LiftingSurface, index: number, blend: number): Cut {
  const [inner, outer] = [surface.stations[index], surface.stations[index + 1]];
  return {
    ...between(inner, outer, blend),
    section: inner.section,
    outerSection: outer.section,
    blend,
    dihedral: Math.atan2(outer.z - inner.z, outer.y - inner.y),
  };
}

/** Cut at a value that grows from station to station; beyond the ends the end station. */
function cutWhere(surface: LiftingSurface, value: number, atStation: (index: number) => number): Cut {
  let index = 0;
  while (index < surface.stations.length - 2 && value > atStation(index + 1)) index++;
  const from = atStation(index);
  const length = atStation(index + 1) - from;
  const blend = length > 0 ? Math.min(1, Math.max(0, (value - from) / length)) : 0;
  return cutBetween(surface, index, blend);
}

/**
 * Geometry at a position along the span (as controls count it); positions beyond the ends give the end station.
 *
 * surface - wing, tail or fin
 * position - y, or height from the root on a steep surface [m]
 * Returns leading edge, chord, twist, sections and dihedral there.
 */
export const cutAt = (surface: LiftingSurface, position: number): Cut =>
  cutWhere(surface, position, (index) => spanPosition(surface, index));

/** Distance from the root to each station along the surface, dihedral and upturned tips included [m]. */
export function stationDistances(surface: Pick<LiftingSurface, 'stations'>): number[] {
  const distances = [0];
  for (let i = 1; i < surface.stations.length; i++) {
    const [a, b] = [surface.stations[i - 1], surface.stations[i]];
    distances.push(distances[i - 1] + Math.hypot(b.y - a.y, b.z - a.z));
  }
  return distances;
}

/** Geometry at a distance from the root along the surface [m]. */
export function cutAlong(surface: LiftingSurface, distance: number): Cut {
  const distances = stationDistances(surface);
  return cutWhere(surface, distance, (index) => distances[index]);
}

/** Sizes of one lifting surface, both sides together where mirrored. */
export interface Planform {
  /** Area of the surface itself, along the dihedral [m2]. */
  readonly area: number;
  /** Area projected on the horizontal plane [m2]. */
  readonly projectedArea: number;
  /** From tip to tip across [m]; on a steep surface its height. */
  readonly span: number;
  readonly aspectRatio: number;
  /** Area / length along the span [m]. */
  readonly meanGeometricChord: number;
  readonly meanAerodynamicChord: number;
  /** Leading edge of the mean aerodynamic chord, aft of the datum [m], and its y and z (right side) [m]. */
  readonly xMeanChord: number;
  readonly yMeanChord: number;
  readonly zMeanChord: number;
  /** Tip chord / root chord. */
  readonly taper: number;
  /** Sweep of the quarter-chord line from root to tip, aft positive [rad]. */
  readonly sweep: number;
}

/** Integrals along one segment, exact for quantities that vary linearly (Simpson is exact to the third power). */
function segmentIntegrals(inner: Station, outer: Station) {
  const length = Math.hypot(outer.y - inner.y, outer.z - inner.z);
  const middle = between(inner, outer, 0.5);
  const integral = (f: (station: Station) => number) => (length / 6) * (f(inner) + 4 * f(middle) + f(outer));
  return {
    length,
    area: integral((s) => s.chord),
    square: integral((s) => s.chord * s.chord),
    x: integral((s) => s.chord * s.xLeadingEdge),
    y: integral((s) => s.chord * s.y),
    z: integral((s) => s.chord * s.z),
    projected: ((outer.y - inner.y) / length) * integral((s) => s.chord),
  };
}

/**
 * Area, span, chords and sweep of a lifting surface.
 *
 * surface - stations from root to tip
 * Returns sizes of both sides together; the mean chord's position on the right side.
 * Definitions: mean aerodynamic chord = integral of chord squared / area; its leading edge = chord-weighted mean.
 */
export function planform(surface: LiftingSurface): Planform {
  const { stations, mirrored } = surface;
  const sum = { length: 0, area: 0, square: 0, x: 0, y: 0, z: 0, projected: 0 };
  for (let i = 1; i < stations.length; i++) {
    const part = segmentIntegrals(stations[i - 1], stations[i]);
    for (const key of Object.keys(sum) as (keyof typeof sum)[]) sum[key] += part[key];
  }
  const sides = mirrored ? 2 : 1;
  const root = stations[0];
  const tip = stations[stations.length - 1];
  const span = isSteep(surface) ? Math.abs(tip.z - root.z) : sides * tip.y;
  const area = sides * sum.area;
  const quarter = (station: Station) => station.xLeadingEdge + station.chord / 4;
  return {
    area,
    projectedArea: sides * sum.projected,
    span,
    aspectRatio: (span * span) / area,
    meanGeometricChord: sum.area / sum.length,
    meanAerodynamicChord: sum.square / sum.area,
    xMeanChord: sum.x / sum.area,
    yMeanChord: sum.y / sum.area,
    zMeanChord: sum.z / sum.area,
    taper: tip.chord / root.chord,
    sweep: Math.atan2(quarter(tip) - quarter(root), sum.length),
  };
}

/** A straight-tapered surface by its usual numbers, for examples, relations and checks. */
export interface Trapezoid {
  readonly name?: string;
  readonly span: number;
  readonly aspectRatio: number;
  readonly taper?: number;
  /** Of the quarter chord, aft positive [rad]. */
  readonly sweep?: number;
  readonly dihedral?: number;
  /** Tip less root incidence [rad]; negative is washout. */
  readonly washout?: number;
  readonly section?: string;
}

/**
 * Builds a mirrored straight-tapered wing with its apex at the datum.
 *
 * trapezoid - span [m], aspect ratio, taper (1), sweep of the quarter chord (0), dihedral (0), tip twist (0)
 */
export function trapezoidalWing(trapezoid: Trapezoid): LiftingSurface {
  const { span, aspectRatio, taper = 1, sweep = 0, dihedral = 0, washout = 0, section = 'section' } = trapezoid;
  const rootChord = (2 * span) / (aspectRatio * (1 + taper));
  const tipChord = taper * rootChord;
  const half = span / 2;
  const xTip = rootChord / 4 + half * Math.tan(sweep) - tipChord / 4;
  return {
    name: trapezoid.name ?? 'wing',
    kind: 'wing',
    mirrored: true,
    stations: [
      { y: 0, xLeadingEdge: 0, z: 0, chord: rootChord, twist: 0, section },
      { y: half, xLeadingEdge: xTip, z: half * Math.tan(dihedral), chord: tipChord, twist: washout, section },
    ],
    controls: [],
  };
}
