import { beamTable, type FlightPattern, type IncidenceModel, type LightGeometry, type SunTrack } from '../sun/index.js';
import { type CellDiffuse, cellDiffuse, levelAxes, upInBody } from './diffuse.js';
import { gridPlace, locate } from './octahedron.js';
import { readAt, type ShadeTable } from './shade-table.js';
import type { PlacedCell } from './types.js';

/** What the light geometry of placed cells is made of. */
export interface CellScene {
  readonly sun: SunTrack;
  readonly cells: readonly PlacedCell[];
  /** Undefined where nothing casts shade. */
  readonly shade: ShadeTable | undefined;
  readonly pattern: FlightPattern;
  readonly incidence: IncidenceModel;
}

/** Cells taken together as one facet: indices of cells. */
export type CellGroup = readonly number[];

/** Light geometry of every cell, and of groups of cells as means over their area. */
export interface CellGeometry {
  /** Means over the headings only: `beam` is empty. */
  readonly cells: LightGeometry;
  readonly groups: LightGeometry;
}

/** Beam coefficients of all cells from one direction. */
export interface BeamAt {
  /** Cosine of incidence, as on an open plane. */
  readonly bare: Float64Array;
  /** After shade. */
  readonly lit: Float64Array;
  /** After shade and incidence loss. */
  readonly beam: Float64Array;
}

/**
 * A reader of beam coefficients for directions in body axes. The arrays that it returns are filled again by the next call.
 * @param scene - cells, shade and cover
 */
export function beamReader(scene: Pick<CellScene, 'cells' | 'shade' | 'incidence'>) {
  const { cells, shade } = scene;
  const count = cells.length;
  const table = beamTable(scene.incidence);
  const steps = table.length - 2;
  const normals = Float64Array.from(cells.flatMap(({ normal }) => normal));
  const flatness = Float64Array.from(cells, (cell) => cell.flatness);
  const open = new Float64Array(count).fill(1);
  const shares = new Float64Array(count);
  const place = gridPlace();
  const out: BeamAt = {
    bare: new Float64Array(count),
    lit: new Float64Array(count),
    beam: new Float64Array(count),
  };
  const shaded = shade !== undefined && shade.casters.length > 0;
  return (x: number, y: number, z: number): BeamAt => {
    let left: Float64Array = open;
    if (shaded) {
      locate(shade.grid, place, x, y, z);
      left = readAt(shade, place, shares, shade.lit);
    }
    for (let i = 0, n = 0; i < count; i++, n += 3) {
      const cosine = x * normals[n]! + y * normals[n + 1]! + z * normals[n + 2]!;
      if (cosine <= 0) {
        out.bare[i] = out.lit[i] = out.beam[i] = 0;
        continue;
      }
      const position = Math.min(cosine, 1) * steps;
      const node = Math.floor(position);
      const low = table[node]!;
      const share = left[i]! * flatness[i]!;
      out.bare[i] = cosine * flatness[i]!;
      out.lit[i] = cosine * share;
      out.beam[i] = share * (low + (position - node) * (table[node + 1]! - low));
    }
    return out;
  };
}

/**
 * Goes round every heading at every lit instant of a track.
 * @param pattern - pitch, bank and headings
 * @param visit - called with instant, heading, and the direction of the sun in body axes
 */
export function eachSun(
  sun: SunTrack,
  pattern: FlightPattern,
  visit: (instant: number, heading: number, x: number, y: number, z: number) => void,
): void {
  const up = upInBody(pattern);
  const [ahead, right] = levelAxes(up);
  const cosHeading = Float64Array.from(pattern.headings, Math.cos);
  const sinHeading = Float64Array.from(pattern.headings, Math.sin);
  for (let instant = 0; instant < sun.time.length; instant++) {
    const c = sun.up[instant]!;
    if (!(c > 0)) continue;
    const [east, north] = [sun.east[instant]!, sun.north[instant]!];
    for (let heading = 0; heading < cosHeading.length; heading++) {
      const a = north * cosHeading[heading]! + east * sinHeading[heading]!;
      const b = east * cosHeading[heading]! - north * sinHeading[heading]!;
      const x = a * ahead[0] + b * right[0] + c * up[0];
      const y = a * ahead[1] + b * right[1] + c * up[1];
      const z = a * ahead[2] + b * right[2] + c * up[2];
      visit(instant, heading, x, y, z);
    }
  }
}

