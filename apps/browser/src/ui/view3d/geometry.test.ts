import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FacetShape, ShapeView, SurfaceShape } from '../../core/view.js';
import { cellMeshes } from './cells.js';
import {
  bodyMesh,
  boundsOf,
  controlMesh,
  halfMesh,
  halfThickness,
  patchMesh,
  skinOf,
  skinSpot,
  surfaceMesh,
} from './geometry.js';
import { dot, joinMeshes, type Mesh, meshArea, meshVolume, mirrorMesh, triangleAreas } from './mesh.js';

const wing: SurfaceShape = {
  name: 'wing',
  role: 'wing',
  mirrored: true,
  stations: [
    { x: 0, y: 0, z: 0, chord: 0.3, twist: 0 },
    { x: 0.05, y: 1, z: 0, chord: 0.2, twist: 0 },
  ],
  controls: [{ name: 'aileron', kind: 'aileron', from: 0.5, to: 0.9, hinge: 0.75 }],
};
const dihedral: SurfaceShape = {
  ...wing,
  stations: [
    { x: 0, y: 0, z: 0, chord: 0.3, twist: 0.03 },
    { x: 0, y: 0.6, z: 0.02, chord: 0.3, twist: 0.02 },
    { x: 0.04, y: 1.1, z: 0.1, chord: 0.18, twist: -0.02 },
  ],
};
const fin: SurfaceShape = {
  name: 'fin',
  role: 'fin',
  mirrored: false,
  stations: [
    { x: 0.9, y: 0, z: 0, chord: 0.15, twist: 0 },
    { x: 0.95, y: 0, z: 0.2, chord: 0.1, twist: 0 },
  ],
  controls: [],
};

/** Each edge of a closed mesh, corners joined by place, runs once each way. */
function openEdges({ positions, indices }: Mesh): number {
  const name = (i: number) => [0, 1, 2].map((k) => Math.round(positions[3 * indices[i]! + k]! * 1e5)).join();
  const edges = new Map<string, number>();
  for (let t = 0; t < indices.length; t += 3) {
    const corners = [name(t), name(t + 1), name(t + 2)];
    if (new Set(corners).size < 3) continue;
    for (let k = 0; k < 3; k++) {
      const [a, b] = [corners[k]!, corners[(k + 1) % 3]!];
      const [key, way] = a < b ? [`${a}|${b}`, 1] : [`${b}|${a}`, -1];
      edges.set(key, (edges.get(key) ?? 0) + way);
    }
  }
  return [...edges.values()].filter((sum) => sum !== 0).length;
}

const upward = (mesh: Mesh) => triangleAreas(mesh).reduce((sum, [, , z]) => sum + Math.max(0, z), 0);
const finite = (mesh: Mesh) => mesh.positions.every(Number.isFinite);

