import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bladeElementLoads } from './bladeElement.js';
import { matchExample } from './drive.checks.js';
import { measuredPropeller } from './measuredPropeller.js';
import {
  propellerLoads,
  propellerRangeProblem,
  propellerWarnings,
  seaLevelAir,
  uncorrectedPropeller,
} from './propeller.js';
import { checkPropellerGeometry } from './propellerGeometry.js';
import { buildPropellerTable } from './propellerTable.js';
import { da4002, da4002Rows, publishedGeometry } from './publishedPropellers.js';

const { density, dynamicViscosity } = seaLevelAir;
const geometry = publishedGeometry(da4002);
const computed = uncorrectedPropeller(buildPropellerTable(geometry));
const measured = matchExample().propeller;
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const loads = (propeller: typeof computed, airspeed: number, rotationRate: number, air = seaLevelAir) => {
  const into = { thrust: 0, torque: 0 };
  propellerLoads(propeller, airspeed, rotationRate, air, into);
  return into;
};

describe('propeller table', () => {
  /** Differences from the direct solution in CT and CP / 2 pi. */
  const differences = (advanceRatio: number, rotationRate: number) => {
    const airspeed = (advanceRatio * rotationRate * geometry.diameter) / (2 * Math.PI);
    const direct = bladeElementLoads({ geometry, airspeed, rotationRate, density, dynamicViscosity });
    const { thrust, torque } = loads(computed, airspeed, rotationRate);
    const scale = density * (rotationRate / (2 * Math.PI)) ** 2 * geometry.diameter ** 4;
    const byTorque = Math.abs(torque - direct.torque) / (scale * geometry.diameter);
    return [Math.abs(thrust - direct.thrust) / scale, byTorque] as const;
  };

  test('follows the blade-element solution from static to zero thrust', () => {
    fc.assert(
      fc.property(between(0, 0.95), between(200, 900), (advanceRatio, rotationRate) => {
        const [byThrust, byTorque] = differences(advanceRatio, rotationRate);
        // 0.3 per cent of the static coefficients 0.135 and 0.08 / 2 pi.
        expect(byThrust).toBeLessThan(4e-4);
        expect(byTorque).toBeLessThan(4e-5);
      }),
      { numRuns: 60 },
    );
  });

  test('follows it in windmilling within a fraction of what is known of that state', () => {
    fc.assert(
      fc.property(between(0.95, 4), between(200, 900), (advanceRatio, rotationRate) => {
        const [byThrust, byTorque] = differences(advanceRatio, rotationRate);
        // The negative stall of the blades, J 1.2 to 2, is a kink between nodes. Drag, 0.045 J^2, keeps to 3 per cent where the state
        // itself is uncertain by 30. Torque, 0.0025 J^2, keeps to 8 per cent: it only sets the speed against motor friction.
        expect(byThrust).toBeLessThan(0.03 * 0.045 * advanceRatio ** 2);
        expect(byTorque).toBeLessThan(0.08 * 0.0025 * advanceRatio ** 2);
      }),
      { numRuns: 60 },
    );
  });

  test('reaches the stopped propeller', () => {
    const direct = bladeElementLoads({ geometry, airspeed: 12, rotationRate: 0, density, dynamicViscosity });
    expect(loads(computed, 12, 0).thrust / direct.thrust).toBeCloseTo(1, 2);
    expect(loads(computed, 0, 0)).toEqual({ thrust: 0, torque: 0 });
  });

  test('is proportional to density at the same Reynolds number', () => {
    const thin = { ...seaLevelAir, density: density / 2, dynamicViscosity: dynamicViscosity / 2 };
    expect(loads(computed, 8, 500, thin).thrust).toBeCloseTo(loads(computed, 8, 500).thrust / 2, 12);
  });

  test('warns outside its Reynolds range and above a tip Mach number of 0.6', () => {
    expect(propellerWarnings(computed, 8, 500, seaLevelAir)).toEqual([]);
    const codes = (rate: number) => propellerWarnings(computed, 0, rate, seaLevelAir).map((warning) => warning.code);
    expect(codes(20)).toContain('propeller-reynolds');
    expect(codes(2000)).toContain('tip-mach');
  });

  test('refuses an empty grid', () => {
    expect(() => buildPropellerTable(geometry, { slowest: 100, fastest: 50 })).toThrow(RangeError);
    expect(() => buildPropellerTable(geometry, { advanceCount: 3 })).toThrow(RangeError);
  });
});

