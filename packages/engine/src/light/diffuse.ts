import type { Vec3 } from '../math/index.js';
import { type DiffuseShares, diffuseShares, type IncidenceModel, incidenceFactor } from '../sun/index.js';
import { gridPlace, locate } from './octahedron.js';
import { readAt, type ShadeTable } from './shade-table.js';
import type { PlacedCell } from './types.js';

/** Diffuse shares of a cell: as on an open plane, after shade without incidence loss, and what gets in. */
export interface CellDiffuse {
  readonly bare: DiffuseShares;
  readonly lit: DiffuseShares;
  readonly effective: DiffuseShares;
}

/** Pitch and bank of the aircraft [rad]; turning about the vertical does not change what a cell sees of an even sky. */
export interface Tilt {
  readonly pitch: number;
  readonly bank: number;
}

/** Upward unit vector in body axes (forward, right, down). */
export function upInBody({ pitch, bank }: Tilt): Vec3 {
  const cosPitch = Math.cos(pitch);
  return [Math.sin(pitch), -Math.sin(bank) * cosPitch, -Math.cos(bank) * cosPitch];
}

/**
 * What each cell takes of an even sky, the horizon band and the ground. The open plane is integrated exactly; shade is the
 * share that the table leaves of it, over the directions of the table and 72 along the horizon.
 *
 * @param shade - undefined where nothing casts any
 * @param incidence - cover of the cells
 */
export function cellDiffuse(
  cells: readonly PlacedCell[],
  shade: ShadeTable | undefined,
  tilt: Tilt,
  incidence: IncidenceModel,
): readonly CellDiffuse[] {
  const up = upInBody(tilt);
  const known = new Map<string, { readonly bare: DiffuseShares; readonly effective: DiffuseShares }>();
  const open = cells.map(({ normal }) => {
    const normalUp = normal[0] * up[0] + normal[1] * up[1] + normal[2] * up[2];
    const key = normalUp.toFixed(9);
    const found = known.get(key) ?? {
      bare: diffuseShares({ kind: 'none' }, normalUp),
      effective: diffuseShares(incidence, normalUp),
    };
    known.set(key, found);
    return found;
  });
  if (shade === undefined || shade.casters.length === 0) {
    return open.map(({ bare, effective }) => ({ bare, lit: bare, effective }));
  }
  const plain = litShares(cells, shade, up, () => 1);
  const covered = litShares(cells, shade, up, (cosine) => incidenceFactor(incidence, cosine));
  return open.map(({ bare, effective }, i) => ({
    bare,
    lit: product(bare, plain[i]!),
    effective: product(effective, covered[i]!),
  }));
}

const product = (a: DiffuseShares, b: DiffuseShares): DiffuseShares => ({
  sky: a.sky * b.sky,
  ground: a.ground * b.ground,
  horizon: a.horizon * b.horizon,
});

const horizonSteps = 72;

/** Share of sky, ground and horizon light that shade leaves each cell, weighted by cosine and cover. */
function litShares(
  cells: readonly PlacedCell[],
  shade: ShadeTable,
  up: Vec3,
  cover: (cosine: number) => number,
): readonly DiffuseShares[] {
  const sums = cells.map(() => ({ sky: [0, 0], ground: [0, 0], horizon: [0, 0] }));
  const { grid, lit, cellCount } = shade;
  const values = new Float64Array(cellCount);
  const add = (part: 'sky' | 'ground' | 'horizon', x: number, y: number, z: number, weight: number) => {
    for (let i = 0; i < cellCount; i++) {
      const normal = cells[i]!.normal;
      const cosine = normal[0] * x + normal[1] * y + normal[2] * z;
      if (cosine <= 0) continue;
      const share = weight * cosine * cover(cosine);
      const sum = sums[i]![part];
      sum[0]! += share;
      sum[1]! += share * values[i]!;
    }
  };
  for (let node = 0; node < grid.weights.length; node++) {
    const [x, y, z] = [grid.directions[3 * node]!, grid.directions[3 * node + 1]!, grid.directions[3 * node + 2]!];
    for (let i = 0; i < cellCount; i++) values[i] = lit[node * cellCount + i]!;
    add(x * up[0] + y * up[1] + z * up[2] > 0 ? 'sky' : 'ground', x, y, z, grid.weights[node]!);
  }
  const place = gridPlace();
  const [ahead, right] = levelAxes(up);
  for (let step = 0; step < horizonSteps; step++) {
    const angle = (2 * Math.PI * step) / horizonSteps;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const [x, y, z] = [0, 1, 2].map((axis) => c * ahead[axis]! + s * right[axis]!) as [number, number, number];
    locate(grid, place, x, y, z);
    readAt(shade, place, values, lit);
    add('horizon', x, y, z, 1);
  }
  return sums.map(({ sky, ground, horizon }) => ({
    sky: ratio(sky),
    ground: ratio(ground),
    horizon: ratio(horizon),
  }));
}

const ratio = ([all, left]: readonly number[]): number => (all! > 0 ? left! / all! : 1);

/** Level axes of the aircraft's heading in body axes: ahead and to the right. */
export function levelAxes(up: Vec3): readonly [Vec3, Vec3] {
  const [x, y, z] = up;
  const length = Math.hypot(y, z) || 1;
  // Ahead is forward less its climb; right = ahead x down, with down = -up.
  const ahead: Vec3 = [length, (-x * y) / length, (-x * z) / length];
  return [ahead, [0, -z / length, y / length]];
}
