import { describe, expect, it } from 'vitest';
import {
  foreAftLoad,
  foreAftStrength,
  outboardMassMoment,
  throwAcceleration,
  twoWayLimit,
  twoWayStrength,
} from './foreAft.js';
import type { StructuralMaterial } from './laminate.js';
import { curvatureLimits, firstLimit } from './strength.js';
import type { PanelJoint, SurfaceStructure } from './surface-types.js';
import { surfaceSection } from './surfaceSection.js';

const foam: StructuralMaterial = {
  name: 'foam',
  modulus: 12e6,
  modulusAcross: 12e6,
  shearModulus: 5e6,
  throughShear: 5e6,
  poisson: 0.2,
  density: 30,
  tension: 3e5,
  compression: 2e5,
  shearStrength: 1e5,
  expansion: 0,
};
const plate: SurfaceStructure = {
  name: 'wing',
  stations: [0, 0.8].map((y) => ({
    y,
    xLeadingEdge: 0,
    chord: 0.4,
    shape: { stations: [0, 1], upper: [0.0125, 0.0125], lower: [-0.0125, -0.0125] },
  })),
  core: foam,
  zones: [],
  spars: [],
  cells: [],
  controls: [],
  bendingFactor: 1,
  torsionFactor: 1,
  mass: 0.2,
};

describe('bending fore and aft', () => {
  it('of a plate is that of a rectangle on edge: E t c^3 / 12 and sigma t c^2 / 6 (textbook)', () => {
    const found = foreAftStrength(plate, 0.2)!;
    expect(found.bending / ((12e6 * 0.01 * 0.4 ** 3) / 12)).toBeCloseTo(1, 2);
    // The outermost of 40 strips has its middle at 0.975 of the half chord.
    expect(found.factor / ((2e5 * 0.01 * 0.4 ** 2) / 6)).toBeCloseTo(1 / 0.975, 2);
  });

  it('by inertia has the mass outside about a place: half the mass of an even wing times half its span at the root', () => {
    expect(outboardMassMoment(plate, [], 0)).toBeCloseTo(0.2 * 0.4, 9);
    const tip = { name: 'light', x: 0, y: 0.8, mass: 0.01 };
    expect(outboardMassMoment(plate, [tip], 0.6) - outboardMassMoment(plate, [], 0.6)).toBeCloseTo(0.01 * 0.2, 9);
    const load = foreAftLoad(plate, [])!;
    expect(load.y).toBe(0);
    expect(load.acceleration).toBeCloseTo(foreAftStrength(plate, 0)!.factor / 0.08, 6);
  });

  it('is that of the joiner where the wing comes apart', () => {
    const tube = { kind: 'tube', width: 0.006, height: 0.004, wall: 0, depth: 0.08, play: 0, bearing: 1e7 } as const;
    const carbon = { ...foam, name: 'carbon', modulus: 127e9, tension: 6e8, compression: 6e8 };
    const joint = { ...tube, name: 'middle', y: 0, material: carbon, torsionKept: 0.7 };
    expect(foreAftStrength({ ...plate, joints: [joint] }, 0)!.reason).toBe('joiner middle breaks');
  });

  it('begins with a throw: 10 m/s over 1.2 m of the hand are 4.25 g (kinematics)', () => {
    expect(throwAcceleration(10, 1.2) / 9.80665).toBeCloseTo(4.25, 2);
  });
});

