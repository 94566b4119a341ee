import { type SectionGeometry, surfaceAt } from '../section/index.js';
import type { CellSize } from './cell-size.js';
import { chordAlong, panelAt, type Sections, type SurfaceFace } from './surface-point.js';

/** Chord of an arc over its length [-]. */
export function chordOverArc(arc: number, radius: number): number {
  const half = arc / (2 * radius);
  return half < 1e-4 ? 1 : Math.sin(Math.min(half, Math.PI / 2)) / half;
}

// At its free edges nothing bends a cell: the outermost places lie a tenth of it inside.
const bendStations = [-0.4, -0.2, 0, 0.2, 0.4];
/** Flatter than this a cell counts as flat [m]. */
const flatRadius = 50;

/**
 * How a surface bends a cell that lies on it, from the curvature of its section at five places under the cell.
 * @returns least and mean radius [m]; undefined where it lies flat
 */
export function sharpestBend(
  row: SurfaceFace & { readonly cell: Pick<CellSize, 'width'> },
  along: number,
  station: number,
  sections: Sections,
): { readonly least: number; readonly mean: number } | undefined {
  const { panel, share } = panelAt(row.surface, along);
  const chord = chordAlong(row.surface, along);
  const near = row.surface.stations[share < 0.5 ? panel : panel + 1]!;
  const section = sections.get(near.section);
  if (section === undefined) return undefined;
  const bends = bendStations.map(
    (offset) => bendAt(section, row.face, station + (offset * row.cell.width) / chord) / chord,
  );
  const most = Math.max(...bends.map(Math.abs));
  const mean = Math.abs(bends.reduce((sum, bend) => sum + bend, 0) / bends.length);
  return most < 1 / flatRadius ? undefined : { least: 1 / most, mean: 1 / Math.max(mean, 1 / (100 * flatRadius)) };
}

/** Curvature x chord of a section there; edges of the section count as what lies 4 % inside them. */
const bendAt = (section: SectionGeometry, face: 'upper' | 'lower', station: number): number =>
  surfaceAt(section, face, Math.min(0.96, Math.max(0.04, station))).curvature;
