import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, cross, dot, normalise, scale, subtract, type Vec3 } from '../math/index.js';
import { type LiftingSurface, type Station, trapezoidalWing } from '../shape/index.js';
import { aircraftBlockers, type Blocker, propellerBlocker } from './blockers.js';
import { cutCell } from './cell-size.js';
import { convexHull, difference, intersection, polygonArea } from './convex.js';
import { directionGrid, gridPlace, locate } from './octahedron.js';
import { evenSpots, placeCells } from './place.js';
import { litFrom, shadeTable } from './shade-table.js';
import { litShare, shadedCell } from './shadow.js';
import { bodyAxes } from './surface-point.js';
import type { PlacedCell } from './types.js';
import { levelCell, wallShade } from './wall-shade.js';

const degree = Math.PI / 180;
const station = (y: number, xLeadingEdge: number, z: number, chord: number): Station => ({
  y,
  xLeadingEdge,
  z,
  chord,
  twist: 0,
  section: 'none',
});
const wing = { ...trapezoidalWing({ span: 2, aspectRatio: 4, dihedral: 0.08 }), name: 'wing' };
const fins: LiftingSurface = {
  name: 'fin',
  kind: 'fin',
  mirrored: true,
  controls: [],
  stations: [station(0.55, 0.1, 0.02, 0.35), station(0.55, 0.25, 0.3, 0.2)],
};
const shape = {
  surfaces: [wing, fins],
  bodies: [{ name: 'pod', length: 0.5, width: 0.12, height: 0.14, x: -0.1, z: 0.05 }],
  parasites: [],
};
const cell = cutCell({ length: 0.125, width: 0.125, area: 0.0153, bendRadius: 0.3 }, { parts: 1 });

function laid(): readonly PlacedCell[] {
  const rows = (['right', 'left'] as const).map((side) => ({
    name: 'row',
    surface: wing,
    side,
    face: 'upper' as const,
    cell,
    spots: evenSpots({ from: 0.02, to: 0.98, count: 7, station: 0.5, length: 0.125 }),
  }));
  return placeCells(rows, new Map()).cells;
}

/** Independent of the code under test: rays from a grid of points, against every triangle of three points of a blocker. */
function litByRays(cellUnder: PlacedCell, blockers: readonly Blocker[], direction: Vec3, side: number): number {
  const n = bodyAxes(cellUnder.normal);
  const [a, , c] = [cellUnder.corners[0]!, cellUnder.corners[1]!, cellUnder.corners[3]!];
  const u = normalise(subtract(c, a));
  const v = cross(n, u);
  const flat = cellUnder.corners.map((corner) => {
    const from = subtract(corner, cellUnder.centre);
    return [dot(from, u), dot(from, v)] as const;
  });
  const reach = Math.max(...flat.flat().map(Math.abs));
  const inside = (x: number, y: number) =>
    flat.every(([ax, ay], i) => {
      const [bx, by] = flat[(i + 1) % flat.length]!;
      return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0;
    });
  let [points, lit] = [0, 0];
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      const [x, y] = [(2 * (i + 0.5)) / side - 1, (2 * (j + 0.5)) / side - 1].map((value) => value * reach) as [
        number,
        number,
      ];
      if (!inside(x, y)) continue;
      points++;
      // The same millimetre of clearance as the code grants.
      const height = 1e-3 / dot(direction, n);
      const from = add(add(add(cellUnder.centre, scale(u, x)), scale(v, y)), scale(direction, height));
      if (!blockers.some((blocker) => meets(blocker, from, direction))) lit++;
    }
  }
  return lit / points;
}

/** Upper and lower points of flat sections coincide: each once, for the rays. */
const distinct = (points: readonly Vec3[]): readonly Vec3[] => [
  ...new Map(points.map((point) => [point.map((value) => value.toFixed(6)).join(), point])).values(),
];

/** A ray meets the hull of points where it meets a triangle of three of them. */
function meets({ points }: Blocker, from: Vec3, direction: Vec3): boolean {
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++)
      for (let k = j + 1; k < points.length; k++)
        if (hitsTriangle(points[i]!, points[j]!, points[k]!, from, direction)) return true;
  return false;
}

