import type { ShapeView, SurfaceBend, SurfaceShape } from '../../core/view.js';
import type { Vector } from './frames.js';
import { emptyMesh, joinMeshes, type Mesh, mirrorMesh, sheet } from './mesh.js';

/** Section of a surface as far as a picture needs it; both relative to the chord. */
export interface Profile {
  readonly thickness: number;
  /** Greatest height of the mean line; 0 where absent. */
  readonly camber?: number;
}

type Station = SurfaceShape['stations'][number];

/** A surface ready to be built: sound stations with the direction in which each is thick, and its share of the span. */
export interface Skin {
  readonly stations: readonly Station[];
  /** Square to the span, in the y-z plane, on the upper side. */
  readonly normals: readonly (readonly [number, number])[];
  /** 0 at the root, 1 at the tip. */
  readonly shares: readonly number[];
  /** Along the stations [m] */
  readonly reach: number;
  readonly profile: Profile;
  readonly mirrored: boolean;
  /** Rise of each station at equal shares of its chord [m]; absent where nothing is bent. */
  readonly rises?: readonly (readonly number[])[];
}

/** For surfaces whose section the view does not carry: usual thickness of wings and tails (common practice, no source). */
export const usualProfile = (role: string): Profile => ({ thickness: role === 'wing' ? 0.1 : 0.07 });

const soundStation = (station: Station): boolean =>
  [station.x, station.y, station.z, station.twist].every(Number.isFinite) &&
  Number.isFinite(station.chord) &&
  station.chord > 0;

/** Prepares a surface; stations that cannot be drawn are left out. Undefined where fewer than two are left. */
export function skinOf(surface: SurfaceShape, profile: Profile = usualProfile(surface.role)): Skin | undefined {
  const skin = straightSkin(surface, profile);
  return skin === undefined || surface.bend === undefined ? skin : bentSkin(skin, surface.bend);
}

/** Value of a list at equal steps, at a share of it. */
function along(values: readonly number[], share: number): number {
  const at = Math.min(1, Math.max(0, share)) * (values.length - 1);
  const i = Math.min(values.length - 2, Math.floor(at));
  return i < 0 ? (values[0] ?? 0) : values[i]! + (values[i + 1]! - values[i]!) * (at - i);
}

/** The skin cut where its bend is known, each station with its rise. */
function bentSkin(skin: Skin, { shares, rises }: SurfaceBend): Skin {
  if (shares.length < 2 || !rises.flat().every(Number.isFinite)) return skin;
  const cuts = [...new Set([...skin.shares, ...shares.filter((share) => share > 1e-6 && share < 1 - 1e-6)])].sort(
    (a, b) => a - b,
  );
  const at = cuts.map((cut) => between(skin, cut));
  const mix = (a: number, b: number, f: number) => a + (b - a) * f;
  const stations = at.map(({ i, f }): Station => {
    const [a, b] = [skin.stations[i]!, skin.stations[i + 1]!];
    const of = (key: keyof Station) => mix(a[key], b[key], f);
    return { x: of('x'), y: of('y'), z: of('z'), chord: of('chord'), twist: of('twist') };
  });
  const normals = at.map(({ i, f }) => {
    const [a, b] = [skin.normals[i]!, skin.normals[i + 1]!];
    const [y, z] = [mix(a[0], b[0], f), mix(a[1], b[1], f)];
    const length = Math.hypot(y, z);
    return [y / length, z / length] as const;
  });
  const count = rises[0]!.length;
  const risen = cuts.map((cut) =>
    Array.from({ length: count }, (_, k) => {
      const outer = shares.findIndex((share) => share >= cut - 1e-9);
      const o = outer < 0 ? shares.length - 1 : Math.max(1, outer);
      const f = (cut - shares[o - 1]!) / Math.max(1e-9, shares[o]! - shares[o - 1]!);
      return mix(rises[o - 1]![k] ?? 0, rises[o]![k] ?? 0, Math.min(1, Math.max(0, f)));
    }),
  );
  return { ...skin, stations, normals, shares: cuts, rises: risen };
}

