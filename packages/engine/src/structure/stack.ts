import { interpolateLinear } from '../math/index.js';
import type { Layer, PlacedLayer, StackStiffness } from './laminate.js';
import { arealMassOf, membraneShear, stackStiffness } from './laminate.js';
import type { CellField, SectionShape, SkinZone, StructureStation, SurfaceStructure } from './surface-types.js';

/** The least height of a section that is built [m]: sheets are not sanded to nothing. */
const LEAST_HEIGHT = 2e-4;

/** Section at a distance out: edge, chord and ordinates in metres, linear between stations. */
export interface LocalSection {
  readonly y: number;
  readonly xLeadingEdge: number;
  readonly chord: number;
  readonly upper: (chordFraction: number) => number;
  readonly lower: (chordFraction: number) => number;
}

export function sectionAt({ stations }: Pick<SurfaceStructure, 'stations'>, y: number): LocalSection {
  let i = 0;
  while (i < stations.length - 2 && y > stations[i + 1].y) i++;
  const [a, b] = [stations[i], stations[i + 1]];
  const share = Math.min(1, Math.max(0, (y - a.y) / (b.y - a.y)));
  const mix = (p: number, q: number) => p + (q - p) * share;
  const ordinate = (of: (shape: SectionShape) => readonly number[]) => (u: number) => {
    const height = ({ shape, chord }: StructureStation) => chord * interpolateLinear(shape.stations, of(shape), u);
    return mix(height(a), height(b));
  };
  return {
    y,
    xLeadingEdge: mix(a.xLeadingEdge, b.xLeadingEdge),
    chord: mix(a.chord, b.chord),
    upper: ordinate(({ upper }) => upper),
    lower: ordinate(({ lower }) => lower),
  };
}

/** Layers of a face at a place, from outside inwards. */
export function faceLayers(
  structure: SurfaceStructure,
  face: 'upper' | 'lower',
  y: number,
  u: number,
): readonly Layer[] {
  const covers = ({ face: of, from, to, fromY, toY }: SkinZone) =>
    of === face && u >= from && u <= to && (fromY === undefined || y >= fromY) && (toY === undefined || y <= toY);
  const found: Layer[] = [];
  for (const zone of structure.zones) if (covers(zone)) found.push(...zone.layers);
  return found;
}

/**
 * Part of the strain below that reaches a cell of finite length through what joins it, averaged over the cell: 1 - tanh(a) / a.
 * @param below - compliance of what shears under it: glue thickness / shear modulus, and that of a soft core [m/Pa]
 * Source: shear lag after Volkersen 1938; here for a thin plate on a shear layer.
 */
export function cellShare(cell: Pick<CellField, 'material' | 'thickness'>, length: number, below: number): number {
  const a = lagNumber(cell, length, below);
  return a < 1e-3 ? (a * a) / 3 : 1 - Math.tanh(a) / a;
}

/** Half length over the length in which strain is handed over. */
export function lagNumber(cell: Pick<CellField, 'material' | 'thickness'>, length: number, below: number): number {
  if (below <= 0) return 40;
  return Math.min(40, length / 2 / Math.sqrt(cell.material.modulus * cell.thickness * below));
}

/** Compliance of what lies between a cell and the middle of a core [m/Pa]; a soft core lags itself. */
export function compliance(cell: CellField, structure: SurfaceStructure, height: number): number {
  const glue = cell.glue === undefined ? 0 : cell.glue.thickness / cell.glue.shearModulus;
  const stiffFace = structure.zones.some(
    ({ face, layers }) => face === cell.face && layers.some(({ material }) => material.modulus > 1e9),
  );
  const core = structure.core === undefined || stiffFace ? 0 : height / 2 / structure.core.throughShear;
  return glue + core;
}

/** Cells at a place. */
export const cellsAt = (structure: SurfaceStructure, y: number, u: number): readonly CellField[] =>
  structure.cells.filter((cell) => y >= cell.fromY && y <= cell.toY && u >= cell.from && u <= cell.to);

/** A cell as a layer of the stack: interrupted by its gaps, and joined by glue or foam that gives way. */
function cellLayer(cell: CellField, structure: SurfaceStructure, height: number): Layer {
  const share = cellShare(cell, Math.min(cell.length, cell.width), compliance(cell, structure, height));
  const covered = cell.length / (cell.length + cell.gap);
  return { material: cell.material, thickness: cell.thickness, angle: 0, share: share * covered };
}

export interface Stack {
  readonly layers: readonly PlacedLayer[];
  readonly stiffness: StackStiffness;
  /** Between outer faces, without cells [m]. */
  readonly height: number;
  readonly bottom: number;
  readonly top: number;
  /** Without cells, whose mass is counted as a part of its own [kg/m2]. */
  readonly arealMass: number;
  /** Membrane shear stiffness of the faces alone [N/m], for closed cells. */
  readonly upperShear: number;
  readonly lowerShear: number;
}

/** Layers of the surface at a place, at their heights above the chord line. */
export function stackAt(structure: SurfaceStructure, section: LocalSection, u: number): Stack {
  const [above, below] = [section.upper(u), section.lower(u)];
  const middle = (above + below) / 2;
  const height = Math.max(LEAST_HEIGHT, above - below);
  const [bottom, top] = [middle - height / 2, middle + height / 2];
  const lower: PlacedLayer[] = [];
  const upper: PlacedLayer[] = [];
  let [low, high] = [bottom, top];
  for (const layer of faceLayers(structure, 'lower', section.y, u)) {
    lower.push({ ...layer, middle: low + layer.thickness / 2 });
    low += layer.thickness;
  }
  for (const layer of faceLayers(structure, 'upper', section.y, u)) {
    upper.push({ ...layer, middle: high - layer.thickness / 2 });
    high -= layer.thickness;
  }
  const inside: PlacedLayer[] =
    structure.core !== undefined && high - low > 1e-6
      ? [{ material: structure.core, thickness: high - low, angle: 0, middle: (high + low) / 2 }]
      : [];
  const cells = cellsAt(structure, section.y, u).map((cell) => {
    const layer = cellLayer(cell, structure, height);
    const out = layer.thickness / 2 + (cell.glue?.thickness ?? 0);
    return { ...layer, middle: cell.face === 'upper' ? top + out : bottom - out };
  });
  const layers = [...lower, ...inside, ...upper, ...cells];
  return {
    layers,
    stiffness: stackStiffness(layers),
    arealMass: arealMassOf(lower) + arealMassOf(inside) + arealMassOf(upper),
    height,
    bottom,
    top,
    upperShear: membraneShear(upper),
    lowerShear: membraneShear(lower),
  };
}
