import { describe, expect, it } from 'vitest';
import { foreAftLoad, foreAftStrength, outboardMassMoment, throwAcceleration } from './foreAft.js';
import type { StructuralMaterial } from './laminate.js';
import type { SurfaceStructure } from './surface-types.js';

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
    expect(found.moment / ((2e5 * 0.01 * 0.4 ** 2) / 6)).toBeCloseTo(1 / 0.975, 2);
  });

  it('by inertia has the mass outside about a place: half the mass of an even wing times half its span at the root', () => {
    expect(outboardMassMoment(plate, [], 0)).toBeCloseTo(0.2 * 0.4, 9);
    const tip = { name: 'light', x: 0, y: 0.8, mass: 0.01 };
    expect(outboardMassMoment(plate, [tip], 0.6) - outboardMassMoment(plate, [], 0.6)).toBeCloseTo(0.01 * 0.2, 9);
    const load = foreAftLoad(plate, [])!;
    expect(load.y).toBe(0);
    expect(load.acceleration).toBeCloseTo(foreAftStrength(plate, 0)!.moment / 0.08, 6);
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
