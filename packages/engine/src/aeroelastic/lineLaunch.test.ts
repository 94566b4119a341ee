import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bungeePull, bungeeSpeed, hookDirection, lineLoadFactor, linePull } from './lineLaunch.js';
import { lineLoad } from './lineLoad.js';

const weight = 2 * 9.80665;
const launch = { mass: 2, stallSpeed: 7, limitSpeed: 21, climb: 4, push: 100 };

describe('a line', () => {
  it('lets go at sqrt(2 F s / m): 8 m g that slacken evenly over 5 m are 19.8 m/s (kinetic energy)', () => {
    expect(bungeeSpeed((8 * weight) / 2, 5, 2)).toBeCloseTo(19.8, 1);
    expect(bungeePull(bungeeSpeed(30 / 2, 5, 2), 5, 2)).toBeCloseTo(30, 9);
  });

  it('asks for lift of 1 + pull / weight', () => {
    expect(lineLoadFactor(0, weight)).toBe(1);
    expect(lineLoadFactor(weight, weight)).toBe(2);
  });

  it('may pull as the first of climb, start and airspeed allows', () => {
    expect(linePull(launch)).toMatchObject({ by: 'climb', greatest: 3 * weight });
    expect(linePull({ ...launch, push: 10 })).toMatchObject({ by: 'start', greatest: 20 });
    expect(linePull({ ...launch, limitSpeed: 7 * Math.SQRT2 }).by).toBe('speed');
    expect(linePull({ ...launch, limitSpeed: 7 * Math.SQRT2 }).greatest).toBeCloseTo(weight, 9);
    const { push: _, ...without } = launch;
    expect(linePull(without).bounds.start).toBeUndefined();
  });

  it('may not pull at all below the stall, or where the wing bears no more than its weight', () => {
    expect(linePull({ ...launch, limitSpeed: 6 })).toMatchObject({ by: 'speed', greatest: 0 });
    expect(linePull({ ...launch, climb: 0.9 })).toMatchObject({ by: 'climb', greatest: 0 });
  });

  it('pulls through the balance point along its hook', () => {
    expect(hookDirection(0.05, 0.05)).toBeCloseTo(Math.PI / 4, 12);
    expect(hookDirection(-0.01, 0.05)).toBeGreaterThan(Math.PI / 2);
  });
});

describe('a wing that a line pulls down by its body', () => {
  const strength = { surface: 'wing', y: [0, 1], up: [1, 1], down: [0.5, 0.5], reasons: ['root', 'tip'] };

  it('is relieved by its own weight once, not by its load factor', () => {
    // Lift bends by 0.3 at load factor 1, the weight of the wing takes 0.2 of it off.
    const [lift, own] = [0.3, 0.2];
    const borne = lineLoad([lift - own, 0], [-own, 0], strength)!;
    expect(borne).toEqual({ loadFactor: (1 + own) / lift, reason: 'root' });
    expect(borne.loadFactor).toBeLessThan(1 / (lift - own));
  });

  it('with a wing without mass bears what a pull-up bears', () => {
    expect(lineLoad([0.25, 0.1], [0, 0], strength)!.loadFactor).toBeCloseTo(4, 12);
    expect(lineLoad([0, 0], [0, 0], strength)).toBeUndefined();
  });

  it('bears less where lift bends it forward as well, never more', () => {
    const strain = { tension: 1, compression: 1, wrinkles: false };
    const part = { part: 'spar', byCurvature: -1, byMoment: -0.1, roundByCurvature: 0, roundByMoment: 0, strain };
    const foreAft = { strengths: [{ bending: 1, parts: [part] }, undefined], massMoments: [0, 0] };
    expect(lineLoad([0.25, 0], [0, 0], { ...strength, foreAft }, { held: [1, 0] })!.loadFactor).toBeCloseTo(
      1 / 0.35,
      4,
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5, noNaN: true }), (moment) => {
        const borne = lineLoad([0.25, 0], [0, 0], { ...strength, foreAft }, { held: [moment, 0] })!;
        expect(borne.loadFactor).toBeLessThanOrEqual(4);
      }),
      { numRuns: 20 },
    );
  });
});
