import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { actuatorDisc } from './actuatorDisc.js';
import { annulusSolution, bladeElementLoads } from './bladeElement.js';
import { genericBladeSection } from './bladeSection.js';
import { seaLevelAir } from './propeller.js';
import { da4002, publishedGeometry, slowFlight10x47 } from './publishedPropellers.js';

const { density, dynamicViscosity } = seaLevelAir;
const geometry = publishedGeometry(da4002);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const annulus = (airspeed: number, rotationRate: number, pitchAngle: number) =>
  annulusSolution({
    ...{ bladeCount: 2, tipRadius: 0.125, hubRadius: 0.02, radius: 0.08, chord: 0.02, pitchAngle },
    ...{ airspeed, rotationRate, density, dynamicViscosity, section: genericBladeSection },
  });

describe('annulus', () => {
  test('blade loads equal the change of momentum of the air', () => {
    fc.assert(
      fc.property(between(0, 30), between(100, 1200), between(0.1, 0.7), (airspeed, rotationRate, pitchAngle) => {
        const s = annulus(airspeed, rotationRate, pitchAngle);
        // Braked harder than that, an empirical relation replaces momentum theory.
        fc.pre(s.axialInduced > -0.4 * airspeed);
        const flow = 4 * Math.PI * density * 0.08 * s.lossFactor * (airspeed + s.axialInduced);
        const scale = 0.5 * density * s.relativeSpeed ** 2 * 0.04;
        expect(Math.abs(flow * s.axialInduced - s.thrustGradient)).toBeLessThan(1e-6 * scale);
        expect(Math.abs(flow * s.swirlInduced * 0.08 - s.torqueGradient)).toBeLessThan(1e-6 * scale);
      }),
      { numRuns: 300 },
    );
  });

  test('joins the braked state without a jump at an induction of 0.4', () => {
    let previous = annulus(2, 600, 0.2);
    for (let airspeed = 2; airspeed < 40; airspeed += 0.02) {
      const next = annulus(airspeed, 600, 0.2);
      expect(Math.abs(next.thrustGradient - previous.thrustGradient)).toBeLessThan(0.8);
      previous = next;
    }
  });
});

describe('blade-element momentum propeller', () => {
  test('stays below the efficiency of the actuator disc', () => {
    fc.assert(
      fc.property(between(0.05, 1), between(150, 1000), between(-0.12, 0), (advanceRatio, rotationRate, zeroLift) => {
        const shape = publishedGeometry(slowFlight10x47, zeroLift);
        const airspeed = (advanceRatio * rotationRate * shape.diameter) / (2 * Math.PI);
        const operation = { geometry: shape, airspeed, rotationRate, density, dynamicViscosity };
        const { thrust, torque } = bladeElementLoads(operation);
        if (thrust <= 0) return true;
        const ideal = actuatorDisc({ thrust, airspeed, diameter: shape.diameter, density });
        return torque * rotationRate > ideal.power;
      }),
    );
  });

  test('is finite in every state, from static to stopped', () => {
    fc.assert(
      fc.property(between(0, 80), between(0, 3000), (airspeed, rotationRate) => {
        const { thrust, torque } = bladeElementLoads({ geometry, airspeed, rotationRate, density, dynamicViscosity });
        return Number.isFinite(thrust) && Number.isFinite(torque);
      }),
    );
  });

  test('pulls at rest, brakes when fast, turns by itself when faster', () => {
    const at = (airspeed: number) =>
      bladeElementLoads({ geometry, airspeed, rotationRate: 500, density, dynamicViscosity });
    expect(at(0).thrust).toBeGreaterThan(0);
    expect(at(0).torque).toBeGreaterThan(0);
    expect(at(19).thrust).toBeLessThan(0);
    expect(at(25).torque).toBeLessThan(0);
  });

  test('loads grow with the square of speed when the Reynolds number is kept', () => {
    const one = bladeElementLoads({ geometry, airspeed: 6, rotationRate: 300, density, dynamicViscosity });
    const two = bladeElementLoads({
      ...{ geometry, airspeed: 12, rotationRate: 600, density, dynamicViscosity: 2 * dynamicViscosity },
    });
    expect(two.thrust / one.thrust).toBeCloseTo(4, 8);
    expect(two.torque / one.torque).toBeCloseTo(4, 8);
  });

  test('a negative airspeed or rate is refused, no motion means no load', () => {
    const still = { geometry, airspeed: 0, rotationRate: 0, density, dynamicViscosity };
    expect(bladeElementLoads(still)).toEqual({ thrust: 0, torque: 0 });
    expect(() => bladeElementLoads({ ...still, airspeed: -1 })).toThrow(RangeError);
    expect(() => bladeElementLoads({ ...still, rotationRate: Number.NaN })).toThrow(RangeError);
    expect(() => bladeElementLoads({ ...still, airspeed: 5, elements: 1 })).toThrow(RangeError);
  });
});
