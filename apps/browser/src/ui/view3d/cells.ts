import type { FacetShape, ShapeView } from '../../core/view.js';
import { chordAt, patchMesh, type Skin } from './geometry.js';
import { emptyMesh, joinMeshes, type Mesh, mirrorMesh, sheet } from './mesh.js';

/** Off the skin as a share of the chord: enough for the depth buffer, too little to see. */
const cellLift = 0.005;

/** Most of its place along the span that a cell may fill where the row is too short for its cells, so that they stay apart. */
const fill = 0.97;

type Row = ShapeView['rows'][number];
type CellSize = NonNullable<ShapeView['cell']>;

/** Cells of a row on one side, spread evenly between its ends. */
function rowMesh(skin: Skin, row: Row, facet: FacetShape, cell: CellSize): Mesh {
  const count = Math.max(0, Math.floor(facet.cells));
  const place = (row.to - row.from) / Math.max(1, count);
  const half = Math.min(cell.length / skin.reach, fill * place) / 2;
  const chord = (span: number) => {
    const share = cell.width / (2 * chordAt(skin, span));
    return [row.chordStation - share, row.chordStation + share] as const;
  };
  const side = (facet.face ?? row.face) === 'lower' ? -1 : 1;
  const cells = Array.from({ length: count }, (_, k) => {
    const middle = row.from + (k + 0.5) * place;
    return patchMesh(skin, { from: middle - half, to: middle + half, side, lift: cellLift, chord });
  });
  const mesh = joinMeshes(cells);
  return facet.side === 'left' && skin.mirrored ? mirrorMesh(mesh) : mesh;
}

/** Cells of a row without a surface to lie on: level, side by side, one row behind the other. */
function levelMesh(facet: FacetShape, cell: CellSize, index: number): Mesh {
  const [x, y, z] = facet.centre;
  if (![x, y, z].every(Number.isFinite)) return emptyMesh;
  const count = Math.max(0, Math.floor(facet.cells));
  const front = x + index * cell.width * 1.03;
  return joinMeshes(
    Array.from({ length: count }, (_, k) => {
      const left = y + (k - count / 2) * cell.length * 1.03;
      return sheet([
        [
          [front, left, z],
          [front + cell.width, left, z],
        ],
        [
          [front, left + cell.length, z],
          [front + cell.width, left + cell.length, z],
        ],
      ]);
    }),
  );
}

/**
 * Panels of cells, one mesh for each of `shape.facets`, in their order: all cells of a mesh get the same light.
 * skins - by name of the surface
 */
export function cellMeshes(shape: ShapeView, skins: ReadonlyMap<string, Skin>): readonly Mesh[] {
  const { cell } = shape;
  return shape.facets.map((facet, index) => {
    if (cell === undefined || !(cell.length > 0 && cell.width > 0)) return emptyMesh;
    const row = shape.rows.find(({ name }) => name === facet.row);
    const skin = skins.get(facet.surface);
    return row === undefined || skin === undefined ? levelMesh(facet, cell, index) : rowMesh(skin, row, facet, cell);
  });
}