function hitsTriangle(a: Vec3, b: Vec3, c: Vec3, from: Vec3, direction: Vec3): boolean {
  const [e1, e2] = [subtract(b, a), subtract(c, a)];
  const p = cross(direction, e2);
  const determinant = dot(e1, p);
  if (Math.abs(determinant) < 1e-14) return false;
  const t = subtract(from, a);
  const s = dot(t, p) / determinant;
  if (s < 0 || s > 1) return false;
  const q = cross(t, e1);
  const r = dot(direction, q) / determinant;
  return r >= 0 && s + r <= 1 && dot(e2, q) / determinant > 0;
}

describe('polygons', () => {
  const square = [0, 0, 1, 0, 1, 1, 0, 1];

  it('finds the hull of points and the area of polygons', () => {
    expect(polygonArea(square)).toBe(1);
    expect(polygonArea(convexHull([0.5, 0.5, 0, 0, 1, 0, 1, 1, 0, 1, 0.2, 0.9]))).toBeCloseTo(1, 12);
    expect(convexHull([0, 0, 1, 1, 2, 2])).toEqual([]);
    expect(convexHull([0, 0, 1, 1])).toEqual([]);
  });

  it('leaves no point outside the hull, and none but given ones on it', () => {
    // Points a twentieth of a metre apart: nearer to a line than a micrometre they count as on it, and may be left out.
    const number = fc.integer({ min: -30, max: 30 }).map((steps) => steps / 20);
    fc.assert(
      fc.property(fc.array(fc.tuple(number, number), { minLength: 3, maxLength: 12 }), (points) => {
        const hull = convexHull(points.flat());
        for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
          const [ax, ay, bx, by] = [hull[j]!, hull[j + 1]!, hull[i]!, hull[i + 1]!];
          expect(points.some(([x, y]) => x === bx && y === by)).toBe(true);
          for (const [x, y] of points) expect((bx - ax) * (y - ay) - (by - ay) * (x - ax)).toBeGreaterThan(-1e-12);
        }
      }),
    );
  });

  it('splits a polygon into what is inside and outside another, without loss', () => {
    const number = fc.double({ min: -1.5, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(number, number), { minLength: 3, maxLength: 8 }), (points) => {
        const hole = convexHull(points.flat());
        fc.pre(hole.length > 0 && polygonArea(hole) > 1e-6);
        const common = intersection(square, hole);
        const outside = difference(square, hole).reduce((sum, piece) => sum + polygonArea(piece), 0);
        expect(outside + (common.length === 0 ? 0 : polygonArea(common))).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('grid of directions', () => {
  it('covers the sphere: weights of 4 pi, of which half face any way, and a mean square of 1/3 along any axis', () => {
    const { directions, weights } = directionGrid(45);
    const moment = (power: number, axis: number) =>
      weights.reduce((sum, weight, node) => sum + weight * Math.abs(directions[3 * node + axis]!) ** power, 0) /
      (4 * Math.PI);
    for (const axis of [0, 1, 2]) {
      expect(moment(1, axis)).toBeCloseTo(0.5, 3);
      expect(moment(2, axis)).toBeCloseTo(1 / 3, 3);
    }
  });

  it('finds every direction between its neighbours, across the folds too', () => {
    const grid = directionGrid(45);
    const place = gridPlace();
    const number = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(number, number, number), (vector) => {
        fc.pre(Math.hypot(...vector) > 1e-3);
        const [x, y, z] = normalise(vector);
        locate(grid, place, x, y, z);
        const mean = [0, 1, 2].map((axis) =>
          place.nodes.reduce((sum, node, i) => sum + place.shares[i]! * grid.directions[3 * node + axis]!, 0),
        );
        expect(Math.hypot(mean[0]! - x, mean[1]! - y, mean[2]! - z)).toBeLessThan(0.01);
      }),
    );
  });

  it('refuses a grid without nodes on its folds', () => {
    expect(() => directionGrid(44)).toThrow(RangeError);
  });
});

describe('shade', () => {
  const cells = laid();
  const blockers = aircraftBlockers(shape, new Map(), [
    { name: 'propeller', centre: [-0.12, 0, 0.05], diameter: 0.3, solidity: 0.1 },
  ]);
  // Rounded bodies have too many triangles for rays one by one; the fins and the other half of the wing will do.
  const solid = blockers
    .filter(({ panel }) => panel !== undefined)
    .map((blocker) => ({ ...blocker, points: distinct(blocker.points) }));

  it('agrees with rays cast one by one, partial and overlapping shadows included', () => {
    const table = [3, 10].map((i) => [i, shadedCell(cells[i]!, solid, 0)] as const);
    let partial = 0;
    for (const elevation of [12, 40]) {
      for (let azimuth = 15; azimuth < 360; azimuth += 90) {
        const level = Math.cos(elevation * degree);
        const towards: Vec3 = [
          level * Math.cos(azimuth * degree),
          level * Math.sin(azimuth * degree),
          Math.sin(elevation * degree),
        ];
        for (const [i, ready] of table) {
          const own = solid.filter(({ panel }) => panel?.surface !== 'wing' || panel.side !== cells[i]!.side);
          const exact = litShare(ready, towards);
          if (exact > 0.02 && exact < 0.98) partial++;
          // 25 points across: a straight edge is found to half of 1/25 of the cell, or a little more at its cut corners.
          expect(
            Math.abs(exact - litByRays(cells[i]!, own, towards, 25)),
            `cell ${i}, ${elevation}, ${azimuth}`,
          ).toBeLessThan(0.03);
        }
      }
    }
    expect(partial).toBeGreaterThan(2);
  });

  it('shades left and right alike when the sun is mirrored', () => {
    const table = shadeTable(cells, shape.surfaces, blockers);
    const number = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(number, number), ([x, y]) => {
        const [right, left] = [normalise([x, y, -0.5]), normalise([x, -y, -0.5])].map((to) => litFrom(table, to));
        for (let i = 0; i < 7; i++) expect(right![i]).toBeCloseTo(left![7 + i]!, 5);
      }),
      { numRuns: 30 },
    );
  });

  it('accounts for what each part takes: lit share and shades add up to the whole cell', () => {
    const table = shadeTable(cells, shape.surfaces, blockers, 15);
    expect(table.casters.map(({ name }) => name)).toEqual(['wing', 'fin', 'pod', 'propeller']);
    for (let at = 0; at < table.lit.length; at++) {
      const sum = table.casters.reduce((total, { shade }) => total + shade[at]!, table.lit[at]!);
      // A cell in full shadow of solid parts is not asked for the veil of the propeller.
      expect(Math.abs(sum - 1)).toBeLessThan(1e-5);
    }
  });

  it('gives the light that a shadow takes from tiled cells: the shadow of a wall has its own area', () => {
    // A wall 0.3 m long and 0.1 m high at 45 degrees casts 0.03 m2 on the level, wherever the cells meet.
    const sun = { elevation: Math.PI / 4, bearing: 0 };
    let area = 0;
    for (let row = 0; row < 3; row++) {
      for (let column = -3; column <= 3; column++) {
        const wall = {
          cellLength: 0.1,
          cellWidth: 0.05,
          distance: 0.05 * row,
          height: 0.1,
          length: 0.3,
          offset: 0.1 * column + 0.03,
        };
        area += 0.005 * wallShade(wall, sun).shaded;
      }
    }
    expect(area).toBeCloseTo(0.3 * (0.1 - 1e-3), 6);
  });

  it('veils through the disc of a propeller by its solidity', () => {
    const disc = propellerBlocker({ name: 'propeller', centre: [-0.3, 0, 0], diameter: 2, solidity: 0.12 });
    const ready = shadedCell(levelCell(0.1, 0.1), [disc], -1);
    expect(litShare(ready, normalise([-1, 0, 1]))).toBeCloseTo(0.88, 9);
    expect(litShare(ready, normalise([1, 0, 1]))).toBe(1);
  });

  it('is not deeper from a higher sun behind the same wall', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1.4, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (elevation, more) => {
          const wall = { cellLength: 0.125, cellWidth: 0.125, distance: 0.03, height: 0.15, length: 0.2 };
          const low = wallShade(wall, { elevation, bearing: 0 }).shaded;
          expect(wallShade(wall, { elevation: elevation + more, bearing: 0 }).shaded).toBeLessThanOrEqual(low + 1e-9);
        },
      ),
      { numRuns: 25 },
    );
  });
});
