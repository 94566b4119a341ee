import type { CompleteArray, CompleteSurface } from '../complete/index.js';
import { cellsOnFaces, cellsOnSide, pieceOf, spotsOf } from './cells.js';

/**
 * Cells that lie across a joint of wing panels, which cannot come apart then, in words.
 *
 * length - of the half surface along its span [m]
 */
export function cellsAcrossJoints(
  surface: CompleteSurface,
  array: CompleteArray | undefined,
  length: number,
): readonly string[] {
  const joints = Object.entries(surface.structure?.joints ?? {});
  const rows = (array?.rows ?? []).filter(({ on }) => on === surface.name);
  return joints.flatMap(([name, joint]) =>
    rows.flatMap((row) => {
      const size = pieceOf(row, array!.cell);
      const at = joint.at.value * length;
      const side = row.side === 'left' ? 'left' : 'right';
      const faces = cellsOnFaces(row, cellsOnSide(row, surface.mirrored, side));
      const spots = faces.flatMap(([, count]) => spotsOf(row, count, length, size.length));
      // In the plane of symmetry the halves have rows of their own.
      const across = at > 0 && spots.some(({ along }) => Math.abs(along - at) < size.length / 2 - 1e-4);
      return across
        ? [`${surface.name}: a cell of the row ${row.name} lies across the joint ${name}: the panels cannot come apart`]
        : [];
    }),
  );
}
