import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { socketBearing, webBucklingStress, webShearStress } from './joiner.js';

const socket = { depth: 0.12, width: 0.01, play: 1e-4 };

describe('joiner in its socket', () => {
  it('holds moment and shear: the pressure that falls linearly from the mouth is in balance with both', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 200, noNaN: true }),
        (moment, shear) => {
          const { pressure } = socketBearing({ moment, shear }, socket);
          const { depth: b, width } = socket;
          const mouth = pressure * width;
          // q = mouth + slope x with the force of the shear gives the moment about the mouth.
          const slope = (2 * (shear / b - mouth)) / b;
          const turned = (mouth * b ** 2) / 2 + (slope * b ** 3) / 3;
          expect(turned).toBeCloseTo(-moment, 6);
        },
      ),
    );
  });

  it('presses four times less on a socket twice as deep under a moment alone, and kinks by its play', () => {
    const at = (depth: number) => socketBearing({ moment: 5, shear: 0 }, { ...socket, depth });
    expect(at(0.12).pressure / at(0.24).pressure).toBeCloseTo(4, 12);
    expect(at(0.12).kink).toBeCloseTo(1e-4 / 0.12, 12);
  });
});

describe('web', () => {
  it('carries the shear as a flow over its height', () => {
    expect(webShearStress(60, 0.02, 0.0015)).toBeCloseTo(2e6, 3);
  });

  it('buckles at a stress that goes with the square of its slenderness', () => {
    const at = (thickness: number) => webBucklingStress(1.5e9, 0.3, thickness, 0.02);
    expect(at(0.002) / at(0.001)).toBeCloseTo(4, 12);
    // k pi^2 / 12 (1 - nu^2) = 4.835 for k = 5.35.
    expect(at(0.02) / 1.5e9).toBeCloseTo(4.835, 3);
  });
});
