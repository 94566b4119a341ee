import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dot, norm, type Vec3 } from '../math/index.js';
import { filmCover } from '../sun/index.js';
import {
  type BenchReading,
  type BenchSetup,
  benchLight,
  benchModel,
  benchSky,
  diagnose,
  healthyFault,
  noDeviation,
  patchLight,
  standing,
} from './index.js';
import { readingAt, setup } from './testing/simulated-bench.js';

const degree = Math.PI / 180;
const level = { tilt: 0, facing: 0 };
const up: Vec3 = [0, 0, -1];

const direction = fc
  .tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }))
  .map(
    ([z, turn]): Vec3 => [
      Math.sqrt(Math.max(0, 1 - z * z)) * Math.cos(turn),
      Math.sqrt(Math.max(0, 1 - z * z)) * Math.sin(turn),
      z,
    ],
  );
const angle = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
const attitude = fc.record({ tilt: fc.double({ min: 0, max: Math.PI / 2, noNaN: true }), facing: angle });

describe('standing', () => {
  it('has forward at the nose, right 90 degrees clockwise of it, and tilts up towards the side that it faces', () => {
    const near = (found: Vec3, wanted: Vec3) => {
      for (const k of [0, 1, 2] as const) expect(found[k]).toBeCloseTo(wanted[k], 12);
    };
    near(standing([1, 0, 0], level, Math.PI / 2), [1, 0, 0]);
    near(standing([0, 1, 0], level, Math.PI / 2), [0, -1, 0]);
    near(standing(up, { tilt: 90 * degree, facing: Math.PI }, 1), [0, -1, 0]);
  });

  it('turns without stretching: angles between directions stay', () => {
    fc.assert(
      fc.property(direction, direction, attitude, angle, (a, b, at, nose) => {
        const [p, q] = [standing(a, at, nose), standing(b, at, nose)];
        expect(norm(p)).toBeCloseTo(1, 9);
        expect(dot(p, q)).toBeCloseTo(dot(a, b), 9);
      }),
      { numRuns: 60 },
    );
  });
});

/** Six degrees of dihedral: the right half looks a little to the left, the left half to the right. */
const half = (side: 1 | -1): Vec3 => [0, -side * Math.sin(6 * degree), -Math.cos(6 * degree)];
const sky = benchSky({ ...readingAt(8), turbidity: 3, albedo: 0.2 });

describe('light on patches', () => {
  it('of the plane itself is that of the plane, wherever the nose points', () => {
    const { shares, along, across } = patchLight(sky, level, undefined, [up], filmCover);
    expect(shares[0]).toBeCloseTo(1, 9);
    expect(along[0]).toBeCloseTo(0, 9);
    expect(across[0]).toBeCloseTo(0, 9);
  });

  it('of two halves differs by the sun on their sides, and not with the sun ahead', () => {
    const azimuth = Math.atan2(sky.sun[0], sky.sun[1]);
    const at = (nose: number) =>
      patchLight(sky, level, { value: nose, sigma: 0 }, [half(1), half(-1)], { kind: 'none' }).shares;
    const [ahead, aheadLeft] = at(azimuth);
    expect(ahead).toBeCloseTo(aheadLeft!, 9);
    // With the sun to the right the left half looks towards it.
    const [right, left] = at(azimuth - Math.PI / 2);
    expect(left! / right!).toBeGreaterThan(1.1);
    // Diffuse light is much the same on both, so that the ratio stays below that of the direct light.
    const beam = (side: 1 | -1) => dot(standing(half(side), level, azimuth - Math.PI / 2), sky.sun);
    expect(left! / right!).toBeLessThan(beam(-1) / beam(1));
  });

  it('with an unknown nose is the mean over all noses, spread as they spread it', () => {
    const all = Array.from({ length: 36 }, (_, k) => {
      const nose = { value: (k * Math.PI) / 18, sigma: 0 };
      return patchLight(sky, level, nose, [half(1)], filmCover).shares[0]!;
    });
    const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
    const spread = Math.sqrt(all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / all.length);
    const { shares, along, across } = patchLight(sky, level, undefined, [half(1)], filmCover);
    expect(shares[0]).toBeCloseTo(mean, 6);
    expect(Math.hypot(along[0]!, across[0]!)).toBeCloseTo(spread, 3);
  });

  it('is nothing at night', () => {
    const night = benchSky({ ...readingAt(23), turbidity: 3, albedo: 0.2 });
    expect(benchLight(night, level, filmCover).total).toBe(0);
    expect(patchLight(night, level, undefined, [half(1)], filmCover).shares).toEqual([0]);
  });
});

describe('two halves on the bench', () => {
  const unit = setup.units[0]!;
  const halves: BenchSetup = {
    ...setup,
    units: [1, -1].map((side) => ({
      ...unit,
      name: side > 0 ? 'right' : 'left',
      patches: [{ normal: half(side as 1 | -1), cells: 16 }],
    })),
  };
  const sunAzimuth = Math.atan2(sky.sun[0], sky.sun[1]);
  const nose = { value: sunAzimuth - Math.PI / 2, sigma: 0.1 };
  const read = (index: number, extra: Partial<BenchReading>): BenchReading => {
    const reading = { ...readingAt(8), unit: index, nose };
    const shown = benchModel(halves).predict(reading, healthyFault, noDeviation)!;
    return {
      ...readingAt(8),
      unit: index,
      batteryCurrent: { value: shown.batteryCurrent, sigma: 0.03 },
      arrayVoltage: { value: shown.arrayVoltage, sigma: 0.05 },
      ...extra,
    };
  };

  it('that see unequal light are not blamed for it, with the nose known or not', () => {
    for (const extra of [{ nose }, {}]) {
      const readings = [read(0, extra), read(1, extra)];
      expect(readings[1]!.batteryCurrent!.value / readings[0]!.batteryCurrent!.value).toBeGreaterThan(1.1);
      const found = diagnose(halves, readings);
      expect(found).toMatchObject({ ok: true, value: { isBlamed: false } });
      if (found.ok) expect(found.value.causes[0]!.name).toBe('healthy');
    }
  });

  it('differ less from what is expected once it is known where the nose points', () => {
    const budget = (extra: Partial<BenchReading>) => {
      const found = diagnose(halves, [read(0, extra)]);
      if (!found.ok) throw new Error(found.reason);
      return found.value.readings[0]!.differenceSigma!;
    };
    expect(budget({ nose })).toBeLessThan(budget({}));
  });
});

describe('temperature of a row on the bench', () => {
  const conditions = (extra: Partial<BenchReading>, row = setup.units[0]!.row) =>
    benchModel(setup).unitConditions(
      { ...setup.units[0]!, row },
      { ...readingAt(12), ...extra },
      healthyFault,
      noDeviation,
    ).temperature;

  it('falls with wind and with air behind it, and is that of the air at night', () => {
    const calm = conditions({ wind: { value: 0.3, sigma: 0.2 } });
    const windy = conditions({ wind: { value: 4, sigma: 0.5 } });
    expect(calm - windy).toBeGreaterThan(15);
    expect(conditions({}, { length: 0.2, rearFraction: 1 })).toBeLessThan(conditions({}) - 8);
    const { value } = readingAt(23).airTemperature;
    // A clear night sky takes a few kelvin from what lies still under it.
    expect(Math.abs(conditions({ time: readingAt(23).time }) - value)).toBeLessThan(8);
  });
});
