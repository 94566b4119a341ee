import { describe, expect, it } from 'vitest';
import { thinAirfoilIntegrals, thinCamber, thinFlap, thinLattice, thinResponse } from './thin.js';

const degree = Math.PI / 180;

/** Slopes of a parabolic arc of camber `height`: dz/dx = 4 h (1 - 2 x). */
const arc = (height: number) => ({ chordFractions: [0, 1], slopes: [4 * height, -4 * height] });

describe('the plane limit of the lattice', () => {
  it('has the lift slope 2 pi about the quarter chord for any number of panels', () => {
    for (const count of [1, 4, 7, 12]) {
      const { lift, moment } = thinResponse(thinLattice(count), new Float64Array(count).fill(1));
      expect(lift).toBeCloseTo(2 * Math.PI, 10);
      expect(moment).toBeCloseTo(0, 10);
    }
  });

  it('gives thin-airfoil theory for a parabolic arc: zero lift at -2 h, moment -pi h', () => {
    const camber = thinCamber(arc(0.04), thinLattice(6));
    expect(thinAirfoilIntegrals(arc(0.04)).zeroLiftAngle / degree).toBeCloseTo(-4.5837, 3);
    expect(camber.thinMoment).toBeCloseTo(-0.125664, 5);
    expect(camber.latticeMoment).toBeCloseTo(-0.125664, 2);
    expect(thinResponse(thinLattice(6), camber.incidence).lift).toBeCloseTo(2 * Math.PI * 0.08, 4);
  });

  it('gives the plain flap of Glauert: effectiveness 0.609 and moment -0.6495 at a quarter of the chord', () => {
    for (const count of [4, 6, 9]) {
      const { lift, moment } = thinResponse(thinLattice(count), thinFlap(0.25, thinLattice(count)));
      expect(lift / (2 * Math.PI)).toBeCloseTo(0.609, 4);
      expect(moment).toBeCloseTo(-0.64952, 4);
    }
  });

  it('a flat section has no camber', () => {
    expect(thinAirfoilIntegrals(undefined)).toEqual({ zeroLiftAngle: 0, moment: 0 });
    expect([...thinCamber(undefined, thinLattice(3)).incidence]).toEqual([0, 0, 0]);
  });
});