describe('bending both ways at once', () => {
  const carbon = { ...foam, name: 'carbon', modulus: 127e9, tension: 6e8, compression: 6e8 };
  const tube = { kind: 'tube', width: 0.008, height: 0.006, wall: 0, depth: 0.08, play: 0, bearing: 1e9 } as const;
  const joint: PanelJoint = { ...tube, name: 'middle', y: 0.4, material: carbon, torsionKept: 0.7 };
  const limit = (structure: SurfaceStructure, y: number, curvature: number, moment: number) =>
    twoWayLimit(twoWayStrength(structure, y)!, { curvature, moment })!;

  it('is bending up alone without the other', () => {
    const limits = curvatureLimits(plate, 0.2);
    expect(limit(plate, 0.2, 1, 0).factor).toBeCloseTo(firstLimit(limits, 'up')!.up, 9);
    expect(limit(plate, 0.2, -2, 0).factor).toBeCloseTo(firstLimit(limits, 'down')!.down / 2, 9);
  });

  it('adds stresses at the corner of a rectangle: 1 / (M1 / W1 + M2 / W2) (textbook)', () => {
    // Sheet of constant height: W = b h^2 / 6 upright, h b^2 / 6 flat, the outermost strip at 0.975 of the half chord.
    const [upright, flat] = [(0.4 * 0.01 ** 2) / 6, (0.01 * 0.4 ** 2) / 6 / 0.975];
    const [up, forward] = [0.05, 20];
    const curvature = up / surfaceSection(plate, 0.2).bending;
    // The plate model stiffens by Poisson's ratio what the beam formula does not: 4 %.
    const stiffer = surfaceSection(plate, 0.2).bending / ((12e6 * 0.4 * 0.01 ** 3) / 12);
    const expected = 2e5 / (up / upright / stiffer + forward / flat);
    expect(limit(plate, 0.2, curvature, forward).factor / expected).toBeCloseTo(1, 2);
  });

  it('is the same forward and backward where front and rear are alike, and the middle of both lies between them', () => {
    expect(limit(plate, 0.2, 0.1, 5).factor).toBeCloseTo(limit(plate, 0.2, 0.1, -5).factor, 9);
    const [up, aft] = [limit(plate, 0.2, 0.1, 0).factor, limit(plate, 0.2, 0, 5).factor];
    expect(limit(plate, 0.2, 0.1, 5).factor).toBeCloseTo(1 / (1 / up + 1 / aft), 6);
  });

  it('bends a round joiner by the resultant of both moments', () => {
    const structure = { ...plate, joints: [joint] };
    const parts = twoWayStrength(structure, 0.4)!.parts.filter(({ part }) => part.startsWith('joiner'));
    const at = (curvature: number, moment: number) => twoWayLimit({ parts }, { curvature, moment })!;
    const breaks = at(0, 1).factor;
    // 8 over 6 mm at 600 MPa: 20.6 N m (textbook).
    expect(breaks).toBeCloseTo(20.6, 1);
    const one = breaks / at(1, 0).factor;
    expect(at(breaks / one, breaks).factor).toBeCloseTo(Math.SQRT1_2, 9);
    expect(at(1, 0).reason).toBe('joiner middle breaks');
  });

  it('bends a blade on edge over its corners, and presses another wall of its socket', () => {
    const blade = { ...joint, kind: 'blade', width: 0.002, height: 0.01 } as const;
    const parts = twoWayStrength({ ...plate, joints: [blade] }, 0.4)!.parts.filter(({ part }) =>
      part.includes('joiner'),
    );
    const [flat, upright] = [6e8 * ((0.01 * 0.002 ** 2) / 6), 6e8 * ((0.002 * 0.01 ** 2) / 6)];
    expect(twoWayLimit({ parts }, { curvature: 0, moment: 1 })!.factor).toBeCloseTo(flat, 6);
    const perCurvature = upright / twoWayLimit({ parts }, { curvature: 1, moment: 0 })!.factor;
    const both = twoWayLimit({ parts }, { curvature: upright / perCurvature, moment: flat })!;
    expect(both.factor).toBeCloseTo(0.5, 9);
    // One corner is pressed by both moments, whichever way they turn: what bears less of compression counts.
    const weak = { ...blade, material: { ...carbon, compression: 3e8 } };
    const pressed = twoWayStrength({ ...plate, joints: [weak] }, 0.4)!.parts.filter(({ part }) =>
      part.includes('joiner'),
    );
    for (const [sign, turn] of [
      [1, 1],
      [1, -1],
      [-1, 1],
    ] as const)
      expect(
        twoWayLimit({ parts: pressed }, { curvature: (sign * upright) / perCurvature, moment: turn * flat })!.factor,
      ).toBeCloseTo(0.25, 9);
  });

  it('has nothing to say of a surface of nothing', () => {
    const { core: _, ...empty } = plate;
    expect(twoWayStrength(empty, 0.2)).toBeUndefined();
    expect(twoWayLimit({ parts: [] }, { curvature: 1, moment: 1 })).toBeUndefined();
  });
});
