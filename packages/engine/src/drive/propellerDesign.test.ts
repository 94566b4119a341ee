import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { actuatorDisc } from './actuatorDisc.js';
import { bladeElementLoads } from './bladeElement.js';
import { genericBladeSection } from './bladeSection.js';
import { seaLevelAir } from './propeller.js';
import {
  designPropeller,
  genericChordFraction,
  genericPropeller,
  type PropellerDesignPoint,
} from './propellerDesign.js';
import { checkPropellerGeometry, chordFractionAt, nominalPitch } from './propellerGeometry.js';
import { da4002, publishedGeometry } from './publishedPropellers.js';
import { zeroLiftFromThrust } from './zeroLiftFromThrust.js';

const { density, dynamicViscosity } = seaLevelAir;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const inch = 0.0254;
const point: PropellerDesignPoint = {
  ...{ diameter: 0.5, bladeCount: 2, airspeed: 10, rotationRate: 80 * Math.PI, density, load: { thrust: 5 } },
  ...{ liftCoefficient: 0.5, dragToLift: 0.03, hubFraction: 0.15, section: genericBladeSection },
};

describe('propeller of minimum induced loss', () => {
  test('thrust and power lead to the same blade', () => {
    const byThrust = designPropeller(point);
    if (!byThrust.ok) throw new Error(byThrust.reason);
    const byPower = designPropeller({ ...point, load: { power: byThrust.value.power } });
    if (!byPower.ok) throw new Error(byPower.reason);
    expect(byThrust.value.thrust).toBeCloseTo(5, 9);
    expect(byPower.value.thrust).toBeCloseTo(5, 8);
    expect(byPower.value.displacementRatio).toBeCloseTo(byThrust.value.displacementRatio, 10);
  });

  test('stays below the actuator disc and needs more power with more drag', () => {
    fc.assert(
      fc.property(between(0.5, 9), between(0.005, 0.06), (thrust, dragToLift) => {
        const made = designPropeller({ ...point, load: { thrust }, dragToLift });
        if (!made.ok) return;
        const ideal = actuatorDisc({ thrust, airspeed: 10, diameter: 0.5, density }).efficiency;
        expect(made.value.efficiency).toBeLessThan(ideal);
        const cleaner = designPropeller({ ...point, load: { thrust }, dragToLift: dragToLift / 2 });
        expect(cleaner.ok && cleaner.value.efficiency).toBeGreaterThan(made.value.efficiency);
      }),
      { numRuns: 40 },
    );
  });

  test('refuses a disc that is too small and a design point without airspeed', () => {
    expect(designPropeller({ ...point, load: { thrust: 5000 } }).ok).toBe(false);
    expect(designPropeller({ ...point, airspeed: 0 }).ok).toBe(false);
    expect(designPropeller({ ...point, load: { power: Number.NaN } }).ok).toBe(false);
  });
});

describe('generic propeller', () => {
  test('has its nominal pitch and blade width', () => {
    fc.assert(
      fc.property(between(5, 20), between(0.4, 1.2), fc.constantFrom(2, 3), (diameter, ratio, bladeCount) => {
        const size = { diameter: diameter * inch, pitch: ratio * diameter * inch, bladeCount };
        const made = genericPropeller(size);
        if (!made.ok) throw new Error(made.reason);
        expect(checkPropellerGeometry(made.value).ok).toBe(true);
        expect(nominalPitch(made.value) / size.pitch).toBeCloseTo(1, 2);
        expect(chordFractionAt(made.value, 0.75)).toBeCloseTo(genericChordFraction(size.diameter), 3);
      }),
    );
  });

  test('more pitch moves zero thrust to a higher airspeed', () => {
    const thrust = (pitch: number, airspeed: number) => {
      const made = genericPropeller({ diameter: 10 * inch, pitch: pitch * inch });
      if (!made.ok) throw new Error(made.reason);
      const rotationRate = 500;
      return bladeElementLoads({ geometry: made.value, airspeed, rotationRate, density, dynamicViscosity }).thrust;
    };
    expect(thrust(5, 14)).toBeLessThan(0);
    expect(thrust(8, 14)).toBeGreaterThan(0);
  });

  test('refuses a pitch that no generic blade covers', () => {
    expect(genericPropeller({ diameter: 0.25, pitch: 0.02 }).ok).toBe(false);
    expect(genericPropeller({ diameter: 0.25, pitch: -1 }).ok).toBe(false);
    expect(genericPropeller({ diameter: 0.25, pitch: 3 }).ok).toBe(false);
  });
});

describe('zero-lift angle from a measured thrust', () => {
  const geometry = publishedGeometry(da4002);
  const operation = { airspeed: 9, rotationRate: 520, density, dynamicViscosity };

  test('finds the angle that made the thrust', () => {
    const thrust = bladeElementLoads({ geometry: publishedGeometry(da4002, -0.08), ...operation }).thrust;
    const found = zeroLiftFromThrust({ geometry, thrust, ...operation });
    expect(found.ok && found.value.section.zeroLiftAngle).toBeCloseTo(-0.08, 6);
  });

  test('says when none does', () => {
    expect(zeroLiftFromThrust({ geometry, thrust: 50, ...operation }).ok).toBe(false);
  });
});