describe('measured propeller', () => {
  test('gives back its rows', () => {
    const n = 5028 / 60;
    for (const [advanceRatio, thrustCoefficient, powerCoefficient] of da4002Rows) {
      const { thrust, torque } = loads(measured, advanceRatio * n * da4002.diameter, 2 * Math.PI * n);
      expect(thrust / (density * n ** 2 * da4002.diameter ** 4)).toBeCloseTo(thrustCoefficient, 10);
      expect((2 * Math.PI * torque) / (density * n ** 2 * da4002.diameter ** 5)).toBeCloseTo(powerCoefficient, 10);
    }
  });

  test('interpolates between two rotation rates', () => {
    const curve = (rotationRate: number, factor: number) =>
      [0, 0.5].map((advanceRatio) => ({
        ...{ rotationRate, advanceRatio, thrustCoefficient: 0.1 * factor, powerCoefficient: 0.05 * factor },
      }));
    const made = measuredPropeller({ name: 'two', diameter: 1, points: [...curve(100, 1), ...curve(200, 2)] });
    if (!made.ok) throw new Error(made.reason);
    const propeller = uncorrectedPropeller(made.value);
    const coefficient = (rate: number) => loads(propeller, 0, rate).thrust / (density * (rate / (2 * Math.PI)) ** 2);
    expect(coefficient(150)).toBeCloseTo(0.15, 12);
    expect(coefficient(80)).toBeCloseTo(0.1, 12);
    expect(coefficient(220)).toBeCloseTo(0.2, 12);
  });

  test('refuses what lies outside and names the range', () => {
    const rate = (5028 * Math.PI) / 30;
    const atAdvance = (advanceRatio: number) =>
      propellerRangeProblem(measured, (advanceRatio * 5028 * da4002.diameter) / 60, rate);
    expect(atAdvance(0.5)).toBeUndefined();
    expect(atAdvance(1)?.reason).toContain('0.000 to 0.915');
    expect(propellerRangeProblem(measured, 0, rate * 1.4)?.code).toBe('propeller-rate-range');
    expect(propellerWarnings(measured, 0, rate * 1.2, seaLevelAir).map((w) => w.code)).toEqual(['propeller-rate']);
    expect(propellerWarnings(measured, 0, rate * 1.02, seaLevelAir)).toEqual([]);
  });

  test('refuses unusable rows', () => {
    const good = { rotationRate: 100, advanceRatio: 0, thrustCoefficient: 0.1, powerCoefficient: 0.05 };
    const made = (points: readonly (typeof good)[]) => measuredPropeller({ name: 'rows', diameter: 0.25, points }).ok;
    expect(made([good, { ...good, advanceRatio: 0.5 }])).toBe(true);
    expect(made([good])).toBe(false);
    expect(made([good, good])).toBe(false);
    expect(made([good, { ...good, advanceRatio: Number.NaN }])).toBe(false);
    expect(made([good, { ...good, rotationRate: 500 }])).toBe(false);
    expect(measuredPropeller({ name: 'x', diameter: 0, points: [good, good] }).ok).toBe(false);
  });
});

describe('geometry', () => {
  test('accepts published blades and refuses impossible ones', () => {
    expect(checkPropellerGeometry(geometry).ok).toBe(true);
    const { stations } = geometry;
    const bad = [
      { ...geometry, diameter: 0 },
      { ...geometry, bladeCount: 2.5 },
      { ...geometry, stations: stations.slice(0, 1) },
      { ...geometry, stations: [...stations].reverse() },
      { ...geometry, stations: [{ ...stations[0], chordFraction: -0.1 }, stations[5]] },
    ];
    for (const shape of bad) expect(checkPropellerGeometry(shape).ok).toBe(false);
  });
});