/**
 * Light geometry of placed cells along a track of sun positions, shade included.
 * @param groups - cells that count as one facet; every cell in one of them
 */
export function cellGeometry(scene: CellScene, groups: readonly CellGroup[]): CellGeometry {
  const { sun, cells, pattern } = scene;
  const headings = Float64Array.from(pattern.headings);
  if (headings.length === 0) throw new RangeError('a flight pattern needs at least one heading');
  const [instants, count, together] = [sun.time.length, cells.length, groups.length];
  const beamMean = new Float64Array(instants * count);
  const beamBareMean = new Float64Array(instants * count);
  const beamLitMean = new Float64Array(instants * count);
  const beam = new Float64Array(instants * headings.length * together);
  const weights = groups.map((group) => areaShares(cells, group));
  const read = beamReader(scene);
  eachSun(sun, pattern, (instant, heading, x, y, z) => {
    const at = read(x, y, z);
    const row = instant * count;
    for (let i = 0; i < count; i++) {
      beamMean[row + i]! += at.beam[i]! / headings.length;
      beamBareMean[row + i]! += at.bare[i]! / headings.length;
      beamLitMean[row + i]! += at.lit[i]! / headings.length;
    }
    const to = (instant * headings.length + heading) * together;
    for (let g = 0; g < together; g++) beam[to + g] = weighted(at.beam, 0, groups[g]!, weights[g]!);
  });
  const shares = cellDiffuse(cells, scene.shade, pattern, scene.incidence);
  const size = { instantCount: instants, headingCount: headings.length, headings };
  const single: LightGeometry = {
    ...size,
    facetCount: count,
    beam: new Float64Array(0),
    beamMean,
    beamBareMean,
    beamLitMean,
    ...columns(shares),
  };
  return { cells: single, groups: { ...grouped(single, groups, weights), ...size, facetCount: together, beam } };
}

function columns(shares: readonly CellDiffuse[]) {
  const column = (pick: (share: CellDiffuse) => number) => Float64Array.from(shares, pick);
  return {
    sky: column(({ effective }) => effective.sky),
    horizon: column(({ effective }) => effective.horizon),
    ground: column(({ effective }) => effective.ground),
    skyBare: column(({ bare }) => bare.sky),
    horizonBare: column(({ bare }) => bare.horizon),
    groundBare: column(({ bare }) => bare.ground),
    skyLit: column(({ lit }) => lit.sky),
    horizonLit: column(({ lit }) => lit.horizon),
    groundLit: column(({ lit }) => lit.ground),
  };
}

function areaShares(cells: readonly PlacedCell[], group: CellGroup): Float64Array {
  const areas = Float64Array.from(group, (cell) => cells[cell]!.area);
  const total = areas.reduce((sum, area) => sum + area, 0);
  return areas.map((area) => area / total);
}

function weighted(values: Float64Array, from: number, group: CellGroup, shares: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < group.length; i++) sum += values[from + group[i]!]! * shares[i]!;
  return sum;
}

const meanKeys = ['beamMean', 'beamBareMean', 'beamLitMean'] as const;
const shareKeys = [
  'sky',
  'horizon',
  'ground',
  'skyBare',
  'horizonBare',
  'groundBare',
  'skyLit',
  'horizonLit',
  'groundLit',
] as const;

/** Means of cell columns over groups. */
function grouped(
  cells: LightGeometry,
  groups: readonly CellGroup[],
  weights: readonly Float64Array[],
): Pick<LightGeometry, (typeof meanKeys)[number] | (typeof shareKeys)[number]> {
  const mean = (values: Float64Array) => {
    const rows = values.length / Math.max(1, cells.facetCount);
    const out = new Float64Array(rows * groups.length);
    for (let row = 0; row < rows; row++) {
      for (let g = 0; g < groups.length; g++) {
        out[row * groups.length + g] = weighted(values, row * cells.facetCount, groups[g]!, weights[g]!);
      }
    }
    return out;
  };
  const entries = [...meanKeys, ...shareKeys].map((key) => [key, mean(cells[key])] as const);
  return Object.fromEntries(entries) as ReturnType<typeof grouped>;
}