describe('surfaces', () => {
  it('are closed and face outward, tapered, with dihedral and upright', () => {
    for (const surface of [wing, dihedral, fin]) {
      const half = halfMesh(skinOf(surface)!);
      expect(openEdges(half)).toBe(0);
      expect(meshVolume(half)).toBeGreaterThan(0);
    }
  });

  it('have the volume of their section times the chord squared along the span', () => {
    // Area of the section over chord squared: integral of the thickness, NACA Report 460 with the closed end.
    const section = 2 * 5 * 0.12 * (0.2969 / 1.5 - 0.126 / 2 - 0.3516 / 3 + 0.2843 / 4 - 0.1036 / 5);
    const squares = (0.3 ** 2 + 0.3 * 0.2 + 0.2 ** 2) / 3;
    const volume = meshVolume(halfMesh(skinOf(wing, { thickness: 0.12 })!));
    // 24 straight pieces along the chord lose 0.6 % of the section.
    expect(volume / (section * squares)).toBeGreaterThan(0.985);
    expect(volume / (section * squares)).toBeLessThan(1);
  });

  it('cover the area of the planform from above', () => {
    expect(upward(surfaceMesh(skinOf(wing)!))).toBeCloseTo(2 * 0.25, 5);
  });

  it('are as thick as their profile: greatest half thickness at 30 per cent', () => {
    expect(2 * halfThickness(0.3, 0.12)).toBeCloseTo(0.12, 3);
    expect(halfThickness(1, 0.12)).toBeCloseTo(0, 12);
    expect(halfThickness(0, 0.12)).toBe(0);
  });

  it('stand the same on both sides', () => {
    const whole = surfaceMesh(skinOf(dihedral)!);
    const half = halfMesh(skinOf(dihedral)!);
    const vertices = half.positions.length / 3;
    for (let i = 0; i < vertices; i++) {
      const [a, b] = [3 * i, 3 * (i + vertices)];
      expect(whole.positions[b]).toBe(whole.positions[a]);
      expect(whole.positions[b + 1]! + whole.positions[a + 1]!).toBe(0);
      expect(whole.positions[b + 2]).toBe(whole.positions[a + 2]);
    }
    expect(meshVolume(whole)).toBeCloseTo(2 * meshVolume(half), 9);
  });

  it('raise the leading edge with twist and keep its place', () => {
    const nose = { ...wing, stations: wing.stations.map((station) => ({ ...station, twist: 0.1 })) };
    const { low } = boundsOf([halfMesh(skinOf(nose)!)]);
    expect(low[2]).toBeCloseTo(-0.3 * Math.sin(0.1), 2);
    expect(low[0]).toBeCloseTo(0, 2);
  });

  it('bend: closed as before, tips risen as told, the section turned where both edges rise apart', () => {
    const shares = [0, 0.25, 0.5, 0.75, 1];
    const rises = shares.map((share) => [0.04 * share ** 2, 0.02 * share ** 2, 0]);
    const bent = skinOf({ ...wing, bend: { shares, rises } })!;
    expect(bent.shares).toEqual(shares);
    expect(openEdges(halfMesh(bent))).toBe(0);
    const straight = skinOf(wing)!;
    for (const [chord, rise] of [
      [0, 0.04],
      [0.5, 0.02],
      [1, 0],
    ] as const) {
      const spot = { share: chord, side: 1 } as const;
      expect(skinSpot(bent, 1, spot)[2] - skinSpot(straight, 1, spot)[2]).toBeCloseTo(rise, 9);
      expect(skinSpot(bent, 0, spot)).toEqual(skinSpot(straight, 0, spot));
    }
    const nothing = { shares, rises: shares.map(() => [0, 0, 0]) };
    expect(meshVolume(halfMesh(skinOf({ ...wing, bend: nothing })!))).toBeCloseTo(meshVolume(halfMesh(straight)), 9);
    const bad = { shares, rises: shares.map(() => [Number.NaN]) };
    expect(skinOf({ ...wing, bend: bad })!.rises).toBeUndefined();
  });

  it('are left out where there is nothing to build', () => {
    expect(skinOf({ ...wing, stations: [] })).toBeUndefined();
    expect(skinOf({ ...wing, stations: [wing.stations[0]!] })).toBeUndefined();
    expect(skinOf({ ...wing, stations: [wing.stations[0]!, wing.stations[0]!] })).toBeUndefined();
    const bad = { ...wing.stations[1]!, chord: Number.NaN };
    expect(skinOf({ ...wing, stations: [...wing.stations, bad] })!.stations).toHaveLength(2);
  });

  it('never hold a number that is none, whatever the stations', () => {
    const number = fc.oneof(fc.double({ min: -3, max: 3 }), fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY));
    const station = fc.record({ x: number, y: number, z: number, chord: number, twist: number });
    fc.assert(
      fc.property(fc.array(station, { maxLength: 5 }), number, (stations, thickness) => {
        const skin = skinOf({ ...wing, stations }, { thickness, camber: thickness });
        if (skin === undefined) return;
        expect(finite(surfaceMesh(skin))).toBe(true);
        expect(finite(controlMesh(skin, wing.controls))).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});

describe('controls', () => {
  it('lie on both faces behind the hinge, outside the skin', () => {
    const skin = skinOf(wing)!;
    const mesh = controlMesh(skin, wing.controls);
    const flat = (from: number, to: number) => ((to - from) * (0.3 - 0.1 * from + 0.3 - 0.1 * to)) / 2;
    expect(upward(mesh)).toBeCloseTo(2 * 0.25 * flat(0.5, 0.9), 5);
    expect(meshArea(mesh) / (4 * 0.25 * flat(0.5, 0.9))).toBeGreaterThan(1);
    for (const [, y] of triangleAreas(mesh)) expect(Math.abs(y)).toBeLessThan(1e-3);
  });
});

describe('bodies', () => {
  const pod = { name: 'pod', x: -0.3, y: 0, z: 0.02, length: 0.6, width: 0.06, height: 0.08, pair: false };

  it('are closed, face outward and keep their box', () => {
    const mesh = bodyMesh(pod);
    expect(openEdges(mesh)).toBe(0);
    const box = 0.6 * 0.06 * 0.08;
    // Between an ellipsoid (pi/6 of its box) and an elliptic tube (pi/4).
    expect(meshVolume(mesh) / box).toBeGreaterThan(Math.PI / 6);
    expect(meshVolume(mesh) / box).toBeLessThan(Math.PI / 4);
    const { low, high } = boundsOf([mesh]);
    for (const [found, expected] of [
      [low, [-0.3, -0.03, -0.02]],
      [high, [0.3, 0.03, 0.06]],
    ] as const)
      for (let k = 0; k < 3; k++) expect(found[k]).toBeCloseTo(expected[k]!, 5);
  });

  it('stand on both sides as a pair', () => {
    const pair = bodyMesh({ ...pod, y: 0.3, pair: true });
    expect(meshVolume(pair)).toBeCloseTo(2 * meshVolume(bodyMesh(pod)), 9);
    expect(boundsOf([pair]).low[1]).toBeCloseTo(-0.33, 5);
  });

  it('are left out without a size', () => {
    expect(bodyMesh({ ...pod, width: 0 }).indices).toHaveLength(0);
    expect(bodyMesh({ ...pod, length: Number.NaN }).indices).toHaveLength(0);
  });
});

describe('cells', () => {
  const facet = (side: 'right' | 'left', cells: number): FacetShape => ({
    row: 'top',
    surface: 'wing',
    side,
    cells,
    centre: [0.1, 0, 0],
    normal: [0, 0, -1],
    area: cells * 0.0156,
  });
  const shape: ShapeView = {
    surfaces: [wing],
    bodies: [],
    rows: [{ name: 'top', on: 'wing', side: 'both', face: 'upper', from: 0, to: 0.7, chordStation: 0.5, cells: 9 }],
    cell: { length: 0.125, width: 0.125 },
    facets: [facet('right', 5), facet('left', 4)],
    masses: [],
    wingArea: 0.5,
    span: 2,
  };
  const thin = { thickness: 0.002 };
  const skins = new Map([['wing', skinOf(wing, thin)!]]);

  it('keep the area of the cells on a flat plate, each side its own number', () => {
    const [right, left] = cellMeshes(shape, skins);
    expect(meshArea(right!)).toBeCloseTo(5 * 0.125 ** 2, 4);
    expect(meshArea(left!)).toBeCloseTo(4 * 0.125 ** 2, 4);
    expect(boundsOf([right!]).low[1]).toBeGreaterThan(0);
    expect(boundsOf([left!]).high[1]).toBeLessThan(0);
  });

  it('face up on the upper face and down on the lower one, on both sides', () => {
    for (const [face, sign] of [
      ['upper', 1],
      ['lower', -1],
    ] as const) {
      const turned = { ...shape, rows: [{ ...shape.rows[0]!, face }] };
      for (const mesh of cellMeshes(turned, skins))
        for (const area of triangleAreas(mesh)) expect(dot(area, [0, 0, sign])).toBeGreaterThan(0);
    }
  });

  it('lie outside the skin of a thick section', () => {
    const thick = new Map([['wing', skinOf(wing, { thickness: 0.15 })!]]);
    const bare = patchMesh(thick.get('wing')!, { from: 0, to: 0.7, side: 1, lift: 0, chord: () => [0.2, 0.8] });
    const [right] = cellMeshes(shape, thick);
    expect(boundsOf([right!]).high[2]).toBeGreaterThan(boundsOf([bare]).high[2]);
    expect(boundsOf([right!]).low[2]).toBeGreaterThan(0);
  });

  it('shrink rather than cover each other where the row is too short', () => {
    const tight = { ...shape, facets: [facet('right', 12)] };
    const [mesh] = cellMeshes(tight, skins);
    expect(upward(mesh!)).toBeLessThan(0.7 * 0.125);
    expect(upward(mesh!)).toBeCloseTo(0.97 * 0.7 * 0.125, 3);
  });

  it('lie level, apart, where no surface is described', () => {
    const bare = { ...shape, surfaces: [], facets: [facet('right', 5), { ...facet('right', 4), row: 'second' }] };
    const meshes = cellMeshes(bare, new Map());
    expect(meshArea(joinMeshes(meshes))).toBeCloseTo(9 * 0.125 ** 2, 6);
    expect(boundsOf([meshes[1]!]).low[0]).toBeGreaterThan(boundsOf([meshes[0]!]).high[0]);
  });

  it('are empty, not wrong, without a cell', () => {
    const { cell: _, ...without } = shape;
    expect(cellMeshes(without, skins).map(({ indices }) => indices.length)).toEqual([0, 0]);
  });
});

it('a mesh mirrored twice is the same', () => {
  const half = halfMesh(skinOf(dihedral)!);
  expect(mirrorMesh(mirrorMesh(half))).toEqual(half);
});

it('bounds of nothing are a metre around the datum', () => {
  expect(boundsOf([])).toEqual({ low: [-0.5, -0.5, -0.5], high: [0.5, 0.5, 0.5] });
});
