import type { Vec3 } from '../math/index.js';
import type { Blocker } from './blockers.js';
import { cellOutline } from './cell-size.js';
import { cellDiffuse } from './diffuse.js';
import { shadeTable } from './shade-table.js';
import { litShare, shadedCell } from './shadow.js';
import type { PlacedCell } from './types.js';

/** An upright wall, as a fin, beside a level cell; its foot runs along the line of flight. */
export interface Wall {
  /** Of the cell along and across the wall [m]. */
  readonly cellLength: number;
  readonly cellWidth: number;
  /** From the edge of the cell to the wall [m]. */
  readonly distance: number;
  readonly height: number;
  /** Of the wall, its middle beside that of the cell [m]. */
  readonly length: number;
  /** How far its middle stands aft of that of the cell [m]; 0 by default. */
  readonly offset?: number;
}

/** A level cell about the origin, on no surface. */
export function levelCell(length: number, width: number): PlacedCell {
  const outline = cellOutline({
    length: width,
    width: length,
    area: length * width,
    share: 1,
    cutCorners: 0,
    bendRadius: 1,
  });
  return {
    row: 'cell',
    index: 0,
    surface: 'level',
    side: 'right',
    face: 'upper',
    share: 1,
    centre: [0, 0, 0],
    normal: [0, 0, -1],
    corners: outline.map(([across, aft]): Vec3 => [aft, across, 0]).reverse(),
    area: length * width,
    flatness: 1,
    flowFrom: 0,
    flowTo: length,
    chord: length,
    along: 0,
    behind: 0,
  };
}

/** The wall on the right of the cell, thin. */
function wallBlocker({ cellWidth, distance, height, length, offset = 0 }: Wall): Blocker {
  const y = cellWidth / 2 + distance;
  const [from, to] = [offset - length / 2, offset + length / 2];
  return {
    name: 'wall',
    opacity: 1,
    points: [
      [from, y, 0],
      [to, y, 0],
      [to, y, height],
      [from, y, height],
    ],
  };
}

/**
 * Share of a level cell in the shadow of a wall beside it, and the part of an even sky that the wall hides.
 *
 * @param sun.elevation - above the level [rad]
 * @param sun.bearing - of the sun from the direction square to the wall, on the side of the wall, towards the front positive [rad]
 * @returns shares 0 to 1 [-]
 */
export function wallShade(
  wall: Wall,
  sun: { readonly elevation: number; readonly bearing: number },
): { readonly shaded: number; readonly skyHidden: number } {
  const cell = levelCell(wall.cellLength, wall.cellWidth);
  const blockers = [wallBlocker(wall)];
  const level = Math.cos(sun.elevation);
  const direction: Vec3 = [
    -level * Math.sin(sun.bearing),
    level * Math.cos(sun.bearing),
    Math.max(0, Math.sin(sun.elevation)),
  ];
  const shaded = 1 - litShare(shadedCell(cell, blockers, -1), direction);
  const table = shadeTable([cell], [], blockers);
  const [diffuse] = cellDiffuse([cell], table, { pitch: 0, bank: 0 }, { kind: 'none' });
  return { shaded, skyHidden: 1 - diffuse!.lit.sky / diffuse!.bare.sky };
}