function straightSkin(surface: SurfaceShape, profile: Profile): Skin | undefined {
  const stations = surface.stations.filter(soundStation);
  const steps = stations.slice(1).map((outer, i) => {
    const inner = stations[i]!;
    return [outer.y - inner.y, outer.z - inner.z] as const;
  });
  const lengths = steps.map(([dy, dz]) => Math.hypot(dy, dz));
  const reach = lengths.reduce((sum, each) => sum + each, 0);
  if (!(reach > 1e-6)) return undefined;
  const shares = [0];
  for (const length of lengths) shares.push(shares.at(-1)! + length / reach);
  const normals = stations.map((_, i) => {
    const [before, after] = [steps[i - 1] ?? steps[i]!, steps[i] ?? steps[i - 1]!];
    const [dy, dz] = [before[0] + after[0], before[1] + after[1]];
    const length = Math.hypot(dy, dz);
    return length > 0 ? ([-dz / length, dy / length] as const) : ([0, 1] as const);
  });
  const thickness = Number.isFinite(profile.thickness) ? Math.min(0.4, Math.max(0.002, profile.thickness)) : 0.1;
  const camber = Number.isFinite(profile.camber) ? Math.min(0.2, Math.max(-0.2, profile.camber!)) : 0;
  return { stations, normals, shares, reach, profile: { thickness, camber }, mirrored: surface.mirrored };
}

/**
 * Half thickness at a share of the chord, relative to the chord, closed at the trailing edge.
 * Source: Jacobs, Ward and Pinkerton, NACA Report 460, 1933, thickness distribution; last coefficient -0.1036 instead of
 * -0.1015 closes it.
 */
export function halfThickness(share: number, thickness: number): number {
  const f = Math.min(1, Math.max(0, share));
  const sum = 0.2969 * Math.sqrt(f) - 0.126 * f - 0.3516 * f ** 2 + 0.2843 * f ** 3 - 0.1036 * f ** 4;
  return Math.max(0, 5 * thickness * sum);
}

/** side: 1 upper, -1 lower; lift - off the skin [m] */
interface Spot {
  readonly share: number;
  readonly side: 1 | -1;
  readonly lift?: number;
}

function stationSpot(skin: Skin, i: number, { share, side, lift = 0 }: Spot): Vector {
  const { x, y, z, chord, twist } = skin.stations[i]!;
  const [ny, nz] = skin.normals[i]!;
  const { thickness, camber = 0 } = skin.profile;
  const middle = 4 * camber * share * (1 - share);
  const off = chord * (middle + side * halfThickness(share, thickness)) + side * lift;
  // The leading edge stays; nose up lets the rest sink.
  const aft = share * chord * Math.cos(twist) + off * Math.sin(twist);
  const rise = skin.rises === undefined ? 0 : along(skin.rises[i]!, share);
  const up = off * Math.cos(twist) - share * chord * Math.sin(twist) + rise;
  return [x + aft, y + ny * up, z + nz * up];
}

/** Station before a share of the span, and how far it is to the next, 0 to 1. */
function between(skin: Skin, share: number): { readonly i: number; readonly f: number } {
  const s = Math.min(1, Math.max(0, share));
  let i = 0;
  while (i < skin.shares.length - 2 && s > skin.shares[i + 1]!) i++;
  const width = skin.shares[i + 1]! - skin.shares[i]!;
  return { i, f: width > 0 ? Math.min(1, Math.max(0, (s - skin.shares[i]!) / width)) : 0 };
}

/** Point on the skin at a share of the span; straight between stations, as the skin itself. */
export function skinSpot(skin: Skin, span: number, spot: Spot): Vector {
  const { i, f } = between(skin, span);
  const [a, b] = [stationSpot(skin, i, spot), stationSpot(skin, i + 1, spot)];
  return [a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f, a[2] + (b[2] - a[2]) * f];
}

/** Chord at a share of the span [m]. */
export function chordAt(skin: Skin, span: number): number {
  const { i, f } = between(skin, span);
  return skin.stations[i]!.chord + (skin.stations[i + 1]!.chord - skin.stations[i]!.chord) * f;
}

/** Shares of the chord at which the skin is cut: closer where it is round. */
const chordCuts = Array.from({ length: 25 }, (_, k) => (1 - Math.cos((Math.PI * k) / 24)) / 2);

/** Closed skin of the right half, or of the whole where not mirrored: upper and lower side, root and tip. */
export function halfMesh(skin: Skin): Mesh {
  const rows = (side: 1 | -1) =>
    skin.stations.map((_, i) => chordCuts.map((share) => stationSpot(skin, i, { share, side })));
  const [upper, lower] = [rows(1), rows(-1)];
  const last = upper.length - 1;
  return joinMeshes([
    sheet(upper),
    sheet(lower, true),
    sheet([lower[0]!, upper[0]!]),
    sheet([lower[last]!, upper[last]!], true),
  ]);
}

