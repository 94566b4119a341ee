import type { Vec3 } from '../math/index.js';
import type { LiftingSurface } from '../shape/index.js';
import type { Blocker } from './blockers.js';
import { type DirectionGrid, directionGrid, type GridPlace, gridPlace, locate } from './octahedron.js';
import { litShare, shadedCell } from './shadow.js';
import { bodyAxes, panelAt } from './surface-point.js';
import type { PlacedCell } from './types.js';

/** Which share of each cell is lit from any direction, built once for a shape. Directions in body axes (forward, right, down). */
export interface ShadeTable {
  readonly grid: DirectionGrid;
  readonly cellCount: number;
  /** Lit share of each cell, index node x cellCount + cell. */
  readonly lit: Float32Array;
  /** What casts shade on any cell, by name. */
  readonly casters: readonly ShadeCaster[];
}

/** Shade of one part, after what the parts before it in the list of blockers took; index as `lit`. */
export interface ShadeCaster {
  readonly name: string;
  readonly shade: Float32Array;
}

/** 45 x 45 directions, about 4 degrees apart. */
export const usualEdge = 45;

/**
 * Builds the table of shade over the sphere.
 *
 * @param cells - where they lie
 * @param surfaces - of the same shape, to know which panel a cell lies on
 * @param blockers - what can cast shade; of a part on a cell its own panel is left out
 * @param edge - nodes along the edge of the grid of directions
 */
export function shadeTable(
  cells: readonly PlacedCell[],
  surfaces: readonly LiftingSurface[],
  blockers: readonly Blocker[],
  edge: number = usualEdge,
): ShadeTable {
  const grid = directionGrid(edge);
  const nodes = grid.edge ** 2;
  const lit = new Float32Array(nodes * cells.length).fill(1);
  const names = [...new Set(blockers.map(({ name }) => name))];
  const nameOf = blockers.map(({ name }) => names.indexOf(name));
  const shades: (Float32Array | undefined)[] = names.map(() => undefined);
  const directions = Array.from({ length: nodes }, (_, node) =>
    bodyAxes([grid.directions[3 * node]!, grid.directions[3 * node + 1]!, grid.directions[3 * node + 2]!]),
  );
  // A node this far behind a cell is never among the four about a direction before it.
  const behind = -8 / (edge - 1);
  for (const [c, cell] of cells.entries()) {
    const surface = surfaces.find(({ name }) => name === cell.surface);
    const ready = shadedCell(cell, blockers, surface === undefined ? -1 : panelAt(surface, cell.along).panel);
    if (ready.casters.length === 0) continue;
    const normal = bodyAxes(cell.normal);
    for (let node = 0; node < nodes; node++) {
      const direction = directions[node]!;
      if (direction[0] * normal[0] + direction[1] * normal[1] + direction[2] * normal[2] < behind) continue;
      const at = node * cells.length + c;
      lit[at] = litShare(ready, direction, (blocker, share) => {
        const name = nameOf[blocker]!;
        shades[name] ??= new Float32Array(lit.length);
        shades[name][at]! += share;
      });
    }
  }
  const casters = names.flatMap((name, i) => (shades[i] === undefined ? [] : [{ name, shade: shades[i] }]));
  return { grid, cellCount: cells.length, lit, casters };
}

/**
 * Lit share of every cell from one direction.
 * @param direction - unit vector towards the light, body axes
 * @param into - filled, one number for each cell
 * @param values - table to read: `lit` by default, or the shade of one caster
 */
export function litFrom(
  table: ShadeTable,
  direction: Vec3,
  into: Float64Array = new Float64Array(table.cellCount),
  values: Float32Array = table.lit,
): Float64Array {
  const place = gridPlace();
  locate(table.grid, place, direction[0], direction[1], direction[2]);
  return readAt(table, place, into, values);
}

/** Values of every cell at a place found by `locate`. */
export function readAt(
  { cellCount }: ShadeTable,
  { nodes, shares }: GridPlace,
  into: Float64Array,
  values: Float32Array,
): Float64Array {
  const [a, b, c, d] = [nodes[0]! * cellCount, nodes[1]! * cellCount, nodes[2]! * cellCount, nodes[3]! * cellCount];
  const [sa, sb, sc, sd] = [shares[0]!, shares[1]!, shares[2]!, shares[3]!];
  for (let i = 0; i < cellCount; i++) {
    into[i] = sa * values[a + i]! + sb * values[b + i]! + sc * values[c + i]! + sd * values[d + i]!;
  }
  return into;
}