/** Whole surface. */
export function surfaceMesh(skin: Skin): Mesh {
  const half = halfMesh(skin);
  return skin.mirrored ? joinMeshes([half, mirrorMesh(half)]) : half;
}

/** A piece of skin between two shares of the span; along the chord between two lines that may follow the span. */
export interface Patch {
  readonly from: number;
  readonly to: number;
  /** Shares of the chord at a share of the span. */
  readonly chord: (span: number) => readonly [number, number];
  readonly side: 1 | -1;
  /** Off the skin, as a share of the chord. */
  readonly lift: number;
}

const chordSteps = 10;

/** The piece of skin, facing outward; of the right half. */
export function patchMesh(skin: Skin, patch: Patch): Mesh {
  const from = Math.min(1, Math.max(0, patch.from));
  const to = Math.min(1, Math.max(0, patch.to));
  if (!(to - from > 1e-9)) return emptyMesh;
  const spans = [from, ...skin.shares.filter((share) => share > from + 1e-9 && share < to - 1e-9), to];
  const rows = spans.map((span) => {
    const [front, back] = patch.chord(span).map((share) => Math.min(1, Math.max(0, share))) as [number, number];
    const lift = patch.lift * chordAt(skin, span);
    return Array.from({ length: chordSteps + 1 }, (_, k) =>
      skinSpot(skin, span, { share: front + ((back - front) * k) / chordSteps, side: patch.side, lift }),
    );
  });
  return rows.every((row) => row.every((point) => point.every(Number.isFinite)))
    ? sheet(rows, patch.side < 0)
    : emptyMesh;
}

/** Hinged parts on both faces, lifted a little off the skin; on both halves where mirrored. */
export function controlMesh(skin: Skin, controls: SurfaceShape['controls']): Mesh {
  const pieces = controls.flatMap(({ from, to, hinge }) =>
    ([1, -1] as const).map((side) => patchMesh(skin, { from, to, side, lift: 0.0025, chord: () => [hinge, 1] })),
  );
  return joinMeshes(skin.mirrored ? [...pieces, ...pieces.map(mirrorMesh)] : pieces);
}

type BodyView = ShapeView['bodies'][number];

const around = 20;
const lengthwise = 24;

/**
 * A body as ellipses between nose and tail. The outline is a superellipse: slender tubes keep their width to the ends,
 * pods taper. A drawing's shape: the design file states only length, width and height.
 */
export function bodyMesh(body: BodyView): Mesh {
  const { x, y, z, length, width, height, pair } = body;
  const sizes = [length, width, height];
  if (![x, y, z].every(Number.isFinite) || !sizes.every((size) => Number.isFinite(size) && size > 0)) return emptyMesh;
  const exponent = Math.min(14, Math.max(2.4, (0.3 * length) / Math.max(width, height)));
  const rings = Array.from({ length: lengthwise + 1 }, (_, i) => {
    const along = -Math.cos((Math.PI * i) / lengthwise);
    const share = Math.max(0, 1 - Math.abs(along) ** exponent) ** (1 / exponent);
    return Array.from({ length: around + 1 }, (_, k): Vector => {
      const angle = (2 * Math.PI * (k % around)) / around;
      const [ry, rz] = [(share * width * Math.cos(angle)) / 2, (share * height * Math.sin(angle)) / 2];
      return [x + (length * (along + 1)) / 2, y + ry, z + rz];
    });
  });
  const one = sheet(rings);
  return pair && y !== 0 ? joinMeshes([one, mirrorMesh(one)]) : one;
}

/** Smallest box around the aircraft [m]; a metre around the datum where nothing can be drawn. */
export function boundsOf(meshes: readonly Mesh[]): { readonly low: Vector; readonly high: Vector } {
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = low.map((value) => -value);
  for (const { positions } of meshes) {
    for (let i = 0; i < positions.length; i++) {
      low[i % 3] = Math.min(low[i % 3]!, positions[i]!);
      high[i % 3] = Math.max(high[i % 3]!, positions[i]!);
    }
  }
  if (!(low[0]! <= high[0]!)) return { low: [-0.5, -0.5, -0.5], high: [0.5, 0.5, 0.5] };
  return { low: low as unknown as Vector, high: high as unknown as Vector };
}
